/** The parts of a plan told in text: what it is, its heat, its calls, its cautions, what it costs. */
import { PART_NAMES, type PartName } from '../plan/document.js';
import { showHeat } from '../problem/degrees.js';
import { clockAt, clockColumns, minuteAt } from '../problem/hours.js';
import { showMinutes } from '../units/show.js';
import { chanceLines } from './chances.js';
import { fillKey, letterKey, wholeChart } from './chart.js';
import { dayAt, longDayAt, sameDay } from './clock.js';
import { coreWords, latestWords } from './cores.js';
import { type Glyphs, inGlyphs } from './glyphs.js';
import { clip, type Line, lineWidth, plainLine, type Role, segment } from './line.js';
import { clean, cut, pad, points, widthOf, wrap } from './text.js';
import type { View, ViewRun } from './view.js';
import { lateLines, wayLines, whyLines } from './why-lines.js';

/** Columns under which a chart says less than a list. */
export const NARROW = 60;

/** What the plan's status means, in words. */
export function statusWords(view: View): { say: string; role: Role } {
  const { status, points: own, effort } = view.plan;
  const late = Math.max(0, ...view.landings.map((landing) => landing.late));
  const total = `${points(own.total)} ${own.total === 1 ? 'point' : 'points'}`;
  const early = effort.stopped ? '; stopped early' : '';
  const gap = own.total - own.bound;
  // Both are given to 0.01, the bound rounded down.
  const least = gap < 0.015 ? 'no plan has fewer' : `no plan has fewer than ${points(own.bound)} (gap ${points(gap)})`;
  if (status === 'best') return { say: `proven best: ${total}`, role: 'good' };
  if (status === 'late')
    return { say: `${showMinutes(late)} late, the least that was found: ${total}, ${least}${early}`, role: 'warn' };
  if (status === 'none') return { say: 'no plan fits', role: 'warn' };
  return { say: `good: ${total}, ${least}${early}`, role: 'good' };
}

/** `main 18:30, sweet 19:10`; empty where there is one course and it lands in time. The day stands with the meal. */
export function landingWords(view: View): string {
  if (view.landings.length < 2 && view.landings.every((landing) => landing.late === 0)) return '';
  return view.landings
    .map(
      ({ name, at, late }) => `${name} ${clockAt(view.problem, at)}${late > 0 ? ` (${showMinutes(late)} late)` : ''}`,
    )
    .join(', ');
}

/** What comes first: `12:10 brine (A Brined pork loin)`. */
export function firstWords(view: View): string {
  const step = view.steps[view.byClock[0] ?? -1];
  const run = [...view.runs].sort((a, b) => a.ready - b.ready)[0];
  const when = (minute: number) => {
    const day = sameDay(view.problem, minute, view.problem.serve) ? '' : `${dayAt(view.problem, minute)} `;
    return `${day}${clockAt(view.problem, minute)}`;
  };
  if (run && (!step || run.ready < step.from))
    return `${when(run.ready)} heat the ${view.applianceNames[run.appliance]}`;
  if (!step) return '';
  const dish = view.dishes[step.dish]!;
  return `${when(step.from)} ${step.name} (${dish.letter} ${dish.name})`;
}

export function headerLines(view: View, width: number, glyphs: Glyphs): Line[] {
  const { problem } = view;
  const status = statusWords(view);
  const courses = landingWords(view);
  const serve = `${longDayAt(problem, problem.serve)}, ${clockAt(problem, problem.serve)}, ${problem.zone}`;
  return [
    plainLine(cut(clean(problem.title), width, glyphs.ellipsis), 'title'),
    ...field('Serve', courses === '' ? serve : `${serve}: ${courses}`, width, glyphs),
    ...field('Plan', status.say, width, glyphs, status.role),
    ...field('First', firstWords(view), width, glyphs),
  ];
}

function field(name: string, text: string, width: number, glyphs: Glyphs, role: Role = 'plain'): Line[] {
  return wrap(inGlyphs(text, glyphs), width - 7).map((line, index) => [
    segment(pad(index === 0 ? name : '', 7, ''), 'dim'),
    segment(line, role),
  ]);
}

const heading = (text: string): Line[] => [[], plainLine(text, 'strong')];

