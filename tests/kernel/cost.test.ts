import { describe, expect, it } from 'vitest';
import { costOf, extraHands, type Parts, stretchTimes, totalOf } from '../../src/kernel/cost.js';
import type { State } from '../../src/kernel/state.js';
import { ALWAYS, machineOf, modelOf, stateOf } from './model-builder.js';

const NOTHING: Parts = { late: 0, wait: 0, over: 0, gap: 0, heat: 0, runs: 0, idle: 0, rest: 0, swap: 0, day: 0 };

/** The parts that are not nothing. */
function partsOf(state: State): Partial<Parts> {
  return Object.fromEntries(Object.entries(costOf(state)).filter(([, points]) => points !== 0));
}

const oven = (state: number, cost = 0) => ({ machine: 0, settings: [{ state, minutes: 10, cost }] });

describe('costOf', () => {
  it('is nothing for an empty schedule, and passes by what is not placed', () => {
    const model = modelOf({
      jobs: [{ activities: [{}, {}] }],
      lags: [{ from: 0, to: 1, rate: 3 }],
      rates: { day: 0.02 },
    });
    expect(costOf(stateOf(model, [null, null]))).toEqual(NOTHING);
    expect(partsOf(stateOf(model, [null, 50]))).toEqual({ day: 0.2 });
  });

  it('charges a lag beyond its low end, as what it is reported', () => {
    const model = modelOf({
      jobs: [{ activities: [{}, {}, {}] }],
      lags: [
        { from: 0, to: 1, low: 5, rate: 0.5, part: 'gap' },
        { from: 1, to: 2, low: 0, rate: 4, part: 'wait' },
      ],
    });
    expect(partsOf(stateOf(model, [10, 35, 50]))).toEqual({ gap: 5, wait: 20 });
  });

  it('charges waiting for the landing, and more beyond what a job keeps', () => {
    const model = modelOf({ jobs: [{ rate: 0.25, keeps: 12, activities: [{}] }] });
    expect(partsOf(stateOf(model, [38]))).toEqual({ wait: 3 });
    expect(partsOf(stateOf(model, [30]))).toEqual({ wait: 5, over: 80 });
  });

  it('charges each of two last activities', () => {
    const model = modelOf({ jobs: [{ rate: 1, activities: [{}, {}] }] });
    expect(partsOf(stateOf(model, [40, 45]))).toEqual({ wait: 15 });
  });

  it('charges a late landing once for the group, and the waiting of its other jobs', () => {
    const model = modelOf({ jobs: [{ activities: [{}] }, { rate: 2, activities: [{}] }] });
    expect(partsOf(stateOf(model, [53, 50]))).toEqual({ late: 180, wait: 6 });
  });

  it('lets groups land at their own times', () => {
    const model = modelOf({ groups: [60, 80], jobs: [{ activities: [{}] }, { group: 1, activities: [{}] }] });
    expect(partsOf(stateOf(model, [50, 70]))).toEqual({});
    expect(partsOf(stateOf(model, [55, 70]))).toEqual({ late: 300 });
  });

  it('charges nothing for the landing of a job that others use', () => {
    const model = modelOf({
      jobs: [{ group: -1, activities: [{}] }, { activities: [{}] }],
      lags: [{ from: 0, to: 1, rate: 0.02 }],
    });
    expect(partsOf(stateOf(model, [20, 50]))).toEqual({ gap: 0.4 });
  });

  it('charges settings, runs beyond the first and idling, machine by machine', () => {
    const model = modelOf({
      machines: [machineOf({ levels: [[10, 20]] }), machineOf({ levels: [[10]] })],
      jobs: [
        { rate: 0, activities: [{ modes: [oven(0, 1.5)] }] },
        { rate: 0, activities: [{ modes: [oven(0)] }] },
        { rate: 0, activities: [{ modes: [oven(1)] }] },
        { rate: 0, activities: [{ modes: [{ ...oven(0), machine: 1 }] }] },
      ],
    });
    const parts = partsOf(stateOf(model, [10, 28, 50, 30]));
    expect(parts).toEqual({ heat: 1.5, runs: 5, idle: expect.closeTo(0.08, 9) });
  });

  it('charges a free length outside its best', () => {
    const range = { low: 5, high: 40, bestLow: 10, bestHigh: 20, rate: 0.5 };
    const model = modelOf({ jobs: [{ activities: [{ modes: [{ range }] }] }] });
    const rest = (minutes: number) => partsOf(stateOf(model, [{ start: 60 - minutes, minutes }])).rest ?? 0;
    expect([7, 10, 15, 20, 26].map(rest)).toEqual([1.5, 0, 0, 0, 3]);
  });

  it('counts the day from the first activity or changeover to the serve', () => {
    const model = modelOf({
      machines: [machineOf({ levels: [[25]] })],
      jobs: [
        { rate: 0, activities: [{ modes: [oven(0)] }] },
        { rate: 0, activities: [{}] },
      ],
      rates: { day: 0.1 },
    });
    expect(partsOf(stateOf(model, [45, 40])).day).toBeCloseTo(0.1 * (60 - 20), 9);
    expect(partsOf(stateOf(model, [45, 5])).day).toBeCloseTo(0.1 * (60 - 5), 9);
  });

  it('charges a storage at its own rate, and what lies outside it at the job’s', () => {
    const model = modelOf({
      machines: [machineOf({ levels: [[10]], idleCost: 0 })],
      jobs: [
        {
          rate: 1,
          keeps: 8,
          activities: [{}],
          storage: { modes: [oven(0)], rate: 0.25, keeps: 15 },
        },
      ],
    });
    const state = stateOf(model, [20]);
    state.store.mode[0] = 0;
    state.store.start[0] = 35;
    state.store.minutes[0] = 20;
    // Ready at 30, lands at 60: 10 minutes outside (2 too many), 20 inside (5 too many).
    expect(partsOf(state)).toEqual({ wait: 10 + 5, over: 20 + 50 });
  });

  it('has a total that is the sum of the parts', () => {
    const parts = { late: 1, wait: 2, over: 4, gap: 8, heat: 16, runs: 32, idle: 64, rest: 128, swap: 256, day: 512 };
    expect(totalOf(parts)).toBe(1023);
  });
});

