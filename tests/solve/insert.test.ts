/** The insertion of a chain of activities against all ways to place it. */
import { describe, expect, it } from 'vitest';
import { costOf, totalOf } from '../../src/kernel/cost.js';
import { holds } from '../../src/kernel/holds.js';
import { type ActivityMode, type Model, stretchesOf } from '../../src/kernel/model.js';
import { Rng } from '../../src/kernel/rng.js';
import { State } from '../../src/kernel/state.js';
import { Inserter } from '../../src/solve/insert.js';
import type { InsertOptions } from '../../src/solve/path-windows.js';
import { earliestStarts, pathsOf } from '../../src/solve/paths.js';
import { Random } from '../support/random.js';
import { type RandomModelSize, randomModel } from './random-model.js';

interface Case {
  readonly seed: number;
  readonly model: Model;
  readonly inserter: Inserter;
  readonly options: InsertOptions;
  /** All but the last job placed. */
  readonly state: State;
  readonly job: number;
}

function caseOf(seed: number, size: RandomModelSize): Case | null {
  const model = randomModel(new Random(seed), size);
  const earliest = earliestStarts(model);
  if (earliest === null) return null;
  const state = new State(model);
  const inserter = new Inserter(model, pathsOf(model), earliest, state);
  const options = {
    lateness: size.horizon,
    reach: size.horizon,
    bias: null,
    noise: 0,
    target: 0,
    settings: 1000,
    rng: new Rng(seed),
  };
  const job = model.jobs.length - 1;
  for (let j = 0; j < job; j++) if (!inserter.insertJob(state, j, options)) return null;
  return { seed, model, inserter, options, state, job };
}

/** Every row of workers for the stretches of an activity, from those that are there and free. */
function handsAt(state: State, mode: ActivityMode, start: number, minutes: number): number[][] {
  const flat = stretchesOf(mode.attention, minutes);
  let rows: number[][] = [[]];
  for (let k = 0; k < flat.length; k += 2) {
    const [from, to] = [start + flat[k]!, start + flat[k]! + flat[k + 1]!];
    const free = state.busy.flatMap((line, w) =>
      (mode.able >> w) & 1 && !line.subarray(from, to).includes(1) ? [w] : [],
    );
    const crews = mode.attention.crew === 1 ? free.map((w) => [w]) : free.length >= 2 ? [free.slice(0, 2)] : [];
    rows = rows.flatMap((row) => crews.map((crew) => [...row, ...crew]));
  }
  return rows;
}

function unitsAt(state: State, mode: ActivityMode, start: number, minutes: number): number[][] {
  if (mode.unitCount === 0) return [[]];
  return mode.units
    .filter((unit) => !state.unitBusy[unit]!.subarray(start, start + minutes).includes(1))
    .map((unit) => [unit]);
}

/**
 * Least points over all ways to place a chain in a schedule that lacks nothing else; Infinity where there is none. `late`: its
 * group may land later than it does.
 */
function bruteForce(base: State, chain: readonly number[], late: boolean): number {
  const { model } = base;
  const { group } = model.jobs[model.activities[chain[0]!]!.job]!;
  const landing = base.landing(group);
  const state = base.copy();
  let least = Number.POSITIVE_INFINITY;
  const place = (i: number): void => {
    if (i === chain.length) {
      if (!late && state.landing(group) > landing) return;
      const points = totalOf(costOf(state));
      if (points < least && holds(state)) least = points;
      return;
    }
    const a = chain[i]!;
    const activity = model.activities[a]!;
    const lag = activity.ins.find(({ from }) => from === chain[i - 1]);
    const ready = lag === undefined ? 0 : state.end(lag.from);
    activity.modes.forEach((mode, m) => {
      mode.settings.forEach((setting, s) => {
        const lengths = mode.range === null ? [setting.minutes] : span(mode.range.low, mode.range.high);
        for (const minutes of lengths) {
          const last = Math.min(model.horizon - minutes, ready + (lag?.high ?? Number.POSITIVE_INFINITY));
          for (let start = ready + (lag?.low ?? 0); start <= last; start++) {
            for (const units of unitsAt(base, mode, start, minutes)) {
              for (const hands of handsAt(base, mode, start, minutes)) {
                state.place(a, { start, minutes, mode: m, setting: s }, hands, units);
                place(i + 1);
                state.unplace(a);
              }
            }
          }
        }
      });
    });
  };
  place(0);
  return least;
}