/** Every heat run with its changeover. */
export function heatLines(view: View, width: number, glyphs: Glyphs): Line[] {
  if (view.runs.length === 0) return [];
  const name = Math.min(20, Math.max(...view.runs.map((run) => widthOf(view.applianceNames[run.appliance]!))));
  const heatOf = ({ row, appliance }: ViewRun) =>
    showHeat(view.problem, row.celsius, view.problem.kitchen.appliances[appliance]!.dial.unit);
  const widest = Math.max(6, ...view.runs.map((run) => heatOf(run).length));
  let shown = -1;
  const rows = [...view.runs]
    .sort((a, b) => a.appliance - b.appliance || a.from - b.from)
    .flatMap((run) => {
      const appliance = view.problem.kitchen.appliances[run.appliance]!;
      const mode = appliance.modes.find((each) => each.name === run.row.mode);
      const details = [
        run.row.mode,
        ...(mode?.lid ? [`lid ${mode.lid}`] : []),
        ...(mode && mode.lit.length > 0 ? [`${mode.lit.join(' and ')} lit`] : []),
        ...(run.row.changeover > 0
          ? [`begin ${clockAt(view.problem, run.ready)} (${showMinutes(run.row.changeover)})`]
          : []),
      ];
      const label = run.appliance === shown ? '' : view.applianceNames[run.appliance]!;
      shown = run.appliance;
      const told = inGlyphs(heatOf(run).padStart(widest), glyphs);
      const lead: Line = [
        segment(`  ${pad(label, name, glyphs.ellipsis)}  ${between(view, run.from, run.to, glyphs)}  `),
        segment(`${told}  `, 'heat'),
      ];
      const indent = width < NARROW ? 4 : lineWidth(lead);
      const lines = wrap(inGlyphs(details.join(', '), glyphs), Math.max(12, width - indent));
      const hanging = lines.map((line): Line => [segment(' '.repeat(indent)), segment(line)]);
      return width < NARROW ? [lead, ...hanging] : [[...lead, segment(lines[0]!)], ...hanging.slice(1)];
    });
  return [...heading('Heat'), ...rows];
}

const between = (view: View, from: number, to: number, glyphs: Glyphs) =>
  `${clockIn(view, from)}${glyphs.range}${clockIn(view, to)}`;

/** A clock time as wide as the longest. */
const clockIn = (view: View, minute: number) => clockAt(view.problem, minute).padStart(clockColumns(view.problem));

/** The calls by clock, under their day when there is more than one. */
export function callLines(view: View, width: number, glyphs: Glyphs): Line[] {
  const { problem, plan } = view;
  if (plan.calls.length === 0) return [];
  const letters = new Map(plan.dishes.map((row) => [row.dish, view.dishes.find((dish) => dish.row === row)!]));
  const cook = Math.min(12, Math.max(6, ...view.cookNames.map(widthOf)));
  const letter = Math.max(1, ...view.dishes.map((dish) => widthOf(dish.letter)));
  const days = !plan.calls.every((call) =>
    sameDay(problem, minuteAt(problem, call.at), minuteAt(problem, plan.calls[0]!.at)),
  );
  let day = '';
  const lines: Line[] = [];
  for (const call of plan.calls) {
    const minute = minuteAt(problem, call.at);
    if (days && dayAt(problem, minute) !== day) {
      day = dayAt(problem, minute);
      lines.push(plainLine(`  ${day}`, 'dim'));
    }
    const dish = call.say.startsWith(`${call.dish}:`) ? letters.get(call.dish) : undefined;
    const who = pad(call.cook === null ? 'anyone' : clean(call.cook), cook, glyphs.ellipsis);
    const lead: Line = [
      segment(`  ${clockIn(view, minute)}  `, 'strong'),
      segment(`${who}  `, call.cook === null ? 'dim' : 'plain'),
      segment(`${pad(dish?.letter ?? '', letter, '')}  `, dish ? `dish ${dish.index}` : 'plain'),
    ];
    const indent = width < NARROW ? 9 : lineWidth(lead);
    const told = wrap(inGlyphs(clean(call.say), glyphs), Math.max(12, width - indent));
    const rows = told.map((line): Line => [segment(' '.repeat(indent)), segment(line)]);
    lines.push(...(width < NARROW ? [lead, ...rows] : [[...lead, segment(told[0]!)], ...rows.slice(1)]));
  }
  return [...heading('Calls'), ...lines];
}

/** The pieces whose minutes come from the heat model: when to pull, how far they rise, what a late one means. */
export function coreLines(view: View, width: number, glyphs: Glyphs): Line[] {
  const steps = view.byClock.map((index) => view.steps[index]!).filter((step) => step.row.window !== undefined);
  if (steps.length === 0) return [];
  const lines = steps.flatMap((step) => {
    const dish = view.dishes[step.dish]!;
    const lead: Line = [segment('  '), segment(`${dish.letter}  `, `dish ${dish.index}`)];
    const text = `${dish.name}, ${step.name}: ${coreWords(view, step)}; ${latestWords(view, step)}.`;
    return wrap(inGlyphs(text, glyphs), Math.max(20, width - lineWidth(lead))).map(
      (line, index): Line => [...(index === 0 ? lead : [segment(' '.repeat(lineWidth(lead)))]), segment(line)],
    );
  });
  return [...heading('Cores'), ...lines];
}

