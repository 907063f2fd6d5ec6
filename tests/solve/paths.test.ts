import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { earliestStarts, pathsOf } from '../../src/solve/paths.js';
import { machineOf, modelOf } from '../kernel/model-builder.js';

const plain = (minutes: number) => ({ modes: [{ minutes }] });

describe('pathsOf', () => {
  it('is one path for a chain, in the order of time', () => {
    const model = modelOf({
      jobs: [{ activities: [plain(1), plain(1), plain(1)] }],
      lags: [
        { from: 2, to: 0 },
        { from: 0, to: 1 },
      ],
    });
    expect(pathsOf(model)).toEqual([[[2, 0, 1]]]);
  });

  it('takes the longest path first, then what is left', () => {
    const model = modelOf({
      jobs: [{ activities: [plain(2), plain(9), plain(3), plain(1)] }],
      lags: [
        { from: 0, to: 1 },
        { from: 0, to: 2 },
        { from: 1, to: 3 },
        { from: 2, to: 3 },
      ],
    });
    expect(pathsOf(model)).toEqual([[[0, 1, 3], [2]]]);
  });

  it('takes each job by itself, whatever lags lead to others', () => {
    const model = modelOf({
      jobs: [{ activities: [plain(1)] }, { activities: [plain(1)] }],
      lags: [{ from: 0, to: 1 }],
    });
    expect(pathsOf(model)).toEqual([[[0]], [[1]]]);
  });

  it('has every activity once, and neighbours that are tied', () => {
    const graphs = fc.array(fc.tuple(fc.nat(7), fc.nat(7)), { maxLength: 14 });
    fc.assert(
      fc.property(
        graphs,
        fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 8, maxLength: 8 }),
        (pairs, minutes) => {
          const ties = new Map(pairs.filter(([a, b]) => a < b).map(([a, b]) => [`${a} ${b}`, { from: a, to: b }]));
          const model = modelOf({ jobs: [{ activities: minutes.map(plain) }], lags: [...ties.values()] });
          const paths = pathsOf(model)[0]!;
          expect(paths.flat().sort()).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
          for (const path of paths) {
            path.slice(1).forEach((b, i) => {
              expect(ties.has(`${path[i]} ${b}`)).toBe(true);
            });
          }
        },
      ),
      { seed: 1, numRuns: 200 },
    );
  });
});

describe('earliestStarts', () => {
  const starts = (...args: Parameters<typeof modelOf>): number[] | null => {
    const found = earliestStarts(modelOf(...args));
    return found && [...found];
  };

  it('follows the shortest ways through minimum lags', () => {
    const spec = {
      jobs: [{ activities: [{ modes: [{ minutes: 8 }, { minutes: 5 }] }, plain(2), plain(1)] }],
      lags: [
        { from: 0, to: 1, low: 3 },
        { from: 1, to: 2 },
      ],
    };
    expect(starts(spec)).toEqual([0, 8, 10]);
  });

  it('waits until the machine can be in some state', () => {
    const on = (states: number[]) => ({
      modes: [{ machine: 0, settings: states.map((state) => ({ state, minutes: 4, cost: 0 })) }],
    });
    const machines = [machineOf({ levels: [[12, 20]] })];
    expect(starts({ machines, jobs: [{ activities: [on([0, 1]), on([1])] }] })).toEqual([12, 20]);
    const either = { modes: [...on([1]).modes, { minutes: 3 }] };
    expect(starts({ machines, jobs: [{ activities: [either] }] })).toEqual([0]);
  });

  it('is held back by a maximum lag to something that cannot be early', () => {
    const spec = {
      jobs: [
        {
          activities: [
            { modes: [{ range: { low: 2, high: 6, bestLow: 2, bestHigh: 6, rate: 0 } }] },
            plain(20),
            plain(1),
          ],
        },
      ],
      lags: [
        { from: 0, to: 2, high: 4 },
        { from: 1, to: 2 },
      ],
    };
    // The last starts at 20; the first, of 6 minutes at most, ends 4 before it or later.
    expect(starts(spec)).toEqual([10, 0, 20]);
  });

  it('is null where lags contradict each other or lead beyond the horizon', () => {
    const jobs = [{ activities: [plain(5), plain(5)] }];
    const circle = [
      { from: 0, to: 1, low: 1 },
      { from: 1, to: 0, low: 1 },
    ];
    expect(starts({ jobs, lags: circle })).toBeNull();
    expect(starts({ jobs, horizon: 11, groups: [11], lags: [{ from: 0, to: 1, low: 1 }] })).toEqual([0, 6]);
    expect(starts({ jobs, horizon: 10, groups: [10], lags: [{ from: 0, to: 1, low: 1 }] })).toBeNull();
  });

  it('is the least solution of its rows, or none', () => {
    const lag = fc.record({ from: fc.nat(3), to: fc.nat(3), low: fc.nat(6), width: fc.option(fc.nat(5), { nil: 99 }) });
    const specs = fc.record({
      minutes: fc.array(fc.integer({ min: 1, max: 6 }), { minLength: 4, maxLength: 4 }),
      lags: fc.array(lag, { maxLength: 6 }),
    });
    fc.assert(
      fc.property(specs, ({ minutes, lags }) => {
        const horizon = 24;
        const model = modelOf({
          horizon,
          groups: [horizon],
          jobs: [{ activities: minutes.map(plain) }],
          lags: lags.filter(({ from, to }) => from < to).map((l) => ({ ...l, high: l.low + l.width })),
        });
        const est = earliestStarts(model);
        const least = bruteForce(model.lags, minutes, horizon);
        expect(est && [...est]).toEqual(least);
      }),
      { seed: 1, numRuns: 60 },
    );
  });
});

/** For each activity its least start over all schedules that keep the lags; null where there is no schedule. */
function bruteForce(
  lags: readonly { from: number; to: number; low: number; high: number }[],
  minutes: readonly number[],
  horizon: number,
): number[] | null {
  const least = minutes.map(() => Number.POSITIVE_INFINITY);
  const start: number[] = [];
  const assign = (a: number): void => {
    if (a === minutes.length) {
      start.forEach((at, i) => {
        least[i] = Math.min(least[i]!, at);
      });
      return;
    }
    for (let at = 0; at + minutes[a]! <= horizon; at++) {
      start[a] = at;
      const fine = lags.every(({ from, to, low, high }) => {
        if (Math.max(from, to) !== a) return true;
        const gap = start[to]! - start[from]! - minutes[from]!;
        return low <= gap && gap <= high;
      });
      if (fine) assign(a + 1);
    }
    start.length = a;
  };
  assign(0);
  return least.every((at) => at < Number.POSITIVE_INFINITY) ? least : null;
}
