/** What every plan of a random problem must be: right by the audit, honest about its points, never below its bound. */
import fc from 'fast-check';
import { expect } from 'vitest';
import { audit } from '../../src/audit/audit.js';
import { planDocument } from '../../src/plan/document.js';
import type { Problem } from '../../src/problem/problem.js';
import { type Solved, solve } from '../../src/solve/solve.js';
import { randomProblemText } from '../support/random-problem.js';
import { readMeal } from '../support/read-meal.js';

/** Rounds of search after the construction: few, so that two thousand problems take a minute or two. */
const ROUNDS = 5;

/**
 * At quick effort, ended after some rounds of search. Where those find no plan the reasons are looked for no further, so
 * that they are short.
 */
export function solveQuickly(problem: Problem, rounds = ROUNDS): Solved {
  let asked = 0;
  return solve(problem, { effort: 'quick', seed: 1, shouldStop: () => ++asked > rounds });
}

export interface Tally {
  plans: number;
  none: number;
  late: number;
  proven: number;
}

function checkPlan(problem: Problem, { plan, reasons }: Solved, tally: Tally): void {
  if (plan === null) {
    tally.none++;
    expect(reasons.length).toBeGreaterThan(0);
    for (const reason of reasons) expect(reason.say).toMatch(/\S/);
    return;
  }
  tally.plans++;
  expect(planDocument.safeParse(plan).error).toBeUndefined();
  const { violations, points } = audit(problem, plan);
  expect(violations).toEqual([]);
  expect(points.total).toBe(plan.points.total);
  expect(points.parts).toEqual(plan.points.parts);
  expect(plan.points.bound).toBeGreaterThanOrEqual(0);
  expect(plan.points.bound).toBeLessThanOrEqual(plan.points.total);
  const late = plan.dishes.some((dish) => (dish.late ?? 0) > 0);
  expect(plan.status === 'late').toBe(late);
  if (plan.status === 'best') {
    tally.proven++;
    expect(Math.round(100 * (plan.points.total - plan.points.bound))).toBeLessThanOrEqual(1);
  }
  if (late) tally.late++;
}

/** Solves `runs` random problems of `least` to `most` dishes, always the same ones, and holds every plan to the rules. */
export function expectRightPlans(runs: number, least: number, most: number): Tally {
  const tally: Tally = { plans: 0, none: 0, late: 0, proven: 0 };
  const meals = fc.record({
    dishes: fc.integer({ min: least, max: most }),
    seed: fc.noShrink(fc.integer({ min: 1, max: 1_000_000 })),
  });
  fc.assert(
    fc.property(meals, ({ seed, dishes }) => {
      const problem = readMeal(randomProblemText(seed, { dishes }));
      checkPlan(problem, solveQuickly(problem), tally);
    }),
    { seed: 20261003 + least, numRuns: runs },
  );
  return tally;
}
