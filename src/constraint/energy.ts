/**
 * Tasks of fixed length that demand of a resource: what all of them must at least do between two instants is at most what the resource gives
 * (energetic reasoning; P. Baptiste, C. Le Pape, W. Nuijten, Constraint-Based Scheduling, 2001). Between earliest starts and latest ends, as in
 * edge-finding, and said with the bounds that make each task do so much there.
 */
import type { Atoms, Propagator } from './explainer.js';
import type { Half, Store } from './store.js';

export interface Work {
  /** The variable of its start, and what is added to it. */
  readonly variable: number;
  readonly plus: number;
  readonly size: number;
  readonly demand: number;
}

/** Which bound is raised: the start from below, or the end from above. Time runs backwards for the second. */
const START = 0;
const END = 1;
/** In place of a task: the resource fails. */
const NONE = -1;

export class Energy implements Propagator {
  readonly halves: Iterable<Half>;
  private readonly count: number;
  private readonly half: Int32Array;
  private readonly plus: Float64Array;
  private readonly size: Float64Array;
  private readonly demand: Float64Array;
  private readonly most: number;
  private readonly from: Float64Array;
  private readonly latest: Float64Array;
  private readonly active: Int32Array;
  private readonly early: Float64Array;
  /** By raise: trail length then, interval, task and side. Those that were taken back are overwritten. */
  private readonly records: { at: number; a: number; b: number; task: number; side: number }[] = [];

  constructor(
    private readonly store: Store,
    private readonly number: number,
    tasks: readonly Work[],
    private readonly capacity: number,
    /** It says nothing above this level of decisions, where it would cost more than it is worth. */
    private readonly highest = Number.POSITIVE_INFINITY,
  ) {
    const own = tasks.filter(({ size, demand }) => size > 0 && demand > 0);
    this.count = own.length;
    this.half = Int32Array.from(own, ({ variable }) => 2 * variable);
    this.plus = Float64Array.from(own, ({ plus }) => plus);
    this.size = Float64Array.from(own, ({ size }) => size);
    this.demand = Float64Array.from(own, ({ demand }) => demand);
    this.most = Math.max(0, ...own.map(({ size, demand }) => size * demand));
    this.from = new Float64Array(own.length);
    this.latest = new Float64Array(own.length);
    this.active = new Int32Array(own.length);
    this.early = new Float64Array(own.length);
    this.halves = [...this.half].flatMap((half) => [half, half ^ 1]);
  }

  propagate(): boolean {
    if (this.store.level > this.highest) return true;
    const { count, store, half, plus, size, demand, from, latest, capacity } = this;
    const { low } = store;
    for (let i = 0; i < count; i++) {
      from[i] = low[half[i]!]! + plus[i]!;
      latest[i] = plus[i]! - low[half[i]! ^ 1]!;
    }
    const begins = distinct(from);
    const ends = distinct(latest.map((time, i) => time + size[i]!));
    for (const a of begins) {
      // Tasks that can run after `a`, and what they can do there at most.
      let active = 0;
      let whole = 0;
      for (let i = 0; i < count; i++) {
        const early = Math.min(size[i]!, from[i]! + size[i]! - a);
        if (early <= 0) continue;
        this.active[active] = i;
        this.early[active++] = early;
        whole += demand[i]! * early;
      }
      for (const b of ends) {
        const supply = capacity * (b - a);
        if (b <= a) continue;
        if (supply - whole >= this.most) break;
        const slack = supply - this.demandOf(active, a, b);
        if (slack < 0) return this.overload(a, b);
        if (slack < this.most && !this.push(a, b, slack)) return false;
      }
    }
    return true;
  }

  private demandOf(active: number, a: number, b: number): number {
    const { latest, demand } = this;
    let sum = 0;
    for (let x = 0; x < active; x++) {
      const i = this.active[x]!;
      const late = Math.min(b - latest[i]!, b - a);
      if (late > 0) sum += demand[i]! * Math.min(this.early[x]!, late);
    }
    return sum;
  }

