/** Integrals of lethality and minutes between temperatures, against sums of many small steps and by their properties. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Curve, curveUntil, type DishCurve, minutesBetween, peakOf } from '../../src/safety/curve.js';
import { holdAt, lethalityOf } from '../../src/safety/lethality.js';
import { CHICKEN, GROUND_MEAT, MEAT, TURKEY } from '../../src/safety/lethality-tables.js';

const curves = (low: number, high: number): fc.Arbitrary<{ minutes: number[]; celsius: number[] }> =>
  fc
    .array(
      fc.record({ gap: fc.integer({ min: 0, max: 40 }), celsius: fc.double({ min: low, max: high, noNaN: true }) }),
      {
        minLength: 1,
        maxLength: 8,
      },
    )
    .map((points) => {
      let minute = 0;
      return {
        minutes: points.map(({ gap }) => {
          minute += gap;
          return minute;
        }),
        celsius: points.map((point) => point.celsius),
      };
    });
const tables = fc.constantFrom(MEAT, GROUND_MEAT, CHICKEN, TURKEY);

/** The temperature of a curve at a minute. */
function at({ minutes, celsius }: Curve, minute: number): number {
  let k = 1;
  while (k < minutes.length - 1 && minutes[k]! < minute) k++;
  if (minutes.length === 1 || minute <= minutes[0]!) return celsius[0]!;
  const share = (minute - minutes[k - 1]!) / (minutes[k]! - minutes[k - 1]! || 1);
  return celsius[k - 1]! + Math.min(1, share) * (celsius[k]! - celsius[k - 1]!);
}

const SMALL = 4000;
/** A sum over the middles of many small steps. */
function summed(curve: Curve, rate: (celsius: number) => number): number {
  let sum = 0;
  for (let k = 1; k < curve.minutes.length; k++) {
    const [from, to] = [curve.minutes[k - 1]!, curve.minutes[k]!];
    const [first, last] = [curve.celsius[k - 1]!, curve.celsius[k]!];
    for (let step = 0; step < SMALL; step++)
      sum += (rate(first + ((step + 0.5) / SMALL) * (last - first)) * (to - from)) / SMALL;
  }
  return sum;
}

