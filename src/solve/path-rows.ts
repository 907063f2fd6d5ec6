/** The rows of the dynamic programme that places one path; see `insert.ts` for the recursion. */
import type { Activity, Model } from '../kernel/model.js';
import type { State } from '../kernel/state.js';
import { swerveOfMode, wishPoints } from '../kernel/swerve.js';
import { fillHands, fillStock, type MachineView } from './own-cost.js';
import { type InsertOptions, lagBetween, type Spread } from './path-windows.js';
import type { Profiles } from './profiles.js';
import { slideMinimum } from './slide.js';
import { type HeldSince, StorageView } from './storage.js';
import type { Variant } from './variants.js';

/** One variant's rows over time; arrays are indexed by the minute itself and valid within its window only. */
export interface Row {
  variant: Variant;
  readonly own: Float64Array;
  readonly best: Float64Array;
  /** By end e: points of all that follows. */
  readonly after: Float64Array;
  readonly nextAt: Int32Array;
  readonly nextRow: Int16Array;
  /** By start t where the length is free: the chosen end. */
  readonly endAt: Int32Array;
}

/** Stands in `nextRow` for rows that were merged before sliding. */
const MERGED = -2;

/** Different values of noise for one insertion. */
const NOISES = 64;
const NO_NOISE = new Float64Array(0);

export class PathRows {
  private readonly rows: Row[] = [];
  private usedRows = 0;
  private noise = NO_NOISE;
  private readonly merged: Float64Array;
  private readonly mergedRow: Int16Array;
  private readonly space: { deque: Int32Array };
  private readonly scratchTag: Int16Array;
  /** Minutes of rows filled so far: the measure of effort. */
  work = 0;

  constructor(
    private readonly model: Model,
    private readonly profiles: Profiles,
  ) {
    const h = model.horizon + 2;
    this.merged = new Float64Array(h);
    this.mergedRow = new Int16Array(h);
    this.scratchTag = new Int16Array(h);
    this.space = { deque: new Int32Array(h) };
  }

  /** Takes back all rows that were handed out, and draws new noise for those to come. */
  clear({ noise, rng }: InsertOptions): void {
    this.usedRows = 0;
    this.noise = noise > 0 ? Float64Array.from({ length: NOISES }, () => noise * rng.real()) : NO_NOISE;
  }

  row(variant: Variant): Row {
    let row = this.rows[this.usedRows];
    if (row === undefined) {
      const h = this.model.horizon + 2;
      row = {
        variant,
        own: new Float64Array(h),
        best: new Float64Array(h),
        after: new Float64Array(h),
        nextAt: new Int32Array(h),
        nextRow: new Int16Array(h),
        endAt: new Int32Array(h),
      };
      this.rows.push(row);
    }
    this.usedRows++;
    row.variant = variant;
    return row;
  }

  fillOwn(row: Row, activity: Activity, spread: Spread, state: State, view: MachineView, dayFrom: number): void {
    const { variant, own } = row;
    const mode = activity.modes[variant.mode]!;
    const { low } = spread;
    const minutes = variant.minutes < 0 ? activity.shortest : variant.minutes;
    const high = Math.min(spread.high, this.model.horizon - minutes);
    this.work += Math.max(0, high - low + 1);
    if (variant.machine >= 0) {
      view.fill(variant.machine, variant.state, minutes, low, high, own, dayFrom);
      view.fillFit(mode, variant.state, minutes, low, high, own);
    } else own.fill(0, low, high + 1);
    // What takes longer than all the time there is would count from the row's end.
    own.fill(Number.POSITIVE_INFINITY, Math.max(low, high + 1), spread.high + 1);
    fillStock(this.profiles, mode, variant, variant.minutes < 0 ? 0 : minutes, low, high, own);
    const { progress } = this.model;
    fillHands(this.model, this.profiles, mode, progress?.usual[activity.id]?.hands ?? 0, minutes, low, high, own);
    const cost = variant.cost + swerveOfMode(this.model, activity.id, variant.mode, variant.setting);
    for (let t = low; t <= high; t++) own[t] = own[t]! + cost;
    const wishes = progress?.wishes[activity.id];
    if (wishes !== undefined && wishes.length > 0) {
      for (let t = low; t <= high; t++) own[t] = own[t]! + wishPoints(wishes, t);
    }
    if (this.noise.length > 0) {
      for (let t = low; t <= high; t++)
        own[t] = own[t]! + this.noise[((t >> 2) + activity.id * 29) % this.noise.length]!;
    }
    for (const lag of activity.ins) {
      if (lag.rate === 0 || !state.isPlaced(lag.from)) continue;
      const ready = state.end(lag.from) + lag.low;
      for (let t = low; t <= high; t++) own[t] = own[t]! + lag.rate * Math.max(0, t - ready);
    }
    const { day } = this.model.rates;
    for (let t = low; t <= Math.min(high, dayFrom - 1); t++) own[t] = own[t]! + day * (dayFrom - t);
  }

