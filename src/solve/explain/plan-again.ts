/** A changed meal planned with a bounded amount of work, from a schedule that is there or from nothing. */
import { costOf, totalOf } from '../../kernel/cost.js';
import type { State } from '../../kernel/state.js';
import type { Compiled } from '../compile.js';
import { earliestStarts, pathsOf } from '../paths.js';
import { Reorder } from '../reorder.js';
import { search } from '../search.js';
import { polish } from '../timing.js';

export interface Again {
  readonly state: State;
  readonly points: number;
  /** Minutes by which the latest course lands late. */
  readonly late: number;
}

export interface AgainOptions {
  readonly seed: number;
  /** Minutes of rows. */
  readonly work: number;
  /** Schedules to begin with, of which the cheapest is taken; without any, those made by rule. */
  readonly starts: readonly State[];
  readonly shouldStop?: () => boolean;
}

/** Null where no schedule was found. */
export function planAgain(compiled: Compiled, { seed, work, starts, shouldStop }: AgainOptions): Again | null {
  const { model } = compiled;
  const earliest = earliestStarts(model);
  if (earliest === null) return null;
  const timed = starts.map((each) => polish(compiled, each, true));
  const start = timed.sort((a, b) => totalOf(costOf(a)) - totalOf(costOf(b)))[0];
  const { state, unplaced } = search(model, {
    seed,
    work,
    earliest,
    paths: pathsOf(model),
    polish: (each, tune) => polish(compiled, each, tune),
    reorder: (each) => new Reorder(compiled, each),
    bound: 0,
    ...(start !== undefined && { start }),
    ...(shouldStop && { shouldStop }),
  });
  if (unplaced.length > 0) return null;
  return { state, points: totalOf(costOf(state)), late: latenessOf(state) };
}

export const latenessOf = (state: State): number =>
  Math.max(0, ...state.model.groups.map((group, g) => state.landing(g) - group.due));
