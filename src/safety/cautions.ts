/** What to mind in a meal so that nobody is hurt: every caution, each with its published source. */
import type { Problem } from '../problem/problem.js';
import { againCautions } from './again.js';

export type { CautionRow } from './caution.js';

import { type CautionRow, mostSeriousFirst, type PlanRows } from './caution.js';
import { coreCautions } from './core.js';
import type { Curves } from './curve.js';
import { fireCautions } from './fire.js';
import { holdCautions, lyingCautions } from './lying.js';
import { type Meal, mealOf } from './meal.js';
import { surfaceCautions } from './surfaces.js';

/**
 * Most serious first, the same for the same problem and plan. Without a plan only what the file itself says is told: what
 * hangs on clock times, boards and chosen places waits for one. Curves, of those dishes for which they are known, say how
 * hot the core and the surface are.
 *
 * @throws RangeError where a curve is none.
 */
export function cautionsOf(problem: Problem, plan: PlanRows | null, curves?: Curves): CautionRow[] {
  const meal: Meal = mealOf(problem, plan, curves);
  return mostSeriousFirst(problem, [
    ...coreCautions(meal),
    ...againCautions(meal),
    ...lyingCautions(meal),
    ...holdCautions(meal),
    ...surfaceCautions(meal),
    ...fireCautions(meal),
  ]);
}
