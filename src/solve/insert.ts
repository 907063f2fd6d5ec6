/**
 * Insertion of one job into a schedule: each path of its precedence graph is placed by a dynamic programme over time that is
 * exact for the path given everything that is placed (backward from the landing, as cooks plan).
 *
 * For activity i in variant v, best[t] = own[t] + min over ends e and next starts t' in the lag's window of
 * lag rate x waiting + best'[t'] of the next activity. Cost O(variants of i x groups of variants of i + 1 x window).
 */
import type { Activity, Model } from '../kernel/model.js';
import type { State } from '../kernel/state.js';
import { commitPath, landingOf, pathHolds } from './commit.js';
import { fillHands, fillStock, MachineView } from './own-cost.js';
import { Profiles } from './profiles.js';
import type { Rng } from './rng.js';
import { slideMinimum } from './slide.js';
import { StorageView, storeJob } from './storage.js';
import { type Bias, type Variant, variantsOf } from './variants.js';

export interface InsertOptions {
  /** How far beyond the landing that stands a sink may end. */
  readonly lateness: number;
  /** A sink ends at most this long before the landing that stands. */
  readonly reach: number;
  readonly bias: Bias | null;
  /** Most settings of a mode that are tried. */
  readonly settings: number;
  readonly rng: Rng;
}

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

interface Spread {
  low: number;
  high: number;
}

export class Inserter {
  private readonly rows: Row[] = [];
  private usedRows = 0;
  private readonly merged: Float64Array;
  private readonly mergedRow: Int16Array;
  private readonly space: { deque: Int32Array };
  private readonly profiles: Profiles;
  private readonly scratchTag: Int16Array;
  /** Minutes of rows filled so far: the measure of effort. */
  work = 0;

  constructor(
    private readonly model: Model,
    private readonly paths: readonly (readonly number[])[][],
    private readonly est: Int32Array,
    state: State,
  ) {
    const h = model.horizon + 2;
    this.merged = new Float64Array(h);
    this.mergedRow = new Int16Array(h);
    this.scratchTag = new Int16Array(h);
    this.space = { deque: new Int32Array(h) };
    this.profiles = new Profiles(model, state);
  }

  /** Places the whole job or leaves the state as it was. */
  insertJob(state: State, job: number, options: InsertOptions): boolean {
    for (const path of this.paths[job]!) {
      if (!this.insertPath(state, path, options)) {
        state.removeJob(job);
        return false;
      }
    }
    return true;
  }

  private insertPath(state: State, path: readonly number[], options: InsertOptions): boolean {
    let rest = path;
    while (rest.length > 0) {
      const chosen = this.planPath(state, rest, options)?.placements;
      if (chosen === undefined) return false;
      // A path can get in its own way, which the programme does not see: keep the end that holds, plan the beginning anew.
      const landing = landingOf(state, rest);
      let cut = 0;
      for (; cut < rest.length; cut++) {
        commitPath(state, this.profiles, rest.slice(cut), chosen.slice(cut));
        if (pathHolds(state, rest.slice(cut), landing)) break;
        for (const a of rest.slice(cut)) state.unplace(a);
      }
      if (cut === rest.length) return false;
      const { job } = this.model.activities[path[0]!]!;
      if (this.model.jobs[job]!.storage !== null) this.store(state, job);
      rest = rest.slice(0, cut);
    }
    return true;
  }

  private store(state: State, job: number): void {
    if (!state.jobIsPlaced(job)) return;
    storeJob(this.model, state, new MachineView(this.model, state), job);
  }

