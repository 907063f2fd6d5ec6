import type { Operations } from './shop.js';

/**
 * The disjunctive graph with all orders chosen (B. Roy, B. Sussmann, Les problèmes d'ordonnancement avec contraintes disjonctives, SEMA, 1964):
 * each operation with its machine and its neighbours there; heads, tails, makespan.
 */
export class MachineOrders {
  readonly size: number;
  readonly machine: Int32Array;
  readonly minutes: Int32Array;
  /** The operation before and after on the machine; -1: none. */
  readonly previous: Int32Array;
  readonly next: Int32Array;
  /** First operation of each machine; -1: none. */
  readonly first: Int32Array;
  /** Longest path up to the start, and from the end. */
  readonly heads: Int32Array;
  readonly tails: Int32Array;
  /** All operations, each after those it must follow. */
  readonly order: Int32Array;
  makespan = 0;
  private readonly waits: Int32Array;

  constructor(
    readonly operations: Operations,
    readonly machines: number,
  ) {
    const { size } = operations;
    this.size = size;
    this.machine = new Int32Array(size).fill(-1);
    this.minutes = new Int32Array(size);
    this.previous = new Int32Array(size).fill(-1);
    this.next = new Int32Array(size).fill(-1);
    this.first = new Int32Array(machines).fill(-1);
    this.heads = new Int32Array(size);
    this.tails = new Int32Array(size);
    this.order = new Int32Array(size);
    this.waits = new Int32Array(size);
  }

  copy(other: MachineOrders): void {
    for (const name of ['machine', 'minutes', 'previous', 'next', 'first', 'heads', 'tails', 'order'] as const) {
      this[name].set(other[name]);
    }
    this.makespan = other.makespan;
  }

  takeOut(v: number): void {
    const [before, after] = [this.previous[v]!, this.next[v]!];
    if (before >= 0) this.next[before] = after;
    else this.first[this.machine[v]!] = after;
    if (after >= 0) this.previous[after] = before;
    this.previous[v] = -1;
    this.next[v] = -1;
  }

  /** Behind `before` on the machine, or first of all (-1). */
  putIn(v: number, mode: number, before: number): void {
    const { machine, minutes } = this.operations.modes[v]![mode]!;
    this.machine[v] = machine;
    this.minutes[v] = minutes;
    const after = before >= 0 ? this.next[before]! : this.first[machine]!;
    this.previous[v] = before;
    this.next[v] = after;
    if (before >= 0) this.next[before] = v;
    else this.first[machine] = v;
    if (after >= 0) this.previous[after] = v;
  }

  /** Order, heads, tails and makespan; false: the orders make a circle. */
  measure(): boolean {
    const { before, after } = this.operations;
    const { waits, order, previous, next, heads, tails, minutes, size } = this;
    let known = 0;
    for (let v = 0; v < size; v++) {
      waits[v] = (before[v]! >= 0 ? 1 : 0) + (previous[v]! >= 0 ? 1 : 0);
      if (waits[v] === 0) order[known++] = v;
    }
    this.makespan = 0;
    for (let at = 0; at < known; at++) {
      const v = order[at]!;
      heads[v] = Math.max(this.endOf(before[v]!), this.endOf(previous[v]!));
      this.makespan = Math.max(this.makespan, heads[v]! + minutes[v]!);
      for (const w of [after[v]!, next[v]!]) if (w >= 0 && --waits[w]! === 0) order[known++] = w;
    }
    if (known < size) return false;
    for (let at = size - 1; at >= 0; at--) {
      const v = order[at]!;
      tails[v] = Math.max(this.restOf(after[v]!), this.restOf(next[v]!));
    }
    return true;
  }

  private endOf(v: number): number {
    return v < 0 ? 0 : this.heads[v]! + this.minutes[v]!;
  }

  private restOf(v: number): number {
    return v < 0 ? 0 : this.tails[v]! + this.minutes[v]!;
  }

  isCritical(v: number): boolean {
    return this.heads[v]! + this.minutes[v]! + this.tails[v]! === this.makespan;
  }
}
