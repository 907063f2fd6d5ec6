import { describe, expect, it } from 'vitest';
import { Rng } from '../../src/kernel/rng.js';
import { leastCost, randomRows, randomTasks, type Small } from './random-program.js';

const WORK = 1_000_000;

/** From above, from below, or both in turn; hears of every bound. */
function optimum({ optimiser }: Small, way: number, onBound: (bound: number) => void): number {
  for (let turn = 0; turn < 500 && !optimiser.isProven; turn++) {
    if (way === 0 || (way === 2 && turn % 2 === 0)) optimiser.improve(WORK);
    else optimiser.lift(WORK);
    onBound(optimiser.bound);
  }
  expect(optimiser.isProven).toBe(true);
  return optimiser.best?.cost ?? Number.POSITIVE_INFINITY;
}

describe.each([
  ['rows and clauses', randomRows],
  ['tasks on one thing', randomTasks],
] as const)('%s', (_, make) => {
  it.each([
    ['from above', 0],
    ['from below', 1],
    ['from both sides', 2],
  ] as const)('has the least cost that trying all values finds, %s, and no bound above it', (_name, way) => {
    for (let seed = 1; seed <= 250; seed++) {
      const small = make(new Rng(seed * 3 + way));
      const least = leastCost(small);
      const found = optimum(small, way, (bound) => expect(bound, `seed ${seed}`).toBeLessThanOrEqual(least));
      expect(found, `seed ${seed}`).toBe(least);
    }
  });

  it('gives values that keep what was said and cost what they say', () => {
    for (let seed = 1; seed <= 150; seed++) {
      const small = make(new Rng(seed));
      optimum(small, 2, () => undefined);
      const { best } = small.optimiser;
      if (best === null) continue;
      const values = best.values.slice(0, small.domains.length);
      expect(small.allows.every((allow) => allow(values))).toBe(true);
      expect(values.reduce((sum, value, v) => sum + value * (small.costs[v] ?? 0), 0)).toBe(best.cost);
    }
  });
});

describe('within what is given', () => {
  it('finds nothing that breaks it, and forgets it afterwards', () => {
    let improved = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const small = randomRows(new Rng(seed));
      const { optimiser, domains } = small;
      const v = seed % domains.length;
      const [low] = domains[v]!;
      const kind = optimiser.improveWithin([{ half: 2 * v + 1, value: -low }], { work: WORK, failures: 1000 });
      expect(kind).not.toBe('stopped');
      if (kind === 'solved') {
        improved++;
        expect(optimiser.best!.values[v]).toBe(low);
      }
      expect(optimum(small, 0, () => undefined)).toBe(leastCost(small));
    }
    expect(improved).toBeGreaterThan(50);
  });
});
