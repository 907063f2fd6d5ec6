/** Why a plan is as it is, in lines: what makes it late, what holds each step, what more would be worth, and ways out. */
import type { WhyLink, WhySide } from '../plan/why-document.js';
import { clockAt } from '../problem/hours.js';
import { showMinutes } from '../units/show.js';
import { type Glyphs, inGlyphs } from './glyphs.js';
import { type Line, plainLine, segment } from './line.js';
import { clean, wrap } from './text.js';
import type { View, ViewStep } from './view.js';

/** Links of a chain that are printed beside the last one: the others are told at the steps that they speak of. */
const SHOWN = 2;

export const pointsWords = (value: number): string => {
  const shown = value.toFixed(2).replace(/\.?0+$/, '');
  return `${shown} ${shown === '1' ? 'point' : 'points'}`;
};

/** Steps by their dish's letter, as the chart has them. */
export function lettered(view: View, say: string): string {
  const dishes = [...view.dishes].sort((a, b) => b.name.length - a.name.length);
  return dishes.reduce((told, { letter }, i) => {
    const name = view.problem.dishes[dishes[i]!.index]!.name;
    return told.replaceAll(`${name}/`, `${letter} `);
  }, clean(say));
}

/** What it costs to move a step one way. */
export function costWords({ free, points }: WhySide, way: 'sooner' | 'later'): string {
  const lead = free > 0 ? `up to ${showMinutes(free)} ${way} at no cost, then ` : '';
  if (points === null) return free > 0 ? `up to ${showMinutes(free)} ${way} at no cost, no more` : 'not in this order';
  return free > 0 ? `${lead}${pointsWords(points)}` : `a minute costs ${pointsWords(points)}`;
}

/** The links as one text, those in the middle left out. */
function chainWords(view: View, chain: readonly WhyLink[]): string {
  const told = chain.map(({ say }) => lettered(view, say));
  if (told.length <= SHOWN + 1) return told.join('; ');
  return [...told.slice(0, SHOWN), `and so on until ${told.at(-1)!}`].join('; ');
}

function sideWords(view: View, side: WhySide, way: 'sooner' | 'later'): string {
  const cost = costWords(side, way);
  if (side.free > 0) return `${cost.charAt(0).toUpperCase()}${cost.slice(1)}.`;
  const chain = chainWords(view, side.chain);
  const lead = side.points === null ? `Not ${way}` : `Not ${way} (${cost})`;
  return `${lead}${chain === '' ? '' : `: ${chain}`}.`;
}

/** Both sides, in one sentence where the same things hold both. */
function bothSides(view: View, { sooner, later }: { sooner: WhySide; later: WhySide }): string[] {
  const chains = [sooner, later].map(({ chain }) => chainWords(view, chain));
  const same = sooner.free === 0 && later.free === 0 && chains[0] !== '' && chains[0] === chains[1];
  if (!same) return [sideWords(view, sooner, 'sooner'), sideWords(view, later, 'later')];
  const cost = ({ points }: WhySide): string => (points === null ? '' : ` (${pointsWords(points)} a minute)`);
  return [`Not sooner${cost(sooner)} and not later${cost(later)}: ${chains[0]}.`];
}

const heading = (text: string): Line[] => [[], plainLine(text, 'strong')];

function paragraph(text: string, indent: number, width: number, glyphs: Glyphs): Line[] {
  return wrap(inGlyphs(text, glyphs), Math.max(20, width - indent)).map((line, i) => [
    segment(' '.repeat(i === 0 ? indent : indent + 2)),
    segment(line),
  ]);
}

/** Of one step of the plan; null where nothing is known of it. */
export function whyOfStep(view: View, step: ViewStep) {
  return view.plan.why?.steps.find((each) => each.dish === step.row.dish && each.step === step.row.step) ?? null;
}

export function lateLines(view: View, width: number, glyphs: Glyphs): Line[] {
  const late = view.plan.because ?? [];
  if (late.length === 0) return [];
  return [
    ...heading('What makes it late'),
    ...late.flatMap((say) => paragraph(lettered(view, say), 2, width - 2, glyphs)),
  ];
}

/** Each step by the clock with what holds it on both sides. */
export function whyLines(view: View, width: number, glyphs: Glyphs): Line[] {
  const { why } = view.plan;
  if (why === undefined) return [];
  if (!why.exact)
    return [
      ...heading('Why each step stands where it does'),
      plainLine('  These times are not the best of their order, so nothing is told of them.', 'dim'),
    ];
  const steps = view.byClock.flatMap((index): Line[] => {
    const step = view.steps[index]!;
    const told = whyOfStep(view, step);
    if (told === null) return [];
    const dish = view.dishes[step.dish]!;
    const lead: Line = [
      segment(`  ${clockAt(view.problem, step.from)}  `, 'strong'),
      segment(`${dish.letter} `, `dish ${dish.index}`),
      segment(`${step.name}`),
      segment(`  ${dish.name}`, 'dim'),
    ];
    return [lead, ...bothSides(view, told).flatMap((say) => paragraph(say, 9, width - 2, glyphs))];
  });
  const worth = why.worth.flatMap(({ say }) => paragraph(lettered(view, say), 2, width - 2, glyphs));
  const none = [plainLine('  Nothing: ten minutes more of any one thing save no points in this order.', 'dim')];
  return [
    ...heading('Why each step stands where it does'),
    ...steps,
    ...heading('What more would be worth, in this order'),
    ...(worth.length > 0 ? worth : none),
  ];
}

/** Ways out, the best first, or that none was found. */
export function wayLines(view: View, width: number, glyphs: Glyphs): Line[] {
  const ways = view.plan.waysOut;
  if (ways === undefined) return [];
  const told = ways.flatMap(({ say }) => paragraph(lettered(view, say), 2, width - 2, glyphs));
  const none = [plainLine('  None found among the changes tried.', 'dim')];
  return [...heading('Ways out'), ...(told.length > 0 ? told : none)];
}
