/** Something that takes time: what scheduling propagators know of it. */
import type { Atoms } from './explainer.js';
import type { Half, Store } from './store.js';

/** A variable plus a constant. */
export interface Moment {
  readonly variable: number;
  readonly plus: number;
}

export interface Task {
  readonly start: Moment;
  readonly end: Moment;
  /** It is there where all of these hold. */
  readonly when: readonly { readonly half: Half; readonly value: number }[];
}

/** How sure it is that a task is there. */
export const ABSENT = 0;
export const POSSIBLE = 1;
export const PRESENT = 2;

/** Bounds of tasks, read from a store. */
export class Tasks {
  readonly count: number;
  /** By task: lower halves of its start and end, and what is added to them. */
  private readonly startHalf: Int32Array;
  private readonly endHalf: Int32Array;
  private readonly startPlus: Float64Array;
  private readonly endPlus: Float64Array;
  private readonly whenFrom: Int32Array;
  private readonly whenHalf: Int32Array;
  private readonly whenValue: Float64Array;

  constructor(
    readonly store: Store,
    all: readonly Task[],
  ) {
    this.count = all.length;
    this.startHalf = Int32Array.from(all, ({ start }) => 2 * start.variable);
    this.endHalf = Int32Array.from(all, ({ end }) => 2 * end.variable);
    this.startPlus = Float64Array.from(all, ({ start }) => start.plus);
    this.endPlus = Float64Array.from(all, ({ end }) => end.plus);
    this.whenFrom = new Int32Array(all.length + 1);
    all.forEach(({ when }, i) => {
      this.whenFrom[i + 1] = this.whenFrom[i]! + when.length;
    });
    const whens = all.flatMap(({ when }) => when);
    this.whenHalf = Int32Array.from(whens, ({ half }) => half);
    this.whenValue = Float64Array.from(whens, ({ value }) => value);
  }

  presence(i: number): number {
    const { low } = this.store;
    const { whenHalf, whenValue } = this;
    const to = this.whenFrom[i + 1]!;
    let found = PRESENT;
    for (let w = this.whenFrom[i]!; w < to; w++) {
      const half = whenHalf[w]!;
      const value = whenValue[w]!;
      if (low[half]! >= value) continue;
      if (-low[half ^ 1]! < value) return ABSENT;
      found = POSSIBLE;
    }
    return found;
  }

  earliestStart(i: number): number {
    return this.store.low[this.startHalf[i]!]! + this.startPlus[i]!;
  }

  latestStart(i: number): number {
    return this.startPlus[i]! - this.store.low[this.startHalf[i]! ^ 1]!;
  }

  earliestEnd(i: number): number {
    return this.store.low[this.endHalf[i]!]! + this.endPlus[i]!;
  }

  latestEnd(i: number): number {
    return this.endPlus[i]! - this.store.low[this.endHalf[i]! ^ 1]!;
  }

  earliestEndBefore(i: number, entry: number): number {
    return this.store.lowBefore(this.endHalf[i]!, entry) + this.endPlus[i]!;
  }

  latestStartBefore(i: number, entry: number): number {
    return this.startPlus[i]! - this.store.lowBefore(this.startHalf[i]! ^ 1, entry);
  }

  wasPresent(i: number, entry: number): boolean {
    const to = this.whenFrom[i + 1]!;
    for (let w = this.whenFrom[i]!; w < to; w++) {
      if (this.store.lowBefore(this.whenHalf[w]!, entry) < this.whenValue[w]!) return false;
    }
    return true;
  }

  /** Raises the one atom of its being there that is still open to its opposite; true where more than one is open. */
  leave(i: number, by: number, detail: number): boolean {
    const { low } = this.store;
    const to = this.whenFrom[i + 1]!;
    let open = -1;
    for (let w = this.whenFrom[i]!; w < to; w++) {
      if (low[this.whenHalf[w]!]! >= this.whenValue[w]!) continue;
      if (open >= 0) return true;
      open = w;
    }
    return open < 0 || this.store.raise(this.whenHalf[open]! ^ 1, 1 - this.whenValue[open]!, by, detail);
  }

  startIsAtLeast(i: number, k: number, by: number, detail: number): boolean {
    return this.store.raise(this.startHalf[i]!, k - this.startPlus[i]!, by, detail);
  }

  endIsAtMost(i: number, k: number, by: number, detail: number): boolean {
    return this.store.raise(this.endHalf[i]! ^ 1, this.endPlus[i]! - k, by, detail);
  }

  sayPresent(i: number, into: Atoms, except: Half = -1): void {
    const to = this.whenFrom[i + 1]!;
    for (let w = this.whenFrom[i]!; w < to; w++) {
      if (this.whenHalf[w] !== except) into.add(this.whenHalf[w]!, this.whenValue[w]!);
    }
  }

  sayEndAtLeast(i: number, k: number, into: Atoms): void {
    into.add(this.endHalf[i]!, k - this.endPlus[i]!);
  }

  sayStartAtMost(i: number, k: number, into: Atoms): void {
    into.add(this.startHalf[i]! ^ 1, this.startPlus[i]! - k);
  }

  /** From the half's value to the moment of a task's start, or of its end. */
  asStart(i: number, value: number): number {
    return value + this.startPlus[i]!;
  }

  asEnd(i: number, value: number): number {
    return this.endPlus[i]! - value;
  }

  /** By half whose rise matters: the tasks that hear of it. Of `outer` false: not of their earliest starts and latest ends. */
  listeners(outer = true): Map<Half, number[]> {
    const found = new Map<Half, number[]>();
    const add = (half: Half, i: number): void => {
      const list = found.get(half) ?? [];
      found.set(half, list);
      if (list.at(-1) !== i) list.push(i);
    };
    for (let i = 0; i < this.count; i++) {
      const [start, end] = [this.startHalf[i]!, this.endHalf[i]!];
      for (const half of new Set([start ^ 1, end, ...(outer ? [start, end ^ 1] : [])])) add(half, i);
      for (let w = this.whenFrom[i]!; w < this.whenFrom[i + 1]!; w++) add(this.whenHalf[w]!, i);
    }
    return found;
  }
}
