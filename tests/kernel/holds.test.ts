/** Every way in which a schedule can break the model, one by one, beside its nearest right neighbour. */
import { describe, expect, it } from 'vitest';
import { custodiesHold, holds } from '../../src/kernel/holds.js';
import type { StandingLoad } from '../../src/kernel/model.js';
import { ALWAYS, type At, type ModelSpec, machineOf, modelOf, stateOf } from './model-builder.js';

const held = (spec: ModelSpec, places: readonly (At | number | null)[]): boolean =>
  holds(stateOf(modelOf(spec), places));

const alone = (activity: ModelSpec['jobs'][number]['activities'][number]) => ({ activities: [activity] });

describe('holds', () => {
  it('asks that everything is placed', () => {
    expect(held({ jobs: [alone({}), alone({})] }, [0, 0])).toBe(true);
    expect(held({ jobs: [alone({}), alone({})] }, [0, null])).toBe(false);
  });

  it('refuses an end beyond the horizon', () => {
    expect(held({ jobs: [alone({})] }, [90])).toBe(true);
    expect(held({ jobs: [alone({})] }, [91])).toBe(false);
  });

  it('refuses a lag that is too short or too long', () => {
    const spec = { jobs: [{ activities: [{}, {}] }], lags: [{ from: 0, to: 1, low: 3, high: 8 }] };
    expect([12, 13, 18, 19].map((start) => held(spec, [0, start]))).toEqual([false, true, true, false]);
  });

  it('refuses a machine in two states at once or too soon after each other', () => {
    const on = (state: number) => alone({ modes: [{ machine: 0, settings: [{ state, minutes: 10, cost: 0 }] }] });
    const spec = { machines: [machineOf({ levels: [[10, 20]] })], jobs: [on(0), on(1)] };
    expect([29, 30].map((start) => held(spec, [10, start]))).toEqual([false, true]);
    expect(held(spec, [9, 40])).toBe(false);
  });

  it('refuses a storage that begins before its job is done or lasts beyond the landing', () => {
    const settings = [{ state: 0, minutes: 0, cost: 0 }];
    const model = modelOf({
      machines: [machineOf({ levels: [[10]] })],
      jobs: [{ activities: [{}], storage: { modes: [{ machine: 0, settings }], rate: 0, keeps: 99 } }],
    });
    const stored = (start: number, minutes: number): boolean => {
      const state = stateOf(model, [20]);
      state.store.mode[0] = 0;
      state.store.start[0] = start;
      state.store.minutes[0] = minutes;
      return holds(state);
    };
    expect([stored(30, 30), stored(35, 20), stored(29, 20), stored(35, 26)]).toEqual([true, true, false, false]);
  });

  it('refuses loads that do not stand together', () => {
    const seen: StandingLoad[][] = [];
    const fits = (loads: readonly StandingLoad[]): boolean => {
      seen.push([...loads]);
      return loads.every((a, i) => loads.every((b, j) => i === j || a.end <= b.start || b.end <= a.start));
    };
    const modes = [{ machine: 0, load: 3, loads: 2, settings: [{ state: 0, minutes: 10, cost: 0 }] }];
    const spec = { machines: [machineOf({ levels: [[10]], fits })], jobs: [alone({ modes }), alone({ modes })] };
    expect([19, 20].map((start) => held(spec, [10, start]))).toEqual([false, true]);
    expect(seen[0]).toEqual([
      { program: 0, load: 3, count: 2, start: 10, end: 20 },
      { program: 0, load: 3, count: 2, start: 19, end: 29 },
    ]);
  });

  it('refuses more of a renewable than there is, its tail included', () => {
    const renewables = [
      { capacity: 1, tail: 0 },
      { capacity: 1, tail: 4 },
    ];
    const bench = alone({ modes: [{ bench: 0 }] });
    expect([19, 20].map((start) => held({ renewables, jobs: [bench, bench] }, [10, start]))).toEqual([false, true]);
    const vessel = alone({ modes: [{ vessel: 1 }], empties: true });
    expect([23, 24].map((start) => held({ renewables, jobs: [vessel, vessel] }, [10, start]))).toEqual([false, true]);
  });

  it('asks only about the renewables that it is given', () => {
    const vessel = alone({ modes: [{ vessel: 1 }] });
    const renewables = [
      { capacity: 1, tail: 0 },
      { capacity: 1, tail: 0 },
    ];
    const state = stateOf(modelOf({ renewables, jobs: [vessel, vessel] }), [10, 20]);
    expect(custodiesHold(state, new Set([0]))).toBe(true);
    expect(custodiesHold(state, new Set([1]))).toBe(false);
    expect(custodiesHold(state, null)).toBe(false);
  });

  it('refuses two activities on one unit at once', () => {
    const burner = alone({ modes: [{ units: [0, 1], unitCount: 1 }] });
    const spec = { units: 2, jobs: [burner, burner] };
    expect(
      held(spec, [
        { start: 0, units: [1] },
        { start: 9, units: [1] },
      ]),
    ).toBe(false);
    expect(
      held(spec, [
        { start: 0, units: [1] },
        { start: 10, units: [1] },
      ]),
    ).toBe(true);
    expect(
      held(spec, [
        { start: 0, units: [1] },
        { start: 9, units: [0] },
      ]),
    ).toBe(true);
  });

  const attended = alone({ modes: [{ attention: ALWAYS }] });

  it('refuses one worker in two stretches at once', () => {
    const spec = { jobs: [attended, attended] };
    const hands = [0];
    expect(
      held(spec, [
        { start: 0, hands },
        { start: 9, hands },
      ]),
    ).toBe(false);
    expect(
      held(spec, [
        { start: 0, hands },
        { start: 10, hands },
      ]),
    ).toBe(true);
  });

  it('lets a worker do something else between the stretches', () => {
    const looks = alone({ modes: [{ minutes: 30, attention: { start: 2, end: 3, crew: 1 } }] });
    const at = (start: number) => [
      { start: 0, hands: [0, 0] },
      { start, hands: [0] },
    ];
    const spec = { jobs: [looks, attended] };
    expect([1, 2, 17, 18].map((start) => held(spec, at(start)))).toEqual([false, true, true, false]);
  });

  it('refuses a worker who is not there for the whole stretch', () => {
    const workers = [{ stays: [{ from: 10, to: 30 }] }];
    const spec = { workers, jobs: [attended] };
    const hands = [0];
    expect([9, 10, 20, 21].map((start) => held(spec, [{ start, hands }]))).toEqual([false, true, true, false]);
    const parted = {
      workers: [
        {
          stays: [
            { from: 0, to: 15 },
            { from: 15, to: 40 },
          ],
        },
      ],
      jobs: [attended],
    };
    expect(held(parted, [{ start: 10, hands }])).toBe(false);
  });

  it('refuses too few workers, too many, or one twice at once', () => {
    const workers = [{ stays: [{ from: 0, to: 90 }] }, { stays: [{ from: 0, to: 90 }] }];
    const spec = { workers, jobs: [alone({ modes: [{ attention: { ...ALWAYS, crew: 2 } }] })] };
    const heldWith = (hands: readonly number[]): boolean => {
      const state = stateOf(modelOf(spec), [{ start: 0, hands: [0, 1] }]);
      state.hands[0] = hands;
      return holds(state);
    };
    expect([[], [0], [0, 1], [0, 0], [0, 1, 1]].map(heldWith)).toEqual([false, false, true, false, false]);
  });
});
