/** What `hearthtable plan` says of a plan's chances. */
import type { PlanDocument } from '../../src/plan/document.js';
import type { Solved } from '../../src/solve/solve.js';

/** The plan with its chances, where some step has a spread. */
export async function withChances({ plan, schedule }: Solved, seed: number): Promise<PlanDocument | null> {
  if (plan === null || !schedule) return plan;
  const { chancesOf, DRAWS } = await import('../../src/chance/chances.js');
  const chances = chancesOf(schedule, { draws: DRAWS, seed });
  return chances === null ? plan : { ...plan, chances };
}
