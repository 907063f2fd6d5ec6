import { describe, expect, it } from 'vitest';
import { Profiles, popcount } from '../../src/solve/profiles.js';
import { ALWAYS, type At, modelOf, stateOf } from '../kernel/model-builder.js';

const model = modelOf({
  horizon: 20,
  groups: [20],
  units: 1,
  renewables: [
    { capacity: 2, tail: 0 },
    { capacity: 2, tail: 3 },
  ],
  workers: [{ stays: [{ from: 2, to: 18 }] }, { stays: [{ from: 0, to: 20 }] }],
  jobs: [
    { activities: [{ modes: [{ minutes: 4, bench: 0, attention: ALWAYS }] }] },
    { activities: [{ modes: [{ minutes: 3, units: [0], unitCount: 1 }] }] },
    { activities: [{ modes: [{ minutes: 2, vessel: 1 }], empties: true }] },
  ],
});

function profilesOf(places: readonly (At | number | null)[]): Profiles {
  const state = stateOf(model, places);
  const profiles = new Profiles(model, state);
  profiles.reset(state, 0, model.horizon);
  return profiles;
}

const at = (line: Int32Array, times: readonly number[]): number[] => times.map((t) => line[t]!);

describe('Profiles', () => {
  it('say until when so many units of a renewable are free', () => {
    const profiles = profilesOf([{ start: 5, hands: [0] }, null, null]);
    expect(at(profiles.renewable(0, 2), [0, 4, 5, 8, 9])).toEqual([5, 5, 5, 8, 21]);
    expect(at(profiles.renewable(0, 1), [0, 5, 9])).toEqual([21, 21, 21]);
  });

  it('leave room for the time that something is away after use', () => {
    const profiles = profilesOf([null, null, 10]);
    // In use from 10 to 12, away until 15.
    expect(at(profiles.renewable(1, 2), [0, 9, 10, 14, 15])).toEqual([10, 10, 10, 14, 21]);
    expect(at(profiles.vessel(1, 2, 3), [0, 6, 7, 8, 10, 15])).toEqual([7, 7, 7, 8, 10, 21]);
    expect(profiles.vessel(1, 2, 0)).toBe(profiles.renewable(1, 2));
  });

  it('say until when a unit is free', () => {
    const profiles = profilesOf([null, { start: 6, units: [0] }, null]);
    expect(at(profiles.unit(0), [0, 6, 8, 9])).toEqual([6, 6, 8, 20]);
  });

  it('say until when a worker is free and there, and who is free for so long', () => {
    const profiles = profilesOf([{ start: 5, hands: [0] }, null, null]);
    expect(at(profiles.worker(0), [0, 2, 5, 9, 17, 18])).toEqual([0, 5, 5, 18, 18, 18]);
    expect(at(profiles.freeMask(3), [0, 2, 3, 9, 15, 16, 17])).toEqual([2, 3, 2, 3, 3, 2, 2]);
  });

  it('forget all when they are reset', () => {
    const profiles = profilesOf([{ start: 5, hands: [0] }, null, null]);
    expect(profiles.renewable(0, 2)[0]).toBe(5);
    profiles.reset(stateOf(model, [{ start: 12, hands: [1] }, null, null]), 0, 20);
    expect(profiles.renewable(0, 2)[0]).toBe(12);
    expect(at(profiles.freeMask(1), [5, 12])).toEqual([3, 1]);
  });
});

describe('popcount', () => {
  it('counts bits', () => {
    expect([0, 1, 2, 3, 0xff, 0x7fffffff].map(popcount)).toEqual([0, 1, 1, 2, 8, 31]);
  });
});
