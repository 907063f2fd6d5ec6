/**
 * The primal network simplex method with strongly feasible trees (W. H. Cunningham, Mathematical Programming 11, 1976) on typed
 * arrays; `network-simplex.ts` says what is solved.
 */
import type { ArcTable } from './arc-table.js';

/** Weight of the artificial arcs: beyond any difference of potentials, and small enough for sums with flows to be exact. */
const FAR = 1e6;
/** Weight of an arc that is no constraint any more; a way over node 0, which is tied to all, is always dearer to the flow. */
export const MUTE = -FAR;
const LOWER = 0;
const UPPER = 1;
const IN_TREE = 2;

/** Node n is the root; its arcs to all others come after those that were there from the beginning. */
export class FlowTree {
  private readonly n: number;
  private readonly potential: Float64Array;
  private readonly parent: Int32Array;
  private readonly link: Int32Array;
  private readonly depth: Int32Array;
  private readonly child: Int32Array;
  private readonly after: Int32Array;
  private readonly before: Int32Array;
  private readonly stack: Int32Array;
  private scan = 0;
  /** By how much the last entering arc broke optimality. */
  private breach = 0;
  private kept: Kept | null = null;

  /** Adds the artificial arcs to the table. */
  constructor(
    private readonly arcs: ArcTable,
    pull: readonly number[],
  ) {
    const n = pull.length;
    const root = n;
    this.n = n;
    this.potential = new Float64Array(n + 1);
    this.parent = new Int32Array(n + 1).fill(-1);
    this.link = new Int32Array(n + 1).fill(-1);
    this.depth = new Int32Array(n + 1);
    this.child = new Int32Array(n + 1).fill(-1);
    this.after = new Int32Array(n + 1).fill(-1);
    this.before = new Int32Array(n + 1).fill(-1);
    this.stack = new Int32Array(n + 1);
    for (let i = 0; i < n; i++) {
      // Net inflow must equal the pull; arcs without flow point to the root, which makes the first tree strongly feasible.
      const inward = pull[i]! > 0;
      const a = arcs.add(inward ? root : i, inward ? i : root, -FAR, Number.POSITIVE_INFINITY);
      arcs.flow[a] = Math.abs(pull[i]!);
      arcs.place[a] = IN_TREE;
      this.potential[i] = inward ? -FAR : FAR;
      this.hang(i, root, a);
      this.depth[i] = 1;
    }
  }

  /** Pivots until nothing is to be gained, or the cost, which only rises, is `most`; false then, and where there are no potentials. */
  run(most: number): boolean {
    let cost = most === Number.POSITIVE_INFINITY ? 0 : this.cost();
    for (;;) {
      const entering = this.enteringArc();
      if (entering < 0) break;
      const moved = this.pivot(entering);
      if (moved === Number.POSITIVE_INFINITY) return false;
      cost += moved * this.breach;
      if (cost >= most) return false;
    }
    const { count, weight, flow } = this.arcs;
    for (let a = 0; a < count; a++) if (weight[a] === -FAR && flow[a]! > 1e-6) return false;
    return true;
  }

  potentials(): Float64Array {
    const zero = this.potential[0] ?? 0;
    return this.potential.slice(0, this.n).map((p) => p - zero);
  }

  /** By duality the sum of flow x weight; whole numbers, so exact. */
  cost(): number {
    let sum = 0;
    const { count, weight, flow } = this.arcs;
    for (let a = 0; a < count; a++) sum += flow[a]! * weight[a]!;
    return sum;
  }

  /** Potentials anew along the tree, after weights have changed. */
  settle(): void {
    this.potential[this.n] = 0;
    for (let c = this.child[this.n]!; c >= 0; c = this.after[c]!) this.spread(c);
  }

  keep(): void {
    const { count: m, weight, flow, place } = this.arcs;
    this.kept = {
      m,
      scan: this.scan,
      weight: weight.slice(0, m),
      flow: flow.slice(0, m),
      place: place.slice(0, m),
      tree: [this.parent, this.link, this.depth, this.child, this.after, this.before].map((each) => each.slice()),
      potential: this.potential.slice(),
    };
  }

  restore(): void {
    const kept = this.kept!;
    this.arcs.count = kept.m;
    this.scan = kept.scan;
    this.arcs.weight.set(kept.weight);
    this.arcs.flow.set(kept.flow);
    this.arcs.place.set(kept.place);
    [this.parent, this.link, this.depth, this.child, this.after, this.before].forEach((each, k) => {
      each.set(kept.tree[k]!);
    });
    this.potential.set(kept.potential);
  }

  private hang(x: number, parent: number, arc: number): void {
    this.parent[x] = parent;
    this.link[x] = arc;
    const next = this.child[parent]!;
    this.after[x] = next;
    this.before[x] = -1;
    if (next >= 0) this.before[next] = x;
    this.child[parent] = x;
  }

