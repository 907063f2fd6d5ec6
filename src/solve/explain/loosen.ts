/** Models in which some needs are taken away, to see which of them stand in the way of a schedule. */
import type { Activity, ActivityMode, Lag, Machine, Model } from '../../kernel/model.js';

/** Kinds of needs, in the order in which they are taken away: the last ones are what is told where several would tell it. */
export const FAMILIES = ['board', 'burner', 'pan', 'space', 'skill', 'hours', 'hands', 'heat', 'gap', 'clock'] as const;
export type Family = (typeof FAMILIES)[number];

/**
 * One need. `index`: of the activity for board, burner, pan, space, heat and hands (that it asks for hands at all); of the
 * cook for skill and hours; of the lag for gap.
 */
export interface Need {
  readonly family: Exclude<Family, 'clock'>;
  readonly index: number;
}

/** What is taken away: whole families, and single needs. The clock is not of a model: its problem gets more time. */
export interface Loose {
  readonly families: ReadonlySet<Family>;
  readonly needs: readonly Need[];
}

/** Workers are bits of a mask. */
const MOST_WORKERS = 30;

/** The same activities with the same modes, in the same order. */
export function loosened(model: Model, loose: Loose): Model {
  const away = (family: Need['family'], index: number): boolean =>
    (family !== 'hands' && loose.families.has(family)) ||
    loose.needs.some((need) => need.family === family && need.index === index);
  const workers = model.workers.map((worker, w) =>
    away('hours', w) ? { stays: [{ from: 0, to: model.horizon }] } : worker,
  );
  const skilled = model.workers.reduce((mask, _, w) => (away('skill', w) ? mask | (1 << w) : mask), 0);
  const copies = loose.families.has('hands') ? Math.max(1, Math.floor(MOST_WORKERS / workers.length)) : 1;
  const apart = apartMachines(model);

  const looseMode = (a: number, mode: ActivityMode): ActivityMode => {
    let able = 0;
    for (let copy = 0; copy < copies; copy++) able |= (mode.able | skilled) << (copy * workers.length);
    let next: ActivityMode = { ...mode, able };
    if (away('board', a)) next = { ...next, bench: -1 };
    if (away('burner', a)) next = { ...next, units: [], unitCount: 0 };
    if (away('pan', a)) next = { ...next, vessel: -1, vessels: 0 };
    if (away('space', a)) next = { ...next, load: -1 };
    if (away('hands', a)) next = { ...next, attention: { ...next.attention, crew: 0 } };
    return away('heat', a) ? apart.mode(next) : next;
  };
  const lags = model.lags.map((lag, at) => (away('gap', at) ? { ...lag, high: Number.POSITIVE_INFINITY } : lag));
  const lagAt = new Map(model.lags.map((lag, at) => [lag, at]));
  const looseLags = (list: readonly Lag[]): Lag[] => list.map((lag) => lags[lagAt.get(lag)!]!);
  const activities = model.activities.map(
    (activity): Activity => ({
      ...activity,
      modes: activity.modes.map((mode) => looseMode(activity.id, mode)),
      ins: looseLags(activity.ins),
      outs: looseLags(activity.outs),
    }),
  );
  return {
    ...model,
    activities,
    lags,
    machines: [...model.machines, ...apart.machines],
    workers: Array.from({ length: copies }, () => workers).flat(),
  };
}

/**
 * A machine for each machine and program that is always in the one state that is asked for: what is there shares its surface
 * and nothing else.
 */
function apartMachines(model: Model): { machines: Machine[]; mode: (mode: ActivityMode) => ActivityMode } {
  const machines: Machine[] = [];
  const at = new Map<string, number>();
  model.machines.forEach((machine, m) => {
    for (const program of new Set(machine.states.map((state) => state.program))) {
      at.set(`${m} ${program}`, model.machines.length + machines.length);
      const states = [{ program, level: 0 }];
      machines.push({ ...machine, states, transition: new Int32Array(4), runCost: 0, idleCost: 0 });
    }
  });
  const mode = (one: ActivityMode): ActivityMode => {
    if (one.machine < 0) return one;
    const { program } = model.machines[one.machine]!.states[one.settings[0]!.state]!;
    const settings = one.settings.map((setting) => ({ ...setting, state: 0 }));
    return { ...one, machine: at.get(`${one.machine} ${program}`)!, settings };
  };
  return { machines, mode };
}
