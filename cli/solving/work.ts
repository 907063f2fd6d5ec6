/** All that `plan` has to think about, from a meal to what is printed: in one place, so that another thread can do it. */
import type { PlanDocument } from '../../src/plan/document.js';
import type { Problem } from '../../src/problem/problem.js';
import type { Reason } from '../../src/solve/explain/reason.js';
import type { Effort } from '../../src/solve/solve.js';
import { withChances } from './chances.js';

/** Plain data, as what comes back is: threads hand each other copies. */
export interface Task {
  readonly problem: Problem;
  readonly effort: Effort;
  readonly seed: number;
  readonly why: boolean;
  readonly waysOut: boolean;
  /** The chance that all is to land in time with. */
  readonly sure?: number;
}

export interface Outcome {
  readonly plan: PlanDocument | null;
  readonly reasons: readonly Reason[];
}

/** How far it is. */
export type Stage =
  | { readonly kind: 'plan'; readonly points: number; readonly bound: number }
  | { readonly kind: 'way'; readonly done: number; readonly of: number };

export interface Hooks {
  readonly onStage: (stage: Stage) => void;
  /** Asked now and then; true ends it with what there is. */
  readonly shouldStop: () => boolean;
}

export async function work({ problem, sure, ...options }: Task, { onStage, shouldStop }: Hooks): Promise<Outcome> {
  const { answered } = await import('../../src/solve/answers.js');
  const solved = answered(problem, {
    ...options,
    shouldStop,
    onProgress: ({ points, bound }) => onStage({ kind: 'plan', points, bound }),
    onWay: (done, of) => onStage({ kind: 'way', done, of }),
  });
  const { effort, seed, why } = options;
  const search = { effort, seed, shouldStop };
  const plan = await withChances(solved, { search, why, ...(sure !== undefined && { sure }) });
  return { plan, reasons: solved.reasons };
}
