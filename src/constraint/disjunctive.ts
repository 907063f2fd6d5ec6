/** Tasks of which no two are on at once: where one of two cannot come first, the other does (pairwise immediate selection). */
import type { Atoms, Propagator } from './explainer.js';
import type { Half, Store } from './store.js';
import { ABSENT, PRESENT, type Task, Tasks } from './task.js';

/** What a detail says beside the pair: the second starts when the first has ended; the first ends before the second starts; the first is not there. */
const STARTS = 0;
const ENDS = 1;
const LEAVES = 2;
const KINDS = 3;

export class Disjunctive implements Propagator {
  readonly halves: Iterable<Half>;
  /** By half: the tasks that hear of its rise. */
  private readonly heardOf: (readonly number[] | undefined)[] = [];
  private readonly tasks: Tasks;
  private readonly queue: number[] = [];
  private readonly queued: Uint8Array;
  /** By task, as last read: a task that cannot be there ends before all others and starts after them. */
  private readonly there: Uint8Array;
  private readonly earliestEnd: Float64Array;
  private readonly latestStart: Float64Array;
  /** Tasks that are surely there, and all that may be. */
  private readonly present: number[] = [];
  private readonly possible: number[] = [];
  private stale = true;

  constructor(
    store: Store,
    private readonly number: number,
    tasks: readonly Task[],
  ) {
    this.tasks = new Tasks(store, tasks);
    const heardOf = this.tasks.listeners(false);
    this.halves = heardOf.keys();
    for (const [half, list] of heardOf) this.heardOf[half] = list;
    this.queued = new Uint8Array(tasks.length);
    this.there = new Uint8Array(tasks.length);
    this.earliestEnd = new Float64Array(tasks.length);
    this.latestStart = new Float64Array(tasks.length);
    this.lookAtAll();
  }

  lookAtAll(): void {
    this.stale = true;
    for (let i = 0; i < this.queued.length; i++) this.enqueue(i);
  }

  private enqueue(i: number): void {
    if (this.queued[i] === 1) return;
    this.queued[i] = 1;
    this.queue.push(i);
  }

  hear(half: Half): void {
    const list = this.heardOf[half]!;
    for (let at = 0; at < list.length; at++) this.enqueue(list[at]!);
  }

  forget(): void {
    this.stale = true;
    for (const i of this.queue) this.queued[i] = 0;
    this.queue.length = 0;
  }

  private read(i: number): void {
    const { tasks } = this;
    const there = tasks.presence(i);
    this.there[i] = there;
    this.earliestEnd[i] = there === ABSENT ? Number.NEGATIVE_INFINITY : tasks.earliestEnd(i);
    this.latestStart[i] = there === ABSENT ? Number.POSITIVE_INFINITY : tasks.latestStart(i);
  }

  /** Of two tasks one must surely be there for the other to hear of it, so most pairs need no look. */
  private list(): void {
    const { there, present, possible } = this;
    present.length = 0;
    possible.length = 0;
    for (let i = 0; i < there.length; i++) {
      if (there[i] === ABSENT) continue;
      possible.push(i);
      if (there[i] === PRESENT) present.push(i);
    }
  }

  propagate(): boolean {
    const { queue, there, earliestEnd, latestStart } = this;
    if (queue.length === 0) return true;
    const n = this.tasks.count;
    if (this.stale) for (let i = 0; i < n; i++) this.read(i);
    else for (let at = 0; at < queue.length; at++) this.read(queue[at]!);
    this.stale = false;
    this.list();
    while (queue.length > 0) {
      const i = queue.pop()!;
      this.queued[i] = 0;
      if (there[i] === ABSENT) continue;
      const others = there[i] === PRESENT ? this.possible : this.present;
      for (let at = 0; at < others.length; at++) {
        const j = others[at]!;
        // Most pairs are free in their order, which is quickly seen.
        const notFirst = earliestEnd[i]! > latestStart[j]!;
        const notSecond = earliestEnd[j]! > latestStart[i]!;
        if ((!notFirst && !notSecond) || j === i) continue;
        if (!this.pair(i, j, notFirst, notSecond)) return false;
        this.read(i);
        this.read(j);
      }
    }
    return true;
  }

  private pair(i: number, j: number, notFirst: boolean, notSecond: boolean): boolean {
    const iThere = this.there[i] === PRESENT;
    const jThere = this.there[j] === PRESENT;
    if (notFirst && notSecond) {
      if (iThere && jThere) return this.order(j, i) && this.order(i, j);
      return iThere ? this.leave(j, i) : this.leave(i, j);
    }
    if (!iThere || !jThere) return true;
    return notFirst ? this.order(j, i) : this.order(i, j);
  }

  /** The first must come before the second. */
  private order(first: number, second: number): boolean {
    const { tasks, number } = this;
    const detail = (first * tasks.count + second) * KINDS;
    return (
      tasks.startIsAtLeast(second, tasks.earliestEnd(first), number, detail + STARTS) &&
      tasks.endIsAtMost(first, tasks.latestStart(second), number, detail + ENDS)
    );
  }

  private leave(first: number, second: number): boolean {
    return this.tasks.leave(first, this.number, (first * this.tasks.count + second) * KINDS + LEAVES);
  }

  explain(half: Half, k: number, detail: number, entry: number, into: Atoms): void {
    const { tasks } = this;
    const n = tasks.count;
    const kind = detail % KINDS;
    const pair = (detail - kind) / KINDS;
    const second = pair % n;
    const first = (pair - second) / n;
    if (kind === LEAVES) {
      tasks.sayPresent(first, into, half ^ 1);
      tasks.sayPresent(second, into);
      this.sayNotBefore(first, second, entry, into);
      this.sayNotBefore(second, first, entry, into);
      return;
    }
    tasks.sayPresent(first, into);
    tasks.sayPresent(second, into);
    this.sayNotBefore(second, first, entry, into);
    if (kind === STARTS) tasks.sayEndAtLeast(first, tasks.asStart(second, k), into);
    else tasks.sayStartAtMost(second, tasks.asEnd(first, k), into);
  }

  /** One cannot end before the other must have started. */
  private sayNotBefore(one: number, other: number, entry: number, into: Atoms): void {
    const end = this.tasks.earliestEndBefore(one, entry);
    this.tasks.sayEndAtLeast(one, end, into);
    this.tasks.sayStartAtMost(other, end - 1, into);
  }
}
