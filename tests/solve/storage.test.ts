import { describe, expect, it } from 'vitest';
import { costOf, totalOf } from '../../src/kernel/cost.js';
import { holds } from '../../src/kernel/holds.js';
import type { State } from '../../src/kernel/state.js';
import { MachineView } from '../../src/solve/own-cost.js';
import { heldAtEnd, storeJob } from '../../src/solve/storage.js';
import { type JobSpec, type ModelSpec, machineOf, modelOf, stateOf } from '../kernel/model-builder.js';

const renewables = [{ capacity: 2, tail: 0 }];
const drawer = machineOf({ levels: [[10, 20]], idleCost: 0 });

/** A job of ten minutes in vessel 0 that may be stored in the drawer at a quarter of what it costs to wait. */
function storable(more: Partial<JobSpec> = {}, keeps = 99): JobSpec {
  const settings = [0, 1].map((state) => ({ state, minutes: 0, cost: 0 }));
  const storage = { modes: [{ machine: 0, vessel: 0, load: 0, settings }], rate: 0.25, keeps };
  return { activities: [{ modes: [{ vessel: 0 }] }], storage, ...more };
}

/** The schedule after the first job found its storage. */
function stored(spec: ModelSpec, starts: readonly number[]): State {
  const model = modelOf({ renewables, machines: [drawer], ...spec });
  const state = stateOf(model, starts);
  storeJob(model, state, new MachineView(model, state), 0);
  return state;
}

/** Start and minutes of the first job's storage; null where it has none. */
const storeOf = ({ store }: State): [number, number] | null =>
  store.mode[0]! < 0 ? null : [store.start[0]!, store.minutes[0]!];

describe('a storage', () => {
  it('lasts from the end to the landing where nothing is in the way', () => {
    const state = stored({ jobs: [storable()] }, [20]);
    expect(storeOf(state)).toEqual([30, 30]);
    expect(totalOf(costOf(state))).toBe(7.5);
    expect(holds(state)).toBe(true);
  });

  it('begins when the machine can be in its state', () => {
    expect(storeOf(stored({ jobs: [storable()] }, [-1 + 1]))).toEqual([10, 50]);
    const hot = machineOf({ levels: [[25, 40]], idleCost: 0 });
    expect(storeOf(stored({ machines: [hot], jobs: [storable()] }, [0]))).toEqual([25, 35]);
  });

  it('makes room for what the machine does else, in another state', () => {
    const other = {
      activities: [{ modes: [{ machine: 0, settings: [{ state: 1, minutes: 15, cost: 0 }] }] }],
      rate: 0,
    };
    // The drawer is at 20 from 45 to 60; before that it can be there too.
    const state = stored({ jobs: [storable(), other] }, [20, 45]);
    expect(storeOf(state)).toEqual([30, 30]);
    expect(state.store.setting[0]).toBe(1);
    expect(holds(state)).toBe(true);
  });

  it('is left out where it saves nothing, does not fit, or where the job is not kept in the vessel', () => {
    expect(storeOf(stored({ jobs: [storable({ rate: 0.1 })] }, [20]))).toBeNull();
    const full = machineOf({ levels: [[10, 20]], fits: () => false });
    expect(storeOf(stored({ machines: [full], jobs: [storable()] }, [20]))).toBeNull();
    expect(
      storeOf(stored({ jobs: [storable({ activities: [{ modes: [{ vessel: 0 }], empties: true }] })] }, [20])),
    ).toBeNull();
    expect(storeOf(stored({ jobs: [storable({ activities: [{}] })] }, [20]))).toBeNull();
    expect(storeOf(stored({ jobs: [storable()] }, [50]))).toBeNull();
  });

  it('is not worth a second run of the machine that costs more than it saves', () => {
    const other = {
      activities: [{ modes: [{ machine: 0, settings: [{ state: 1, minutes: 15, cost: 0 }] }] }],
      rate: 0,
    };
    const dear = machineOf({ levels: [[10, 20], [10]], runCost: 50, idleCost: 0 });
    const settings = [{ state: 2, minutes: 0, cost: 0 }];
    const only = { modes: [{ machine: 0, vessel: 0, load: 0, settings }], rate: 0.25, keeps: 99 };
    const jobs = [storable({ storage: only }), other];
    expect(storeOf(stored({ machines: [dear], jobs }, [25, 20]))).toBeNull();
    expect(storeOf(stored({ machines: [{ ...dear, runCost: 5 }], jobs }, [25, 20]))).toEqual([45, 15]);
  });
});

describe('heldAtEnd', () => {
  it('looks back through transparent activities for the vessel', () => {
    const model = modelOf({
      renewables,
      jobs: [{ activities: [{ modes: [{ vessel: 0, vessels: 2 }] }, { modes: [{ transparent: true }] }] }],
      lags: [{ from: 0, to: 1 }],
    });
    expect(heldAtEnd(model, stateOf(model, [0, 20]), 1)).toEqual({ vessel: 0, amount: 2 });
  });
});
