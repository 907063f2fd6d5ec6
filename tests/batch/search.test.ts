import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lowerBound } from '../../src/batch/bound.js';
import { search } from '../../src/batch/search.js';
import { tablesOf } from '../../src/batch/tables.js';
import { optimum, problems } from './instances.js';

describe('search', () => {
  it('finds the best of all schedules of little problems, and never a bound above it', () => {
    const gaps: number[] = [];
    fc.assert(
      fc.property(problems({ jobs: 5, machines: 2 }), (problem) => {
        const best = optimum(problem);
        const { batches, cost, bound } = search(problem, { effort: 3000, seed: 1 });
        expect(cost).toBe(best);
        expect(batches === null).toBe(best === Number.POSITIVE_INFINITY);
        expect(bound).toBe(lowerBound(tablesOf(problem)));
        expect(bound).toBeLessThanOrEqual(best);
        if (best > 0 && best < Number.POSITIVE_INFINITY) gaps.push(1 - bound / best);
      }),
      { seed: 11, numRuns: 100 },
    );
    // The bound says something: it often meets the best, and is seldom far.
    expect(gaps.filter((gap) => gap === 0).length).toBeGreaterThan(gaps.length / 4);
  });

  it('is the same for the same seed, and never worse with more effort at hand than without any', () => {
    fc.assert(
      fc.property(problems({ jobs: 12, machines: 3 }), fc.nat(), (problem, seed) => {
        const once = search(problem, { effort: 2000, seed });
        expect(search(problem, { effort: 2000, seed })).toEqual(once);
        const { cost, tried } = search(problem, { effort: 0, seed });
        expect(tried).toBe(0);
        expect(once.cost).toBeLessThanOrEqual(cost);
      }),
      { seed: 13, numRuns: 15 },
    );
  });

  it('says that there is none where a job can be on no machine', () => {
    const [problem] = fc.sample(problems({ jobs: 3, machines: 1 }), { seed: 3, numRuns: 1 });
    const jobs = problem!.jobs.map((job) => ({ ...job, size: 99 }));
    expect(search({ ...problem!, jobs }, { effort: 1000, seed: 1 })).toEqual({
      batches: null,
      cost: Number.POSITIVE_INFINITY,
      bound: Number.POSITIVE_INFINITY,
      tried: 0,
    });
  });

  it('has nothing to do without jobs', () => {
    const [problem] = fc.sample(problems({ jobs: 3, machines: 1 }), { seed: 3, numRuns: 1 });
    expect(search({ ...problem!, jobs: [] }, { effort: 1000, seed: 1 })).toEqual({
      batches: [],
      cost: 0,
      bound: 0,
      tried: 0,
    });
  });
});
