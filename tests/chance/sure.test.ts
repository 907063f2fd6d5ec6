/** Plans with cushions for an asked chance. */
import { describe, expect, it } from 'vitest';
import { audit } from '../../src/audit/audit.js';
import { WRITTEN_DEVIATIONS } from '../../src/chance/draws.js';
import { surePlan } from '../../src/chance/sure.js';
import type { PlanDocument } from '../../src/plan/document.js';
import { minuteAt } from '../../src/problem/hours.js';
import type { Problem } from '../../src/problem/problem.js';
import { solve } from '../../src/solve/solve.js';
import { randomProblemText } from '../support/random-problem.js';
import { readMeal } from '../support/read-meal.js';
import { type ChainStep, chain, chanceOfTwo } from './meals.js';

const OPTIONS = { effort: 'quick', seed: 1, work: 20_000 } as const;

/** The plan that the meal has by itself, and those for each of some chances; all of them are right. */
function plansOf(problem: Problem, ...asked: number[]): PlanDocument[] {
  const { plan, schedule } = solve(problem, OPTIONS);
  return [plan!, ...asked.map((share) => surePlan(schedule!, plan!, share, OPTIONS).plan)].map((one) => {
    expect(audit(problem, one).violations).toEqual([]);
    return one;
  });
}

describe('a dish of one unsure step', () => {
  const problem = readMeal(chain([{ low: 25, likely: 30, high: 40 }]));

  it('is ready so early that the asked share of days is in time, and not a minute earlier', () => {
    // Nineteen days of twenty take less than 1.644854 deviations more than likely: 12.84 min, of which 5 may be late.
    const [own, sure] = plansOf(problem, 0.95);
    const early = Math.ceil((1.644854 * 10) / WRITTEN_DEVIATIONS - 5);
    expect(minuteAt(problem, sure!.dishes[0]!.ready)).toBe(problem.serve - early);
    expect(sure!.chances!.within5).toBeGreaterThanOrEqual(0.95);
    expect(sure!.sure).toEqual({
      asked: 0.95,
      reached: true,
      cost: Math.round((sure!.points.total - own!.points.total) * 100) / 100,
      cushions: [{ dish: 'Chain', step: 's1', minutes: early, more: early }],
    });
  });

  it('stays as it is where that will do', () => {
    const [own, sure] = plansOf(problem, 0.7);
    expect(sure!.sure).toEqual({ asked: 0.7, reached: true, cost: 0, cushions: [] });
    expect(sure!.steps).toEqual(own!.steps);
  });

  it('has rows of its likely minutes', () => {
    const [, sure] = plansOf(problem, 0.99);
    const { start, end } = sure!.steps[0]!;
    expect(minuteAt(problem, end) - minuteAt(problem, start)).toBe(30);
  });
});

describe('a dish of two unsure steps', () => {
  const [one, two]: ChainStep[] = [
    { low: 26, likely: 30, high: 39 },
    { low: 35, likely: 40, high: 52 },
  ];

  /** Fewest points of all whole cushions between the steps and before the landing, by the convolution of both spreads. */
  function least(asked: number, gap: number): number {
    let best = Number.POSITIVE_INFINITY;
    for (let between = 0; between <= 20; between++) {
      for (let before = 0; before <= 40; before++) {
        const points = gap * between + 4 * before + 0.02 * (70 + between + before);
        if (points < best && chanceOfTwo(one!, two!, 5 + before, between) >= asked) best = points;
      }
    }
    return best;
  }

  it.each([
    [0.8, 0.5],
    [0.9, 0.5],
    [0.9, 3],
  ])('has the fewest points for a chance of %f that any cushions have, where a gap costs %f', (asked, gap) => {
    const [, sure] = plansOf(readMeal(chain([one!, two!]).replace('gap: 5', `gap: ${gap}`)), asked);
    expect(sure!.sure!.reached).toBe(true);
    // A minute of cushion is the grain, and the sampled days are others than all days.
    expect(sure!.points.total).toBeLessThanOrEqual(least(asked, gap) + 4.02);
    expect(sure!.points.total).toBeGreaterThanOrEqual(least(asked - 0.01, gap) - 0.01);
  });
});

describe('a chance that cannot be had', () => {
  it('for want of time before is told so, with the best that can', () => {
    const late = chain([{ low: 25, likely: 30, high: 40 }]).replace(
      'start: 2026-10-03 09:00',
      'start: 2026-10-03 17:57',
    );
    const [, sure] = plansOf(readMeal(late), 0.99);
    expect(sure!.sure).toMatchObject({ asked: 0.99, reached: false, limit: 'start' });
    // Three minutes before and five after: 8 of the 10 that are 1.2816 deviations.
    expect(sure!.chances!.within5).toBeCloseTo(0.8474, 3);
  });

  it('because the plan itself is late is told so', () => {
    const late = chain([{ low: 25, likely: 30, high: 40 }]).replace(
      'start: 2026-10-03 09:00',
      'start: 2026-10-03 18:10',
    );
    const [, sure] = plansOf(readMeal(late), 0.9);
    expect(sure!.sure).toMatchObject({ reached: false, limit: 'late' });
  });
});

describe.each([8, 17, 23])('random meal %i', (seed) => {
  it('has plans that are right and as sure as asked, or says that they are not', () => {
    const asked = [0.85, 0.95];
    const [own, ...plans] = plansOf(readMeal(randomProblemText(seed, { dishes: 3 + (seed % 6) })), ...asked);
    plans.forEach((plan, k) => {
      const { reached, cost } = plan.sure!;
      expect(plan.chances!.within5 >= asked[k]!).toBe(reached);
      expect(plan.points.total - own!.points.total).toBeCloseTo(cost, 6);
    });
  });
});