  private overload(a: number, b: number): boolean {
    const { failure } = this.store;
    failure.half = NONE;
    failure.by = this.number;
    failure.detail = this.record(a, b, NONE, START);
    return false;
  }

  private record(a: number, b: number, task: number, side: number): number {
    const { records, store } = this;
    const at = store.trail.length;
    while (records.length > 0 && records.at(-1)!.at >= at) records.pop();
    return records.push({ at, a, b, task, side }) - 1;
  }

  /** Tasks that would take more than the slack if they began as early, or ended as late, as they can. */
  private push(a: number, b: number, slack: number): boolean {
    const { count, store, half, plus, size, demand, from, latest, number } = this;
    for (let i = 0; i < count; i++) {
      const p = size[i]!;
      const d = demand[i]!;
      if (p * d <= slack) continue;
      const early = Math.min(p, b - a, from[i]! + p - a);
      const late = Math.min(p, b - a, b - latest[i]!);
      const least = Math.max(0, Math.min(early, late));
      const room = Math.floor(slack / d) + least;
      if (early > room) {
        const k = b - room - plus[i]!;
        if (store.low[half[i]!]! < k && !store.raise(half[i]!, k, number, this.record(a, b, i, START))) return false;
      }
      if (late > room) {
        const k = plus[i]! - (a + room - p);
        if (store.low[half[i]! ^ 1]! < k && !store.raise(half[i]! ^ 1, k, number, this.record(a, b, i, END)))
          return false;
      }
    }
    return true;
  }

  explain(_: Half, k: number, detail: number, entry: number, into: Atoms): void {
    const { a, b, task, side } = this.records[detail]!;
    const { store, half, plus, size, demand, count, capacity } = this;
    const whole = b - a;
    let surplus = -capacity * whole - 1;
    const minutes = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      const p = size[i]!;
      const early = store.lowBefore(half[i]!, entry) + plus[i]! + p - a;
      const late = b - plus[i]! + store.lowBefore(half[i]! ^ 1, entry);
      minutes[i] = Math.max(0, Math.min(p, whole, early, late));
      if (i === task) {
        // If the atom did not hold it would do so much.
        const other = side === START ? b - (k - 1 + plus[i]!) : plus[i]! - (k - 1) + p - a;
        minutes[i] = Math.min(p, whole, side === START ? early : late, other);
      }
      surplus += demand[i]! * minutes[i]!;
    }
    // What costs a decision is left out first.
    for (let i = 0; i < count; i++) {
      if (i === task || minutes[i] === 0 || demand[i]! * minutes[i]! > surplus) continue;
      const free = this.heldAtRoot(i, a, b, minutes[i]!);
      if (free) continue;
      surplus -= demand[i]! * minutes[i]!;
      minutes[i] = 0;
    }
    for (let i = 0; i < count; i++) {
      let m = minutes[i]!;
      if (m === 0) continue;
      if (i === task || !this.heldAtRoot(i, a, b, m)) {
        const less = Math.min(m - 1, Math.floor(surplus / demand[i]!));
        surplus -= less * demand[i]!;
        m -= less;
      }
      if (i !== task || side === START) into.add(half[i]!, a + m - size[i]! - plus[i]!);
      if (i !== task || side === END) into.add(half[i]! ^ 1, plus[i]! + m - b);
    }
  }

  private heldAtRoot(i: number, a: number, b: number, m: number): boolean {
    const { base } = this.store;
    const h = this.half[i]!;
    return base[h]! >= a + m - this.size[i]! - this.plus[i]! && base[h ^ 1]! >= this.plus[i]! + m - b;
  }
}

const distinct = (times: Float64Array): Float64Array => {
  const sorted = times.slice().sort();
  return sorted.filter((time, i) => i === 0 || time !== sorted[i - 1]);
};
