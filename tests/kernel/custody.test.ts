import { describe, expect, it } from 'vitest';
import { custodyEnd, freeUnits, releasesOf, tailOf } from '../../src/kernel/custody.js';
import type { Model } from '../../src/kernel/model.js';
import { type ActivitySpec, modelOf, stateOf } from './model-builder.js';

/** Renewable 0 is a bench; vessels 1 and 2 are away for 4 and 7 minutes after use. */
const renewables = [
  { capacity: 2, tail: 0 },
  { capacity: 3, tail: 4 },
  { capacity: 1, tail: 7 },
];

const holds = (vessel: number, vessels = 1): ActivitySpec => ({ modes: [{ vessel, vessels }] });
const plain: ActivitySpec = {};
const through: ActivitySpec = { modes: [{ transparent: true }] };

/** One job of these activities, each after the one before. */
function chain(activities: readonly ActivitySpec[], groups: readonly number[] = [60]): Model {
  const lags = activities.slice(1).map((_, i) => ({ from: i, to: i + 1 }));
  return modelOf({ renewables, groups, jobs: [{ activities }], lags });
}

describe('the end of a custody', () => {
  it('is the start of the next activity elsewhere, and the tail', () => {
    const state = stateOf(chain([holds(1), plain]), [10, 30]);
    expect(releasesOf(state, 0)).toEqual([
      { kind: 'end', activity: 0 },
      { kind: 'start', activity: 1, goesOn: false },
    ]);
    expect(custodyEnd(state, 0)).toBe(30 + 4);
  });

  it('is the landing where nothing follows', () => {
    const model = chain([holds(1)]);
    expect(custodyEnd(stateOf(model, [10]), 0)).toBe(60 + 4);
    expect(custodyEnd(stateOf(model, [70]), 0)).toBe(80 + 4);
  });

  it('passes over transparent activities, one after the other', () => {
    expect(custodyEnd(stateOf(chain([holds(1), through, through, plain]), [10, 20, 30, 45]), 0)).toBe(45 + 4);
    expect(custodyEnd(stateOf(chain([holds(1), through]), [10, 20]), 0)).toBe(60 + 4);
  });

  it('comes at the end where the activity empties, also after a transparent one that does', () => {
    expect(custodyEnd(stateOf(chain([{ ...holds(1), empties: true }, plain]), [10, 30]), 0)).toBe(20 + 4);
    expect(custodyEnd(stateOf(chain([holds(1), { ...through, empties: true }, plain]), [10, 25, 50]), 0)).toBe(35 + 4);
  });

  it('goes over to the next activity in the same vessel without a tail', () => {
    const state = stateOf(chain([holds(1), holds(1)]), [10, 30]);
    expect(custodyEnd(state, 0)).toBe(30);
    expect(custodyEnd(state, 1)).toBe(60 + 4);
  });

  it('has a tail where fewer units go on than there were', () => {
    const state = stateOf(chain([holds(1, 2), holds(1, 1)]), [10, 30]);
    expect(custodyEnd(state, 0)).toBe(30 + 4);
  });

  it('has a tail where the next activity is in another vessel', () => {
    const state = stateOf(chain([holds(2), holds(1)]), [10, 30]);
    expect(custodyEnd(state, 0)).toBe(30 + 7);
  });

  it('comes with the last of two branches, and with a tail where one of them is elsewhere', () => {
    const model = (second: ActivitySpec, third: ActivitySpec) =>
      modelOf({
        renewables,
        jobs: [{ activities: [holds(1, 2), second, third] }],
        lags: [
          { from: 0, to: 1 },
          { from: 0, to: 2 },
        ],
      });
    expect(custodyEnd(stateOf(model(plain, plain), [10, 25, 40]), 0)).toBe(40 + 4);
    expect(custodyEnd(stateOf(model(plain, plain), [10, 40, 25]), 0)).toBe(40 + 4);
    expect(custodyEnd(stateOf(model(holds(1), holds(1)), [10, 25, 40]), 0)).toBe(40);
    expect(custodyEnd(stateOf(model(holds(1, 2), plain), [10, 25, 40]), 0)).toBe(40 + 4);
    expect(custodyEnd(stateOf(model(through, plain), [10, 25, 40]), 0)).toBe(60 + 4);
  });

  it('passes by what is not placed', () => {
    const state = stateOf(chain([holds(1), plain]), [10, null]);
    expect(releasesOf(state, 0)).toEqual([{ kind: 'end', activity: 0 }]);
    expect(custodyEnd(state, 0)).toBe(20 + 4);
  });

  it('of a job that others use is the start of the last user of the last activity', () => {
    const model = modelOf({
      renewables,
      jobs: [{ group: -1, activities: [holds(1)] }, { activities: [plain] }, { activities: [plain] }],
      lags: [
        { from: 0, to: 1 },
        { from: 0, to: 2 },
      ],
    });
    const state = stateOf(model, [10, 30, 50]);
    expect(custodyEnd(state, 0)).toBe(50 + 4);
    expect(releasesOf(state, 0)).toContainEqual({ kind: 'start', activity: 2, goesOn: false });
  });

  it('of a used job whose last activity has no user is the start of the last user of any', () => {
    const model = modelOf({
      renewables,
      jobs: [{ group: -1, activities: [plain, holds(1)] }, { activities: [plain] }],
      lags: [
        { from: 0, to: 1 },
        { from: 0, to: 2 },
      ],
    });
    expect(custodyEnd(stateOf(model, [0, 10, 35]), 1)).toBe(35 + 4);
  });

  it('does not go on with a user in the same vessel: that is another job', () => {
    const model = modelOf({
      renewables,
      jobs: [{ group: -1, activities: [holds(1)] }, { activities: [holds(1)] }],
      lags: [{ from: 0, to: 1 }],
    });
    const state = stateOf(model, [10, 30]);
    expect(tailOf(state, 0, releasesOf(state, 0))).toBe(4);
  });
});

describe('freeUnits', () => {
  const line = (model: Model) => new Int32Array(model.horizon + 2);

  it('counts a bench for the activity alone', () => {
    const model = modelOf({
      renewables,
      jobs: [{ activities: [{ modes: [{ bench: 0 }] }] }, { activities: [{ modes: [{ bench: 0 }] }] }],
    });
    const free = freeUnits(stateOf(model, [10, 15]), 0, line(model));
    expect([...free.slice(8, 27)]).toEqual([2, 2, 1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 2, 2]);
  });

  it('counts vessels until their custody ends, and below zero where there are too few', () => {
    const model = chain([holds(1, 2), plain]);
    const free = freeUnits(stateOf(model, [10, 30]), 1, line(model));
    expect([free[9], free[10], free[33], free[34]]).toEqual([3, 1, 1, 3]);
    const two = modelOf({ renewables, jobs: [{ activities: [holds(2)] }, { activities: [holds(2)] }] });
    expect(freeUnits(stateOf(two, [10, 20]), 2, line(two))[25]).toBe(-1);
  });

  it('frees nothing beyond the horizon', () => {
    const model = chain([holds(2)], [98]);
    const free = freeUnits(stateOf(model, [90]), 2, line(model));
    expect([free[89], free[90], free[model.horizon]]).toEqual([1, 0, 0]);
  });

  it('forgets what the line held before', () => {
    const model = chain([plain]);
    expect([...new Set(freeUnits(stateOf(model, [0]), 1, line(model).fill(9)).slice(0, model.horizon))]).toEqual([3]);
  });
});
