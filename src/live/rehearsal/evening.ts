/** How long each step really takes on one evening, which hangs on the seed alone. */
import { deviates, minutesAt } from '../../chance/draws.js';
import type { Option, Problem } from '../../problem/problem.js';
import { spreadOf } from '../spread.js';

/** By step: in deviations, how far from its likely minutes it is on this evening, in whatever place it is done. */
export function pacesOf(problem: Problem, seed: number): number[] {
  return problem.steps.map(({ id }) => deviates(1, seed, id)[0]!);
}

/** Minutes that a way of doing a step takes at a temperature, at so many deviations from the likely ones; null where that is the cook's choice. */
export function realMinutes(option: Option, celsius: number | null, deviations: number): number | null {
  if (option.duration.kind === 'range') return null;
  return Math.max(1, Math.round(minutesAt(spreadOf(option, celsius), deviations)));
}
