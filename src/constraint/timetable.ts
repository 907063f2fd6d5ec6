/**
 * Tasks that demand of a resource: what surely runs at an instant leaves no room for more than the capacity (time-table propagation, explained
 * at single instants: A. Schutt, T. Feydy, P. J. Stuckey, M. Wallace, Explaining the cumulative propagator, Constraints 16, 2011).
 */
import type { Atoms, Propagator } from './explainer.js';
import type { Half, Store } from './store.js';
import { ABSENT, PRESENT, type Task, Tasks } from './task.js';

/** What a detail says beside the task and the instant. */
const STARTS = 0;
const ENDS = 1;
const LEAVES = 2;
const KINDS = 3;

export class Timetable implements Propagator {
  readonly halves: Iterable<Half>;
  private readonly tasks: Tasks;
  private readonly largest: number;
  /** Instants at which the demand changes, rising, and the demand from there on. */
  private readonly times: Float64Array;
  private readonly heights: Float64Array;
  private steps = 0;
  /** Steps in which some task finds no room. */
  private readonly full: number[] = [];

  constructor(
    private readonly store: Store,
    private readonly number: number,
    tasks: readonly Task[],
    private readonly demands: readonly number[],
    private readonly capacity: number,
  ) {
    this.tasks = new Tasks(store, tasks);
    this.largest = Math.max(0, ...demands);
    this.halves = this.tasks.listeners().keys();
    this.times = new Float64Array(2 * tasks.length);
    this.heights = new Float64Array(2 * tasks.length);
  }

  propagate(): boolean {
    const most = this.profile();
    const { times, heights, capacity, tasks, demands } = this;
    if (most + this.largest <= capacity) return true;
    this.full.length = 0;
    for (let s = 0; s < this.steps; s++) {
      if (heights[s]! > capacity) return this.overload(times[s]!);
      if (heights[s]! + this.largest > capacity) this.full.push(s);
    }
    for (let i = 0; i < tasks.count; i++) {
      if (demands[i] === 0 || most + demands[i]! <= capacity) continue;
      const presence = tasks.presence(i);
      if (presence === ABSENT) continue;
      if (!this.fit(i, demands[i]!, presence === PRESENT)) return false;
    }
    return true;
  }

  /** Returns the highest demand. */
  private profile(): number {
    const { tasks, demands, heights } = this;
    this.steps = 0;
    for (let i = 0; i < tasks.count; i++) {
      const from = tasks.latestStart(i);
      const to = tasks.earliestEnd(i);
      if (from >= to || demands[i] === 0 || tasks.presence(i) !== PRESENT) continue;
      const first = this.split(from);
      const last = this.split(to);
      for (let s = first; s < last; s++) heights[s] = heights[s]! + demands[i]!;
    }
    let most = 0;
    for (let s = 0; s < this.steps; s++) if (heights[s]! > most) most = heights[s]!;
    return most;
  }

  /** The place of an instant among the times, where it is put if it is not there. */
  private split(time: number): number {
    const { times, heights } = this;
    let s = this.steps;
    while (s > 0 && times[s - 1]! >= time) s--;
    if (s < this.steps && times[s] === time) return s;
    for (let at = this.steps++; at > s; at--) {
      times[at] = times[at - 1]!;
      heights[at] = heights[at - 1]!;
    }
    times[s] = time;
    heights[s] = s > 0 ? heights[s - 1]! : 0;
    return s;
  }

  /** No task can be named that fails: the capacity does. */
  private overload(time: number): boolean {
    const { failure } = this.store;
    failure.half = -1;
    failure.by = this.number;
    failure.detail = time;
    return false;
  }

  /** Moves a task out of where there is no room for it. */
  private fit(i: number, demand: number, there: boolean): boolean {
    return there ? this.fitStart(i, demand) && this.fitEnd(i, demand) : this.fitAtAll(i, demand);
  }

