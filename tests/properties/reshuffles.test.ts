import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { audit } from '../../src/audit/audit.js';
import { reshuffle } from '../../src/live/reshuffle/reshuffle.js';
import { planDocument } from '../../src/plan/document.js';
import { randomProblemText } from '../support/random-problem.js';
import { readMeal } from '../support/read-meal.js';
import { RandomDay } from './happenings.js';
import { solveQuickly } from './right-plans.js';

describe('new plans on random days', () => {
  it('keep what has happened and every rule, state their points, and are the same again', { timeout: 120_000 }, () => {
    let [plans, none] = [0, 0];
    const days = fc.record({
      dishes: fc.integer({ min: 2, max: 7 }),
      seed: fc.noShrink(fc.integer({ min: 1, max: 1_000_000 })),
    });
    fc.assert(
      fc.property(days, ({ seed, dishes }) => {
        const problem = readMeal(randomProblemText(seed, { dishes }));
        let { plan } = solveQuickly(problem);
        if (plan === null) return;
        const day = new RandomDay(problem, plan, seed);
        for (let k = 0; k < 3 && plan !== null; k++) {
          const happened = day.next(plan);
          const options = { seed, work: 60_000 };
          const next = reshuffle(problem, plan, happened, options);
          if (k === 1) expect(reshuffle(problem, plan, happened, options)).toEqual(next);
          day.drop(next.leftOut);
          plan = next.plan;
          if (plan === null) {
            none++;
            expect(next.say.join(' ')).toMatch(/\S/);
            return;
          }
          plans++;
          expect(planDocument.safeParse(plan).error).toBeUndefined();
          const dropped = new Set([...happened.dropped, ...next.leftOut]);
          const { violations, points } = audit(problem, plan, {
            ...happened,
            dropped,
            overrun: next.overrun,
            stay: next.stay,
            twice: next.twice,
          });
          expect(violations).toEqual([]);
          expect(points).toEqual({ total: plan.points.total, parts: plan.points.parts });
        }
      }),
      { seed: 20261128, numRuns: 40 },
    );
    expect(plans).toBeGreaterThan(80);
    expect(none).toBeLessThan(0.05 * plans);
  });
});
