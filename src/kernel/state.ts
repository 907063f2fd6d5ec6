/**
 * A schedule under construction: which activities are placed, in which mode and setting, from when to when, by whom.
 * Copies are cheap; everything else (runs, custodies, landings) is derived from these arrays.
 */
import type { ActivityMode, Model } from './model.js';
import { isOver, isSettled, stretchesOf } from './model.js';

export class State {
  readonly model: Model;
  /** -1: not placed. */
  readonly start: Int32Array;
  readonly minutes: Int32Array;
  readonly mode: Int32Array;
  readonly setting: Int32Array;
  /** Workers, `crew` for each stretch in turn; replaced, never changed in place. */
  readonly hands: (readonly number[])[];
  /** Unary resources in use; replaced, never changed in place. */
  readonly units: (readonly number[])[];
  /** Busy or away, by worker and minute. */
  readonly busy: Uint8Array[];
  readonly unitBusy: Uint8Array[];
  /** Storage of each job: mode (-1: none), setting, start and minutes. */
  readonly store: { mode: Int32Array; setting: Int32Array; start: Int32Array; minutes: Int32Array };
  /** Activities on each machine, in no order. */
  readonly onMachine: number[][];

  constructor(model: Model, from?: State) {
    this.model = model;
    const n = model.activities.length;
    const jobs = model.jobs.length;
    if (from !== undefined) {
      this.start = from.start.slice();
      this.minutes = from.minutes.slice();
      this.mode = from.mode.slice();
      this.setting = from.setting.slice();
      this.hands = from.hands.slice();
      this.units = from.units.slice();
      this.busy = from.busy.map((b) => b.slice());
      this.unitBusy = from.unitBusy.map((b) => b.slice());
      this.store = {
        mode: from.store.mode.slice(),
        setting: from.store.setting.slice(),
        start: from.store.start.slice(),
        minutes: from.store.minutes.slice(),
      };
      this.onMachine = from.onMachine.map((list) => list.slice());
      return;
    }
    this.start = new Int32Array(n).fill(-1);
    this.minutes = new Int32Array(n);
    this.mode = new Int32Array(n).fill(-1);
    this.setting = new Int32Array(n);
    this.hands = new Array<readonly number[]>(n).fill([]);
    this.units = new Array<readonly number[]>(n).fill([]);
    this.store = {
      mode: new Int32Array(jobs).fill(-1),
      setting: new Int32Array(jobs),
      start: new Int32Array(jobs),
      minutes: new Int32Array(jobs),
    };
    this.onMachine = model.machines.map(() => []);
    const h = model.horizon + 1;
    this.busy = model.workers.map((worker) => {
      const line = new Uint8Array(h).fill(1);
      for (const stay of worker.stays) line.fill(0, Math.max(0, stay.from), Math.max(0, Math.min(h, stay.to)));
      return line;
    });
    this.unitBusy = Array.from({ length: model.units }, () => new Uint8Array(h));
    model.progress?.settled.forEach((as, a) => {
      if (as !== null) this.place(a, { ...as, mode: 0, setting: 0 }, as.hands, as.units);
    });
  }

  copy(): State {
    return new State(this.model, this);
  }

  isPlaced(a: number): boolean {
    return this.start[a]! >= 0;
  }

  end(a: number): number {
    return this.start[a]! + this.minutes[a]!;
  }

  modeOf(a: number): ActivityMode {
    return this.model.activities[a]!.modes[this.mode[a]!]!;
  }

  /** The machine state of a placed activity; -1 without a machine. */
  stateOf(a: number): number {
    return this.modeOf(a).settings[this.setting[a]!]!.state;
  }

  place(
    a: number,
    at: { start: number; minutes: number; mode: number; setting: number },
    hands: readonly number[],
    units: readonly number[],
  ): void {
    if (this.start[a]! >= 0 && isSettled(this.model, a)) return;
    this.start[a] = at.start;
    this.minutes[a] = at.minutes;
    this.mode[a] = at.mode;
    this.setting[a] = at.setting;
    this.hands[a] = hands;
    this.units[a] = units;
    const mode = this.modeOf(a);
    if (mode.machine >= 0) this.onMachine[mode.machine]!.push(a);
    this.mark(a, mode, 1);
  }

  unplace(a: number): void {
    if (this.start[a]! < 0 || isSettled(this.model, a)) return;
    const mode = this.modeOf(a);
    this.mark(a, mode, 0);
    if (mode.machine >= 0) {
      const list = this.onMachine[mode.machine]!;
      list.splice(list.indexOf(a), 1);
    }
    this.start[a] = -1;
    this.mode[a] = -1;
    this.hands[a] = [];
    this.units[a] = [];
  }

  private mark(a: number, mode: ActivityMode, value: 0 | 1): void {
    const start = this.start[a]!;
    const minutes = this.minutes[a]!;
    for (const unit of this.units[a]!) this.unitBusy[unit]!.fill(value, start, start + minutes);
    const hands = this.hands[a]!;
    if (hands.length === 0) return;
    const stretches = stretchesOf(mode.attention, minutes);
    const crew = mode.attention.crew;
    for (let k = 0; k * 2 < stretches.length; k++) {
      const from = start + stretches[k * 2]!;
      const to = from + stretches[k * 2 + 1]!;
      for (let c = 0; c < crew; c++) this.busy[hands[k * crew + c]!]!.fill(value, from, to);
    }
  }

  /** What is settled stays. */
  removeJob(job: number): void {
    if (isOver(this.model, job)) return;
    for (const a of this.model.jobs[job]!.activities) this.unplace(a);
    this.store.mode[job] = -1;
  }

  /** Ends storages when their group lands, which removals can bring forward. */
  clipStores(): void {
    const { store, model } = this;
    for (const job of model.jobs) {
      if (store.mode[job.id]! < 0) continue;
      const left = this.landing(job.group) - store.start[job.id]!;
      if (left <= 0) store.mode[job.id] = -1;
      else if (left < store.minutes[job.id]!) store.minutes[job.id] = left;
    }
  }

  jobIsPlaced(job: number): boolean {
    for (const a of this.model.jobs[job]!.activities) if (this.start[a]! < 0) return false;
    return true;
  }

  /** When the group lands: at its due time, or at the last end of its placed jobs if that is later. */
  landing(group: number): number {
    const { due, jobs } = this.model.groups[group]!;
    let at = due;
    for (const job of jobs) {
      for (const a of this.model.jobs[job]!.activities) {
        if (this.start[a]! >= 0 && this.end(a) > at) at = this.end(a);
      }
    }
    return at;
  }
}
