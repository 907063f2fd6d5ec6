/** Where a finished job may be stored until its group lands, and what that saves. */
import type { ActivityMode, Job, Model } from '../kernel/model.js';
import { isSettled } from '../kernel/model.js';
import { connected } from '../kernel/standing.js';
import type { State } from '../kernel/state.js';
import type { MachineView, StateWindow } from './own-cost.js';

export interface Store {
  readonly mode: number;
  readonly setting: number;
  readonly start: number;
  readonly minutes: number;
  readonly points: number;
}

/** Settings tried beside those that the machine is in anyway. */
const FRESH_SETTINGS = 2;

/** Ways tried for each end of a job. */
const MOST_WAYS = 12;

/** Places for one job's storage with a given custody, given all else; asked for each end of its last activity. */
export class StorageView {
  private ways: { mode: number; setting: number; window: StateWindow }[] = [];

  constructor(
    private readonly model: Model,
    private readonly view: MachineView,
    private readonly job: Job,
    vessel: number,
    private readonly amount: number,
  ) {
    job.storage?.modes.forEach((mode, m) => {
      if (mode.vessel !== vessel || mode.loads !== amount) return;
      const inUse = new Set(view.blocks[mode.machine]!.map((block) => block.state));
      let fresh = 0;
      mode.settings.forEach(({ state }, s) => {
        if (!inUse.has(state) && ++fresh > FRESH_SETTINGS) return;
        for (const window of view.windows(mode.machine, state)) this.ways.push({ mode: m, setting: s, window });
      });
    });
  }

  /** Keeps only the ways that are open longest between two minutes. */
  within(from: number, to: number): this {
    const open = ({ window }: { window: StateWindow }): number => Math.min(to, window.to) - Math.max(from, window.from);
    const kept = this.ways.filter((way) => open(way) > 0).sort((a, b) => open(b) - open(a));
    this.ways = kept.slice(0, MOST_WAYS);
    return this;
  }

  get empty(): boolean {
    return this.ways.length === 0;
  }

  /** The best storage between `ready` and `landing`; null where none is better than plain waiting. Points count the whole wait. */
  best(ready: number, landing: number): Store | null {
    const { job, model } = this;
    let best: Store | null = null;
    let least = waitingPoints(model, job, landing - ready);
    for (const { mode, setting, window } of this.ways) {
      const start = Math.max(ready, window.from, this.model.progress?.now ?? 0);
      const end = Math.min(landing, window.to);
      if (end <= start) continue;
      const kept = end - start;
      const storage = job.storage!;
      const points =
        waitingPoints(model, job, landing - ready - kept) +
        storage.rate * kept +
        model.rates.over * Math.max(0, kept - storage.keeps) +
        this.view.change(storage.modes[mode]!.machine, window, start, end);
      if (points >= least - 1e-9 || !this.fits(storage.modes[mode]!, setting, start, end)) continue;
      least = points;
      best = { mode, setting, start, minutes: kept, points };
    }
    return best;
  }

  private fits(mode: ActivityMode, setting: number, start: number, end: number): boolean {
    const machine = this.model.machines[mode.machine]!;
    const { program } = machine.states[mode.settings[setting]!.state]!;
    const fresh = { program, load: mode.load, count: this.amount, start, end };
    return machine.fits(connected(this.view.loads[mode.machine]!, fresh));
  }
}

/** Points for waiting without storage. */
export function waitingPoints(model: Model, job: Job, minutes: number): number {
  return job.rate * minutes + model.rates.over * Math.max(0, minutes - job.keeps);
}

/** Puts a placed job into the best storage there is, or into none. */
export function storeJob(model: Model, state: State, view: MachineView, jobId: number): void {
  const job = model.jobs[jobId]!;
  if (model.progress?.stored[jobId]) return;
  state.store.mode[jobId] = -1;
  if (job.storage === null || job.group < 0) return;
  const sink = job.activities.find((a) => model.activities[a]!.sink)!;
  const held = heldAtEnd(model, state, sink);
  if (held === null) return;
  const found = new StorageView(model, view, job, held.vessel, held.amount)
    .within(state.end(sink), state.landing(job.group))
    .best(state.end(sink), state.landing(job.group));
  if (found === null) return;
  state.store.mode[jobId] = found.mode;
  state.store.setting[jobId] = found.setting;
  state.store.start[jobId] = found.start;
  state.store.minutes[jobId] = found.minutes;
}

export interface HeldSince {
  readonly vessel: number;
  readonly amount: number;
  /** The end of the activity since which it is so. */
  readonly since: number;
}

/** The custody in which settled activities of the same job hand over to one that is not; null where there is none. */
export function heldBefore(model: Model, state: State, a: number): HeldSince | null {
  if (model.progress === undefined) return null;
  const { ins, job } = model.activities[a]!;
  for (const { from } of ins) {
    if (!isSettled(model, from) || model.activities[from]!.job !== job) continue;
    const held = heldAtEnd(model, state, from);
    if (held !== null) return { ...held, since: state.end(from) };
  }
  return null;
}

/** The custody in which a job's last activity leaves it; null where it is in none. */
export function heldAtEnd(model: Model, state: State, sink: number): { vessel: number; amount: number } | null {
  const activity = model.activities[sink]!;
  const mode = state.modeOf(sink);
  if (activity.empties) return null;
  if (!mode.transparent) return mode.vessel < 0 ? null : { vessel: mode.vessel, amount: mode.vessels };
  const before = activity.ins.filter((lag) => model.activities[lag.from]!.job === activity.job);
  return before.length === 1 ? heldAtEnd(model, state, before[0]!.from) : null;
}