  private row(variant: Variant): Row {
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

  /** The best placements of a path given all that is placed, and their points; the state stays as it is. */
  planPath(
    state: State,
    path: readonly number[],
    options: InsertOptions,
  ): { placements: Placement[]; points: number } | null {
    const { model } = this;
    this.usedRows = 0;
    const spreads = this.spreads(state, path, options);
    if (spreads === null) return null;
    const view = new MachineView(model, state);
    const last = path.length - 1;
    this.profiles.reset(state, spreads[0]!.low, spreads[last]!.high + model.activities[path[last]!]!.longest);
    const dayFrom = dayStart(state, view);
    const inUse = model.machines.map((_, m) => new Set(view.blocks[m]!.map((b) => b.state)));
    const levels: Row[][] = [];
    let carried: number[] = [-1];
    const amounts = new Map<number, number>();
    for (const a of path) {
      const list = variantsOf(
        model,
        model.activities[a]!,
        carried,
        amounts,
        inUse,
        options.bias,
        options.settings,
        options.rng,
      );
      for (const v of list) if (v.kept >= 0) amounts.set(v.kept, Math.max(amounts.get(v.kept) ?? 1, v.amount));
      carried = [...new Set(list.map((v) => v.kept))];
      levels.push(list.map((v) => this.row(v)));
    }
    for (let i = path.length - 1; i >= 0; i--) {
      const activity = model.activities[path[i]!]!;
      const spread = spreads[i]!;
      for (const row of levels[i]!) {
        this.fillOwn(row, activity, spread, state, view, i === 0 ? dayFrom : 0);
        const eLow = spread.low + (row.variant.minutes < 0 ? activity.shortest : row.variant.minutes);
        const eHigh = Math.min(
          model.horizon,
          spread.high + (row.variant.minutes < 0 ? activity.longest : row.variant.minutes),
        );
        row.after.fill(Number.POSITIVE_INFINITY, eLow, eHigh + 1);
        if (i + 1 === path.length) this.fillEnd(row, activity, state, view, eLow, eHigh, options);
        else this.fillNext(row, activity, path[i + 1]!, levels[i + 1]!, spreads[i + 1]!, eLow, eHigh);
        this.addLinks(row, activity, state, eLow, eHigh);
        this.fillBest(row, activity, spread, eLow, eHigh);
      }
    }
    return this.readBest(levels, path, spreads);
  }

  /** Windows of start of each activity on the path, from its placed neighbours, the earliest starts and along the path. */
  private spreads(state: State, path: readonly number[], options: InsertOptions): Spread[] | null {
    const { model } = this;
    const spreads = path.map((a) => {
      const activity = model.activities[a]!;
      let low = this.est[a]!;
      let high = model.horizon - activity.shortest;
      const { group } = model.jobs[activity.job]!;
      if (activity.sink && group >= 0)
        high = Math.min(high, state.landing(group) + options.lateness - activity.shortest);
      for (const lag of activity.ins) {
        if (!state.isPlaced(lag.from)) continue;
        const end = state.end(lag.from);
        low = Math.max(low, end + lag.low);
        high = Math.min(high, end + lag.high);
      }
      for (const lag of activity.outs) {
        if (!state.isPlaced(lag.to)) continue;
        const start = state.start[lag.to]!;
        high = Math.min(high, start - lag.low - activity.shortest);
        low = Math.max(low, start - lag.high - activity.longest);
      }
      return { low, high };
    });
    for (let i = path.length - 2; i >= 0; i--) {
      const activity = model.activities[path[i]!]!;
      const lag = lagBetween(activity, path[i + 1]!);
      spreads[i]!.high = Math.min(spreads[i]!.high, spreads[i + 1]!.high - lag.low - activity.shortest);
      if (lag.high < Number.POSITIVE_INFINITY) {
        spreads[i]!.low = Math.max(spreads[i]!.low, spreads[i + 1]!.low - lag.high - activity.longest);
      }
    }
    for (let i = 0; i + 1 < path.length; i++) {
      const activity = model.activities[path[i]!]!;
      const lag = lagBetween(activity, path[i + 1]!);
      spreads[i + 1]!.low = Math.max(spreads[i + 1]!.low, spreads[i]!.low + activity.shortest + lag.low);
      if (lag.high < Number.POSITIVE_INFINITY) {
        spreads[i + 1]!.high = Math.min(spreads[i + 1]!.high, spreads[i]!.high + activity.longest + lag.high);
      }
    }
    return spreads.every((s) => s.low <= s.high) ? spreads : null;
  }

  private fillOwn(
    row: Row,
    activity: Activity,
    spread: Spread,
    state: State,
    view: MachineView,
    dayFrom: number,
  ): void {
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
    own.fill(Number.POSITIVE_INFINITY, high + 1, spread.high + 1);
    fillStock(this.profiles, mode, variant, variant.minutes < 0 ? 0 : minutes, low, high, own);
    fillHands(this.model, this.profiles, mode, minutes, low, high, own);
    for (let t = low; t <= high; t++) own[t] = own[t]! + variant.cost;
    for (const lag of activity.ins) {
      if (lag.rate === 0 || !state.isPlaced(lag.from)) continue;
      const ready = state.end(lag.from) + lag.low;
      for (let t = low; t <= high; t++) own[t] = own[t]! + lag.rate * (t - ready);
    }
    const { day } = this.model.rates;
    for (let t = low; t <= Math.min(high, dayFrom - 1); t++) own[t] = own[t]! + day * (dayFrom - t);
  }

  /** Points of ending at e for the last of a path: waiting to land, or nothing where placed activities follow. */
  private fillEnd(
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
    const landing = state.landing(job.group);
    const others = waitingRate(state, job.group, landing);
    for (let e = eLow; e <= Math.min(eHigh, landing + options.lateness); e++) {
      const held = Math.max(e, landing) + tail;
      if (line !== null && line[e]! < Math.min(held, model.horizon)) continue;
      if (e <= landing) after[e] = job.rate * (landing - e) + model.rates.over * Math.max(0, landing - e - job.keeps);
      else after[e] = (model.rates.late + others) * (e - landing);
    }
    if (job.storage === null || variant.kept < 0) return;
    const storage = new StorageView(model, view, job, variant.kept, variant.amount);
    if (storage.empty) return;
    for (let e = eLow; e <= Math.min(eHigh, landing - 1); e++) {
      if (after[e] === Number.POSITIVE_INFINITY) continue;
      after[e] = storage.best(e, landing)?.points ?? after[e]!;
    }
  }

  private fillNext(
    row: Row,
    activity: Activity,
    next: number,
    rows: Row[],
    spread: Spread,
    eLow: number,
    eHigh: number,
  ): void {
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
  private addLinks(row: Row, activity: Activity, state: State, eLow: number, eHigh: number): void {
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

  private fillBest(row: Row, activity: Activity, spread: Spread, eLow: number, eHigh: number): void {
    const { best, own, after, variant } = row;
    const { low, high } = spread;
    if (variant.minutes >= 0) {
      const last = Math.min(high, this.model.horizon - variant.minutes);
      for (let t = low; t <= last; t++) best[t] = own[t]! + after[t + variant.minutes]!;
      best.fill(Number.POSITIVE_INFINITY, last + 1, high + 1);
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
    if (variant.vessel >= 0) lines.push(this.profiles.renewable(variant.vessel, variant.amount));
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

  private readBest(
    levels: Row[][],
    path: readonly number[],
    spreads: Spread[],
  ): { placements: Placement[]; points: number } | null {
    let at = -1;
    let which = -1;
    let least = Number.POSITIVE_INFINITY;
    const { low, high } = spreads[0]!;
    levels[0]!.forEach((row, index) => {
      for (let t = high; t >= low; t--) {
        if (row.best[t]! < least) {
          least = row.best[t]!;
          at = t;
          which = index;
        }
      }
    });
    if (which < 0) return null;
    const chosen: Placement[] = [];
    for (let i = 0; i < path.length; i++) {
      const row = levels[i]![which]!;
      const end = row.variant.minutes < 0 ? row.endAt[at]! : at + row.variant.minutes;
      chosen.push({ start: at, minutes: end - at, mode: row.variant.mode, setting: row.variant.setting });
      at = row.nextAt[end]!;
      which = row.nextRow[end]!;
    }
    return { placements: chosen, points: least };
  }
}

export interface Placement {
  readonly start: number;
  readonly minutes: number;
  readonly mode: number;
  readonly setting: number;
}

export function lagBetween(activity: Activity, to: number): Activity['outs'][number] {
  const lag = activity.outs.find((l) => l.to === to);
  if (lag === undefined) throw new Error(`no lag from ${activity.id} to ${to}`);
  return lag;
}

/** The first placed start or changeover; the serve where nothing is placed. */
function dayStart(state: State, view: MachineView): number {
  const { model } = state;
  let first = model.serve;
  for (let a = 0; a < state.start.length; a++)
    if (state.start[a]! >= 0 && state.start[a]! < first) first = state.start[a]!;
  view.blocks.forEach((blocks, m) => {
    if (blocks.length === 0) return;
    const n = model.machines[m]!.states.length;
    first = Math.min(first, blocks[0]!.from - model.machines[m]!.transition[n * (n + 1) + blocks[0]!.state]!);
  });
  return first;
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
