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
  private readonly heardOf: ReadonlyMap<Half, readonly number[]>;
  private readonly tasks: Tasks;
  private readonly queue: number[] = [];
  private readonly queued: Uint8Array;

  constructor(
    store: Store,
    private readonly number: number,
    tasks: readonly Task[],
  ) {
    this.tasks = new Tasks(store, tasks);
    this.heardOf = this.tasks.listeners();
    this.halves = this.heardOf.keys();
    this.queued = new Uint8Array(tasks.length);
    this.lookAtAll();
  }

  lookAtAll(): void {
    for (let i = 0; i < this.queued.length; i++) this.enqueue(i);
  }

  private enqueue(i: number): void {
    if (this.queued[i] === 1) return;
    this.queued[i] = 1;
    this.queue.push(i);
  }

  hear(half: Half): void {
    for (const i of this.heardOf.get(half) ?? []) this.enqueue(i);
  }

  forget(): void {
    for (const i of this.queue) this.queued[i] = 0;
    this.queue.length = 0;
  }

  propagate(): boolean {
    const { queue, tasks } = this;
    const n = tasks.count;
    while (queue.length > 0) {
      const i = queue.pop()!;
      this.queued[i] = 0;
      const own = tasks.presence(i);
      if (own === ABSENT) continue;
      for (let j = 0; j < n; j++) {
        if (j === i) continue;
        // Most pairs are free in their order, which is quickly seen.
        const notFirst = tasks.earliestEnd(i) > tasks.latestStart(j);
        const notSecond = tasks.earliestEnd(j) > tasks.latestStart(i);
        if (!notFirst && !notSecond) continue;
        const other = tasks.presence(j);
        if (other === ABSENT || (own !== PRESENT && other !== PRESENT)) continue;
        if (!this.pair(i, j, notFirst, notSecond, own === PRESENT, other === PRESENT)) return false;
      }
    }
    return true;
  }

  private pair(i: number, j: number, notFirst: boolean, notSecond: boolean, iThere: boolean, jThere: boolean): boolean {
    if (notFirst && notSecond) {
      if (iThere && jThere) return this.order(j, i) && this.order(i, j);
      return iThere ? this.leave(j, i) : this.leave(i, j);
    }
    if (!iThere || !jThere) return true;
    if (notFirst) return this.order(j, i);
    if (notSecond) return this.order(i, j);
    return true;
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
