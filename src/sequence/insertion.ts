import type { MachineOrders } from './machine-orders.js';

/** An operation taken out and put in behind `before` (-1: first) in one of its modes. */
export interface Insertion {
  readonly v: number;
  readonly mode: number;
  readonly before: number;
  /** What the makespan will be, or a little more. */
  readonly estimate: number;
}

/**
 * All ways to put an operation elsewhere that make no circle and among which the best one is (M. Mastrolilli, L. M. Gambardella,
 * Effective neighbourhood functions for the flexible job shop problem, Journal of Scheduling 3, 2000). On its own machine they contain the moves of E.
 * Balas, A. Vazacopoulos, Guided local search with shifting bottleneck for job shop scheduling, Management Science 44(2), 1998.
 */
export class Insertions {
  private readonly heads: Int32Array;
  private readonly tails: Int32Array;

  constructor(private readonly orders: MachineOrders) {
    this.heads = new Int32Array(orders.size);
    this.tails = new Int32Array(orders.size);
  }

  /** Tells `hear` of every one but the present place. The orders have been measured and are the same afterwards. */
  of(v: number, hear: (mode: number, before: number, estimate: number) => void): void {
    const { orders, heads, tails } = this;
    const { operations, minutes, previous, next, machine } = orders;
    const without = this.pathsWithout(v);
    const [head, tail] = [heads[v]!, tails[v]!];
    operations.modes[v]!.forEach((mode, m) => {
      const home = mode.machine === machine[v];
      // Operations that must stay before v (long tails), then those on either side of which it may stand.
      let before = -1;
      let x = skip(orders.first[mode.machine]!, v, next);
      while (x >= 0 && heads[x]! + minutes[x]! <= head && tails[x]! + minutes[x]! > tail) {
        before = x;
        x = skip(next[x]!, v, next);
      }
      for (;;) {
        const through =
          Math.max(head, before >= 0 ? heads[before]! + minutes[before]! : 0) +
          mode.minutes +
          Math.max(tail, x >= 0 ? tails[x]! + minutes[x]! : 0);
        const present = home && before === previous[v] && mode.minutes === minutes[v];
        if (!present) hear(m, before, Math.max(through, without));
        // Those that start late and have short tails must stay behind.
        if (x < 0 || (heads[x]! + minutes[x]! > head && tails[x]! + minutes[x]! <= tail)) break;
        before = x;
        x = skip(next[x]!, v, next);
      }
    });
  }

  /** Heads and tails without v on any machine, which then takes no time; gives the longest path. */
  private pathsWithout(v: number): number {
    const { heads, tails, orders } = this;
    const { order, previous, next, minutes, size } = orders;
    const { before, after } = orders.operations;
    let longest = 0;
    for (let at = 0; at < size; at++) {
      const w = order[at]!;
      const [one, other] = [before[w]!, w === v ? -1 : skip(previous[w]!, v, previous)];
      let head = 0;
      if (one >= 0) head = heads[one]! + (one === v ? 0 : minutes[one]!);
      if (other >= 0) head = Math.max(head, heads[other]! + minutes[other]!);
      heads[w] = head;
      longest = Math.max(longest, head + (w === v ? 0 : minutes[w]!));
    }
    for (let at = size - 1; at >= 0; at--) {
      const w = order[at]!;
      const [one, other] = [after[w]!, w === v ? -1 : skip(next[w]!, v, next)];
      let tail = 0;
      if (one >= 0) tail = tails[one]! + (one === v ? 0 : minutes[one]!);
      if (other >= 0) tail = Math.max(tail, tails[other]! + minutes[other]!);
      tails[w] = tail;
    }
    return longest;
  }
}

/** The neighbour, or the one beyond v. */
function skip(w: number, v: number, neighbours: Int32Array): number {
  return w === v ? neighbours[v]! : w;
}
