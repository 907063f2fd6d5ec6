/** The chances of a plan, beside what else `plan` thinks about. */
import type { PlanDocument } from '../../src/plan/document.js';
import type { Solved, SolveOptions } from '../../src/solve/solve.js';

export interface ChanceTask {
  readonly search: SolveOptions;
  /** The chance that is asked for. */
  readonly sure?: number;
  /** Whether the plan is to say why it is as it is. */
  readonly why: boolean;
}

/** The plan with its chances, where some step has a spread; with cushions, where a chance is asked for. */
export async function withChances(solved: Solved, { search, sure, why }: ChanceTask): Promise<PlanDocument | null> {
  const { plan, schedule } = solved;
  if (plan === null || !schedule) return plan;
  if (sure === undefined) {
    const { chancesOf, DRAWS } = await import('../../src/chance/chances.js');
    const chances = chancesOf(schedule, { draws: DRAWS, seed: search.seed });
    return chances === null ? plan : { ...plan, chances };
  }
  const { surePlan } = await import('../../src/chance/sure.js');
  const found = surePlan(schedule, plan, sure, search);
  if (found.schedule === schedule) return found.plan;
  const { whyOf } = await import('../../src/solve/why/why.js');
  const { because, waysOut } = plan;
  return {
    ...found.plan,
    ...(because && { because }),
    ...(waysOut && { waysOut }),
    ...(why && { why: whyOf(found.schedule).why }),
  };
}
