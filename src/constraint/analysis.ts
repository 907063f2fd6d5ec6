/**
 * From a failure to a clause that forbids it: entries of the trail are replaced by their reasons until one is left of the level at which it
 * happened (first unique implication point; J. Marques-Silva, K. Sakallah, IEEE Trans. Computers 48(5), 1999). Reasons are asked
 * for no more than is needed, so that bounds in learned clauses are as weak as they can be.
 */
import { Atoms, type Explainer } from './explainer.js';
import { DECIDED, type Half, type Store } from './store.js';

export interface Learned {
  /** The first is to hold after going back; the second is of the level to go back to. */
  readonly atoms: Atoms;
  level: number;
  /** How many levels it spans. */
  spans: number;
}

export class Analysis {
  readonly learned: Learned = { atoms: new Atoms(), level: 0, spans: 0 };
  /** By entry of the trail: the value that is needed of it, where `marked`. */
  private marked = new Uint8Array(1024);
  private needed = new Float64Array(1024);
  private readonly entries: number[] = [];
  private readonly reason = new Atoms();
  /** By half: 1 + its strongest entry of the clause; by level: whether the clause has an entry of it. Cleared when the clause is made. */
  private strongest = new Int32Array(256);
  private spanned = new Uint8Array(64);
  private atLevel = 0;

  constructor(
    private readonly store: Store,
    private readonly explainers: readonly Explainer[],
    /** Hears of every variable that had a part in it. */
    private readonly involve: (half: Half) => void,
  ) {}

  private explain(half: Half, k: number, by: number, detail: number, entry: number): Atoms {
    const { reason } = this;
    reason.clear();
    this.explainers[by]!.explain(half, k, detail, entry, reason);
    return reason;
  }

  /** Marks what made an atom hold; `level` is the one whose entries are counted. */
  private need(half: Half, k: number, level: number): void {
    const { store, needed } = this;
    const entry = store.entryOf(half, k);
    if (entry < 0 || store.trail.level[entry] === 0) return;
    this.involve(half);
    if (this.marked[entry] === 1) {
      if (needed[entry]! < k) needed[entry] = k;
      return;
    }
    this.marked[entry] = 1;
    needed[entry] = k;
    this.entries.push(entry);
    if (store.trail.level[entry]! === level) this.atLevel++;
  }

  private begin(): void {
    const { length } = this.store.trail;
    if (this.marked.length < length) {
      this.marked = new Uint8Array(length * 2);
      this.needed = new Float64Array(length * 2);
    }
    if (this.strongest.length < 2 * this.store.variables) this.strongest = new Int32Array(4 * this.store.variables);
    if (this.spanned.length <= this.store.level) this.spanned = new Uint8Array(2 * this.store.level + 2);
    this.entries.length = 0;
    this.atLevel = 0;
  }

  private needFailure(level: number): void {
    const { store } = this;
    const { half, value, by, detail } = store.failure;
    const entry = store.trail.length;
    if (half >= 0) this.need(half ^ 1, 1 - value, level);
    const why = this.explain(half, value, by, detail, entry);
    for (let i = 0; i < why.length; i++) this.need(why.halves[i]!, why.values[i]!, level);
  }

  /** Of the store's failure at its present level; false where it lies no higher than `floor`. */
  learn(floor: number): boolean {
    const { store, learned } = this;
    const { trail } = store;
    this.begin();
    // A failure may lie wholly below the present level.
    let level = store.level;
    this.needFailure(level);
    while (this.atLevel === 0 && level > 0) {
      level--;
      for (const entry of this.entries) if (trail.level[entry]! === level) this.atLevel++;
    }
    if (level <= floor) {
      this.end();
      return false;
    }
    let at = trail.length - 1;
    for (;;) {
      while (this.marked[at] !== 1 || trail.level[at]! !== level) at--;
      if (this.atLevel === 1) break;
      const why = this.explain(trail.half[at]!, this.needed[at]!, trail.by[at]!, trail.detail[at]!, at);
      this.marked[at] = 0;
      this.atLevel--;
      for (let i = 0; i < why.length; i++) this.need(why.halves[i]!, why.values[i]!, level);
    }
    this.shorten(at);
    const { atoms } = learned;
    atoms.clear();
    atoms.add(trail.half[at]! ^ 1, 1 - this.needed[at]!);
    this.say(at, level);
    this.end();
    return true;
  }

