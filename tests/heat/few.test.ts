import { describe, expect, it } from 'vitest';
import { fromFew } from '../../src/heat/few.js';

const places = Array.from({ length: 25 }, (_, i) => 100 + 6 * i);

function few(value: (x: number) => number | null, nearness = 1e-6) {
  const found: number[] = [];
  const rows = fromFew(places, {
    find: (at) => {
      found.push(at);
      const one = value(places[at]!);
      return one === null ? null : [one];
    },
    off: ([one], [expected]) => Math.abs(one! - expected!) / nearness,
  });
  return { rows, found };
}

describe('values from few', () => {
  it('are those of a polynomial, found in as few places as it needs and two to be sure', () => {
    const cubic = (x: number): number => 1 + x - 0.02 * x * x + 1e-4 * x ** 3;
    const { rows, found } = few(cubic);
    expect(found).toHaveLength(6);
    for (const [i, row] of rows.entries()) expect(row![0]).toBeCloseTo(cubic(places[i]!), 6);
  });

  it('are near those of a smooth function, and each place is asked at most once', () => {
    const smooth = (x: number): number => 1 / (x - 60);
    const { rows, found } = few(smooth, 1e-5);
    expect(found.length).toBeLessThan(12);
    expect(new Set(found).size).toBe(found.length);
    for (const [i, row] of rows.entries()) expect(Math.abs(row![0]! - smooth(places[i]!))).toBeLessThan(5e-5);
  });

  it('begin where there is something', () => {
    const { rows } = few((x) => (x < 131 ? null : Math.sqrt(x - 120)), 1e-3);
    expect(rows.map((row) => row === null)).toEqual(places.map((x) => x < 131));
    for (const [i, row] of rows.entries()) if (row !== null) expect(row[0]).toBeCloseTo(Math.sqrt(places[i]! - 120), 2);
  });

  it('are nothing where there is nothing, and one is asked for itself', () => {
    expect(few(() => null).rows.every((row) => row === null)).toBe(true);
    expect(fromFew([], { find: () => [1], off: () => 0 })).toEqual([]);
    expect(fromFew([5], { find: () => [1], off: () => 0 })).toEqual([[1]]);
  });

  it('tell what is expected by then', () => {
    const expected: (number | null)[] = [];
    fromFew(
      [0, 10, 5, 2.5].sort((a, b) => a - b),
      {
        find: (at, before) => {
          expected.push(before === null ? null : before[0]!);
          return [3 * at];
        },
        off: () => 2,
      },
    );
    expect(expected[0]).toBeNull();
    expect(expected).toHaveLength(4);
  });
});