const span = (low: number, high: number): number[] => Array.from({ length: high - low + 1 }, (_, i) => low + i);

/** Checks so many cases, and returns in how many there was a way. */
function compare(
  cases: number,
  size: RandomModelSize,
  late: boolean,
  check: (found: Case, least: number) => void,
): number {
  let done = 0;
  let feasible = 0;
  for (let seed = 1; done < cases; seed++) {
    const made = caseOf(seed, size);
    if (made === null) continue;
    done++;
    const least = bruteForce(made.state, made.model.jobs[made.job]!.activities, late);
    if (least < Number.POSITIVE_INFINITY) feasible++;
    check(made, least);
  }
  return feasible;
}

describe('inserting a job', () => {
  /** With the landing where it is: a later one prolongs what other jobs hold, which no path can see. */
  const exact = (made: Case, least: number): void => {
    const { seed, model, inserter, state, job } = made;
    const options = { ...made.options, lateness: 0 };
    const [path] = pathsOf(model)[job]!;
    const before = totalOf(costOf(state));
    const plan = inserter.planPath(state, path!, options);
    if (least === Number.POSITIVE_INFINITY) {
      expect(plan, `seed ${seed}`).toBeNull();
      expect(inserter.insertJob(state, job, options)).toBe(false);
      expect(state.jobIsPlaced(job)).toBe(false);
      expect(totalOf(costOf(state))).toBe(before);
      return;
    }
    expect(plan?.points, `seed ${seed}`).toBeCloseTo(least - before, 9);
    expect(inserter.insertJob(state, job, options), `seed ${seed}`).toBe(true);
    expect(holds(state)).toBe(true);
    expect(totalOf(costOf(state)), `seed ${seed}`).toBeCloseTo(least, 9);
  };

  it('of one activity costs as little as can be', () => {
    expect(compare(400, { horizon: 32, chain: 1, entangled: false }, false, exact)).toBeGreaterThan(250);
  });

  it('of two activities costs as little as can be', () => {
    expect(compare(150, { horizon: 26, chain: 2, entangled: false }, false, exact)).toBeGreaterThan(80);
  });

  it('of two activities on one machine leaves time to change its state, and costs as little as can be', () => {
    const size = { horizon: 30, chain: 2, entangled: false, heated: true };
    expect(compare(150, size, false, exact)).toBeGreaterThan(60);
  });

  it('of three activities costs as little as can be', () => {
    expect(compare(30, { horizon: 20, chain: 3, entangled: false }, false, exact)).toBeGreaterThan(15);
  });

  it('keeps every rule where a path can get in its own way, and is seldom dearer than need be', () => {
    let found = 0;
    let cheapest = 0;
    const feasible = compare(150, { horizon: 24, chain: 2, entangled: true }, true, (made, least) => {
      const { inserter, options, state, job } = made;
      if (!inserter.insertJob(state, job, options)) return;
      found++;
      expect(holds(state)).toBe(true);
      const points = totalOf(costOf(state));
      expect(points).toBeGreaterThanOrEqual(least - 1e-9);
      if (points < least + 1e-9) cheapest++;
    });
    expect(found).toBeGreaterThanOrEqual(0.9 * feasible);
    expect(cheapest).toBeGreaterThanOrEqual(0.8 * feasible);
  });

  it('takes nothing that ends beyond the lateness or before the reach that it is given', () => {
    for (let seed = 1; seed <= 150; seed++) {
      const made = caseOf(seed, { horizon: 32, chain: 2, entangled: false });
      if (made === null) continue;
      const { model, inserter, state, job } = made;
      const landing = state.landing(model.jobs[job]!.group);
      if (!inserter.insertJob(state, job, { ...made.options, lateness: 2, reach: 5 })) continue;
      const end = Math.max(...model.jobs[job]!.activities.map((a) => state.end(a)));
      expect(end).toBeLessThanOrEqual(landing + 2);
      expect(end).toBeGreaterThanOrEqual(landing - 5 - model.activities.at(-1)!.longest);
    }
  });
});
