/**
 * Rows: where all of some atoms hold, a sum of halves, each times a positive whole number, is at most a bound. The atoms ("when") are raised to their opposites where the sum cannot be so small.
 */
import type { Atoms, Explainer } from './explainer.js';
import type { Half, Store } from './store.js';

export interface Row {
  readonly halves: readonly Half[];
  readonly factors: readonly number[];
  readonly most: number;
  readonly when: Atoms;
}

export class Rows implements Explainer {
  /** By row: where its terms and atoms begin; one more entry at the end. */
  private firstTerm = new Int32Array(1);
  private firstWhen = new Int32Array(1);
  private halves = new Int32Array(0);
  private factors = new Float64Array(0);
  private whenHalves = new Int32Array(0);
  private whenValues = new Float64Array(0);
  private most = new Float64Array(0);
  /** By half, from `heardFrom[half]` on: rows that hear of its rise. */
  private heardFrom = new Int32Array(1);
  private heard = new Int32Array(0);
  private queue = new Int32Array(0);
  private waiting = 0;
  private queued = new Uint8Array(0);
  /** By term of the row that is being explained: its value then. */
  private valuesThen = new Float64Array(0);
  /** All rows so far, of which the last are not yet in the arrays. */
  private readonly rows: Row[] = [];
  private indexed = -1;
  /** How many rows were looked at. */
  looked = 0;

  constructor(
    private readonly store: Store,
    private readonly number: number,
  ) {}

  get count(): number {
    return this.rows.length;
  }

  /** It is looked at when the engine is next at the root. */
  add(row: Row): void {
    this.rows.push(row);
  }

  /** Makes ready, when rows or variables were added, and has all rows looked at. Only at the root. */
  lookAtAll(): void {
    const count = this.rows.length;
    if (this.indexed !== count || this.heardFrom.length !== 2 * this.store.variables + 1) this.index();
    for (let row = 0; row < count; row++) this.queue[row] = row;
    this.queued.fill(1);
    this.waiting = count;
  }

  private index(): void {
    const { rows } = this;
    const count = rows.length;
    this.firstTerm = new Int32Array(count + 1);
    this.firstWhen = new Int32Array(count + 1);
    rows.forEach(({ halves, when }, r) => {
      this.firstTerm[r + 1] = this.firstTerm[r]! + halves.length;
      this.firstWhen[r + 1] = this.firstWhen[r]! + when.length;
    });
    this.halves = new Int32Array(this.firstTerm[count]!);
    this.factors = new Float64Array(this.firstTerm[count]!);
    this.whenHalves = new Int32Array(this.firstWhen[count]!);
    this.whenValues = new Float64Array(this.firstWhen[count]!);
    this.most = Float64Array.from(rows, (row) => row.most);
    const halfCount = 2 * this.store.variables;
    const from = new Int32Array(halfCount + 1);
    rows.forEach(({ halves, factors, when }, r) => {
      this.halves.set(halves, this.firstTerm[r]!);
      this.factors.set(factors, this.firstTerm[r]!);
      this.whenHalves.set(when.halves, this.firstWhen[r]!);
      this.whenValues.set(when.values, this.firstWhen[r]!);
      for (const half of halves) from[half + 1]!++;
      for (const half of when.halves) from[half + 1]!++;
    });
    for (let half = 0; half < halfCount; half++) from[half + 1] = from[half + 1]! + from[half]!;
    this.heard = new Int32Array(from[halfCount]!);
    const next = from.slice();
    const put = (half: Half, row: number): void => {
      const at = next[half]!;
      this.heard[at] = row;
      next[half] = at + 1;
    };
    rows.forEach(({ halves, when }, r) => {
      for (const half of halves) put(half, r);
      for (const half of when.halves) put(half, r);
    });
    this.heardFrom = from;
    this.queue = new Int32Array(count);
    this.queued = new Uint8Array(count);
    this.valuesThen = new Float64Array(rows.reduce((most, { halves }) => Math.max(most, halves.length), 0));
    this.indexed = count;
  }

