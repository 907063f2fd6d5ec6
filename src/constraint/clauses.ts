/**
 * Clauses: of these atoms one holds. Each is watched at two atoms (M. Moskewicz et al., Chaff, DAC 2001); learned ones are forgotten by how
 * many levels they span (G. Audemard, L. Simon, Glucose, IJCAI 2009) and how often they were of use.
 */
import type { Atoms, Explainer } from './explainer.js';
import type { Half, Store } from './store.js';

/** Atoms for which there is room at first. */
const FIRST_SIZE = 4096;

/** Numbers for each clause that is watched at a half. */
const WATCH = 4;

/** Share of the learned clauses that is kept at each clearing, and those of so few levels always. */
const KEPT = 0.5;
const FEW_LEVELS = 2;

export class Clauses implements Explainer {
  /** All atoms one after the other. */
  private halves = new Int32Array(FIRST_SIZE);
  private values = new Float64Array(FIRST_SIZE);
  private used = 0;
  /** By clause. */
  private readonly start: number[] = [];
  private readonly size: number[] = [];
  private readonly spans: number[] = [];
  private readonly activity: number[] = [];
  private learned: number[] = [];
  private readonly free: number[] = [];
  /**
   * By half whose rise makes an atom false: clause, the value from which it is false, and another atom of the clause; where that holds
   * the clause need not be looked at.
   */
  private readonly watches: number[][] = [];
  /** How much of each of these lists is in use. */
  private watched = new Int32Array(256);
  private bump = 1;

  constructor(
    private readonly store: Store,
    /** What the trail calls this part. */
    private readonly number: number,
  ) {}

  get learnedCount(): number {
    return this.learned.length;
  }

  private watch(clause: number, half: Half, k: number, other: Half, otherValue: number): void {
    const on = half ^ 1;
    while (this.watches.length <= on) this.watches.push([]);
    if (on >= this.watched.length) {
      const more = new Int32Array(on * 2);
      more.set(this.watched);
      this.watched = more;
    }
    const list = this.watches[on]!;
    const at = this.watched[on]!;
    list[at] = clause;
    list[at + 1] = 1 - k;
    list[at + 2] = other;
    list[at + 3] = otherValue;
    this.watched[on] = at + WATCH;
  }

  /** Adds a clause of at least two atoms, the first two of which are watched; `spans` 0: it stays for good. */
  add(atoms: Atoms, spans: number): number {
    const { length } = atoms;
    const at = this.used;
    this.used += length;
    if (this.used > this.halves.length) this.grow();
    for (let i = 0; i < length; i++) {
      this.halves[at + i] = atoms.halves[i]!;
      this.values[at + i] = atoms.values[i]!;
    }
    const clause = this.free.pop() ?? this.start.length;
    this.start[clause] = at;
    this.size[clause] = length;
    this.spans[clause] = spans;
    this.activity[clause] = this.bump;
    if (spans > 0) this.learned.push(clause);
    const [one, two] = [this.halves[at]!, this.halves[at + 1]!];
    const [oneValue, twoValue] = [this.values[at]!, this.values[at + 1]!];
    this.watch(clause, one, oneValue, two, twoValue);
    this.watch(clause, two, twoValue, one, oneValue);
    return clause;
  }

  private grow(): void {
    const size = Math.max(this.halves.length * 2, this.used * 2);
    const halves = new Int32Array(size);
    halves.set(this.halves);
    const values = new Float64Array(size);
    values.set(this.values);
    this.halves = halves;
    this.values = values;
  }

