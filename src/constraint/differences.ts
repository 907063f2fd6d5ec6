/**
 * Rows of two halves, most of what a schedule says: one half plus another is at most a bound, where an atom holds. A rise of one bounds the other at
 * once, without a queue.
 */
import type { Atoms, Explainer } from './explainer.js';
import type { Half, Store } from './store.js';

/** No atom: the row always holds. */
const ALWAYS = -1;

export class Differences implements Explainer {
  /** By row. */
  private readonly first: number[] = [];
  private readonly second: number[] = [];
  private readonly most: number[] = [];
  private readonly whenHalf: number[] = [];
  private readonly whenValue: number[] = [];
  /** By half, from `starts[half]` on: rows in which it is a term, with the other half and the rest of the row. */
  private starts = new Int32Array(1);
  private rows = new Int32Array(0);
  private others = new Int32Array(0);
  private mosts = new Float64Array(0);
  private whens = new Int32Array(0);
  private values = new Float64Array(0);
  /** By half, from `whenStarts[half]` on: rows that wait for it. */
  private whenStarts = new Int32Array(1);
  private whenRows = new Int32Array(0);
  private indexed = 0;

  constructor(
    private readonly store: Store,
    private readonly number: number,
  ) {}

  get count(): number {
    return this.most.length;
  }

  add(first: Half, second: Half, most: number, when: { readonly half: Half; readonly value: number } | null): void {
    this.first.push(first);
    this.second.push(second);
    this.most.push(most);
    this.whenHalf.push(when?.half ?? ALWAYS);
    this.whenValue.push(when?.value ?? 0);
  }

  /** Makes ready for `hear`, when rows or variables were added, and looks at all rows. Only at the root. */
  lookAtAll(): boolean {
    if (this.indexed !== this.most.length || this.starts.length !== 2 * this.store.variables + 1) this.index();
    for (let row = 0; row < this.most.length; row++) {
      const [a, b] = [this.first[row]!, this.second[row]!];
      if (!this.look(row, a, b, this.most[row]!, this.whenHalf[row]!, this.whenValue[row]!)) return false;
      if (!this.look(row, b, a, this.most[row]!, this.whenHalf[row]!, this.whenValue[row]!)) return false;
    }
    return true;
  }

  private index(): void {
    const halves = 2 * this.store.variables;
    const rows = this.most.length;
    const starts = new Int32Array(halves + 1);
    const whenStarts = new Int32Array(halves + 1);
    for (let row = 0; row < rows; row++) {
      starts[this.first[row]! + 1]!++;
      starts[this.second[row]! + 1]!++;
      if (this.whenHalf[row]! >= 0) whenStarts[this.whenHalf[row]! + 1]!++;
    }
    for (let half = 0; half < halves; half++) {
      starts[half + 1] = starts[half + 1]! + starts[half]!;
      whenStarts[half + 1] = whenStarts[half + 1]! + whenStarts[half]!;
    }
    const [next, nextWhen] = [starts.slice(), whenStarts.slice()];
    this.rows = new Int32Array(2 * rows);
    this.others = new Int32Array(2 * rows);
    this.mosts = new Float64Array(2 * rows);
    this.whens = new Int32Array(2 * rows);
    this.values = new Float64Array(2 * rows);
    this.whenRows = new Int32Array(whenStarts[halves]!);
    const put = (half: Half, other: Half, row: number): void => {
      const at = next[half]!;
      next[half] = at + 1;
      this.rows[at] = row;
      this.others[at] = other;
      this.mosts[at] = this.most[row]!;
      this.whens[at] = this.whenHalf[row]!;
      this.values[at] = this.whenValue[row]!;
    };
    for (let row = 0; row < rows; row++) {
      put(this.first[row]!, this.second[row]!, row);
      put(this.second[row]!, this.first[row]!, row);
      const when = this.whenHalf[row]!;
      if (when < 0) continue;
      const at = nextWhen[when]!;
      nextWhen[when] = at + 1;
      this.whenRows[at] = row;
    }
    this.starts = starts;
    this.whenStarts = whenStarts;
    this.indexed = rows;
  }

  /** What follows from the present value of one half for the other, or for the atom. */
  private look(row: number, half: Half, other: Half, most: number, when: Half, value: number): boolean {
    const { store } = this;
    const { low } = store;
    if (when < 0 || low[when]! >= value) return store.raise(other ^ 1, low[half]! - most, this.number, row);
    if (low[half]! + low[other]! <= most) return true;
    return store.raise(when ^ 1, 1 - value, this.number, -1 - row);
  }

  /** Of a rise of a half; false where nothing is left. */
  hear(half: Half, from: number, to: number): boolean {
    const { store, number, rows, others, mosts, whens, values } = this;
    const { low } = store;
    const end = this.starts[half + 1]!;
    for (let at = this.starts[half]!; at < end; at++) {
      const when = whens[at]!;
      const most = mosts[at]!;
      const other = others[at]!;
      if (when < 0 || low[when]! >= values[at]!) {
        if (low[other ^ 1]! >= to - most) continue;
        if (!store.raise(other ^ 1, to - most, number, rows[at]!)) return false;
      } else if (to + low[other]! > most && -low[when ^ 1]! >= values[at]!) {
        if (!store.raise(when ^ 1, 1 - values[at]!, number, -1 - rows[at]!)) return false;
      }
    }
    const endWhen = this.whenStarts[half + 1]!;
    for (let at = this.whenStarts[half]!; at < endWhen; at++) {
      const row = this.whenRows[at]!;
      const value = this.whenValue[row]!;
      if (value <= from || value > to) continue;
      const [a, b] = [this.first[row]!, this.second[row]!];
      const most = this.most[row]!;
      if (!store.raise(b ^ 1, low[a]! - most, number, row)) return false;
      if (!store.raise(a ^ 1, low[b]! - most, number, row)) return false;
    }
    return true;
  }

  /** A detail below 0: why the row's atom cannot hold. */
  explain(half: Half, k: number, detail: number, entry: number, into: Atoms): void {
    const { store } = this;
    const row = detail < 0 ? -1 - detail : detail;
    const [a, b] = [this.first[row]!, this.second[row]!];
    const most = this.most[row]!;
    if (detail >= 0) {
      const when = this.whenHalf[row]!;
      if (when >= 0) into.add(when, this.whenValue[row]!);
      into.add(half === (b ^ 1) ? a : b, k + most);
      return;
    }
    // Each as low as it can be for the two together to be too much.
    const lowB = store.lowBefore(b, entry);
    const needA = Math.max(most + 1 - lowB, store.base[a]!);
    into.add(a, needA);
    into.add(b, Math.min(lowB, most + 1 - needA));
  }
}
