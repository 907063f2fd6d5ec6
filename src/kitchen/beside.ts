/** Whether something may stand on a given spot beside others that have theirs. */
import type { Placed } from './arrange.js';
import { overlaps } from './footprint.js';
import type { Standing } from './surface.js';
import type { Shelves } from './surface-of.js';

const SLACK = 1e-9;

export interface Stood extends Standing {
  readonly fixed: Placed;
}

/** They are on at once without standing on one another, and the loaded levels' tallest, each with its clearance, leave the cavity its height. */
export function goesBeside(shelves: Shelves, one: Stood, others: readonly Stood[]): boolean {
  const beside = others.filter((two) => two.start < one.end && one.start < two.end);
  for (const two of beside) {
    if (two.fixed.level !== one.fixed.level) continue;
    if (overlaps(one.footprint, one.fixed.spot, two.footprint, two.fixed.spot)) return false;
  }
  for (const at of [one, ...beside].map((each) => Math.max(each.start, one.start))) {
    const tallest = new Map<number, number>();
    for (const each of [one, ...beside]) {
      if (each.start > at || each.end <= at) continue;
      tallest.set(each.fixed.level, Math.max(tallest.get(each.fixed.level) ?? 0, each.height + shelves.clearance));
    }
    const high = [...tallest.values()].reduce((sum, height) => sum + height, 0);
    if (high > shelves.height + SLACK) return false;
  }
  return true;
}
