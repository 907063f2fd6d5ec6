/**
 * Packing with circles by halving: every centre has a range, what must clear each other narrows the ranges, and what is
 * still open is split, first into left and right, before and behind, then in the middle. Ends with a packing or, where
 * it runs to the end, with the proof that there is none. Good where there is room to spare or much too little; close to
 * the edge it runs out of work.
 */
import { extentX, extentY, turns } from './footprint.js';
import type { Spot } from './surface.js';
import type { Work } from './work.js';
import { type Task, Yard } from './yard.js';

/** Twice the tolerance of the overlap test: what fits by tolerance alone is never refuted. */
const SPARE = 2e-6;
/** Ranges narrower than this are not halved. */
const FINE = 1e-5;
/** Work of one node, in nodes of the corner search. */
const COST = 2;

export type Bisection = { readonly spots: readonly (Spot | null)[] | null; readonly complete: boolean };

/** Two that must clear each other: the one's centre keeps out of the other grown by the one (a box with rounded corners). */
interface Pair {
  readonly i: number;
  readonly j: number;
  readonly half: readonly [number, number];
  readonly radius: number;
}

interface State {
  /** Low and high of each centre, x and y in turn; free ones first, then what stands. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** For each pair and axis: 0 open, 1 the first is lower, 2 the second is. */
  readonly sign: Uint8Array;
}

/** Tries every combination of turns as far as the work goes. */
export function packBisected(task: Task, work: Work): Bisection {
  const { free, footprints } = task;
  const turnable = [...free.keys()].filter((k) => turns(footprints[free[k]!]!));
  let complete = true;
  for (let mask = 0; mask < 1 << turnable.length; mask++) {
    const turned = new Uint8Array(free.length);
    turnable.forEach((k, bit) => {
      turned[k] = (mask >> bit) & 1;
    });
    const search = new Bisecting(task, turned, work);
    const spots = search.run();
    if (spots !== null) return { spots, complete: true };
    complete &&= search.complete;
    if (work.spent) return { spots: null, complete: false };
  }
  return { spots: null, complete };
}

class Bisecting {
  complete = true;
  private readonly n: number;
  private readonly half: { readonly w: number; readonly d: number; readonly r: number }[];
  private readonly pairs: Pair[] = [];
  private readonly posts: number[] = [];

  constructor(
    private readonly task: Task,
    private readonly turned: Uint8Array,
    private readonly work: Work,
  ) {
    const { free, footprints, fixed, conflict, ground } = task;
    const total = footprints.length;
    this.n = free.length;
    this.half = free.map((i, k) => halfOf(task, i, turned[k] === 1));
    for (let a = 0; a < this.n; a++) {
      for (let b = a + 1; b < this.n; b++) {
        if (conflict[free[a]! * total + free[b]!] === 1) this.pair(a, b, this.half[b]!);
      }
    }
    fixed.forEach((spot, j) => {
      if (spot === null) return;
      const half = halfOf(task, j, spot.turned);
      const post = this.post(spot.x + half.w + half.r, spot.y + half.d + half.r);
      for (let a = 0; a < this.n; a++) if (conflict[free[a]! * total + j] === 1) this.pair(a, post, half);
    });
    for (const { left, front, right, back } of ground.walls) {
      const post = this.post((left + right) / 2, (front + back) / 2);
      for (let a = 0; a < this.n; a++) this.pair(a, post, { w: (right - left) / 2, d: (back - front) / 2, r: 0 });
    }
    const size = ({ half, radius }: Pair) => half[0] + half[1] + radius;
    this.pairs.sort((p, q) => size(q) - size(p) || p.i - q.i || p.j - q.j);
  }

  private post(x: number, y: number): number {
    this.posts.push(x, y);
    return this.n + this.posts.length / 2 - 1;
  }

  private pair(i: number, j: number, other: { w: number; d: number; r: number }): void {
    const { w, d, r } = this.half[i]!;
    this.pairs.push({ i, j, half: [w + other.w, d + other.d], radius: r + other.r });
  }

