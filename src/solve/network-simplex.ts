/**
 * The primal network simplex method with strongly feasible trees (W. H. Cunningham, Mathematical Programming 11, 1976), here
 * for the dual that schedulers need: potentials p that minimise sum of pull[i] p[i] + sum over arcs of cap x max(0, weight -
 * (p[to] - p[from])). An arc of infinite cap is the constraint p[to] - p[from] >= weight. Pulls sum to zero. Whole weights
 * give whole potentials. Pulls and caps are best given as whole numbers, so that flows are exact.
 */
export class Network {
  private readonly from: number[] = [];
  private readonly to: number[] = [];
  private readonly weight: number[] = [];
  private readonly cap: number[] = [];
  private readonly pull: number[] = [];

  /** Adds a node and returns its index. */
  node(): number {
    return this.pull.push(0) - 1;
  }

  arc(from: number, to: number, weight: number, cap: number): void {
    this.from.push(from);
    this.to.push(to);
    this.weight.push(weight);
    this.cap.push(cap);
  }

  addPull(node: number, pull: number): void {
    this.pull[node] = this.pull[node]! + pull;
  }

  /** Potentials, node 0 at 0; null where no potentials keep all constraints, or nothing bounds the cost below. */
  solve(): Float64Array | null {
    return new Tree(this.from, this.to, this.weight, this.cap, this.pull).run();
  }
}

/** Weight of the artificial arcs: beyond any sum of real ones. */
const FAR = 1e9;
const LOWER = 0;
const UPPER = 1;
const IN_TREE = 2;

class Tree {
  private readonly n: number;
  private readonly m: number;
  private readonly from: Int32Array;
  private readonly to: Int32Array;
  private readonly weight: Float64Array;
  private readonly cap: Float64Array;
  private readonly flow: Float64Array;
  private readonly place: Uint8Array;
  private readonly potential: Float64Array;
  private readonly parent: Int32Array;
  private readonly link: Int32Array;
  private readonly depth: Int32Array;
  private readonly child: Int32Array;
  private readonly after: Int32Array;
  private readonly before: Int32Array;
  private scan = 0;

  constructor(from: number[], to: number[], weight: number[], cap: number[], pull: number[]) {
    const n = pull.length;
    const m = from.length;
    const root = n;
    this.n = n;
    this.m = m;
    this.from = new Int32Array(m + n);
    this.to = new Int32Array(m + n);
    this.weight = new Float64Array(m + n).fill(-FAR);
    this.cap = new Float64Array(m + n).fill(Number.POSITIVE_INFINITY);
    this.from.set(from);
    this.to.set(to);
    this.weight.set(weight);
    this.cap.set(cap);
    this.flow = new Float64Array(m + n);
    this.place = new Uint8Array(m + n);
    this.potential = new Float64Array(n + 1);
    this.parent = new Int32Array(n + 1).fill(-1);
    this.link = new Int32Array(n + 1).fill(-1);
    this.depth = new Int32Array(n + 1);
    this.child = new Int32Array(n + 1).fill(-1);
    this.after = new Int32Array(n + 1).fill(-1);
    this.before = new Int32Array(n + 1).fill(-1);
    for (let i = 0; i < n; i++) {
      const a = m + i;
      // Net inflow must equal the pull; arcs without flow point to the root, which makes the first tree strongly feasible.
      const inward = pull[i]! > 0;
      this.from[a] = inward ? root : i;
      this.to[a] = inward ? i : root;
      this.flow[a] = Math.abs(pull[i]!);
      this.place[a] = IN_TREE;
      this.potential[i] = inward ? -FAR : FAR;
      this.hang(i, root, a);
      this.depth[i] = 1;
    }
  }

  run(): Float64Array | null {
    for (;;) {
      const entering = this.enteringArc();
      if (entering < 0) break;
      if (!this.pivot(entering)) return null;
    }
    for (let a = this.m; a < this.m + this.n; a++) if (this.flow[a]! > 1e-6) return null;
    const zero = this.potential[0] ?? 0;
    return this.potential.slice(0, this.n).map((p) => p - zero);
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
    const { m, from, to, weight, place, potential } = this;
    const block = Math.max(20, Math.ceil(Math.sqrt(m) * 2));
    let best = -1;
    let most = 1e-7;
    for (let seen = 0, inBlock = 0; seen < m; seen++) {
      const a = this.scan;
      this.scan = a + 1 === m ? 0 : a + 1;
      if (place[a] !== IN_TREE) {
        const reduced = potential[to[a]!]! - potential[from[a]!]! - weight[a]!;
        const breach = place[a] === LOWER ? -reduced : reduced;
        if (breach > most) {
          most = breach;
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

  private pivot(entering: number): boolean {
    const { from, to, cap, flow, place, parent, link, depth } = this;
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
    if (delta === Number.POSITIVE_INFINITY) return false;
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
      return true;
    }
    const out = link[leaving]!;
    place[out] = flow[out]! <= 1e-9 ? LOWER : UPPER;
    place[entering] = IN_TREE;
    this.rehang(onU ? u : v, onU ? v : u, entering, leaving);
    return true;
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
    const { from, weight, link, potential, depth, child, after } = this;
    const stack = [top];
    while (stack.length > 0) {
      const y = stack.pop()!;
      const a = link[y]!;
      const above = this.parent[y]!;
      potential[y] = from[a] === above ? potential[above]! + weight[a]! : potential[above]! - weight[a]!;
      depth[y] = depth[above]! + 1;
      for (let c = child[y]!; c >= 0; c = after[c]!) stack.push(c);
    }
  }
}
