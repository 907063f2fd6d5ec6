import { describe, expect, it } from 'vitest';
import { connected, standingOn } from '../../src/kernel/standing.js';
import { machineOf, modelOf, stateOf } from './model-builder.js';

const load = (start: number, end: number) => ({ program: 0, load: 1, count: 1, start, end });

describe('standingOn', () => {
  it('lists loads with their program, and storages, but nothing without a load or elsewhere', () => {
    const settings = [{ state: 1, minutes: 10, cost: 0 }];
    const model = modelOf({
      machines: [machineOf({ levels: [[10], [20]] }), machineOf({ levels: [[10], [20]] })],
      jobs: [
        {
          activities: [{ modes: [{ machine: 0, load: 4, loads: 2, settings }] }],
          storage: {
            modes: [{ machine: 0, load: 5, settings: [{ state: 0, minutes: 0, cost: 0 }] }],
            rate: 0,
            keeps: 9,
          },
        },
        { activities: [{ modes: [{ machine: 0, settings }] }] },
        { activities: [{ modes: [{ machine: 1, load: 4, settings }] }] },
      ],
    });
    const state = stateOf(model, [30, 30, 30]);
    state.store.mode[0] = 0;
    state.store.start[0] = 45;
    state.store.minutes[0] = 15;
    expect(standingOn(state, 0)).toEqual([
      { program: 1, load: 4, count: 2, start: 30, end: 40 },
      { program: 0, load: 5, count: 1, start: 45, end: 60 },
    ]);
  });
});

describe('connected', () => {
  it('follows overlaps from one to the next, the new one first', () => {
    const [a, b, c] = [load(0, 10), load(8, 20), load(19, 30)];
    const fresh = load(28, 40);
    expect(connected([a, b, c], fresh)[0]).toBe(fresh);
    expect(new Set(connected([a, b, c], fresh))).toEqual(new Set([a, b, c, fresh]));
  });

  it('leaves out what only touches', () => {
    const fresh = load(20, 30);
    expect(connected([load(0, 20), load(30, 40)], fresh)).toEqual([fresh]);
  });
});
