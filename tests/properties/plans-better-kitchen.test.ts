/** One more pan, cook or oven never makes a meal's plan worse by more than the search's tolerance. */
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { type Effort, solve } from '../../src/solve/solve.js';
import type { Fields } from '../support/random-kitchen.js';
import { randomProblem } from '../support/random-problem.js';
import { readMeal } from '../support/read-meal.js';

/**
 * How much dearer a plan may be although the kitchen got better: whichever is more, so many points or this share of its points.
 * The search tries a limited number of ways, and where there are more to choose from it can miss a good one. Of 471 changes of
 * 160 meals of up to four dishes two lay beyond this at quick effort, and one of those at normal effort too (a second heat run,
 * 2.6 points). Of 180 changes of 70 meals of six to twelve dishes it was 14 at quick and 4 at normal effort, so that this is no
 * promise for those.
 */
const TOLERANCE = { points: 0.5, share: 0.1 };

/** The share of changes that may lie beyond the tolerance at quick effort; each of those is tried again at normal effort. */
const BEYOND = 0.03;

const MEALS = Array.from({ length: 36 }, (_, k) => ({ seed: 1 + k, dishes: 1 + (k % 4) }));

const BETTER: Readonly<Record<string, (kitchen: Fields, meal: Fields, seed: number) => void>> = {
  'one more pan': (kitchen, _, seed) => {
    const pans = kitchen.pans as { count: number }[];
    pans[seed % pans.length]!.count += 1;
  },
  'one more cook': (_, meal) => {
    meal.cooks = [...(meal.cooks as unknown[]), 'Another cook'];
  },
  'one more oven': (kitchen) => {
    const appliances = kitchen.appliances as Fields[];
    kitchen.appliances = [...appliances, { ...appliances[0], appliance: 'another oven' }];
  },
};

/** Points of the plan that is found; Infinity where none is. */
function pointsOf(meal: Fields, effort: Effort): number {
  const { plan } = solve(readMeal(stringify(meal)), { effort, seed: 1 });
  return plan === null || plan.status === 'none' ? Number.POSITIVE_INFINITY : plan.points.total;
}

const allowed = (points: number): number => points + Math.max(TOLERANCE.points, TOLERANCE.share * points);

describe('a better kitchen', () => {
  it('never makes a plan worse by more than the search’s tolerance', { timeout: 300_000 }, () => {
    let changes = 0;
    const beyond: string[] = [];
    for (const { seed, dishes } of MEALS) {
      const meal = randomProblem(seed, { dishes });
      const before = pointsOf(meal, 'quick');
      if (before === Number.POSITIVE_INFINITY) continue;
      for (const [what, change] of Object.entries(BETTER)) {
        const better = structuredClone(meal);
        change(better.kitchen as Fields, better, seed);
        changes++;
        const after = pointsOf(better, 'quick');
        if (after <= allowed(before)) continue;
        const name = `meal ${seed} of ${dishes} dishes with ${what}: ${after} points against ${before}`;
        beyond.push(name);
        expect(pointsOf(better, 'normal'), name).toBeLessThanOrEqual(allowed(pointsOf(meal, 'normal')));
      }
    }
    expect(changes).toBeGreaterThan(80);
    expect(beyond.length, beyond.join('\n')).toBeLessThanOrEqual(BEYOND * changes);
  });
});
