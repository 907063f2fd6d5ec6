/** Words that the sentences about clashes and ways out share. */
import { stepKey } from '../../problem/hours.js';
import type { Option, Problem } from '../../problem/problem.js';
import { showMinutes } from '../../units/show.js';

export { sayList } from '../../kitchen/say-size.js';

export const stepNames = (problem: Problem, steps: readonly number[]): string[] =>
  steps.map((id) => stepKey(problem, id));

const NUMBERS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

/** `one`, `two`; figures beyond ten. */
export const numberWord = (count: number): string => NUMBERS[count] ?? String(count);

/** `there is one`, `there are three`. */
export const thereAre = (count: number): string => `there ${count === 1 ? 'is' : 'are'} ${numberWord(count)}`;

/** `both` of two, `all` of more. */
export const bothOrAll = (count: number): string => (count === 2 ? 'both' : 'all');

/** `a second`, `a third`, then `another`. */
export const nextOne = (have: number): string => (have === 1 ? 'a second' : have === 2 ? 'a third' : 'another');

/** How a gap is written: `at most 10 min after`, `20 to 30 min after`, `exactly 1 h after`. */
export function gapWords(low: number, high: number): string {
  if (high === 0) return 'right after';
  if (low === high) return `exactly ${showMinutes(low)} after`;
  return low === 0 ? `at most ${showMinutes(high)} after` : `${showMinutes(low)} to ${showMinutes(high)} after`;
}

/** Options of a step on appliances with heat runs. */
export const heatedOptions = (problem: Problem, step: number): readonly HeatedOption[] =>
  problem.steps[step]!.options.filter((option): option is HeatedOption => option.place.kind === 'heated');

export type HeatedOption = Option & { readonly place: Extract<Option['place'], { kind: 'heated' }> };