  /** What settled activities have left in a vessel must stay in it until the first of a path begins. */
  keepHeld({ own, variant }: Row, { low, high }: Spread, { vessel, amount, since }: HeldSince): void {
    const until = this.profiles.renewable(vessel, amount)[since]!;
    const away = variant.transparent || variant.vessel === vessel ? 0 : this.model.renewables[vessel]!.tail;
    own.fill(Number.POSITIVE_INFINITY, Math.max(low, until - away + 1), high + 1);
  }

  /** Points of ending at e for the last of a path: waiting to land, or nothing where placed activities follow. */
  fillEnd(
    row: Row,
    activity: Activity,
    state: State,
    view: MachineView,
    eLow: number,
    eHigh: number,
    options: InsertOptions,
  ): void {
    const { model } = this;
    const { after, variant } = row;
    const job = model.jobs[activity.job]!;
    let until = 0;
    let line: Int32Array | null = null;
    const tail = variant.kept < 0 ? 0 : model.renewables[variant.kept]!.tail;
    if (variant.kept >= 0) line = this.profiles.renewable(variant.kept, variant.amount);
    if (activity.sink && job.group < 0) {
      for (const user of job.users) if (state.isPlaced(user)) until = Math.max(until, state.start[user]!);
    }
    for (const next of activity.nexts) if (state.isPlaced(next)) until = Math.max(until, state.start[next]!);
    if (!(activity.sink && job.group >= 0)) {
      after.fill(0, eLow, eHigh + 1);
      if (line !== null)
        for (let e = eLow; e <= eHigh; e++) if (line[e]! < until + tail) after[e] = Number.POSITIVE_INFINITY;
      return;
    }
    const landing = Math.max(options.target, state.landing(job.group));
    const others = waitingRate(state, job.group, landing);
    for (let e = eLow; e <= Math.min(eHigh, landing + options.lateness); e++) {
      const held = Math.max(e, landing) + tail;
      if (line !== null && line[e]! < Math.min(held, model.horizon)) continue;
      if (e <= landing) after[e] = job.rate * (landing - e) + model.rates.over * Math.max(0, landing - e - job.keeps);
      else after[e] = (model.rates.late + others) * (e - landing);
    }
    if (job.storage === null || variant.kept < 0) return;
    const storage = new StorageView(model, view, job, variant.kept, variant.amount).within(eLow, landing);
    if (storage.empty) return;
    for (let e = eLow; e <= Math.min(eHigh, landing - 1); e++) {
      if (after[e] === Number.POSITIVE_INFINITY) continue;
      after[e] = storage.best(e, landing)?.points ?? after[e]!;
    }
  }

  fillNext(row: Row, activity: Activity, next: number, rows: Row[], spread: Spread, eLow: number, eHigh: number): void {
    const { model } = this;
    const { variant } = row;
    const lag = lagBetween(activity, next);
    const groups = new Map<string, { tail: number; low: number; rows: number[] }>();
    rows.forEach((after, index) => {
      const to = after.variant;
      if (to.transparent && to.vessel !== variant.kept) return;
      let tail = 0;
      if (variant.kept >= 0 && !to.transparent && to.vessel !== variant.kept)
        tail = model.renewables[variant.kept]!.tail;
      let low = lag.low;
      if (variant.machine >= 0 && to.machine === variant.machine && to.state !== variant.state) {
        const n = model.machines[variant.machine]!.states.length;
        low = Math.max(low, model.machines[variant.machine]!.transition[variant.state * (n + 1) + to.state]!);
      }
      const key = `${tail} ${low}`;
      const group = groups.get(key);
      if (group === undefined) groups.set(key, { tail, low, rows: [index] });
      else group.rows.push(index);
    });
    const cap = variant.kept >= 0 ? this.profiles.renewable(variant.kept, variant.amount) : null;
    for (const { tail, low, rows: members } of groups.values()) {
      if (low > lag.high) continue;
      let source = rows[members[0]!]!.best;
      if (members.length > 1) {
        source = this.merged;
        source.set(rows[members[0]!]!.best.subarray(spread.low, spread.high + 1), spread.low);
        this.mergedRow.fill(members[0]!, spread.low, spread.high + 1);
        for (let m = 1; m < members.length; m++) {
          const { best } = rows[members[m]!]!;
          for (let t = spread.low; t <= spread.high; t++) {
            if (best[t]! < source[t]!) {
              source[t] = best[t]!;
              this.mergedRow[t] = members[m]!;
            }
          }
        }
      }
      const before = members.length > 1 ? MERGED : members[0]!;
      this.work += eHigh - eLow;
      const base = lag.rate * (low - lag.low);
      const window = { low, high: lag.high, cap, tail, rate: lag.rate, base };
      slideMinimum(
        this.space,
        source,
        spread.low,
        spread.high,
        window,
        eLow,
        eHigh,
        row.after,
        row.nextAt,
        row.nextRow,
        before,
      );
      if (before >= 0) continue;
      for (let e = eLow; e <= eHigh; e++)
        if (row.nextRow[e] === MERGED) row.nextRow[e] = this.mergedRow[row.nextAt[e]!]!;
    }
  }

