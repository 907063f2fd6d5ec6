/** Scheduling models by hand, for tests: short specs, filled up to a `Model`. Activities are numbered in the order of the jobs. */
import type { Activity, ActivityMode, Attention, Group, Job, Lag, Machine, Model } from '../../src/kernel/model.js';
import { State } from '../../src/kernel/state.js';

export interface ModeSpec extends Partial<Omit<ActivityMode, 'settings' | 'attention'>> {
  /** Processing time where no settings are given. */
  readonly minutes?: number;
  readonly settings?: ActivityMode['settings'];
  readonly attention?: Partial<Attention>;
}

export interface ActivitySpec {
  /** Absent: one mode of 10 minutes that needs nothing. */
  readonly modes?: readonly ModeSpec[];
  readonly empties?: boolean;
}

export interface JobSpec {
  /** Absent: 0; -1 for a job that others use. */
  readonly group?: number;
  readonly rate?: number;
  readonly keeps?: number;
  readonly activities: readonly ActivitySpec[];
  readonly storage?: { readonly modes: readonly ModeSpec[]; readonly rate: number; readonly keeps: number };
}

export interface ModelSpec {
  /** Absent: 100. */
  readonly horizon?: number;
  /** Absent: the first group's due. */
  readonly serve?: number;
  /** Due times; absent: one at 60. */
  readonly groups?: readonly number[];
  readonly jobs: readonly JobSpec[];
  readonly lags?: readonly (Pick<Lag, 'from' | 'to'> & Partial<Lag>)[];
  readonly machines?: readonly Machine[];
  readonly units?: number;
  readonly renewables?: Model['renewables'];
  readonly workers?: Model['workers'];
  readonly rates?: Partial<Model['rates']>;
}

const NEVER: Attention = { all: false, start: 0, end: 0, every: 0, look: 1, crew: 0 };
/** One worker all the time. */
export const ALWAYS: Attention = { ...NEVER, all: true, crew: 1 };

export function modeOf(spec: ModeSpec = {}): ActivityMode {
  const { minutes, attention, settings, range = null, ...rest } = spec;
  return {
    machine: -1,
    load: -1,
    loads: 1,
    units: [],
    unitCount: 0,
    bench: -1,
    vessel: -1,
    vessels: rest.vessel === undefined || rest.vessel < 0 ? 0 : 1,
    transparent: false,
    able: 0xff,
    ...rest,
    range,
    settings: settings ?? [{ state: -1, minutes: minutes ?? range?.low ?? 10, cost: 0 }],
    attention: { ...NEVER, ...(attention !== undefined && { crew: 1 }), ...attention },
  };
}

export function modelOf(spec: ModelSpec): Model {
  const owners = spec.jobs.flatMap((job, j) => job.activities.map((activity) => ({ j, activity })));
  const lags: Lag[] = (spec.lags ?? []).map((lag) => ({
    low: 0,
    high: Number.POSITIVE_INFINITY,
    rate: 0,
    part: 'gap',
    ...lag,
  }));
  const activities = owners.map(({ j, activity }, id): Activity => {
    const modes = (activity.modes ?? [{}]).map(modeOf);
    const lengths = modes.flatMap((m) => (m.range ? [m.range.low, m.range.high] : m.settings.map((s) => s.minutes)));
    const outs = lags.filter((lag) => lag.from === id);
    const nexts = outs.map((lag) => lag.to).filter((to) => owners[to]!.j === j);
    return {
      id,
      job: j,
      modes,
      ins: lags.filter((lag) => lag.to === id),
      outs,
      sink: nexts.length === 0,
      empties: activity.empties ?? false,
      nexts,
      shortest: Math.min(...lengths),
      longest: Math.max(...lengths),
    };
  });
  const jobs = spec.jobs.map(
    (job, id): Job => ({
      id,
      activities: activities.filter((a) => a.job === id).map((a) => a.id),
      group: job.group ?? 0,
      users: lags.filter((l) => owners[l.from]!.j === id && owners[l.to]!.j !== id).map((l) => l.to),
      rate: job.rate ?? 1,
      keeps: job.keeps ?? Number.POSITIVE_INFINITY,
      storage: job.storage ? { ...job.storage, modes: job.storage.modes.map(modeOf) } : null,
    }),
  );
  const groups = (spec.groups ?? [60]).map(
    (due, g): Group => ({ due, jobs: jobs.filter((job) => job.group === g).map((job) => job.id) }),
  );
  const horizon = spec.horizon ?? 100;
  return {
    horizon,
    serve: spec.serve ?? groups[0]!.due,
    groups,
    jobs,
    activities,
    lags,
    machines: spec.machines ?? [],
    units: spec.units ?? 0,
    renewables: spec.renewables ?? [],
    workers: spec.workers ?? [{ stays: [{ from: 0, to: horizon }] }],
    rates: { late: 60, over: 10, swap: 0.5, day: 0, ...spec.rates },
  };
}

export interface MachineSpec {
  /** Levels of each program; the time from one level to another is their difference, from the first state the level itself. */
  readonly levels: readonly (readonly number[])[];
  readonly runCost?: number;
  readonly idleCost?: number;
  readonly fits?: Machine['fits'];
}

export function machineOf({ levels, runCost = 5, idleCost = 0.01, fits = () => true }: MachineSpec): Machine {
  const states = levels.flatMap((list, program) => list.map((level) => ({ program, level })));
  const n = states.length;
  const transition = new Int32Array((n + 1) * (n + 1));
  for (let from = 0; from <= n; from++) {
    const low = from === n ? 0 : states[from]!.level;
    for (let to = 0; to < n; to++) transition[from * (n + 1) + to] = Math.abs(states[to]!.level - low);
  }
  return { states, transition, runCost, idleCost, fits };
}

export interface At {
  readonly start: number;
  /** Absent: those of the setting. */
  readonly minutes?: number;
  readonly mode?: number;
  readonly setting?: number;
  readonly hands?: readonly number[];
  readonly units?: readonly number[];
}

/** A state with these activities placed; null leaves one out. */
export function stateOf(model: Model, places: readonly (At | number | null)[]): State {
  const state = new State(model);
  places.forEach((place, a) => {
    if (place === null) return;
    const at: At = typeof place === 'number' ? { start: place } : place;
    const { mode = 0, setting = 0 } = at;
    const minutes = at.minutes ?? model.activities[a]!.modes[mode]!.settings[setting]!.minutes;
    state.place(a, { start: at.start, minutes, mode, setting }, at.hands ?? [], at.units ?? []);
  });
  return state;
}