  /** Where it would surely run, were it there, there must be room. */
  private fitAtAll(i: number, demand: number): boolean {
    const { tasks, times, heights, capacity, full } = this;
    const start = tasks.latestStart(i);
    const end = tasks.earliestEnd(i);
    if (start >= end) return true;
    for (let f = 0; f < full.length && times[full[f]!]! < end; f++) {
      const s = full[f]!;
      if (heights[s]! + demand <= capacity || this.until(s) <= start) continue;
      return tasks.leave(i, this.number, this.detail(i, Math.max(times[s]!, start), LEAVES));
    }
    return true;
  }

  private fitStart(i: number, demand: number): boolean {
    const { tasks, times, heights, capacity, full } = this;
    const latest = tasks.latestStart(i);
    let start = tasks.earliestStart(i);
    let end = tasks.earliestEnd(i);
    for (let f = 0; f < full.length; f++) {
      const s = full[f]!;
      const from = times[s]!;
      if (from >= end || from > latest) break;
      if (heights[s]! + demand <= capacity) continue;
      const to = this.until(s);
      // Instant by instant, so that each can be explained by what runs at it.
      while (start < to && from < end) {
        const time = Math.min(to, end) - 1;
        // What surely runs there is in the profile itself.
        if (time < from || latest <= time || start > time) break;
        if (!tasks.startIsAtLeast(i, time + 1, this.number, this.detail(i, time, STARTS))) return false;
        start = tasks.earliestStart(i);
        end = tasks.earliestEnd(i);
      }
    }
    return true;
  }

  private fitEnd(i: number, demand: number): boolean {
    const { tasks, times, heights, capacity, full } = this;
    const earliest = tasks.earliestEnd(i);
    let start = tasks.latestStart(i);
    let end = tasks.latestEnd(i);
    for (let f = full.length - 1; f >= 0; f--) {
      const s = full[f]!;
      const to = this.until(s);
      if (to <= start || to < earliest) break;
      const from = times[s]!;
      if (from >= end || heights[s]! + demand <= capacity) continue;
      while (end > from && start < to) {
        const time = Math.max(from, start);
        if (time >= to || earliest > time || end <= time) break;
        if (!tasks.endIsAtMost(i, time, this.number, this.detail(i, time, ENDS))) return false;
        start = tasks.latestStart(i);
        end = tasks.latestEnd(i);
      }
    }
    return true;
  }

  private until(s: number): number {
    return s + 1 < this.steps ? this.times[s + 1]! : Number.POSITIVE_INFINITY;
  }

  private detail(i: number, time: number, kind: number): number {
    return (time * this.tasks.count + i) * KINDS + kind;
  }

  explain(half: Half, _k: number, detail: number, entry: number, into: Atoms): void {
    const { tasks } = this;
    if (half < 0) {
      this.sayFull(-1, detail, this.capacity + 1, entry, into);
      return;
    }
    const n = tasks.count;
    const kind = detail % KINDS;
    const rest = (detail - kind) / KINDS;
    const i = rest % n;
    const time = (rest - i) / n;
    if (kind === LEAVES) tasks.sayPresent(i, into, half ^ 1);
    else tasks.sayPresent(i, into);
    if (kind !== ENDS) tasks.sayEndAtLeast(i, time + 1, into);
    if (kind !== STARTS) tasks.sayStartAtMost(i, time, into);
    this.sayFull(i, time, this.capacity + 1 - this.demands[i]!, entry, into);
  }

  /** Tasks that surely run at an instant and demand so much together. */
  private sayFull(except: number, time: number, need: number, entry: number, into: Atoms): void {
    const { tasks, demands } = this;
    let left = need;
    for (let j = 0; j < tasks.count && left > 0; j++) {
      if (j === except || demands[j] === 0 || !tasks.wasPresent(j, entry)) continue;
      if (tasks.latestStartBefore(j, entry) > time || tasks.earliestEndBefore(j, entry) <= time) continue;
      tasks.sayPresent(j, into);
      tasks.sayStartAtMost(j, time, into);
      tasks.sayEndAtLeast(j, time + 1, into);
      left -= demands[j]!;
    }
  }
}
