/**
 * Bounds of whole-number variables, with the trail of how they came about. Variable v has two halves: 2v stands for v and 2v + 1
 * for -v, and all that is kept is how low each half can be. An atom (half, k) says "the half is at least k"; its opposite is
 * (half ^ 1, 1 - k). After the integer trail of lazy clause generation (O. Ohrimenko, P. J. Stuckey, M. Codish, Constraints 14, 2009), whose
 * literals here are never made, only named.
 */

/** Index of a half. */
export type Half = number;

export const opposite = (half: Half): Half => half ^ 1;

/** Why a bound rose, beside the numbers of clauses and rows. */
export const DECIDED = -1;

/** A growing list of numbers. */
export class Trail {
  half = new Int32Array(1024);
  value = new Float64Array(1024);
  /** The entry of the same half before it, or -1. */
  before = new Int32Array(1024);
  level = new Int32Array(1024);
  /** Who raised it (an `Explainer`'s number or `DECIDED`), and what that needs to say why. */
  by = new Int32Array(1024);
  detail = new Int32Array(1024);
  length = 0;

  push(half: Half, value: number, before: number, level: number, by: number, detail: number): number {
    const at = this.length++;
    if (at === this.half.length) this.grow();
    this.half[at] = half;
    this.value[at] = value;
    this.before[at] = before;
    this.level[at] = level;
    this.by[at] = by;
    this.detail[at] = detail;
    return at;
  }

  private grow(): void {
    const size = this.half.length * 2;
    const ints = (from: Int32Array): Int32Array<ArrayBuffer> => {
      const to = new Int32Array(size);
      to.set(from);
      return to;
    };
    this.half = ints(this.half);
    this.before = ints(this.before);
    this.level = ints(this.level);
    this.by = ints(this.by);
    this.detail = ints(this.detail);
    const value = new Float64Array(size);
    value.set(this.value);
    this.value = value;
  }
}

export class Store {
  readonly trail = new Trail();
  /** By half: its least value now, and at the root. */
  low: Float64Array = new Float64Array(256);
  base: Float64Array = new Float64Array(256);
  /** By half: its last entry on the trail, or -1. */
  top: Int32Array = new Int32Array(256).fill(-1);
  variables = 0;
  /** Trail length at the beginning of each level above the root. */
  readonly levels: number[] = [];
  /** Where no value is left: the atom that was to hold, and who said so. */
  readonly failure = { half: 0, value: 0, by: DECIDED, detail: 0 };

  addVariable(low: number, high: number): number {
    const v = this.variables++;
    if (2 * v + 2 > this.low.length) this.grow();
    this.low[2 * v] = this.base[2 * v] = low;
    this.low[2 * v + 1] = this.base[2 * v + 1] = -high;
    return v;
  }

  private grow(): void {
    const size = this.low.length * 2;
    const [low, base, top] = [new Float64Array(size), new Float64Array(size), new Int32Array(size).fill(-1)];
    low.set(this.low);
    base.set(this.base);
    top.set(this.top);
    [this.low, this.base, this.top] = [low, base, top];
  }

  get level(): number {
    return this.levels.length;
  }

  lowOf(v: number): number {
    return this.low[2 * v]!;
  }

  highOf(v: number): number {
    return -this.low[2 * v + 1]!;
  }

  isFixed(v: number): boolean {
    return this.low[2 * v]! === -this.low[2 * v + 1]!;
  }

  holds(half: Half, k: number): boolean {
    return this.low[half]! >= k;
  }

  cannotHold(half: Half, k: number): boolean {
    return -this.low[half ^ 1]! < k;
  }

  /** Makes the atom hold. False where it cannot, which is then the store's `failure`. */
  raise(half: Half, k: number, by: number, detail: number): boolean {
    const { low } = this;
    if (low[half]! >= k) return true;
    if (-low[half ^ 1]! < k) {
      this.failure.half = half;
      this.failure.value = k;
      this.failure.by = by;
      this.failure.detail = detail;
      return false;
    }
    this.top[half] = this.trail.push(half, k, this.top[half]!, this.levels.length, by, detail);
    low[half] = k;
    return true;
  }

  /** What a half was at least before an entry of the trail. */
  lowBefore(half: Half, entry: number): number {
    const { trail } = this;
    let at = this.top[half]!;
    while (at >= entry) at = trail.before[at]!;
    return at < 0 ? this.base[half]! : trail.value[at]!;
  }

  /** The entry that first made an atom hold; -1 where it does at the root. */
  entryOf(half: Half, k: number): number {
    if (this.base[half]! >= k) return -1;
    const { before, value } = this.trail;
    let at = this.top[half]!;
    for (;;) {
      const earlier = before[at]!;
      if (earlier < 0 || value[earlier]! < k) return at;
      at = earlier;
    }
  }

  newLevel(): void {
    this.levels.push(this.trail.length);
  }

  /** Takes back all above a level; `each` hears of every half just before it falls. */
  backTo(level: number, each: (half: Half) => void): void {
    if (this.levels.length <= level) return;
    const { trail, low, top, base } = this;
    const length = this.levels[level]!;
    for (let at = trail.length - 1; at >= length; at--) {
      const half = trail.half[at]!;
      each(half);
      const earlier = trail.before[at]!;
      top[half] = earlier;
      low[half] = earlier < 0 ? base[half]! : trail.value[earlier]!;
    }
    trail.length = length;
    this.levels.length = level;
  }

  /** What holds at the root holds for good: the trail begins anew. */
  settle(): void {
    const { trail, low, top, base } = this;
    for (let at = 0; at < trail.length; at++) {
      const half = trail.half[at]!;
      top[half] = -1;
      base[half] = low[half]!;
    }
    trail.length = 0;
  }
}
