/** Words that the sentences about clashes and ways out share. */
import { clockAt, dateAt, stepKey } from '../../problem/hours.js';
import type { Option, Problem } from '../../problem/problem.js';
import { showMinutes } from '../../units/show.js';

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

/** `18:30`, with its date where that is not the day of the asked serving time: `23:30 on 2026-10-02`. */
export function clockWords(problem: Problem, minute: number): string {
  const date = dateAt(problem, minute);
  const clock = clockAt(problem, minute);
  return date === dateAt(problem, problem.serve) ? clock : `${clock} on ${date}`;
}

/** How long a gap is: `at once`, `at most 10 min`, `20 min to 30 min`, `exactly 1 h`. */
export function gapLimit(low: number, high: number): string {
  if (high === 0) return 'at once';
  if (low === high) return `exactly ${showMinutes(low)}`;
  return low === 0 ? `at most ${showMinutes(high)}` : `${showMinutes(low)} to ${showMinutes(high)}`;
}

/** `right after`, `at most 10 min after`. */
export const gapWords = (low: number, high: number): string =>
  high === 0 ? 'right after' : `${gapLimit(low, high)} after`;

/** Options of a step on appliances with heat runs. */
export const heatedOptions = (problem: Problem, step: number): readonly HeatedOption[] =>
  problem.steps[step]!.options.filter((option): option is HeatedOption => option.place.kind === 'heated');

export type HeatedOption = Option & { readonly place: Extract<Option['place'], { kind: 'heated' }> };

/** `38.2 points`, `1 point`. */
export function showPoints(points: number): string {
  const shown = points.toFixed(2).replace(/\.?0+$/, '');
  return `${shown} ${shown === '1' ? 'point' : 'points'}`;
}
