import { describe, expect, it } from 'vitest';
import { costOf, totalOf } from '../../src/kernel/cost.js';
import type { Model } from '../../src/kernel/model.js';
import { lowerBound } from '../../src/solve/bound.js';
import { earliestStarts, pathsOf } from '../../src/solve/paths.js';
import { AS_IT_IS, search } from '../../src/solve/search.js';
import { type JobSpec, machineOf, modelOf } from '../kernel/model-builder.js';
import { Random } from '../support/random.js';
import { randomModel } from './random-model.js';

const boundOf = (model: Model) => lowerBound(model, pathsOf(model), earliestStarts(model)!);

const on = (states: readonly number[], minutes = 10, costs: readonly number[] = []): JobSpec => ({
  activities: [
    { modes: [{ machine: 0, settings: states.map((state, i) => ({ state, minutes, cost: costs[i] ?? 0 })) }] },
  ],
});

describe('the lower bound', () => {
  it('has what a job costs by itself', () => {
    const machines = [machineOf({ levels: [[10, 20]] })];
    expect(boundOf(modelOf({ machines, jobs: [on([0, 1], 10, [1.5, 2])] })).points).toBeCloseTo(1.5, 4);
    const apart = modelOf({ jobs: [{ activities: [{}, {}] }], lags: [{ from: 0, to: 1, low: 3, rate: 9 }] });
    expect(boundOf(apart).points).toBe(0);
  });

  it('has the length of day of the longest chain, its changeover included', () => {
    const machines = [machineOf({ levels: [[12]] })];
    expect(boundOf(modelOf({ machines, jobs: [on([0])], rates: { day: 0.5 } })).points).toBeCloseTo(0.5 * 22, 4);
  });

  it('has the lateness of a chain that is longer than the time', () => {
    const model = modelOf({
      jobs: [{ activities: [{}, { modes: [{ minutes: 55 }] }] }],
      lags: [{ from: 0, to: 1 }],
    });
    expect(boundOf(model).points).toBeCloseTo(60 * 5, 4);
  });

  it('has the fewest runs in which all levels can be', () => {
    const machines = [machineOf({ levels: [[1, 2, 3, 4]] })];
    const runs = (...ranges: number[][]) =>
      boundOf(modelOf({ machines, jobs: ranges.map((range) => ({ ...on(range, 2), rate: 1 })) })).points;
    expect(runs([0, 1], [1, 2], [1, 2, 3])).toBe(0);
    expect(runs([0, 1], [2, 3], [1, 2])).toBeCloseTo(5, 4);
    expect(runs([0], [1], [2], [3])).toBeCloseTo(15, 4);
  });

  it('names the jobs that cannot be done even alone', () => {
    const workers = [{ stays: [{ from: 0, to: 5 }] }];
    const attended = { activities: [{ modes: [{ minutes: 8, attention: { all: true } }] }] };
    const bound = boundOf(modelOf({ workers, jobs: [{ activities: [{}] }, attended] }));
    expect(bound).toEqual({ points: Number.POSITIVE_INFINITY, hopeless: [1] });
  });

  it('is below every schedule that is found', () => {
    let schedules = 0;
    for (let seed = 1; seed <= 250; seed++) {
      const model = randomModel(new Random(seed), { horizon: 40, chain: 1 + (seed % 3), entangled: seed % 2 === 0 });
      const earliest = earliestStarts(model);
      if (earliest === null) continue;
      const paths = pathsOf(model);
      const { points } = lowerBound(model, paths, earliest);
      const found = search(model, {
        seed,
        work: 20_000,
        earliest,
        paths,
        polish: (state) => state,
        reorder: AS_IT_IS,
        bound: 0,
      });
      if (found.unplaced.length > 0) continue;
      schedules++;
      expect(totalOf(costOf(found.state)), `seed ${seed}`).toBeGreaterThanOrEqual(points);
    }
    expect(schedules).toBeGreaterThan(120);
  });
});