  run(): readonly (Spot | null)[] | null {
    const { bounds } = this.task.ground;
    const total = this.n + this.posts.length / 2;
    const low = new Float64Array(2 * total);
    const high = new Float64Array(2 * total);
    this.half.forEach(({ w, d, r }, k) => {
      low[2 * k] = bounds.left + w + r;
      high[2 * k] = bounds.right - w - r;
      low[2 * k + 1] = bounds.front + d + r;
      high[2 * k + 1] = bounds.back - d - r;
    });
    low.set(this.posts, 2 * this.n);
    high.set(this.posts, 2 * this.n);
    const state = { low, high, sign: new Uint8Array(2 * this.pairs.length) };
    this.halveMirrors(state);
    return this.step(state);
  }

  /** Equal ones stand in order of x; one may stay in the front (and, being the only one of its size, left) half. */
  private halveMirrors({ low, high, sign }: State): void {
    const { ground, footprints, free, fixed } = this.task;
    const shape = (k: number) => `${JSON.stringify(footprints[free[k]!])} ${this.turned[k]}`;
    const dense = this.pairs.length === (this.n * (this.n - 1)) / 2;
    if (!dense || fixed.some((spot) => spot !== null) || ground.walls.length > 0) return;
    this.pairs.forEach(({ i, j }, p) => {
      if (shape(i) === shape(j)) sign[2 * p] = 1;
    });
    const { bounds, surface } = ground;
    const only = [...free.keys()].find((k) => free.every((_, o) => o === k || shape(o) !== shape(k)));
    const k = only ?? 0;
    // A round grate whose strips do not reach from rim to rim is not its own mirror image in x.
    const even = surface.round === null || Math.abs(bounds.left + bounds.right - surface.round) < 1e-9;
    high[2 * k + 1] = Math.max(low[2 * k + 1]!, Math.min(high[2 * k + 1]!, (bounds.front + bounds.back) / 2 + SPARE));
    if (only !== undefined && even)
      high[2 * k] = Math.max(low[2 * k]!, Math.min(high[2 * k]!, (bounds.left + bounds.right) / 2 + SPARE));
  }

  private step(state: State): readonly (Spot | null)[] | null {
    if (!this.work.take(COST) || !this.narrow(state)) return null;
    const { low, high, sign } = state;
    let widest = -1;
    let width = 0;
    for (let p = 0; p < this.pairs.length; p++) {
      if (this.clear(state, p)) continue;
      for (const axis of [0, 1]) {
        if (sign[2 * p + axis] === 0)
          return this.branch(state, (next, side) => next.sign.fill(side + 1, 2 * p + axis, 2 * p + axis + 1));
      }
      const { i, j } = this.pairs[p]!;
      for (const v of [2 * i, 2 * i + 1, 2 * j, 2 * j + 1]) {
        if (high[v]! - low[v]! > width) {
          width = high[v]! - low[v]!;
          widest = v;
        }
      }
    }
    if (widest < 0) {
      const found = this.found(state);
      if (found !== null) return found;
      // Only the rim of a round grate is still open.
      for (let v = 0; v < 2 * this.n; v++) {
        if (high[v]! - low[v]! > width) {
          width = high[v]! - low[v]!;
          widest = v;
        }
      }
    }
    if (width < FINE) {
      this.complete = false;
      return this.found(state);
    }
    const middle = (low[widest]! + high[widest]!) / 2;
    return this.branch(state, (next, side) => {
      (side === 0 ? next.high : next.low)[widest] = middle;
    });
  }

  private branch(state: State, change: (next: State, side: number) => void): readonly (Spot | null)[] | null {
    for (const side of [0, 1]) {
      const next = { low: state.low.slice(), high: state.high.slice(), sign: state.sign.slice() };
      change(next, side);
      const found = this.step(next);
      if (found !== null || this.work.spent) return found;
    }
    return null;
  }

  private found({ low, high }: State): readonly (Spot | null)[] | null {
    const yard = new Yard(this.task);
    const centres = low.map((v, k) => (v + high[k]!) / 2);
    return yard.accepts(centres, this.turned) ? yard.spots : null;
  }

