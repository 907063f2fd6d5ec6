/** What is proven best is so whichever way it was found: other seeds come to the same points, and no bound lies above any plan. */
import { expect, it } from 'vitest';
import { solve } from '../../../src/solve/solve.js';
import { randomProblemText } from '../../support/random-problem.js';
import { readMeal } from '../../support/read-meal.js';

/** The first has two ovens alike, whose idle minutes the program first says from below. */
const MEALS = [[30, 10], ...Array.from({ length: 4 }, (_, k) => [200 + k, 4 + (k % 3)])] as const;

it('proves the same points best with every seed', { timeout: 60_000 }, () => {
  let proven = 0;
  for (const [number, dishes] of MEALS) {
    const problem = readMeal(randomProblemText(number!, { dishes: dishes! }));
    const plans = [1, 2, 3].flatMap((seed) => solve(problem, { effort: 'normal', seed, explain: false }).plan ?? []);
    const best = plans.filter(({ status }) => status === 'best').map(({ points }) => points.total);
    proven += best.length;
    expect(new Set(best).size, `random meal ${number}: ${best.join(', ')}`).toBeLessThanOrEqual(1);
    const least = Math.min(...plans.map(({ points }) => points.total));
    for (const { points } of plans) expect(points.bound, `random meal ${number}`).toBeLessThanOrEqual(least + 0.005);
  }
  expect(proven).toBeGreaterThan(8);
});
