/** What `hearthtable plan` reckons of a plan's chances, and the option that asks for one. */
import { InvalidArgumentError, Option } from 'commander';
import type { PlanDocument } from '../../src/plan/document.js';
import type { Solved, SolveOptions } from '../../src/solve/solve.js';

export const sureOption = (): Option =>
  new Option(
    '--sure <chance>',
    'keep so much free that all lands within 5 min with this chance, where steps are not sure: 90%',
  ).argParser(chanceIn);

/** `90%`, `90` and `0.9` as a share. */
function chanceIn(text: string): number {
  const found = /^(\d+(?:\.\d+)?|\.\d+)\s*(%?)$/.exec(text.trim());
  const value = Number(found?.[1]);
  // 1 alone may be a hundredth or all.
  const share =
    found === null || (value === 1 && found[2] === '') ? Number.NaN : value < 1 && !found[2] ? value : value / 100;
  if (!(share > 0 && share < 1)) {
    throw new InvalidArgumentError('A chance between 0% and 100% is wanted: 90%, or 0.9. No plan is sure to 100%.');
  }
  return share;
}

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
