/**
 * The staircase that boxes leave which stand one after another right of or behind each other: nothing more stands below
 * it. How much of the room beyond can still be covered bounds what fits.
 */
import type { Box } from './ground.js';

const TOUCH = 1e-9;

/** The boxes that stand, by the far edges of those listed first in `placed`. */
export interface Stairs {
  readonly right: Float64Array;
  readonly back: Float64Array;
  readonly placed: Int32Array;
}

/** Area of a box that lies below the staircase of the first k. */
export function areaBelow({ right, back, placed }: Stairs, k: number, box: Box): number {
  let sum = 0;
  let from = box.left;
  // From left to right: up to the next right side, the highest back of those that reach at least so far.
  while (from < box.right) {
    let to = Number.POSITIVE_INFINITY;
    let high = box.front;
    for (let p = 0; p < k; p++) {
      const j = placed[p]!;
      if (right[j]! <= from + TOUCH) continue;
      to = Math.min(to, right[j]!);
      high = Math.max(high, back[j]!);
    }
    if (to === Number.POSITIVE_INFINITY) break;
    to = Math.min(to, box.right);
    sum += (to - from) * (Math.min(high, box.back) - box.front);
    from = to;
  }
  return sum;
}

/**
 * Area beyond the staircase of the first k that can still be covered, line by line: of a line's free length, only what
 * some of the remaining extents add up to. `most(length)` gives the largest such sum.
 */
export function coverable(stairs: Stairs, k: number, bounds: Box, most: (length: number) => number): number {
  const { right, back, placed } = stairs;
  const { left, front } = bounds;
  const rows = lines(back, right, placed, k, front, bounds.back, left, bounds.right, most);
  return Math.min(rows, lines(right, back, placed, k, left, bounds.right, front, bounds.back, most));
}

function lines(
  across: Float64Array,
  along: Float64Array,
  placed: Int32Array,
  k: number,
  start: number,
  end: number,
  low: number,
  high: number,
  most: (length: number) => number,
): number {
  let sum = 0;
  let from = start;
  while (from < end - TOUCH) {
    let to = end;
    let reach = low;
    for (let p = 0; p < k; p++) {
      const j = placed[p]!;
      if (across[j]! <= from + TOUCH) continue;
      to = Math.min(to, across[j]!);
      reach = Math.max(reach, along[j]!);
    }
    sum += (to - from) * most(high - reach);
    from = to;
  }
  return sum;
}

/** What sums the extents of some boxes make, each of the boxes once at most, by one of its two extents. */
export class Sums {
  private readonly tables = new Map<number, Float64Array>();

  constructor(
    private readonly width: ArrayLike<number>,
    private readonly depth: ArrayLike<number>,
    private readonly turnable: ArrayLike<boolean>,
    /** Larger sums are not asked for. */
    private readonly longest: number,
  ) {}

  /** The largest sum of extents of the boxes in the set (bit i: box i) that is not above the length. */
  most(set: number, length: number, slack: number): number {
    const table = this.table(set);
    let low = 0;
    let high = table.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (table[middle]! <= length + slack) low = middle;
      else high = middle - 1;
    }
    return table[low]! <= length + slack ? Math.min(table[low]!, length) : 0;
  }

  private table(set: number): Float64Array {
    const known = this.tables.get(set);
    if (known !== undefined) return known;
    let table: Float64Array;
    if (set === 0) table = Float64Array.of(0);
    else {
      const i = 31 - Math.clz32(set);
      const rest = this.table(set & ~(1 << i));
      const sums = Array.from(rest);
      for (const sum of rest) {
        sums.push(sum + this.width[i]!);
        if (this.turnable[i]) sums.push(sum + this.depth[i]!);
      }
      sums.sort((a, b) => a - b);
      table = Float64Array.from(
        sums.filter((sum, k) => sum <= this.longest && (k === 0 || sum > sums[k - 1]! + TOUCH)),
      );
    }
    this.tables.set(set, table);
    return table;
  }
}
