/** What to mind in a meal so that nobody is hurt: every caution, each with its published source. */
import type { Problem } from '../problem/problem.js';
import { againCautions } from './again.js';

export type { CautionRow } from './caution.js';

import { type CautionRow, mostSeriousFirst, type PlanRows } from './caution.js';
import { coreCautions } from './core.js';
import { fireCautions } from './fire.js';
import { holdCautions, lyingCautions } from './lying.js';
import { type Meal, mealOf } from './meal.js';
import { surfaceCautions } from './surfaces.js';

/**
 * Most serious first, the same for the same problem and plan. Without a plan only what the file itself says is told: what
 * hangs on clock times, boards and chosen places waits for one.
 */
export function cautionsOf(problem: Problem, plan: PlanRows | null): CautionRow[] {
  const meal: Meal = mealOf(problem, plan);
  return mostSeriousFirst(problem, [
    ...coreCautions(meal),
    ...againCautions(meal),
    ...lyingCautions(meal),
    ...holdCautions(meal),
    ...surfaceCautions(meal),
    ...fireCautions(meal),
  ]);
}