  hear(half: Half): void {
    const { heard, queued, queue } = this;
    const end = this.heardFrom[half + 1]!;
    for (let at = this.heardFrom[half]!; at < end; at++) {
      const row = heard[at]!;
      if (queued[row] === 1) continue;
      queued[row] = 1;
      queue[this.waiting++] = row;
    }
  }

  get idle(): boolean {
    return this.waiting === 0;
  }

  forget(): void {
    for (let i = 0; i < this.waiting; i++) this.queued[this.queue[i]!] = 0;
    this.waiting = 0;
  }

  /** Looks at the rows that heard something; what they raise is heard of later. False where nothing is left. */
  propagate(): boolean {
    const { queue, queued } = this;
    const count = this.waiting;
    this.looked += count;
    for (let next = 0; next < count; next++) {
      const row = queue[next]!;
      queued[row] = 0;
      if (this.look(row)) continue;
      this.forget();
      return false;
    }
    this.waiting = 0;
    return true;
  }

  private look(row: number): boolean {
    const { store, whenHalves, whenValues, halves, factors } = this;
    const { low } = store;
    let open = -1;
    const endWhen = this.firstWhen[row + 1]!;
    for (let w = this.firstWhen[row]!; w < endWhen; w++) {
      const h = whenHalves[w]!;
      const k = whenValues[w]!;
      if (low[h]! >= k) continue;
      if (-low[h ^ 1]! < k || open >= 0) return true;
      open = w;
    }
    const first = this.firstTerm[row]!;
    const end = this.firstTerm[row + 1]!;
    let slack = this.most[row]!;
    for (let t = first; t < end; t++) slack -= factors[t]! * low[halves[t]!]!;
    if (open >= 0) {
      if (slack >= 0) return true;
      return store.raise(whenHalves[open]! ^ 1, 1 - whenValues[open]!, this.number, -1 - row);
    }
    if (slack < 0) {
      // No term can be named that fails: the row itself does.
      store.failure.half = -1;
      store.failure.by = this.number;
      store.failure.detail = row;
      return false;
    }
    for (let t = first; t < end; t++) {
      const h = halves[t]!;
      const factor = factors[t]!;
      const own = low[h]!;
      if (factor * (-low[h ^ 1]! - own) <= slack) continue;
      if (!store.raise(h ^ 1, -(own + Math.floor(slack / factor)), this.number, row)) return false;
    }
    return true;
  }

  /** half -1: why the row cannot hold. A detail below 0: why one of its atoms cannot. */
  explain(half: Half, k: number, detail: number, entry: number, into: Atoms): void {
    const { store, halves, factors, whenHalves, whenValues } = this;
    const row = detail < 0 ? -1 - detail : detail;
    const endWhen = this.firstWhen[row + 1]!;
    for (let w = this.firstWhen[row]!; w < endWhen; w++) {
      const h = whenHalves[w]!;
      if (detail < 0 && h === (half ^ 1) && whenValues[w]! <= 1 - k) continue;
      into.add(h, whenValues[w]!);
    }
    const first = this.firstTerm[row]!;
    const end = this.firstTerm[row + 1]!;
    let left = -1;
    let need = this.most[row]! + 1;
    if (detail >= 0 && half >= 0) {
      const own = half ^ 1;
      for (let t = first; t < end; t++) if (halves[t] === own) left = t;
      // The half is at least k where its opposite is at most -k: with 1 - k it would be too much.
      need -= factors[left]! * (1 - k);
    }
    let surplus = -need;
    const { valuesThen } = this;
    for (let t = first; t < end; t++) {
      if (t === left) continue;
      const value = store.lowBefore(halves[t]!, entry);
      valuesThen[t - first] = value;
      surplus += factors[t]! * value;
    }
    for (let t = first; t < end; t++) {
      if (t === left) continue;
      const h = halves[t]!;
      const factor = factors[t]!;
      const now = valuesThen[t - first]!;
      const base = store.base[h]!;
      if (now === base) continue;
      const whole = factor * (now - base);
      if (whole <= surplus) {
        surplus -= whole;
        continue;
      }
      const less = Math.floor(surplus / factor);
      surplus -= less * factor;
      into.add(h, now - less);
    }
  }
}
