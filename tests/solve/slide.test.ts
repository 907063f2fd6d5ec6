import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { slideMinimum, type Window } from '../../src/solve/slide.js';

const FOREVER = Number.POSITIVE_INFINITY;

/** What is asked, minute by minute: the least value for each place, and all minutes at which it is reached. */
function bruteForce(source: readonly number[], from: number, to: number, window: Window, e: number) {
  const { low, high, cap, tail, rate, base } = window;
  let least = FOREVER;
  let at: number[] = [];
  for (let t = from; t <= to; t++) {
    if (t < e + low || t > e + high || (cap !== null && t > cap[e]! - tail)) continue;
    const value = source[t]! + base + rate * (t - e - low);
    if (value < least) at = [];
    if (value <= least && value < FOREVER) at.push(t);
    least = Math.min(least, value);
  }
  return { least, at };
}

const LENGTH = 30;
const values = fc.array(
  fc.oneof({ weight: 4, arbitrary: fc.integer({ min: -20, max: 20 }) }, { weight: 1, arbitrary: fc.constant(FOREVER) }),
  { minLength: LENGTH, maxLength: LENGTH },
);
const cases = fc.record({
  source: values,
  range: fc.tuple(fc.nat(LENGTH - 1), fc.nat(LENGTH - 1)),
  places: fc.tuple(fc.nat(LENGTH - 1), fc.nat(LENGTH - 1)),
  low: fc.integer({ min: -3, max: 8 }),
  width: fc.option(fc.nat(12), { nil: FOREVER }),
  cap: fc.option(fc.array(fc.nat(LENGTH + 5), { minLength: LENGTH, maxLength: LENGTH }), { nil: null }),
  tail: fc.nat(4),
  // Multiples of a quarter, so that sums in another order are the same.
  rate: fc.integer({ min: -8, max: 8 }).map((quarters) => quarters / 4),
  base: fc.integer({ min: -5, max: 5 }),
  before: values,
});

describe('slideMinimum', () => {
  it('is the least over each window, as brute force finds it', () => {
    fc.assert(
      fc.property(cases, ({ source, range, places, low, width, cap, tail, rate, base, before }) => {
        const [from, to] = [Math.min(...range), Math.max(...range)];
        const [eLow, eHigh] = [Math.min(...places), Math.max(...places)];
        const rising = cap === null ? null : Int32Array.from([...cap].sort((a, b) => a - b));
        const window = { low, high: low + width, cap: rising, tail, rate, base };
        const out = Float64Array.from(before);
        const arg = new Int32Array(LENGTH).fill(-1);
        const tag = new Int16Array(LENGTH).fill(-1);
        const space = { deque: new Int32Array(LENGTH + 2) };
        slideMinimum(space, Float64Array.from(source), from, to, window, eLow, eHigh, out, arg, tag, 7);
        for (let e = 0; e < LENGTH; e++) {
          const { least, at } = bruteForce(source, from, to, window, e);
          const better = e >= eLow && e <= eHigh && least < before[e]!;
          expect(out[e]).toBe(better ? least : before[e]);
          expect(tag[e]).toBe(better ? 7 : -1);
          if (better) expect(at).toContain(arg[e]);
          else expect(arg[e]).toBe(-1);
        }
      }),
      { seed: 1, numRuns: 1500 },
    );
  });
});
