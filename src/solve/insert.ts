/**
 * Insertion of one job into a schedule: each path of its precedence graph is placed by a dynamic programme over time that is
 * exact for the path given everything that is placed (backward from the landing, as cooks plan).
 *
 * For activity i in variant v, best[t] = own[t] + min over ends e and next starts t' in the lag's window of
 * lag rate x waiting + best'[t'] of the next activity. Cost O(variants of i x groups of variants of i + 1 x window).
 */
import type { Model } from '../kernel/model.js';
import type { State } from '../kernel/state.js';
import { commitPath, landingOf, type Placement, pathHolds } from './commit.js';
import { MachineView } from './own-cost.js';
import { PathRows, type Row } from './path-rows.js';
import { dayStart, type InsertOptions, type Spread, spreadsOf } from './path-windows.js';
import { Profiles } from './profiles.js';
import { heldBefore, storeJob } from './storage.js';
import { variantsOf } from './variants.js';

/** What a plan of a path counts as before any row is filled: reading what is placed grows with how much that is. */
const PLAN_WORK = 2000;
const PLAN_WORK_EACH = 150;

export class Inserter {
  private readonly rows: PathRows;
  private readonly profiles: Profiles;

  constructor(
    private readonly model: Model,
    private readonly paths: readonly (readonly number[])[][],
    private readonly est: Int32Array,
    state: State,
  ) {
    this.profiles = new Profiles(model, state);
    this.rows = new PathRows(model, this.profiles);
  }

  /** Minutes of rows filled so far, and whatever else was charged: the measure of effort. */
  get work(): number {
    return this.rows.work;
  }

  charge(work: number): void {
    this.rows.work += work;
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

  /** The best placements of a path given all that is placed, and their points; the state stays as it is. */
  planPath(
    state: State,
    path: readonly number[],
    options: InsertOptions,
  ): { placements: Placement[]; points: number } | null {
    const { model } = this;
    this.rows.clear(options);
    this.charge(PLAN_WORK + PLAN_WORK_EACH * model.activities.length);
    const spreads = spreadsOf(model, this.est, state, path, options);
    if (spreads === null) return null;
    const view = new MachineView(model, state);
    const last = path.length - 1;
    this.profiles.reset(state, spreads[0]!.low, spreads[last]!.high + model.activities[path[last]!]!.longest);
    const dayFrom = dayStart(state, view);
    const inUse = model.machines.map((_, m) => new Set(view.blocks[m]!.map((b) => b.state)));
    const levels: Row[][] = [];
    const held = heldBefore(model, state, path[0]!);
    let carried: number[] = [held?.vessel ?? -1];
    const amounts = new Map<number, number>(held === null ? [] : [[held.vessel, held.amount]]);
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
      levels.push(list.map((v) => this.rows.row(v)));
    }
    for (let i = path.length - 1; i >= 0; i--) {
      const activity = model.activities[path[i]!]!;
      const spread = spreads[i]!;
      for (const row of levels[i]!) {
        this.rows.fillOwn(row, activity, spread, state, view, i === 0 ? dayFrom : 0);
        if (i === 0 && held !== null) this.rows.keepHeld(row, spread, held);
        const eLow = spread.low + (row.variant.minutes < 0 ? activity.shortest : row.variant.minutes);
        const eHigh = Math.min(
          model.horizon,
          spread.high + (row.variant.minutes < 0 ? activity.longest : row.variant.minutes),
        );
        row.after.fill(Number.POSITIVE_INFINITY, eLow, eHigh + 1);
        if (i + 1 === path.length) this.rows.fillEnd(row, activity, state, view, eLow, eHigh, options);
        else this.rows.fillNext(row, activity, path[i + 1]!, levels[i + 1]!, spreads[i + 1]!, eLow, eHigh);
        this.rows.addLinks(row, activity, state, eLow, eHigh);
        this.rows.fillBest(row, activity, spread, eLow, eHigh);
      }
    }
    return this.readBest(levels, path, spreads);
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
      for (let t = low; t <= high; t++) {
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