  /** Of all clauses watched there; false where one has no atom left. */
  propagate(half: Half, from: number, to: number): boolean {
    const list = this.watches[half];
    if (list === undefined) return true;
    const { store, halves, values, start, size } = this;
    const { low } = store;
    const length = this.watched[half]!;
    let kept = 0;
    for (let i = 0; i < length; i += WATCH) {
      const clause = list[i]!;
      const falseFrom = list[i + 1]!;
      const other = list[i + 2]!;
      const otherValue = list[i + 3]!;
      if (falseFrom > to || falseFrom <= from || low[other]! >= otherValue) {
        if (kept < i) {
          list[kept] = clause;
          list[kept + 1] = falseFrom;
          list[kept + 2] = other;
          list[kept + 3] = otherValue;
        }
        kept += WATCH;
        continue;
      }
      const count = size[clause]!;
      const at = start[clause]!;
      // The false one goes second.
      const own = half ^ 1;
      const k = 1 - falseFrom;
      if (halves[at] === own && values[at] === k) {
        halves[at] = halves[at + 1]!;
        values[at] = values[at + 1]!;
        halves[at + 1] = own;
        values[at + 1] = k;
      }
      const first = halves[at]!;
      const firstValue = values[at]!;
      if (low[first]! >= firstValue) {
        list[kept] = clause;
        list[kept + 1] = falseFrom;
        list[kept + 2] = first;
        list[kept + 3] = firstValue;
        kept += WATCH;
        continue;
      }
      let moved = false;
      for (let j = at + 2; j < at + count; j++) {
        const h = halves[j]!;
        const v = values[j]!;
        if (-low[h ^ 1]! < v) continue;
        halves[at + 1] = h;
        values[at + 1] = v;
        halves[j] = own;
        values[j] = k;
        this.watch(clause, h, v, first, firstValue);
        moved = true;
        break;
      }
      if (moved) continue;
      list[kept] = clause;
      list[kept + 1] = falseFrom;
      list[kept + 2] = first;
      list[kept + 3] = firstValue;
      kept += WATCH;
      if (!store.raise(first, firstValue, this.number, clause)) {
        for (let rest = i + WATCH; rest < length; rest++) list[kept++] = list[rest]!;
        this.watched[half] = kept;
        return false;
      }
    }
    this.watched[half] = kept;
    return true;
  }

  explain(half: Half, k: number, clause: number, _entry: number, into: Atoms): void {
    const at = this.start[clause]!;
    const end = at + this.size[clause]!;
    let skipped = false;
    for (let j = at; j < end; j++) {
      const h = this.halves[j]!;
      const v = this.values[j]!;
      if (!skipped && h === half && v >= k) skipped = true;
      else into.add(h ^ 1, 1 - v);
    }
    if (this.spans[clause]! > 0) this.activity[clause] = this.activity[clause]! + this.bump;
  }

  decay(): void {
    this.bump *= 1.001;
    if (this.bump < 1e100) return;
    this.bump *= 1e-100;
    for (const clause of this.learned) this.activity[clause] = this.activity[clause]! * 1e-100;
  }

  /** Forgets the least useful learned clauses. Only at the root, where none is a reason. */
  clear(): void {
    const few = this.learned.filter((clause) => this.spans[clause]! <= FEW_LEVELS);
    const others = this.learned.filter((clause) => this.spans[clause]! > FEW_LEVELS);
    others.sort((a, b) => this.spans[a]! - this.spans[b]! || this.activity[b]! - this.activity[a]!);
    const kept = Math.floor(others.length * KEPT);
    const gone = new Set(others.slice(kept));
    this.learned = [...few, ...others.slice(0, kept)];
    for (const [half, list] of this.watches.entries()) {
      let at = 0;
      for (let i = 0; i < this.watched[half]!; i += WATCH) {
        if (gone.has(list[i]!)) continue;
        for (let j = 0; j < WATCH; j++) list[at++] = list[i + j]!;
      }
      list.length = at;
      this.watched[half] = at;
    }
    for (const clause of gone) {
      this.size[clause] = 0;
      this.free.push(clause);
    }
    this.compact();
  }

  private compact(): void {
    const alive = this.start.map((_, clause) => clause).filter((clause) => this.size[clause]! > 0);
    alive.sort((a, b) => this.start[a]! - this.start[b]!);
    let at = 0;
    for (const clause of alive) {
      const from = this.start[clause]!;
      const count = this.size[clause]!;
      this.halves.copyWithin(at, from, from + count);
      this.values.copyWithin(at, from, from + count);
      this.start[clause] = at;
      at += count;
    }
    this.used = at;
  }
}
