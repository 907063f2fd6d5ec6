import { describe, expect, it } from 'vitest';
import { costOf, totalOf } from '../../src/kernel/cost.js';
import { holds } from '../../src/kernel/holds.js';
import type { Model } from '../../src/kernel/model.js';
import { compile } from '../../src/solve/compile.js';
import { earliestStarts, pathsOf } from '../../src/solve/paths.js';
import { Reorder } from '../../src/solve/reorder.js';
import { type SearchOptions, type SearchResult, search } from '../../src/solve/search.js';
import { polish } from '../../src/solve/timing.js';
import { randomProblemText } from '../support/random-problem.js';
import { readMeal } from '../support/read-meal.js';

function searched(seed: number, more: Partial<SearchOptions> = {}): { model: Model; found: SearchResult } {
  const compiled = compile(readMeal(randomProblemText(seed, { dishes: 1 + (seed % 5) })));
  const { model } = compiled;
  const found = search(model, {
    seed: 1,
    work: 60_000,
    earliest: earliestStarts(model)!,
    paths: pathsOf(model),
    polish: (state, tune) => polish(compiled, state, tune),
    reorder: (state) => new Reorder(compiled, state),
    bound: 0,
    ...more,
  });
  return { model, found };
}

const SEEDS = Array.from({ length: 25 }, (_, k) => 1 + k);

describe('search', () => {
  it('ends with a schedule that holds and costs what it says, or with the jobs that have no place', () => {
    let whole = 0;
    for (const seed of SEEDS) {
      const { model, found } = searched(seed);
      const out = model.jobs.filter((job) => !found.state.jobIsPlaced(job.id)).map((job) => job.id);
      expect(found.unplaced).toEqual(out);
      if (out.length > 0) continue;
      whole++;
      expect(holds(found.state), `seed ${seed}`).toBe(true);
      expect(totalOf(costOf(found.state))).toBeCloseTo(found.cost, 9);
    }
    expect(whole).toBeGreaterThan(15);
  });

  it('tells of better and better schedules, the last of which it returns', () => {
    for (const seed of SEEDS.slice(0, 10)) {
      const costs: number[] = [];
      const { found } = searched(seed, { onBest: (cost) => costs.push(cost) });
      expect(costs).toEqual([...new Set(costs)].sort((a, b) => b - a));
      expect(costs.at(-1)).toBe(found.cost);
    }
  });

  it('never ends worse than it began', () => {
    for (const seed of SEEDS) {
      expect(searched(seed).found.cost).toBeLessThanOrEqual(searched(seed, { work: 0 }).found.cost + 1e-9);
    }
  });

  it('does not search at all without work, and stops when it is told to', () => {
    expect(searched(3, { work: 0 }).found).toMatchObject({ rounds: 0, stopped: false });
    let asked = 0;
    const { found } = searched(3, { work: 1e9, shouldStop: () => ++asked > 4 });
    expect(found).toMatchObject({ rounds: 4, stopped: true });
  });

  it('stops at the bound', () => {
    const { found } = searched(3);
    const again = searched(3, { work: 1e9, bound: found.cost });
    expect(again.found.cost).toBeLessThanOrEqual(found.cost + 1e-6);
    expect(again.found.stopped).toBe(false);
  });

  it('goes other ways with other seeds', () => {
    const starts = SEEDS.slice(0, 8).map((seed) => String(searched(9, { seed }).found.state.start));
    expect(new Set(starts).size).toBeGreaterThan(1);
  });
});