  /** Adds to the clause what is marked beside the entry `at`: of the entries of one half the strongest says all. */
  private say(at: number, level: number): void {
    const { learned, strongest, spanned, entries, marked, needed } = this;
    const { trail } = this.store;
    const { atoms } = learned;
    for (let i = 0; i < entries.length; i++) {
      const entry = entries[i]!;
      if (marked[entry] !== 1 || entry === at) continue;
      const half = trail.half[entry]!;
      const other = strongest[half]! - 1;
      if (other < 0 || needed[other]! < needed[entry]!) strongest[half] = entry + 1;
    }
    learned.level = 0;
    learned.spans = 1;
    spanned[level] = 1;
    for (let i = 0; i < entries.length; i++) {
      const half = trail.half[entries[i]!]!;
      const entry = strongest[half]! - 1;
      if (entry < 0) continue;
      strongest[half] = 0;
      atoms.add(half ^ 1, 1 - needed[entry]!);
      const own = trail.level[entry]!;
      if (spanned[own] === 0) {
        spanned[own] = 1;
        learned.spans++;
      }
      if (own <= learned.level) continue;
      learned.level = own;
      const last = atoms.length - 1;
      swap(atoms.halves, 1, last);
      swap(atoms.values, 1, last);
    }
    spanned.fill(0, 0, level + 1);
  }

  /** Drops what follows from the rest. */
  private shorten(last: number): void {
    const { store, marked } = this;
    const { trail } = store;
    for (const entry of this.entries) {
      if (marked[entry] !== 1 || entry === last || trail.by[entry]! === DECIDED) continue;
      const why = this.explain(trail.half[entry]!, this.needed[entry]!, trail.by[entry]!, trail.detail[entry]!, entry);
      let follows = true;
      for (let i = 0; i < why.length && follows; i++) follows = this.isNeeded(why.halves[i]!, why.values[i]!, entry);
      // It stays an entry of the set for those that follow from it.
      if (follows) marked[entry] = 2;
    }
    // What was dropped may have been what another follows from, which is sound: reasons lie earlier on the trail.
  }

  /** Whether the atom holds at the root or follows from an entry of the set before `entry`. */
  private isNeeded(half: Half, k: number, entry: number): boolean {
    const { store, marked, needed } = this;
    const { trail } = store;
    const first = store.entryOf(half, k);
    if (first < 0 || trail.level[first] === 0) return true;
    let at = store.top[half]!;
    while (at >= entry) at = trail.before[at]!;
    for (; at >= 0 && trail.value[at]! >= k; at = trail.before[at]!) {
      if (marked[at]! !== 0 && needed[at]! >= k) return true;
    }
    return false;
  }

  /** The decisions from which the opposite of an atom follows: a core, where all decisions are assumptions. */
  decisionsAgainst(half: Half, k: number): { half: Half; value: number }[] {
    this.begin();
    this.need(half ^ 1, 1 - k, -1);
    const found = this.decisions();
    this.end();
    return found;
  }

  private decisions(): { half: Half; value: number }[] {
    const { trail } = this.store;
    const found: { half: Half; value: number }[] = [];
    for (let at = trail.length - 1; at >= 0; at--) {
      if (this.marked[at] !== 1) continue;
      if (trail.by[at]! === DECIDED) {
        found.push({ half: trail.half[at]!, value: trail.value[at]! });
        continue;
      }
      const why = this.explain(trail.half[at]!, this.needed[at]!, trail.by[at]!, trail.detail[at]!, at);
      for (let i = 0; i < why.length; i++) this.need(why.halves[i]!, why.values[i]!, -1);
    }
    return found;
  }

  private end(): void {
    for (const entry of this.entries) this.marked[entry] = 0;
    this.entries.length = 0;
  }
}

function swap(list: number[], i: number, j: number): void {
  const kept = list[i]!;
  list[i] = list[j]!;
  list[j] = kept;
}
