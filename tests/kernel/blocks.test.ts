import { describe, expect, it } from 'vitest';
import { blocksOf, runsOf, transitionsHold } from '../../src/kernel/blocks.js';
import { machineOf, modelOf, stateOf } from './model-builder.js';

const machine = machineOf({ levels: [[10, 20]] });
const on = (state: number) => ({ machine: 0, settings: [{ state, minutes: 10, cost: 0 }] });

/** Activities of ten minutes in these states, each a job of its own. */
function scheduled(states: readonly number[], starts: readonly number[], idleCost = 0.01) {
  const model = modelOf({
    machines: [{ ...machine, idleCost }],
    jobs: states.map((state) => ({ activities: [{ modes: [on(state)] }] })),
  });
  return { model, state: stateOf(model, starts) };
}

describe('blocksOf', () => {
  it('joins what overlaps or touches in one state', () => {
    const { state } = scheduled([0, 0, 0], [10, 15, 25]);
    expect(blocksOf(state, 0)).toEqual([{ state: 0, from: 10, to: 35 }]);
  });

  it('parts at a gap and at another state, in order of time', () => {
    const { state } = scheduled([1, 0, 0], [60, 10, 21]);
    expect(blocksOf(state, 0)).toEqual([
      { state: 0, from: 10, to: 20 },
      { state: 0, from: 21, to: 31 },
      { state: 1, from: 60, to: 70 },
    ]);
  });

  it('is not shortened by something that ends earlier', () => {
    const model = modelOf({
      machines: [machine],
      jobs: [
        { activities: [{ modes: [{ machine: 0, settings: [{ state: 0, minutes: 40, cost: 0 }] }] }] },
        { activities: [{ modes: [on(0)] }] },
      ],
    });
    expect(blocksOf(stateOf(model, [10, 15]), 0)).toEqual([{ state: 0, from: 10, to: 50 }]);
  });

  it('counts a storage, and leaves out what has no length or lies on another machine', () => {
    const model = modelOf({
      machines: [machine, machine],
      jobs: [
        {
          activities: [{ modes: [on(0)] }],
          storage: { modes: [on(1)], rate: 0, keeps: 100 },
        },
        { activities: [{ modes: [{ machine: 0, settings: [{ state: 0, minutes: 0, cost: 0 }] }] }] },
        { activities: [{ modes: [{ ...on(0), machine: 1 }] }] },
      ],
    });
    const state = stateOf(model, [10, 40, 5]);
    state.store.mode[0] = 0;
    state.store.start[0] = 30;
    state.store.minutes[0] = 20;
    expect(blocksOf(state, 0)).toEqual([
      { state: 0, from: 10, to: 20 },
      { state: 1, from: 30, to: 50 },
    ]);
  });
});

describe('runsOf', () => {
  it('keeps a run through an idle stretch that is cheaper than a new run, and counts its minutes', () => {
    const { state } = scheduled([0, 0, 0], [10, 25, 50]);
    expect(runsOf(machine, blocksOf(state, 0))).toEqual([{ state: 0, from: 10, to: 60, idle: 20 }]);
  });

  it('begins a new run where idling would cost more', () => {
    const { state } = scheduled([0, 0, 0], [10, 25, 50], 0.5);
    const runs = runsOf({ ...machine, idleCost: 0.5 }, blocksOf(state, 0));
    expect(runs).toEqual([
      { state: 0, from: 10, to: 35, idle: 5 },
      { state: 0, from: 50, to: 60, idle: 0 },
    ]);
  });

  it('begins a new run with a new state', () => {
    const { state } = scheduled([0, 1, 0], [10, 30, 50]);
    expect(runsOf(machine, blocksOf(state, 0)).map((run) => run.state)).toEqual([0, 1, 0]);
  });
});

describe('transitionsHold', () => {
  const hold = (states: readonly number[], starts: readonly number[]): boolean => {
    const { state } = scheduled(states, starts);
    return transitionsHold(machine, blocksOf(state, 0));
  };

  it('asks for the time from the first state before the first block', () => {
    expect(hold([1], [20])).toBe(true);
    expect(hold([1], [19])).toBe(false);
  });

  it('asks for the transition between two states, and for none within one', () => {
    expect(hold([0, 1], [10, 30])).toBe(true);
    expect(hold([0, 1], [10, 29])).toBe(false);
    expect(hold([0, 0], [10, 20])).toBe(true);
  });

  it('refuses two states at once', () => {
    expect(hold([0, 1], [20, 25])).toBe(false);
    expect(hold([0, 1, 0], [20, 60, 62])).toBe(false);
  });
});
