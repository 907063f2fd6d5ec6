/**
 * Three judges of forty small problems: the exact referee, the solver at normal effort, and the audit. The referee's plan keeps to
 * the rules and costs what the audit says; the solver's has the same points and a bound no higher, or neither has a plan. `npm run bench:referee` asks the same of 500.
 */
import { describe, expect, it } from 'vitest';
import { audit } from '../../src/audit/audit.js';
import { solve } from '../../src/solve/solve.js';
import { readMeal } from '../support/read-meal.js';
import { planOf } from './plan-of.js';
import { PATIENCE, referee } from './referee.js';
import { smallProblemText } from './small-problem.js';

const SEEDS = Array.from({ length: 40 }, (_, k) => k + 1);

describe('the referee, the solver and the audit', () => {
  it.each(SEEDS)('agree on small problem %i', async (seed) => {
    const problem = readMeal(smallProblemText(seed));
    const verdict = await referee(problem);
    const { plan } = solve(problem, { effort: 'normal', seed: 1 });
    if (verdict) {
      const judged = audit(problem, planOf(problem, verdict));
      // Rule 0 is what a plan says about its own points by part, which the referee does not tell apart.
      expect(judged.violations.filter(({ rule }) => rule > 0)).toEqual([]);
      expect(judged.points.total).toBe(verdict.points);
      expect(plan?.points.total).toBe(verdict.points);
      expect(plan!.points.bound).toBeLessThanOrEqual(verdict.points);
      return;
    }
    // The referee looks no further than its patience: where it finds nothing, a plan of the solver is later than that.
    const late = plan ? Math.max(...plan.dishes.map((dish) => dish.late ?? 0)) : Number.POSITIVE_INFINITY;
    expect(late).toBeGreaterThan(PATIENCE);
  });
});
