import type { Rng } from '../kernel/rng.js';
import type { Network, Project } from './project.js';

/** An activity list with its left-justified schedule; the list is by start. */
export interface Parent {
  readonly list: Int32Array;
  readonly starts: Int32Array;
  readonly modes: Int32Array;
  readonly makespan: number;
}

/** Shortest and longest part of a schedule that is handed down as a peak. */
const PEAK = { from: 0.25, to: 0.75 } as const;

/** Makes activity lists of others. */
export class Recombination {
  readonly child: Int32Array;
  /** Of the child's activities: 1 where its place, and so its mode, comes of the second parent. */
  readonly second: Uint8Array;
  private readonly placed: Uint8Array;
  private readonly use: Float64Array;
  private many = 0;

  constructor(
    private readonly project: Project,
    private readonly network: Network,
    private readonly rng: Rng,
    horizon: number,
  ) {
    this.child = new Int32Array(network.size);
    this.second = new Uint8Array(network.size);
    this.placed = new Uint8Array(network.size);
    this.use = new Float64Array(horizon + 1);
  }

  copy({ list }: Parent): void {
    this.child.set(list);
    this.second.fill(0);
  }

  /** Two-point crossover (S. Hartmann, A competitive genetic algorithm for resource-constrained project scheduling, Naval Research Logistics 45, 1998). */
  twoPoint(one: Parent, other: Parent): void {
    const { network, rng, placed, second } = this;
    const cuts = [rng.below(network.size), rng.below(network.size)];
    const [from, to] = [Math.min(...cuts), Math.max(...cuts)];
    this.begin();
    for (let i = 0; i < from; i++) this.put(one.list[i]!);
    for (let i = 0; i < network.size && this.many < to; i++) {
      const j = other.list[i]!;
      if (placed[j]) continue;
      second[j] = 1;
      this.put(j);
    }
    for (let i = 0; i < network.size; i++) if (!placed[one.list[i]!]) this.put(one.list[i]!);
  }

  /**
   * The other's busiest stretch of a random length goes into the one, at its own time: after V. Valls, F. Ballestín, S. Quintanilla, A hybrid
   * genetic algorithm for the resource-constrained project scheduling problem, EJOR 185(2), 2008, with the window of D. Debels, M. Vanhoucke, A
   * decomposition-based genetic algorithm, Operations Research 55(3), 2007.
   */
  peak(one: Parent, other: Parent): void {
    const { size } = this.network;
    const { second } = this;
    const { from, to } = this.busiest(other);
    this.begin();
    for (let j = 0; j < size; j++) second[j] = other.starts[j]! >= from && other.starts[j]! < to ? 1 : 0;
    let next = 0;
    const handDown = (until: number): void => {
      for (; next < size && other.starts[other.list[next]!]! <= until; next++) {
        if (second[other.list[next]!]) this.putAfterPredecessors(other.list[next]!);
      }
    };
    for (let i = 0; i < size; i++) {
      const j = one.list[i]!;
      if (second[j]) continue;
      if (one.starts[j]! >= from) handDown(one.starts[j]!);
      this.putAfterPredecessors(j);
    }
    handDown(Number.POSITIVE_INFINITY);
  }

  /** Activities of the child move to a random place between those they must follow and those that must follow them, `expected` of them on average. */
  shift(expected: number): void {
    const { child, rng } = this;
    const { size } = this.network;
    for (let i = 0; i < size; i++) {
      if (rng.real() * size >= expected) continue;
      const j = child[i]!;
      let low = i;
      while (low > 0 && !this.precedes(child[low - 1]!, j)) low--;
      let high = i;
      while (high < size - 1 && !this.precedes(j, child[high + 1]!)) high++;
      const to = low + rng.below(high - low + 1);
      if (to < i) child.copyWithin(to + 1, to, i);
      else child.copyWithin(i, i + 1, to + 1);
      child[to] = j;
    }
  }

  private begin(): void {
    this.many = 0;
    this.placed.fill(0);
    this.second.fill(0);
  }

  private put(j: number): void {
    this.placed[j] = 1;
    this.child[this.many++] = j;
  }

  private putAfterPredecessors(j: number): void {
    if (this.placed[j]) return;
    this.placed[j] = 1;
    const { first, to } = this.network.before;
    for (let e = first[j]!; e < first[j + 1]!; e++) if (!this.placed[to[e]!]) this.putAfterPredecessors(to[e]!);
    this.child[this.many++] = j;
  }

  private precedes(i: number, j: number): boolean {
    const { first, to } = this.network.before;
    for (let e = first[j]!; e < first[j + 1]!; e++) if (to[e] === i) return true;
    return false;
  }

  /** The stretch in which the renewables are used most, as shares of their capacities. */
  private busiest({ starts, modes, makespan }: Parent): { from: number; to: number } {
    const { use, project } = this;
    // Differences first: what begins less what ends at each minute, added up afterwards.
    use.fill(0, 0, makespan + 1);
    for (let j = 0; j < starts.length; j++) {
      const { minutes, uses } = project.activities[j]![modes[j]!]!;
      let share = 0;
      for (let k = 0; k < uses.length; k++) if (uses[k]! > 0) share += uses[k]! / project.renewables[k]!;
      use[starts[j]!]! += share;
      use[starts[j]! + minutes]! -= share;
    }
    for (let t = 1; t < makespan; t++) use[t]! += use[t - 1]!;
    const length = Math.max(1, Math.floor(makespan * (PEAK.from + (PEAK.to - PEAK.from) * this.rng.real())));
    let sum = 0;
    for (let t = 0; t < length; t++) sum += use[t]!;
    let [most, from] = [sum, 0];
    for (let t = 1; t + length <= makespan; t++) {
      sum += use[t + length - 1]! - use[t - 1]!;
      if (sum > most + 1e-9) [most, from] = [sum, t];
    }
    return { from, to: from + length };
  }
}
