/**
 * What to decide next: the variable that had most part in recent failures (M. Moskewicz et al., Chaff, DAC 2001), towards the value it had in the best
 * solution, else the last value it had, else its least. Some may be decided before all others, the one with the least value first.
 */
import type { Half, Store } from './store.js';

const DECAY = 1 / 0.95;

/** Places of variables that are not in the heap: for now, or for good. */
const NOT_THERE = -1;
const NEVER = -2;

export class Branching {
  private activity = new Float64Array(64);
  private bump = 1;
  /** Binary heap of variables, the most active first, and where each stands in it. */
  private readonly heap: number[] = [];
  private readonly place: number[] = [];
  /** NaN: none. */
  readonly wish: number[] = [];

  /** Variables that are decided before all others, towards their least values. */
  first: readonly number[] = [];
  private best: readonly number[] = [];

  constructor(private readonly store: Store) {}

  /** The values of a solution, towards which it decides from now on. */
  guide(values: readonly number[]): void {
    this.best = values;
  }

  addVariable(v: number, activity: number, decide: boolean): void {
    if (v >= this.activity.length) {
      const more = new Float64Array(this.activity.length * 2);
      more.set(this.activity);
      this.activity = more;
    }
    this.activity[v] = activity;
    this.wish[v] = Number.NaN;
    this.place[v] = decide ? NOT_THERE : NEVER;
    this.free(v);
  }

  involve(half: Half): void {
    const v = half >> 1;
    this.activity[v] = this.activity[v]! + this.bump;
    if (this.place[v]! >= 0) this.up(this.place[v]!);
    if (this.activity[v]! > 1e100) this.rescale();
  }

  private rescale(): void {
    for (let v = 0; v < this.place.length; v++) this.activity[v] = this.activity[v]! * 1e-100;
    this.bump *= 1e-100;
  }

  decay(): void {
    this.bump *= DECAY;
  }

  /** A variable may be decided again. */
  free(v: number): void {
    if (this.place[v] !== NOT_THERE) return;
    this.place[v] = this.heap.push(v) - 1;
    this.up(this.heap.length - 1);
  }

  /** The atom to decide; null where all variables have a value. */
  next(): { half: Half; value: number } | null {
    const { store } = this;
    const early = this.earliest();
    if (early >= 0) return { half: 2 * early + 1, value: -store.lowOf(early) };
    for (;;) {
      if (this.heap.length === 0) return null;
      const v = this.heap[0]!;
      if (store.isFixed(v)) {
        this.pop();
        continue;
      }
      const low = store.lowOf(v);
      const high = store.highOf(v);
      const wish = this.best[v] ?? this.wish[v]!;
      if (Number.isNaN(wish) || wish <= low) return { half: 2 * v + 1, value: -low };
      if (wish >= high) return { half: 2 * v, value: high };
      // Two decisions: first not below, then not above.
      return { half: 2 * v, value: wish };
    }
  }

  /** Of `first` the one with the least value, then the least choice; -1: none is open. */
  private earliest(): number {
    const { store } = this;
    let found = -1;
    for (const v of this.first) {
      if (store.isFixed(v)) continue;
      const less = found < 0 ? -1 : store.lowOf(v) - store.lowOf(found);
      if (less < 0 || (less === 0 && store.highOf(v) < store.highOf(found))) found = v;
    }
    return found;
  }

  private pop(): void {
    const { heap, place } = this;
    place[heap[0]!] = NOT_THERE;
    const last = heap.pop()!;
    if (heap.length === 0) return;
    heap[0] = last;
    place[last] = 0;
    this.down(0);
  }

  private up(at: number): void {
    const { heap, place, activity } = this;
    const v = heap[at]!;
    let i = at;
    while (i > 0) {
      const parent = (i - 1) >> 1;
      const other = heap[parent]!;
      if (activity[other]! >= activity[v]!) break;
      heap[i] = other;
      place[other] = i;
      i = parent;
    }
    heap[i] = v;
    place[v] = i;
  }

  private down(at: number): void {
    const { heap, place, activity } = this;
    const v = heap[at]!;
    const { length } = heap;
    let i = at;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= length) break;
      if (child + 1 < length && activity[heap[child + 1]!]! > activity[heap[child]!]!) child++;
      const other = heap[child]!;
      if (activity[other]! <= activity[v]!) break;
      heap[i] = other;
      place[other] = i;
      i = child;
    }
    heap[i] = v;
    place[v] = i;
  }
}