  /** Whether a pair clears each other wherever in their ranges they stand. */
  private clear({ low, high }: State, p: number): boolean {
    const { i, j, half, radius } = this.pairs[p]!;
    const q = [0, 1].map((axis) => {
      const a = 2 * i + axis;
      const b = 2 * j + axis;
      return Math.max(0, low[b]! - high[a]!, low[a]! - high[b]!) - half[axis]!;
    }) as [number, number];
    if (q[0] > 0 && q[1] > 0) return q[0] * q[0] + q[1] * q[1] >= radius * radius;
    return Math.max(q[0], q[1]) >= radius;
  }

  /** Narrows the ranges until little changes; false where one is empty. */
  private narrow(state: State): boolean {
    for (let pass = 0; pass < 12; pass++) {
      let gain = 0;
      for (let p = 0; p < this.pairs.length; p++) {
        for (const axis of [0, 1]) {
          const got = this.part(state, p, axis);
          if (got < 0) return false;
          gain += got;
        }
      }
      const got = this.rim(state);
      if (got < 0) return false;
      if (gain + got < 1e-3) return true;
    }
    return true;
  }

  /** Narrows along one axis: how far apart the pair must be, given how far apart at most they are along the other. */
  private part({ low, high, sign }: State, p: number, axis: number): number {
    const { i, j, half, radius } = this.pairs[p]!;
    const a = 2 * i + axis;
    const b = 2 * j + axis;
    const c = 2 * i + 1 - axis;
    const e = 2 * j + 1 - axis;
    const beyond = Math.max(high[e]! - low[c]!, high[c]! - low[e]!) + SPARE - half[1 - axis]!;
    let need = 0;
    if (beyond < radius) {
      const rounded = beyond <= 0 ? radius : Math.sqrt(radius * radius - beyond * beyond);
      need = Math.max(0, half[axis]! + rounded - SPARE);
    }
    const lower = sign[2 * p + axis] !== 2 && low[a]! + need <= high[b]! + SPARE;
    const upper = sign[2 * p + axis] !== 1 && low[b]! + need <= high[a]! + SPARE;
    if (!lower && !upper) return -1;
    if (lower && upper) return 0;
    sign[2 * p + axis] = lower ? 1 : 2;
    const [first, second] = lower ? [a, b] : [b, a];
    let gain = 0;
    if (low[first]! + need > low[second]! && second < 2 * this.n) {
      gain += low[first]! + need - low[second]!;
      low[second] = low[first]! + need;
    }
    if (high[second]! - need < high[first]! && first < 2 * this.n) {
      gain += high[first]! - (high[second]! - need);
      high[first] = high[second]! - need;
    }
    return gain;
  }

  /** Keeps the centres of a round grate's loads within its rim. */
  private rim({ low, high }: State): number {
    const { round } = this.task.ground.surface;
    if (round === null) return 0;
    const middle = round / 2;
    let gain = 0;
    for (let k = 0; k < this.n; k++) {
      const { w, d, r } = this.half[k]!;
      const reach = middle - r + SPARE;
      for (const axis of [0, 1]) {
        const own = axis === 0 ? w : d;
        const v = 2 * k + axis;
        const o = 2 * k + 1 - axis;
        const nearest = Math.max(0, low[o]! - middle, middle - high[o]!) + (axis === 0 ? d : w);
        if (nearest > reach) return -1;
        const most = Math.sqrt(reach * reach - nearest * nearest) - own;
        const from = Math.max(low[v]!, middle - most);
        const to = Math.min(high[v]!, middle + most);
        if (from > to + SPARE) return -1;
        gain += from - low[v]! + high[v]! - to;
        low[v] = from;
        high[v] = to;
      }
    }
    return gain;
  }
}

/** Half extents without the rounding, and the rounding. */
function halfOf(task: Task, i: number, turned: boolean): { w: number; d: number; r: number } {
  const footprint = task.footprints[i]!;
  const w = extentX(footprint, turned) / 2;
  if (footprint.kind === 'round') return { w: 0, d: 0, r: w };
  return { w, d: extentY(footprint, turned) / 2, r: 0 };
}
