import { describe, expect, it } from 'vitest';
import { clashesOf } from '../../../src/solve/exact/clashes.js';

/** Kinds of some size each, which fit where their sizes sum to no more than `room`. */
const bySize =
  (sizes: readonly number[], room: number) =>
  (amounts: readonly number[]): boolean =>
    amounts.reduce((sum, n, k) => sum + n * sizes[k]!, 0) <= room;

const one = (load: number, count = 1) => ({ load, count });

describe('clashesOf', () => {
  it('caps like things at the number that fits in', () => {
    const { caps, sets } = clashesOf([one(0)], [5], bySize([3], 10));
    expect(caps).toEqual([{ kinds: new Set([0]), most: 3 }]);
    expect(sets).toEqual([]);
  });

  it('tells apart what a cap cannot say', () => {
    // Two large, or a large and three small; four small are no clash.
    const { caps, sets } = clashesOf([one(0), one(1)], [2, 4], bySize([6, 2], 11));
    expect(caps).toEqual([
      { kinds: new Set([0]), most: 1 },
      { kinds: new Set([0, 1]), most: 4 },
    ]);
    expect(sets).toEqual([[1, 3]]);
  });

  it('keeps out what does not fit in alone', () => {
    const { caps, sets } = clashesOf([one(0, 2), one(1)], [1, 2], bySize([20, 5], 10));
    expect(caps).toEqual([]);
    expect(sets).toEqual([[1, 0]]);
  });

  it('says nothing where all fits in', () => {
    expect(clashesOf([one(0), one(1)], [2, 2], () => true)).toEqual({ caps: [], sets: [] });
  });

  it('lets in exactly what fits, for all sizes and rooms', () => {
    for (let room = 1; room <= 12; room++) {
      for (const sizes of [
        [1, 2, 3],
        [2, 5, 5],
        [4, 4, 7],
      ]) {
        const available = [3, 2, 2];
        const fits = bySize(sizes, room);
        const { caps, sets } = clashesOf(
          sizes.map((_, k) => one(k)),
          available,
          fits,
        );
        for (let a = 0; a <= 3; a++) {
          for (let b = 0; b <= 2; b++) {
            for (let c = 0; c <= 2; c++) {
              const amounts = [a, b, c];
              const capped = caps.some(({ kinds, most }) => [...kinds].reduce((sum, k) => sum + amounts[k]!, 0) > most);
              const clashing = sets.some((set) => set.every((n, k) => n <= amounts[k]!));
              expect(!capped && !clashing).toBe(fits(amounts));
            }
          }
        }
      }
    }
  });
});
