import { describe, expect, it } from 'vitest';
import type { Model } from '../../src/kernel/model.js';
import { Rng } from '../../src/kernel/rng.js';
import { State } from '../../src/kernel/state.js';
import { anyJobs, dearest, nearInTime, runTogether, sameNeeds, withTied } from '../../src/solve/destroy.js';
import { Inserter } from '../../src/solve/insert.js';
import { earliestStarts, pathsOf } from '../../src/solve/paths.js';
import { machineOf, modelOf, stateOf } from '../kernel/model-builder.js';
import { Random } from '../support/random.js';
import { randomModel } from './random-model.js';

/** A schedule of a random model, some of whose jobs may have no place. */
function scheduleOf(seed: number): { model: Model; state: State } | null {
  const model = randomModel(new Random(seed), { horizon: 60, chain: 2, entangled: true });
  const earliest = earliestStarts(model);
  if (earliest === null) return null;
  const state = new State(model);
  const inserter = new Inserter(model, pathsOf(model), earliest, state);
  const options = { lateness: 60, reach: 60, bias: null, noise: 0, target: 0, settings: 5, rng: new Rng(seed) };
  for (const { id } of model.jobs) inserter.insertJob(state, id, options);
  return { model, state };
}

describe('every neighbourhood', () => {
  it.each(Object.entries({ anyJobs, nearInTime, runTogether, dearest, sameNeeds }))(
    '%s takes out some jobs, each once, and changes nothing',
    (_, destroy) => {
      const sizes = new Set<number>();
      for (let seed = 1; seed <= 60; seed++) {
        const made = scheduleOf(seed);
        if (made === null) continue;
        const before = made.state.start.slice();
        const { jobs, bias } = destroy(made.state, 1 + (seed % 3), new Rng(seed));
        expect(new Set(jobs).size).toBe(jobs.length);
        expect(jobs.length).toBeGreaterThan(0);
        for (const job of jobs) expect(made.model.jobs[job]?.id).toBe(job);
        if (bias !== null) {
          const { states } = made.model.machines[bias.machine]!;
          bias.wanted.forEach((state, program) => {
            if (state >= 0) expect(states[state]!.program).toBe(program);
          });
        }
        expect(made.state.start).toEqual(before);
        sizes.add(jobs.length);
      }
      expect(sizes.size).toBeGreaterThan(1);
    },
  );
});

describe('runTogether', () => {
  it('takes all that is in some neighbouring runs', () => {
    const on = (state: number) => ({
      activities: [{ modes: [{ machine: 0, settings: [{ state, minutes: 10, cost: 0 }] }] }],
    });
    const model = modelOf({
      machines: [machineOf({ levels: [[5, 10]] })],
      jobs: [on(0), on(0), on(1), { activities: [{}] }],
    });
    const state = stateOf(model, [10, 12, 40, 0]);
    const seen = new Set<string>();
    const rng = new Rng(1);
    for (let k = 0; k < 100; k++) {
      seen.add([...runTogether(state, 9, rng).jobs].sort((a, b) => a - b).join());
    }
    expect([...seen].sort()).toEqual(['0,1', '0,1,2', '2']);
  });
});

describe('nearInTime', () => {
  it('prefers jobs at about the same time', () => {
    const jobs = Array.from({ length: 6 }, () => ({ activities: [{}] }));
    const state = stateOf(modelOf({ horizon: 1000, groups: [900], jobs }), [0, 5, 10, 800, 805, 810]);
    const rng = new Rng(1);
    for (let k = 0; k < 50; k++) {
      const { jobs: out } = nearInTime(state, 3, rng);
      expect([...out].sort().join()).toMatch(/^(0,1,2|3,4,5)$/);
    }
  });
});

describe('withTied', () => {
  it('adds jobs on either side of a lag, one step far', () => {
    const jobs = Array.from({ length: 4 }, () => ({ activities: [{}] }));
    const model = modelOf({
      jobs,
      lags: [
        { from: 0, to: 1 },
        { from: 1, to: 2 },
      ],
    });
    expect(withTied(model, [0])).toEqual([0, 1]);
    expect(withTied(model, [1])).toEqual([0, 1, 2]);
    expect(withTied(model, [3])).toEqual([3]);
  });
});
