import { describe, expect, it } from 'vitest';
import { Rng } from '../../src/kernel/rng.js';

describe('Rng', () => {
  it('is the same on every machine', () => {
    const of = (seed: number): number[] => {
      const rng = new Rng(seed);
      return [rng.bits(), rng.bits(), rng.bits()];
    };
    expect([of(1), of(2), of(-7)]).toMatchInlineSnapshot(`
      [
        [
          1050428388,
          731609040,
          4078177729,
        ],
        [
          1127522521,
          2816169897,
          1205023923,
        ],
        [
          3115825006,
          3096537531,
          1962738530,
        ],
      ]
    `);
  });

  it('is xorshift with the shifts 11, 8 and 19', () => {
    // The recurrence by itself, in exact arithmetic on whole numbers of 32 bits: each draw follows from the four before it.
    const mask = (1n << 32n) - 1n;
    const rng = new Rng(5);
    const drawn = Array.from({ length: 50 }, () => BigInt(rng.bits()));
    for (let i = 4; i < drawn.length; i++) {
      const [x, w] = [drawn[i - 4]!, drawn[i - 1]!];
      const t = (x ^ (x << 11n)) & mask;
      expect(drawn[i]).toBe(w ^ (w >> 19n) ^ t ^ (t >> 8n));
    }
  });

  it('draws nothing alike for neighbouring seeds, from the first draw on', () => {
    for (let draw = 0; draw < 3; draw++) {
      const counts = new Array<number>(10).fill(0);
      for (let seed = 0; seed < 5000; seed++) {
        const rng = new Rng(seed);
        for (let skip = 0; skip < draw; skip++) rng.bits();
        counts[rng.below(10)]!++;
      }
      // Five standard deviations of a binomial count around 500.
      for (const count of counts) expect(Math.abs(count - 500)).toBeLessThan(107);
    }
  });

  it('draws evenly below a number and within [0, 1)', () => {
    const rng = new Rng(3);
    const counts = [0, 0, 0, 0, 0];
    for (let i = 0; i < 10_000; i++) counts[rng.below(5)]!++;
    // Five standard deviations of a binomial count around 2,000.
    for (const count of counts) expect(Math.abs(count - 2000)).toBeLessThan(200);
    for (let i = 0; i < 1000; i++) {
      const real = rng.real();
      expect(real >= 0 && real < 1).toBe(true);
    }
  });

  it('shuffles a list in place without losing any of it', () => {
    const list = [1, 2, 3, 4, 5, 6, 7];
    const shuffled = new Rng(4).shuffle(list);
    expect(shuffled).toBe(list);
    expect([...shuffled].sort()).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(new Rng(4).shuffle([1, 2, 3, 4, 5, 6, 7])).toEqual(shuffled);
    expect(shuffled).not.toEqual([1, 2, 3, 4, 5, 6, 7]);
  });

  it('puts each of three things in each place about equally often', () => {
    const rng = new Rng(9);
    const counts = new Map<string, number>();
    for (let i = 0; i < 6000; i++) {
      const key = rng.shuffle(['a', 'b', 'c']).join('');
      counts.set(key, (counts.get(key) ?? 0) + 1);
    }
    expect(counts.size).toBe(6);
    for (const count of counts.values()) expect(Math.abs(count - 1000)).toBeLessThan(150);
  });
});