export function cautionLines(view: View, width: number, glyphs: Glyphs): Line[] {
  if (view.plan.cautions.length === 0) return [];
  const lines = view.plan.cautions.flatMap((caution) => {
    const about = caution.dish === null ? '' : `${clean(caution.dish)}: `;
    const text = inGlyphs(`${about}${caution.say} (${caution.source})`, glyphs);
    return wrap(text, Math.max(20, width - 4)).map(
      (line, index): Line => [segment(index === 0 ? `  ${glyphs.caution} ` : '    ', 'warn'), segment(line)],
    );
  });
  return [...heading('Cautions'), ...lines];
}

const PART_WORDS: Readonly<Record<PartName, string>> = {
  late: 'a course lands after its time',
  wait: 'cooked food waits',
  over: 'a dish waits longer than it keeps',
  gap: 'prepared food waits',
  heat: 'away from the ideal heat',
  runs: 'an appliance changes its heat',
  idle: 'an appliance is hot with nothing in it',
  rest: 'outside the best time',
  swap: 'more cooks on a step than it needs',
  day: 'the length of the day',
};

/** The points by their causes, none that is zero. */
export function costLines(view: View, width: number): Line[] {
  const { parts, total, bound } = view.plan.points;
  const amount = (value: number) => value.toFixed(2).padStart(9);
  const rows = PART_NAMES.filter((part) => parts[part] !== 0).map(
    (part): Line => [
      segment(amount(parts[part])),
      segment(`  ${part.padEnd(4)}  `, 'strong'),
      segment(PART_WORDS[part], 'dim'),
    ],
  );
  const all: Line = [segment(amount(total), 'strong'), segment(`  in all; at least ${bound.toFixed(2)}`, 'dim')];
  return [...heading('What it costs, in points'), ...rows, all].map((line) => clip(line, width));
}

/** The plan as a list by clock, for a width on which no chart fits. */
export function agendaLines(view: View, width: number, glyphs: Glyphs): Line[] {
  const indent = 2 * clockColumns(view.problem) + 3;
  const entries = view.byClock.map((index) => {
    const step = view.steps[index]!;
    const dish = view.dishes[step.dish]!;
    const appliance = step.appliance === null ? null : view.problem.kitchen.appliances[step.appliance]!;
    const where = [clean(appliance?.name ?? ''), step.places.map(clean).join(' + ')].filter((part) => part !== '');
    const heat = step.row.celsius === null ? [] : [showHeat(view.problem, step.row.celsius, appliance?.dial.unit)];
    const cooks = [...new Set(step.hands.map((hand) => view.cookNames[hand.cook]!))];
    const details = [where.join(' '), ...heat, cooks.join(' and ')].filter((part) => part !== '').join(', ');
    const lines: Line[] = [
      [
        segment(`${between(view, step.from, step.to, glyphs)}  `, 'strong'),
        segment(`${dish.letter} `, `dish ${dish.index}`),
        segment(cut(step.name, Math.max(4, width - indent - 2), glyphs.ellipsis)),
      ],
      ...(details === '' ? [] : wrap(inGlyphs(details, glyphs), Math.max(12, width - indent - 2))).map(
        (line): Line => [segment(' '.repeat(indent + 2)), segment(line, 'dim')],
      ),
    ];
    return { from: step.from, lines };
  });
  const lines: Line[] = [];
  let day = '';
  for (const entry of entries) {
    const name = dayAt(view.problem, entry.from);
    if (name !== day && !sameDay(view.problem, view.first, view.last)) lines.push(plainLine(name, 'dim'));
    day = name;
    lines.push(...entry.lines);
  }
  return lines;
}

/** Everything, as it is printed where no screen is. */
export function reportLines(view: View, width: number, glyphs: Glyphs): Line[] {
  const chart =
    width < NARROW
      ? agendaLines(view, width, glyphs)
      : [...wholeChart(view, 'place', width, glyphs), [], ...fillKey(view, width, glyphs)];
  return [
    ...headerLines(view, width, glyphs),
    [],
    ...letterKey(view, width, glyphs),
    [],
    ...chart,
    ...heatLines(view, width, glyphs),
    ...coreLines(view, width, glyphs),
    ...chanceLines(view, width, glyphs),
    ...callLines(view, width, glyphs),
    ...cautionLines(view, width, glyphs),
    ...costLines(view, width),
    ...lateLines(view, width, glyphs),
    ...wayLines(view, width, glyphs),
    ...whyLines(view, width, glyphs),
  ];
}