  private unhang(x: number): void {
    const before = this.before[x]!;
    const after = this.after[x]!;
    if (before >= 0) this.after[before] = after;
    else this.child[this.parent[x]!] = after;
    if (after >= 0) this.before[after] = before;
  }

  /** The arc that breaks optimality most within the first block that has any; -1 at the optimum. */
  private enteringArc(): number {
    const { count: m, from, to, weight, place } = this.arcs;
    const { potential } = this;
    const block = Math.max(20, Math.ceil(Math.sqrt(m) * 2));
    let best = -1;
    this.breach = 1e-7;
    for (let seen = 0, inBlock = 0; seen < m; seen++) {
      const a = this.scan;
      this.scan = a + 1 === m ? 0 : a + 1;
      if (place[a] !== IN_TREE) {
        const reduced = potential[to[a]!]! - potential[from[a]!]! - weight[a]!;
        const breach = place[a] === LOWER ? -reduced : reduced;
        if (breach > this.breach) {
          this.breach = breach;
          best = a;
        }
      }
      if (++inBlock === block) {
        if (best >= 0) return best;
        inBlock = 0;
      }
    }
    return best;
  }

  /** Takes an arc into the tree; the flow that this moves. */
  private pivot(entering: number): number {
    const { from, to, cap, flow, place } = this.arcs;
    const { parent, link, depth } = this;
    const forward = place[entering] === LOWER;
    const u = forward ? from[entering]! : to[entering]!;
    const v = forward ? to[entering]! : from[entering]!;
    let join = u;
    let other = v;
    while (join !== other) {
      if (depth[join]! >= depth[other]!) join = parent[join]!;
      else other = parent[other]!;
    }
    // The last blocking arc of the cycle, seen from the join, leaves: that keeps the tree strongly feasible.
    let delta = Number.POSITIVE_INFINITY;
    let leaving = -1;
    let onU = false;
    for (let x = u; x !== join; x = parent[x]!) {
      const a = link[x]!;
      const room = to[a] === x ? cap[a]! - flow[a]! : flow[a]!;
      if (room < delta) {
        delta = room;
        leaving = x;
        onU = true;
      }
    }
    let flips = false;
    if (cap[entering]! <= delta) {
      delta = cap[entering]!;
      flips = true;
    }
    for (let x = v; x !== join; x = parent[x]!) {
      const a = link[x]!;
      const room = from[a] === x ? cap[a]! - flow[a]! : flow[a]!;
      if (room <= delta) {
        delta = room;
        leaving = x;
        onU = false;
        flips = false;
      }
    }
    if (delta === Number.POSITIVE_INFINITY) return delta;
    if (delta > 0) {
      flow[entering] = flow[entering]! + (forward ? delta : -delta);
      for (let x = u; x !== join; x = parent[x]!) {
        const a = link[x]!;
        flow[a] = flow[a]! + (to[a] === x ? delta : -delta);
      }
      for (let x = v; x !== join; x = parent[x]!) {
        const a = link[x]!;
        flow[a] = flow[a]! + (from[a] === x ? delta : -delta);
      }
    }
    if (flips) {
      place[entering] = forward ? UPPER : LOWER;
      return delta;
    }
    const out = link[leaving]!;
    place[out] = flow[out]! <= 1e-9 ? LOWER : UPPER;
    place[entering] = IN_TREE;
    this.rehang(onU ? u : v, onU ? v : u, entering, leaving);
    return delta;
  }

  /** Cuts the subtree below `leaving`'s link, turns it so that `top` is its root and hangs it on `parent` by `arc`. */
  private rehang(top: number, parent: number, arc: number, leaving: number): void {
    let x = top;
    let newParent = parent;
    let newLink = arc;
    for (;;) {
      const oldParent = this.parent[x]!;
      const oldLink = this.link[x]!;
      this.unhang(x);
      this.hang(x, newParent, newLink);
      if (x === leaving) break;
      newParent = x;
      newLink = oldLink;
      x = oldParent;
    }
    this.spread(top);
  }

  /** Potentials and depths of a subtree from what is above it. */
  private spread(top: number): void {
    const { from, weight } = this.arcs;
    const { link, potential, depth, child, after, stack } = this;
    stack[0] = top;
    for (let count = 1; count > 0; ) {
      const y = stack[--count]!;
      const a = link[y]!;
      const above = this.parent[y]!;
      potential[y] = from[a] === above ? potential[above]! + weight[a]! : potential[above]! - weight[a]!;
      depth[y] = depth[above]! + 1;
      for (let c = child[y]!; c >= 0; c = after[c]!) stack[count++] = c;
    }
  }
}

interface Kept {
  readonly m: number;
  readonly scan: number;
  readonly weight: Float64Array;
  readonly flow: Float64Array;
  readonly place: Uint8Array;
  readonly tree: readonly Int32Array[];
  readonly potential: Float64Array;
}
