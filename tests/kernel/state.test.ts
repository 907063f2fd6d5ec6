import { describe, expect, it } from 'vitest';
import { ALWAYS, machineOf, modelOf, stateOf } from './model-builder.js';

const model = modelOf({
  horizon: 50,
  groups: [30],
  machines: [machineOf({ levels: [[10]] })],
  units: 1,
  workers: [{ stays: [{ from: 5, to: 40 }] }],
  jobs: [
    {
      activities: [
        {
          modes: [
            { attention: { start: 2, end: 1, crew: 1 } },
            { minutes: 6, units: [0], unitCount: 1, attention: ALWAYS },
          ],
        },
        { modes: [{ machine: 0, settings: [{ state: 0, minutes: 8, cost: 0 }] }] },
      ],
    },
    { activities: [{}] },
  ],
});

const busy = (line: Uint8Array | undefined): number[] => [...line!].flatMap((value, t) => (value === 1 ? [t] : []));
const AWAY = [0, 1, 2, 3, 4, 40, 41, 42, 43, 44, 45, 46, 47, 48, 49, 50];

describe('State', () => {
  it('knows when workers are away', () => {
    expect(busy(stateOf(model, []).busy[0])).toEqual(AWAY);
  });

  it('marks workers in their stretches and units throughout, and clears them again', () => {
    const state = stateOf(model, [{ start: 10, hands: [0, 0] }]);
    expect(busy(state.busy[0])).toEqual([...AWAY.slice(0, 5), 10, 11, 19, ...AWAY.slice(5)]);
    state.unplace(0);
    expect(busy(state.busy[0])).toEqual(AWAY);
    state.place(0, { start: 12, minutes: 6, mode: 1, setting: 0 }, [0], [0]);
    expect(busy(state.unitBusy[0])).toEqual([12, 13, 14, 15, 16, 17]);
    state.removeJob(0);
    expect(busy(state.unitBusy[0])).toEqual([]);
    expect([state.isPlaced(0), state.mode[0], state.jobIsPlaced(0)]).toEqual([false, -1, false]);
  });

  it('keeps what is on each machine', () => {
    const state = stateOf(model, [null, 10]);
    expect([state.onMachine[0], state.stateOf(1), state.end(1)]).toEqual([[1], 0, 18]);
    state.unplace(1);
    state.unplace(1);
    expect(state.onMachine[0]).toEqual([]);
  });

  it('lands a group at its due, or with the last placed end if that is later', () => {
    expect(stateOf(model, [null, null, null]).landing(0)).toBe(30);
    expect(stateOf(model, [0, 10, 12]).landing(0)).toBe(30);
    expect(stateOf(model, [0, 25, null]).landing(0)).toBe(33);
  });

  it('ends storages with the landing when that comes forward', () => {
    const state = stateOf(model, [0, 10, 12]);
    const stored = (start: number, minutes: number): [number, number] => {
      state.store.mode[1] = 0;
      state.store.start[1] = start;
      state.store.minutes[1] = minutes;
      state.clipStores();
      return [state.store.mode[1]!, state.store.minutes[1]!];
    };
    expect(stored(24, 6)).toEqual([0, 6]);
    expect(stored(24, 9)).toEqual([0, 6]);
    expect(stored(30, 9)[0]).toBe(-1);
  });

  it('has copies that do not share', () => {
    const state = stateOf(model, [{ start: 10, hands: [0, 0] }, 25, 0]);
    const copy = state.copy();
    copy.removeJob(0);
    copy.store.mode[1] = 0;
    expect([state.start[0], state.onMachine[0], state.store.mode[1], state.busy[0]![10]]).toEqual([10, [1], -1, 1]);
    expect([copy.start[0], copy.onMachine[0], copy.busy[0]![10]]).toEqual([-1, [], 0]);
  });
});