  /** Placed activities that follow one in the middle of a path, or its end. */
  addLinks(row: Row, activity: Activity, state: State, eLow: number, eHigh: number): void {
    for (const lag of activity.outs) {
      if (!state.isPlaced(lag.to)) continue;
      const start = state.start[lag.to]!;
      const to = start - lag.low;
      const from = start - lag.high;
      for (let e = eLow; e <= eHigh; e++) {
        row.after[e] = e < from || e > to ? Number.POSITIVE_INFINITY : row.after[e]! + lag.rate * (to - e);
      }
    }
  }

  fillBest(row: Row, activity: Activity, spread: Spread, eLow: number, eHigh: number): void {
    const { best, own, after, variant } = row;
    const { low, high } = spread;
    if (variant.minutes >= 0) {
      const last = Math.min(high, this.model.horizon - variant.minutes);
      for (let t = low; t <= last; t++) best[t] = own[t]! + after[t + variant.minutes]!;
      best.fill(Number.POSITIVE_INFINITY, Math.max(low, last + 1), high + 1);
      return;
    }
    const mode = activity.modes[variant.mode]!;
    const range = mode.range!;
    const cap = this.capOf(mode, variant, low, high);
    best.fill(Number.POSITIVE_INFINITY, low, high + 1);
    const pieces = [
      { low: range.bestLow, high: range.bestHigh, rate: 0, base: 0 },
      { low: range.low, high: range.bestLow, rate: -range.rate, base: range.rate * (range.bestLow - range.low) },
      { low: range.bestHigh, high: range.high, rate: range.rate, base: 0 },
    ];
    for (const piece of pieces) {
      if (piece.low > piece.high) continue;
      const window = { ...piece, cap, tail: 0 };
      slideMinimum(this.space, after, eLow, eHigh, window, low, high, best, row.endAt, this.scratchTag, 0);
    }
    for (let t = low; t <= high; t++) best[t] = best[t]! + own[t]!;
  }

  /** Until when what an activity of free length needs stays free. */
  private capOf(mode: Activity['modes'][number], variant: Variant, low: number, high: number): Int32Array | null {
    const lines: Int32Array[] = [];
    if (mode.bench >= 0) lines.push(this.profiles.renewable(mode.bench, 1));
    if (variant.vessel >= 0) lines.push(this.profiles.vessel(variant.vessel, variant.amount, variant.tail));
    if (mode.unitCount > 0) {
      const ranked = new Int32Array(this.model.horizon + 2);
      const units = mode.units.map((u) => this.profiles.unit(u));
      for (let t = low; t <= high; t++) {
        ranked[t] = units.map((line) => line[t]!).sort((x, y) => y - x)[mode.unitCount - 1] ?? t;
      }
      lines.push(ranked);
    }
    if (lines.length < 2) return lines[0] ?? null;
    const cap = new Int32Array(this.model.horizon + 2);
    for (let t = low; t <= high; t++) cap[t] = Math.min(...lines.map((line) => line[t]!));
    return cap;
  }
}

/** What a minute more of waiting costs the placed jobs of a group. */
function waitingRate(state: State, group: number, landing: number): number {
  const { model } = state;
  let rate = 0;
  for (const j of model.groups[group]!.jobs) {
    const job = model.jobs[j]!;
    for (const a of job.activities) {
      if (!model.activities[a]!.sink || !state.isPlaced(a)) continue;
      rate += job.rate + (landing - state.end(a) >= job.keeps ? model.rates.over : 0);
    }
  }
  return rate;
}
