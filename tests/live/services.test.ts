import { describe, expect, it } from 'vitest';
import { solve } from '../../src/solve/solve.js';
import { readMealFile } from '../support/read-meal.js';
import { serve } from '../support/services.js';

describe('a service with a new plan whenever the evening goes otherwise', () => {
  const problem = readMealFile('problems/one-grill-pork.yaml');
  const plan = solve(problem, { effort: 'quick', seed: 1 }).plan!;

  it.each([1, 2, 3, 4])('lands near its time, and every plan on the way is right: evening %i', (seed) => {
    const { late, plans, faults, leftOut } = serve(problem, plan, { seed, anew: true, mishaps: true });
    expect(faults).toEqual([]);
    expect(leftOut).toBe(0);
    expect(plans).toBeGreaterThan(0);
    expect(late).toBeLessThanOrEqual(5);
  });
});
