/** A packing in the making: what stands where, and the exact test whether one more may stand on a spot. */
import type { Footprint } from '../problem/problem.js';
import { type Body, bodyAt, extentX, extentY, liesOn, reach, SLACK } from './footprint.js';
import type { Ground } from './ground.js';
import type { Spot } from './surface.js';

export interface Task {
  readonly ground: Ground;
  readonly footprints: readonly Footprint[];
  /** `conflict[i * n + j]`: 1 where i and j must not overlap. */
  readonly conflict: Uint8Array;
  readonly fixed: readonly (Spot | null)[];
  /** Indices of what is to be placed. */
  readonly free: readonly number[];
}

export class Yard {
  readonly n: number;
  readonly bodies: (Body | null)[];
  readonly spots: (Spot | null)[];

  constructor(readonly task: Task) {
    this.n = task.footprints.length;
    this.spots = [...task.fixed];
    this.bodies = task.fixed.map((spot, i) => (spot === null ? null : bodyAt(task.footprints[i]!, spot)));
  }

  /** Takes all free ones away again. */
  clear(): void {
    for (const i of this.task.free) {
      this.spots[i] = null;
      this.bodies[i] = null;
    }
  }

  /** Whether i may stand there beside all that stand and conflict with it. */
  holds(i: number, spot: Spot): boolean {
    const { ground, footprints, conflict } = this.task;
    const footprint = footprints[i]!;
    if (!liesOn(ground.surface, footprint, spot, SLACK)) return false;
    const body = bodyAt(footprint, spot);
    for (let j = 0; j < this.n; j++) {
      const other = this.bodies[j];
      if (other && conflict[i * this.n + j] === 1 && reach(body, other) > SLACK) return false;
    }
    return true;
  }

  put(i: number, spot: Spot): void {
    this.spots[i] = spot;
    this.bodies[i] = bodyAt(this.task.footprints[i]!, spot);
  }

  /** Puts all free ones on the given centres if every one may stand there. */
  accepts(centres: ArrayLike<number>, turned: ArrayLike<number>): boolean {
    const { free, footprints } = this.task;
    this.clear();
    for (let k = 0; k < free.length; k++) {
      const i = free[k]!;
      const turn = turned[k] === 1;
      const footprint = footprints[i]!;
      const x = centres[2 * k]! - extentX(footprint, turn) / 2;
      const y = centres[2 * k + 1]! - extentY(footprint, turn) / 2;
      const spot = { x, y, turned: turn };
      if (!this.holds(i, spot)) return false;
      this.put(i, spot);
    }
    return true;
  }
}

/** Numbers in [0, 1) from a seed: the same on every machine. */
export function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