describe('hands', () => {
  const attention = { start: 2, end: 3, crew: 1 };
  const model = modelOf({
    workers: [{ stays: [] }, { stays: [] }, { stays: [] }],
    jobs: [{ activities: [{ modes: [{ minutes: 20, attention }] }] }],
  });

  it('cost for each worker beyond those asked for at once', () => {
    expect(partsOf(stateOf(model, [{ start: 40, hands: [1, 1] }]))).toEqual({});
    expect(partsOf(stateOf(model, [{ start: 40, hands: [1, 2] }]))).toEqual({ swap: 0.5 });
  });

  it('of two at once cost nothing while they stay', () => {
    const two = modelOf({
      workers: [{ stays: [] }, { stays: [] }, { stays: [] }],
      jobs: [{ activities: [{ modes: [{ minutes: 20, attention: { ...attention, crew: 2 } }] }] }],
    });
    expect(extraHands(stateOf(two, [{ start: 40, hands: [0, 2, 2, 0] }]), 0)).toBe(0);
    expect(extraHands(stateOf(two, [{ start: 40, hands: [0, 2, 1, 0] }]), 0)).toBe(1);
  });

  it('are needed at absolute times', () => {
    expect(stretchTimes(stateOf(model, [{ start: 40, hands: [0, 0] }]), 0)).toEqual([40, 42, 57, 60]);
    const all = modelOf({ jobs: [{ activities: [{ modes: [{ attention: ALWAYS }] }] }] });
    expect(stretchTimes(stateOf(all, [{ start: 7, hands: [0] }]), 0)).toEqual([7, 17]);
  });
});
