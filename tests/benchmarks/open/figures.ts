/** Figures of many trials, as the literature tells them; null where the trials have nothing to tell. */
import type { Aim, Trial } from './family.js';

function meanOf(list: readonly number[]): number | null {
  return list.length === 0 ? null : list.reduce((sum, one) => sum + one, 0) / list.length;
}

/** % above the best known makespan or cost, of those that have both. */
export function gapsOf(trials: readonly Trial[]): number[] {
  return trials.flatMap(({ value, instance: { upper } }) =>
    value === null || upper === null ? [] : [upper === 0 ? 100 * value : (100 * (value - upper)) / upper],
  );
}

export const meanGap = (trials: readonly Trial[]): number | null => meanOf(gapsOf(trials));
export const maxGap = (trials: readonly Trial[]): number | null => {
  const gaps = gapsOf(trials);
  return gaps.length === 0 ? null : Math.max(...gaps);
};

/** Mean % over the length of the critical path. */
export function meanOverPath(trials: readonly Trial[]): number | null {
  return meanOf(
    trials.flatMap(({ value, path }) =>
      value === null || path === null || path === 0 ? [] : [100 * (value / path - 1)],
    ),
  );
}

/** How many could have been solved but were not. */
export function unsolved(trials: readonly Trial[]): number {
  return trials.filter(({ value, instance }) => value === null && instance.status !== 'infeasible').length;
}

/** How many are known to have no schedule, without the engine having proved it. */
export function unproved(trials: readonly Trial[]): number {
  return trials.filter(({ infeasible, instance }) => instance.status === 'infeasible' && !infeasible).length;
}

/** How many are as good as the best known, or better. */
export function reached(trials: readonly Trial[]): number {
  return trials.filter(({ value, instance: { upper } }) => value !== null && upper !== null && value <= upper).length;
}

/** How many are as good as the known optimum. */
export function optimal(trials: readonly Trial[]): number {
  return trials.filter(({ value, instance: { status, upper } }) => status === 'optimal' && value === upper).length;
}

/** How many the engine itself proved: the best, or that there is none. */
export function proved(trials: readonly Trial[]): number {
  return trials.filter(({ value, lower, infeasible }) => infeasible || (value !== null && value === lower)).length;
}

export const gapAim = (atMost: number): Aim => ({ what: 'mean gap', of: meanGap, atMost, unit: '%' });
export const overPathAim = (atMost: number): Aim => ({
  what: 'over the critical path',
  of: meanOverPath,
  atMost,
  unit: '%',
});
