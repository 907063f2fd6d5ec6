import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { busyStretches, mainStretch } from '../../src/chart/busy.js';
import { wallMinute } from '../../src/chart/clock.js';
import { columnOf, evenScale, FOLD, foldedScale, foldsOf, minuteOf } from '../../src/chart/scale.js';
import { viewOf } from '../../src/chart/view.js';
import { clockAt } from '../../src/problem/hours.js';
import { orchardSupper } from '../support/sample-plan.js';

const { problem, plan } = orchardSupper();
const view = viewOf(problem, plan);
const minutes = fc.integer({ min: 10, max: 900 });

describe('evenScale', () => {
  it('shows the stretch, with ticks at even columns whose labels cannot touch', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -3000, max: 3000 }),
        fc.integer({ min: 5, max: 4000 }),
        fc.integer({ min: 30, max: 240 }),
        (from, span, columns) => {
          const scale = evenScale(problem, { from, to: from + span }, columns);
          expect(scale.pieces[0]!.from).toBeLessThanOrEqual(from);
          expect(scale.pieces[0]!.to).toBeGreaterThanOrEqual(from + span);
          const gaps = scale.ticks.slice(1).map((tick, index) => tick.column - scale.ticks[index]!.column);
          for (const gap of gaps) expect(gap).toBe(gaps[0]);
          for (const gap of gaps) expect(gap).toBeGreaterThanOrEqual(7);
          for (const tick of scale.ticks) expect(wallMinute(problem, tick.minute) % scale.tick).toBe(0);
        },
      ),
      { seed: 21, numRuns: 300 },
    );
  });

  it('puts a minute on the column that begins with it', () => {
    const scale = evenScale(problem, { from: 300, to: 460 }, 100);
    for (const tick of scale.ticks) {
      expect(columnOf(scale, tick.minute)).toBe(tick.column);
      expect(minuteOf(scale, tick.column)).toBeCloseTo(tick.minute, 6);
    }
  });

  it('keeps ticks on whole hours of the wall clock over a change of the clocks', () => {
    const autumn = { ...problem, origin: Date.parse('2026-10-24T20:00:00+01:00') };
    const scale = evenScale(autumn, { from: 0, to: 600 }, 90);
    const labels = scale.ticks.map((tick) => clockAt(autumn, tick.minute));
    expect(labels.filter((label) => label === '01:00')).toHaveLength(2);
    expect(labels.every((label) => label.endsWith(':00'))).toBe(true);
  });
});

describe('foldedScale', () => {
  it('folds the empty afternoon away', () => {
    const stretches = busyStretches(view);
    expect(stretches).toEqual([
      { from: 65, to: 76 },
      { from: 257, to: 455 },
    ]);
    const scale = foldedScale(problem, stretches, 67);
    const [fold] = foldsOf(scale);
    expect(scale.pieces).toHaveLength(2);
    expect(columnOf(scale, 150)).toBe(fold);
    expect(scale.pieces[1]!.column).toBe(fold! + FOLD);
    expect(scale.pieces[1]!.column + scale.pieces[1]!.columns).toBe(67);
  });

  it('needs no fold where the pieces would touch', () => {
    const close = [
      { from: 0, to: 10 },
      { from: 105, to: 3000 },
    ];
    expect(foldedScale(problem, close, 40).pieces).toHaveLength(1);
  });

  it('gives columns that never fall as minutes rise', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(minutes, minutes), { minLength: 1, maxLength: 5 }), (pairs) => {
        let end = 0;
        const stretches = pairs.map(([empty, busy]) => {
          const from = end + empty;
          end = from + busy;
          return { from, to: end };
        });
        const scale = foldedScale(problem, stretches, 90);
        let last = Number.NEGATIVE_INFINITY;
        for (let minute = stretches[0]!.from; minute <= end; minute += 7) {
          const column = columnOf(scale, minute);
          expect(column).toBeGreaterThanOrEqual(last);
          last = column;
        }
        expect(last).toBeLessThan(90);
      }),
      { seed: 22, numRuns: 200 },
    );
  });
});

it('first shows the busy hours in which the course lands', () => {
  expect(mainStretch(view)).toEqual({ from: 257, to: 455 });
});
