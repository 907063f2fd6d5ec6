/** One more pan, cook or oven never makes a meal's plan worse by more than the search's tolerance. */
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { type Effort, solve } from '../../src/solve/solve.js';
import type { Fields } from '../support/random-kitchen.js';
import { randomProblem } from '../support/random-problem.js';
import { readMeal } from '../support/read-meal.js';

/**
 * How much dearer a plan may be although the kitchen got better: whichever is more, so many points or this share of its points.
 * The search tries a limited number of ways, and where there are more to choose from it can miss a good one. Up to four dishes the
 * close tolerance holds but for a few changes at quick effort; of larger meals nine changes of ten keep it at normal effort,
 * and all the wide one. What was measured last stands in DEVELOPERS.md.
 */
const CLOSE = { points: 0.5, share: 0.1 };
const WIDE = { points: 0.5, share: 1.2 };

/** The share of changes that may lie beyond the close tolerance: of small meals at quick effort, each of which is tried again at normal effort. */
const BEYOND = { small: 0.03, large: 0.1 };

const MEALS = Array.from({ length: 36 }, (_, k) => ({ seed: 1 + k, dishes: 1 + (k % 4) }));

const LARGE_MEALS = Array.from({ length: 8 }, (_, k) => ({ seed: 8000 + k, dishes: 5 + k }));

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

const allowed = (points: number, by = CLOSE): number => points + Math.max(by.points, by.share * points);

interface Changed {
  readonly name: string;
  readonly before: number;
  readonly after: number;
  /** Points before and after at another effort. */
  readonly again: (effort: Effort) => readonly [number, number];
}

/** Every change of every meal that has a plan. */
function changesOf(meals: readonly { seed: number; dishes: number }[], effort: Effort): Changed[] {
  return meals.flatMap(({ seed, dishes }) => {
    const meal = randomProblem(seed, { dishes });
    const before = pointsOf(meal, effort);
    if (before === Number.POSITIVE_INFINITY) return [];
    return Object.entries(BETTER).map(([what, change]) => {
      const better = structuredClone(meal);
      change(better.kitchen as Fields, better, seed);
      const after = pointsOf(better, effort);
      const name = `meal ${seed} of ${dishes} dishes with ${what}: ${after} points against ${before}`;
      return {
        name,
        before,
        after,
        again: (other: Effort) => [pointsOf(meal, other), pointsOf(better, other)] as const,
      };
    });
  });
}

describe('a better kitchen', () => {
  it('never makes the plan of a small meal worse by more than the search’s tolerance', { timeout: 300_000 }, () => {
    const changes = changesOf(MEALS, 'quick');
    expect(changes.length).toBeGreaterThan(80);
    const beyond = changes.filter(({ before, after }) => after > allowed(before));
    for (const { name, again } of beyond) {
      const [before, after] = again('normal');
      expect(after, name).toBeLessThanOrEqual(allowed(before));
    }
    expect(beyond.length, beyond.map(({ name }) => name).join('\n')).toBeLessThanOrEqual(BEYOND.small * changes.length);
  });

  it('nor that of a meal of up to twelve dishes, with a wider tolerance', { timeout: 300_000 }, () => {
    const changes = changesOf(LARGE_MEALS, 'normal');
    expect(changes.length).toBeGreaterThan(20);
    for (const { name, before, after } of changes) expect(after, name).toBeLessThanOrEqual(allowed(before, WIDE));
    const beyond = changes.filter(({ before, after }) => after > allowed(before));
    expect(beyond.length, beyond.map(({ name }) => name).join('\n')).toBeLessThanOrEqual(BEYOND.large * changes.length);
  });
});