describe('lethality along a curve', () => {
  it('is the sum over many small steps', () => {
    fc.assert(
      fc.property(curves(45, 69.9), tables, (curve, table) => {
        const { share } = lethalityOf(curve, table);
        const expected = summed(curve, (celsius) => 1 / holdAt(table, celsius));
        // A step of the sum may straddle the lowest row, where the rate jumps.
        expect(Math.abs(share - expected)).toBeLessThan(0.02 + 2e-3 * expected);
      }),
      { seed: 11, numRuns: 60 },
    );
  });

  it('is reached when the curve until then has just enough', () => {
    fc.assert(
      fc.property(curves(52, 76), tables, (curve, table) => {
        const { reached, share } = lethalityOf(curve, table);
        expect(reached !== null).toBe(share >= 1 - 1e-9);
        if (reached === null) return;
        expect(lethalityOf(curveUntil(curve, reached + 1e-6)!, table).share).toBeGreaterThan(1 - 1e-6);
        if (reached > curve.minutes[0]! + 0.01)
          expect(lethalityOf(curveUntil(curve, reached - 0.01)!, table).reached).toBeNull();
      }),
      { seed: 12, numRuns: 200 },
    );
  });

  it('never falls with time or with heat, and does not mind more points on the same lines', () => {
    fc.assert(
      fc.property(curves(50, 76), tables, fc.double({ min: 0, max: 5, noNaN: true }), (curve, table, more) => {
        const { share } = lethalityOf(curve, table);
        const hotter = { ...curve, celsius: curve.celsius.map((celsius) => celsius + more) };
        expect(lethalityOf(hotter, table).share).toBeGreaterThanOrEqual(share * (1 - 1e-9));
        const end = curve.minutes.at(-1)!;
        const halved = [
          ...curve.minutes.slice(1).map((minute, k) => (minute + curve.minutes[k]!) / 2),
          ...curve.minutes,
        ];
        const minutes = halved.sort((a, b) => a - b);
        const distinct = minutes.filter((minute, k) => k === 0 || minute > minutes[k - 1]!);
        if (new Set(curve.minutes).size === curve.minutes.length) {
          const finer = { minutes: distinct, celsius: distinct.map((minute) => at(curve, minute)) };
          expect(lethalityOf(finer, table).share).toBeCloseTo(share, 6);
        }
        const half = curveUntil(curve, (curve.minutes[0]! + end) / 2)!;
        expect(lethalityOf(half, table).share).toBeLessThanOrEqual(share + 1e-9);
      }),
      { seed: 13, numRuns: 200 },
    );
  });

  it('is reached the moment a temperature that does it at once is touched', () => {
    const touch = { minutes: [0, 10, 20], celsius: [20, 74, 20] };
    const { reached, share } = lethalityOf(touch, CHICKEN);
    expect(reached).toBeLessThanOrEqual(10);
    expect(share).toBeGreaterThanOrEqual(1);
    expect(lethalityOf({ minutes: [3], celsius: [74] }, CHICKEN)).toMatchObject({ reached: 3, share: 1, logs: 7 });
    expect(lethalityOf({ minutes: [3], celsius: [73] }, CHICKEN)).toMatchObject({ reached: null, share: 0 });
  });

  it('counts the rest after the heat, and nothing below the lowest row', () => {
    const pulled = { minutes: [0, 60], celsius: [5, 58] };
    const rested = { minutes: [0, 60, 75, 95], celsius: [5, 58, 62, 59] };
    expect(lethalityOf(pulled, MEAT).reached).toBeNull();
    expect(lethalityOf(rested, MEAT).reached).toBeGreaterThan(70);
    expect(lethalityOf({ minutes: [0, 10_000], celsius: [54.4, 54.4] }, MEAT).logs).toBe(0);
  });

  it('is told as minutes at any temperature that the table has', () => {
    const curve = { minutes: [0, 12], celsius: [60, 60] };
    expect(lethalityOf(curve, MEAT).equivalent).toEqual({ celsius: 60, minutes: 12 });
    expect(lethalityOf(curve, MEAT, 65).equivalent.minutes).toBeCloseTo(85 / 60, 6);
    expect(() => lethalityOf(curve, MEAT, 50)).toThrow(/no time at 50 °C/);
    expect(() => lethalityOf(curve, MEAT, 70)).toThrow(RangeError);
  });
});

describe('a curve', () => {
  it('that is none is refused, so that nothing is judged by it', () => {
    for (const wrong of [
      { minutes: [], celsius: [] },
      { minutes: [0, 1], celsius: [60] },
      { minutes: [0, 1], celsius: [60, Number.NaN] },
      { minutes: [0, Number.POSITIVE_INFINITY], celsius: [60, 60] },
      { minutes: [1, 0], celsius: [60, 60] },
      { minutes: [0], celsius: [60], surface: [] },
    ])
      expect(() => lethalityOf(wrong, MEAT)).toThrow(RangeError);
  });

  it('knows its minutes between two temperatures, which are outside themselves', () => {
    const curve = { minutes: [0, 10, 20, 30, 50], celsius: [0, 40, 60, 60, 20] };
    // 4 °C at minute 1; 60 °C from 20 to 30.
    expect(minutesBetween(curve, 4, 60)).toBeCloseTo(19 + 20, 9);
    expect(minutesBetween(curve, 5, 57)).toBeCloseTo(8.75 + 8.5 + 18.5, 9);
    fc.assert(
      fc.property(curves(0, 80), (any) => {
        const inside = summed(any, (celsius) => (celsius > 4 && celsius < 60 ? 1 : 0));
        expect(Math.abs(minutesBetween(any, 4, 60) - inside)).toBeLessThan(0.2);
      }),
      { seed: 14, numRuns: 60 },
    );
  });

  it('is cut at a minute, and keeps its surface', () => {
    const curve: DishCurve = { minutes: [0, 10, 20], celsius: [0, 50, 60], surface: [20, 80, 40] };
    expect(curveUntil(curve, 15)).toEqual({ minutes: [0, 10, 15], celsius: [0, 50, 55], surface: [20, 80, 60] });
    expect(curveUntil(curve, 20)).toBe(curve);
    expect(curveUntil(curve, 0)).toMatchObject({ minutes: [0, 0], celsius: [0, 0] });
    expect(curveUntil(curve, -5)).toBeNull();
    expect(peakOf(curve)).toBe(60);
  });
});
