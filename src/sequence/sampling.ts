import type { Rng } from '../kernel/rng.js';
import type { Network } from './project.js';

/** Random activity lists: orders in which each activity stands after those before it. */
export class Sampler {
  private readonly waits: Int32Array;
  private readonly open: Int32Array;
  private readonly weights: Float64Array;

  constructor(private readonly network: Network) {
    this.waits = new Int32Array(network.size);
    this.open = new Int32Array(network.size);
    this.weights = new Float64Array(network.size);
  }

  /**
   * Regret-based biased sampling (A. Drexl, Scheduling of project networks by job assignment, Management Science 37(12), 1991): an activity's
   * weight is its regret, by how much its key is above the least of those that may come next, plus one.
   */
  draw(keys: ArrayLike<number>, rng: Rng, list: Int32Array): void {
    const { waits, open, weights } = this;
    const { size, before, after, order } = this.network;
    let many = 0;
    for (const j of order) {
      waits[j] = before.first[j + 1]! - before.first[j]!;
      if (waits[j] === 0) open[many++] = j;
    }
    for (let at = 0; at < size; at++) {
      let least = Number.POSITIVE_INFINITY;
      for (let i = 0; i < many; i++) least = Math.min(least, keys[open[i]!]!);
      let total = 0;
      for (let i = 0; i < many; i++) {
        weights[i] = keys[open[i]!]! - least + 1;
        total += weights[i]!;
      }
      let rest = rng.real() * total;
      let pick = 0;
      while (pick < many - 1 && rest >= weights[pick]!) rest -= weights[pick++]!;
      const j = open[pick]!;
      open[pick] = open[--many]!;
      list[at] = j;
      for (let e = after.first[j]!; e < after.first[j + 1]!; e++) {
        if (--waits[after.to[e]!]! === 0) open[many++] = after.to[e]!;
      }
    }
  }
}
