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
  private waiting = true;
  /** Instants at which the demand changes, rising, and the demand from there on. */
  private readonly times: number[] = [];
  private readonly heights: number[] = [];

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
  }

  lookAtAll(): void {
    this.waiting = true;
  }

  hear(): void {
    this.waiting = true;
  }

  forget(): void {
    this.waiting = false;
  }

  propagate(): boolean {
    if (!this.waiting) return true;
    this.waiting = false;
    const most = this.profile();
    const { times, heights, capacity, tasks, demands } = this;
    if (most + this.largest <= capacity) return true;
    for (let s = 0; s < times.length; s++) {
      if (heights[s]! > capacity) return this.overload(times[s]!);
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
    const { tasks, demands, times, heights } = this;
    times.length = 0;
    heights.length = 0;
    for (let i = 0; i < tasks.count; i++) {
      const from = tasks.latestStart(i);
      const to = tasks.earliestEnd(i);
      if (from >= to || demands[i] === 0 || tasks.presence(i) !== PRESENT) continue;
      const first = this.split(from);
      const last = this.split(to);
      for (let s = first; s < last; s++) heights[s] = heights[s]! + demands[i]!;
    }
    let most = 0;
    for (let s = 0; s < heights.length; s++) if (heights[s]! > most) most = heights[s]!;
    return most;
  }

  /** The place of an instant among the times, where it is put if it is not there. */
  private split(time: number): number {
    const { times, heights } = this;
    let s = times.length;
    while (s > 0 && times[s - 1]! >= time) s--;
    if (times[s] === time) return s;
    times.push(0);
    heights.push(0);
    for (let at = times.length - 1; at > s; at--) {
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
    const { tasks, times, heights, capacity } = this;
    for (let s = 0; s < times.length; s++) {
      const from = times[s]!;
      const to = times[s + 1] ?? Number.POSITIVE_INFINITY;
      const surely = there && tasks.latestStart(i) <= from && tasks.earliestEnd(i) >= to;
      if (surely || heights[s]! + demand <= capacity) continue;
      if (!there) {
        const time = Math.max(from, tasks.latestStart(i));
        if (time >= to || time >= tasks.earliestEnd(i)) continue;
        return tasks.leave(i, this.number, this.detail(i, time, LEAVES));
      }
      // Instant by instant, so that each can be explained by what runs at it.
      while (tasks.earliestStart(i) < to && tasks.earliestEnd(i) > from && tasks.latestStart(i) >= from) {
        const time = Math.min(to, tasks.earliestEnd(i)) - 1;
        if (time < from) break;
        // What surely runs there is in the profile itself.
        if (tasks.latestStart(i) <= time || tasks.earliestStart(i) > time) break;
        if (!tasks.startIsAtLeast(i, time + 1, this.number, this.detail(i, time, STARTS))) return false;
      }
    }
    if (!there) return true;
    for (let s = times.length - 1; s >= 0; s--) {
      const from = times[s]!;
      const to = times[s + 1] ?? Number.POSITIVE_INFINITY;
      if (heights[s]! + demand <= capacity) continue;
      while (tasks.latestEnd(i) > from && tasks.latestStart(i) < to && tasks.earliestEnd(i) <= to) {
        const time = Math.max(from, tasks.latestStart(i));
        if (time >= to || tasks.earliestEnd(i) > time || tasks.latestEnd(i) <= time) break;
        if (!tasks.endIsAtMost(i, time, this.number, this.detail(i, time, ENDS))) return false;
      }
    }
    return true;
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
