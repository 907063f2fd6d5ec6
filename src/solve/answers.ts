/** A plan with the answers that were asked for beside it: why it is as it is, and what would make it better. */
import type { Problem } from '../problem/problem.js';
import { betterWays } from './explain/better.js';
import { type Solved, type SolveOptions, solve } from './solve.js';
import { whyOf } from './why/why.js';

export interface AnswerOptions extends SolveOptions {
  readonly why?: boolean;
  /** For a late plan they are looked for in any case. */
  readonly waysOut?: boolean;
  /** Told before each change that is planned. */
  readonly onWay?: (done: number, of: number) => void;
}

/** What `solve` finds, its plan with the answers in it. */
export function answered(problem: Problem, options: AnswerOptions): Solved {
  const solved = solve(problem, options);
  const { plan, schedule } = solved;
  if (plan === null || schedule === null) return solved;
  const isLate = plan.status === 'late';
  if (!isLate && !options.why && !options.waysOut) return solved;
  const { why, late } = whyOf(schedule);
  // Who has stopped the search does not wait for more.
  const ways = (isLate || options.waysOut) && !options.shouldStop?.();
  return {
    ...solved,
    plan: {
      ...plan,
      ...(options.why && { why }),
      ...(isLate && { because: [...late] }),
      ...(ways && { waysOut: betterWays(problem, schedule, options).map(({ row }) => row) }),
    },
  };
}
