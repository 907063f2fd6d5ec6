/** What is told of a plan's chances: how often all lands in time, what threatens it, what may wait too long. */
import type { PlanDocument } from '../plan/document.js';
import { clockAt } from '../problem/hours.js';
import { type Glyphs, inGlyphs } from './glyphs.js';
import { type Line, plainLine, segment } from './line.js';
import { clean, wrap } from './text.js';
import type { View } from './view.js';

type Chances = NonNullable<PlanDocument['chances']>;

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
  const { chances } = view.plan;
  if (chances === undefined) return [];
  return [landingSentence(view, chances), ...threatSentence(chances), ...waitSentence(chances)];
}

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
