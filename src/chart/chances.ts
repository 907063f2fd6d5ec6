/** What is told of a plan's chances: how often all lands in time, what threatens it, what may wait too long. */
import type { PlanDocument } from '../plan/document.js';
import { clockAt } from '../problem/hours.js';
import type { Problem } from '../problem/problem.js';
import { showMinutes } from '../units/show.js';
import { type Glyphs, inGlyphs } from './glyphs.js';
import { type Line, plainLine, segment } from './line.js';
import { clean, points, wrap } from './text.js';
import type { View } from './view.js';

type Chances = NonNullable<PlanDocument['chances']>;
type Sure = NonNullable<PlanDocument['sure']>;

/** `83 of 100`; never quite all or none of them unless it is so. */
export function ofHundred(share: number): string {
  if (share === 1 || share === 0) return share === 1 ? '100 of 100' : 'none of 100';
  if (share > 0.99) return 'more than 99 of 100';
  return share < 0.01 ? 'fewer than 1 of 100' : `${Math.round(share * 100)} of 100`;
}

const stepWords = ({ dish, step }: { dish: string; step: string }): string => `${clean(dish)}, ${clean(step)}`;

/** `lands within 5 min on 83 of 100 days`; empty where nothing is known. */
export function chanceInShort({ plan: { chances } }: View): string {
  return chances === undefined ? '' : `lands within 5 min on ${ofHundred(chances.within5)} days`;
}

/** Sentences, the most important first. */
export function chanceWords(view: View): string[] {
  const { chances, sure } = view.plan;
  const asked = sure === undefined ? [] : sureSentences(view, sure, chances !== undefined);
  if (chances === undefined) return asked;
  return [landingSentence(view, chances), ...asked, ...threatSentence(chances), ...waitSentence(chances)];
}

/** What was kept free for the asked chance, and what it costs. */
function sureSentences({ problem, plan }: View, sure: Sure, unsure: boolean): string[] {
  const asked = `${points(sure.asked * 100)} of 100 were asked for`;
  if (!unsure) return [`${asked}; no step of this meal has a spread.`];
  const kept = sure.cushions.map(
    (one) => `${showMinutes(one.minutes)} after ${stepWords(one)} (${showMinutes(one.more)} more)`,
  );
  const cost =
    sure.cost <= 0
      ? 'no points'
      : `${points(sure.cost)} ${sure.cost === 1 ? 'point' : 'points'} more than without (${points(plan.points.total - sure.cost)})`;
  const free = kept.length === 0 ? [] : [`Kept free: ${kept.join(', ')}; that costs ${cost}.`];
  if (sure.reached && free.length > 0) return [`${asked}.`, ...free];
  if (sure.reached) return [`${asked}: ${sure.cost > 0 ? `that costs ${cost}` : 'the plan has room enough as it is'}.`];
  return [`${asked}; no plan was found that has more than this: ${LIMITS[sure.limit ?? 'waits'](problem)}.`, ...free];
}

const LIMITS: Readonly<Record<NonNullable<Sure['limit']>, (problem: Problem) => string>> = {
  late: () => 'it lands late as it is planned',
  start: (problem) => `the day would have to begin before ${clockAt(problem, 0)}, or food wait longer than it may`,
  waits: () => 'food would have to wait longer than it may, or rest less',
};

function landingSentence({ landings, problem }: View, { within5, within10 }: Chances): string {
  const [one, ...others] = landings;
  const what =
    one && others.length === 0
      ? `All lands within 5 min of ${clockAt(problem, one.at - one.late)}`
      : 'Every course lands within 5 min of its time';
  const [five, ten] = [within5, within10].map(ofHundred);
  const later = ten === five ? '' : `, within 10 min on ${ten}`;
  return `${what} on ${five} such days${later}.`;
}

function threatSentence({ threats, within5 }: Chances): string[] {
  const [worst, ...others] = threats;
  if (!worst) return [];
  const also = others.length === 0 ? '' : `; then ${others.map(stepWords).join(', then ')}`;
  const then = ofHundred(Math.min(1, within5 + worst.by));
  return [
    `What threatens it most is ${stepWords(worst)}: did it always take its likely time, it would be ${then}${also}.`,
  ];
}

function waitSentence({ unspoilt, waits }: Chances): string[] {
  if (unspoilt === 1) return [];
  const [worst] = waits;
  const most = worst ? `; most often too long is the wait in or after ${stepWords(worst)}` : '';
  return [`Nothing waits longer than it may on ${ofHundred(unspoilt)}${most}.`];
}

export function chanceLines(view: View, width: number, glyphs: Glyphs): Line[] {
  const said = chanceWords(view);
  if (said.length === 0) return [];
  const lines = said.flatMap((sentence) => wrap(inGlyphs(sentence, glyphs), Math.max(20, width - 4)));
  return [[], plainLine('Chances', 'strong'), ...lines.map((line): Line => [segment('  '), segment(line)])];
}
