/** Tables of minutes by temperature. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Column, columnsOf } from '../../src/heat/columns.js';

const at = (celsius: number, columns: readonly Column[]): number => {
  const right = columns.findIndex((column) => column.celsius >= celsius);
  const [a, b] = [columns[Math.max(0, right - 1)]!, columns[right]!];
  return a === b ? b.minutes : a.minutes + ((celsius - a.celsius) / (b.celsius - a.celsius)) * (b.minutes - a.minutes);
};

/** Minutes as they fall with heat: those of a body that warms towards its surroundings. */
const falling = fc
  .record({
    long: fc.double({ min: 3, max: 200, noNaN: true }),
    from: fc.integer({ min: 16, max: 30 }),
    count: fc.integer({ min: 1, max: 25 }),
  })
  .map(({ long, from, count }) =>
    Array.from({ length: count }, (_, k): Column => {
      const celsius = 5 * (from + k);
      return { celsius, minutes: long * Math.log((celsius - 5) / (celsius - 60)) };
    }),
  );

describe('a table', () => {
  it('is of whole minutes, falling and convex, with both ends, near to what it comes from', () => {
    fc.assert(
      fc.property(falling, (points) => {
        const columns = columnsOf(points);
        expect(columns[0]!.celsius).toBe(points[0]!.celsius);
        expect(columns.at(-1)!.celsius).toBe(points.at(-1)!.celsius);
        for (const [k, column] of columns.entries()) {
          expect(Number.isInteger(column.minutes) && column.minutes >= 1).toBe(true);
          const [before, after] = [columns[k - 1], columns[k + 1]];
          if (before) expect(column.minutes).toBeLessThanOrEqual(before.minutes);
          if (before && after) {
            const chord = at(column.celsius, [before, after]);
            expect(column.minutes).toBeLessThan(chord + 1e-9);
          }
        }
        for (const { celsius, minutes } of points) {
          const apart = at(celsius, columns) - Math.max(1, minutes);
          expect(apart).toBeGreaterThanOrEqual(-0.5 - 1e-9);
          expect(apart).toBeLessThanOrEqual(1.5 + 1e-9);
        }
      }),
      { seed: 20261003, numRuns: 300 },
    );
  });

  it('keeps no column that a straight line has as well', () => {
    const points = [150, 155, 160, 165, 170].map((celsius) => ({ celsius, minutes: 100 - (celsius - 150) }));
    expect(columnsOf(points)).toEqual([
      { celsius: 150, minutes: 100 },
      { celsius: 170, minutes: 80 },
    ]);
  });

  it('does not rise where the minutes waver, and never says no time at all', () => {
    const points = [
      { celsius: 200, minutes: 3.4 },
      { celsius: 210, minutes: 3.6 },
      { celsius: 220, minutes: 0.2 },
    ];
    const columns = columnsOf(points);
    expect(columns.map(({ minutes }) => minutes)).toEqual([3, 1]);
  });
});
