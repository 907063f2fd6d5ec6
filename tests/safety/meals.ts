/** Small meals for the tests of cautions. */
import type { PlanDocument } from '../../src/plan/document.js';
import type { Problem } from '../../src/problem/problem.js';
import { type CautionRow, cautionsOf } from '../../src/safety/cautions.js';
import { type PlanSpec, planOf } from '../audit/plan-builder.js';
import {
  cooktop,
  type DishSpec,
  grill,
  type KitchenSpec,
  oven,
  pan,
  problemOf,
  rectangle,
} from '../support/problem-builder.js';

export const KITCHEN: KitchenSpec = {
  room: 21,
  appliances: [oven('oven', { modes: { roast: [50, 270], broil: [230, 280] } }), grill('gas grill'), cooktop('range')],
  boards: 2,
  pans: [pan('tray', rectangle(0.3, 0.4), { wash: 4 }), pan('tub', rectangle(0.2, 0.2))],
};

/** Served ten hours after the start. */
export const SERVE = 600;

export function mealWith(dishes: readonly DishSpec[], kitchen: KitchenSpec = {}): Problem {
  return problemOf({ serve: SERVE, dishes, kitchen: { ...KITCHEN, ...kitchen } });
}

/** One dish that is roasted, with what a test says about it. */
export function roastOf(dish: string, food: string | null, core: number | null, more: Partial<DishSpec> = {}): Problem {
  return mealWith([
    {
      dish,
      ...(food === null ? {} : { piece: { food } }),
      steps: [
        { step: 'roast', work: 'roast', place: 'oven', pan: 'tray', takes: 60, ...(core === null ? {} : { core }) },
      ],
      ...more,
    },
  ]);
}

/** The cautions of one rule, before or with a plan. */
export function said(problem: Problem, rule: string, plan: PlanDocument | null = null): CautionRow[] {
  return cautionsOf(problem, plan).filter((caution) => caution.rule === rule);
}

export function saidOf(problem: Problem, rule: string, spec: PlanSpec): CautionRow[] {
  return said(problem, rule, planOf(problem, spec));
}

export const rulesOf = (problem: Problem, plan: PlanDocument | null = null): string[] =>
  cautionsOf(problem, plan).map((caution) => caution.rule);
