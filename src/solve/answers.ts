/** A plan with the answers that were asked for beside it: why it is as it is, and what would make it better. */
import type { PlanDocument } from '../plan/document.js';
import type { Problem } from '../problem/problem.js';
import { betterWays } from './explain/better.js';
import type { Reason } from './explain/reason.js';
import { type SolveOptions, solve } from './solve.js';
import { whyOf } from './why/why.js';

export interface AnswerOptions extends SolveOptions {
  readonly why?: boolean;
  /** For a late plan they are looked for in any case. */
  readonly waysOut?: boolean;
}

export interface Answered {
  readonly plan: PlanDocument | null;
  readonly reasons: readonly Reason[];
}

export function answered(problem: Problem, options: AnswerOptions): Answered {
  const { plan, reasons, found } = solve(problem, options);
  if (plan === null || found === null) return { plan, reasons };
  const isLate = plan.status === 'late';
  if (!isLate && !options.why && !options.waysOut) return { plan, reasons };
  const { why, late } = whyOf(found);
  return {
    plan: {
      ...plan,
      ...(options.why && { why }),
      ...(isLate && { because: [...late] }),
      ...((isLate || options.waysOut) && { waysOut: betterWays(problem, found, options) }),
    },
    reasons,
  };
}
