/**
 * Rectangles one after another into the corners that the earlier ones leave: complete where every two conflict.
 *
 * Any packing of upright rectangles can be pushed to the left and to the front until each rests against something on both
 * sides, and then sorted so that each one lies right of or behind all earlier ones (Martello, Pisinger and Vigo 2000). So it
 * is enough to try corners of the staircase that the earlier ones form; whatever lies below the staircase and is not
 * covered is lost, which ends most branches early. Where some pairs do not conflict that order need not exist: then
 * a result stands, but its absence proves nothing.
 */
import { SLACK } from './footprint.js';
import type { Box } from './ground.js';
import { areaBelow, coverable, Sums } from './stairs.js';
import type { Work } from './work.js';

export interface Boxes {
  readonly bounds: Box;
  /** What stands already, walls included; `hits(i, k)`: whether free box i must stay clear of obstacle k. */
  readonly obstacles: readonly Box[];
  readonly hits: (i: number, k: number) => boolean;
  /** Free boxes: extents along x and y, and whether they may turn. */
  readonly width: ArrayLike<number>;
  readonly depth: ArrayLike<number>;
  readonly turnable: ArrayLike<boolean>;
  /** `conflict[i * n + j]`: 1 where i and j must not overlap. */
  readonly conflict: Uint8Array;
  /** Area that can be covered and is not taken by an obstacle. */
  readonly area: number;
}

/** Low corners and turns for each free box. */
export interface BoxSpots {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly turned: Uint8Array;
}

export interface BoxSearch {
  readonly spots: BoxSpots | null;
  /** False where the node limit ended the search. */
  readonly complete: boolean;
}

const TOUCH = 1e-9;
/** Sums of many boxes are tabled only once the easy cases are through. */
const BOUND_AFTER = 200;
const MOST_SUMMED = 8;

/** Searches as far as the work goes, a node for each box that is placed. Deterministic. */
export function packCorners(boxes: Boxes, work: Work): BoxSearch {
  return new CornerSearch(boxes, work).run();
}

class CornerSearch {
  private readonly n: number;
  private readonly m: number;
  private readonly order: number[];
  private readonly x: Float64Array;
  private readonly y: Float64Array;
  readonly right: Float64Array;
  readonly back: Float64Array;
  private readonly turned: Uint8Array;
  readonly placed: Int32Array;
  private readonly used: Uint8Array;
  /** The box before which an equal one must be placed, or -1. */
  private readonly twin: Int32Array;
  private readonly hit: Uint8Array;
  private readonly dense: boolean;
  private readonly slackArea: number;
  private readonly anchor: number;
  private readonly sum: number;
  private readonly sums: Sums;
  private readonly all: number;
  private nodes = 0;

  constructor(
    private readonly boxes: Boxes,
    private readonly work: Work,
  ) {
    const n = boxes.width.length;
    this.n = n;
    this.m = boxes.obstacles.length;
    this.x = new Float64Array(n);
    this.y = new Float64Array(n);
    this.right = new Float64Array(n);
    this.back = new Float64Array(n);
    this.turned = new Uint8Array(n);
    this.placed = new Int32Array(n);
    this.used = new Uint8Array(n);
    this.twin = new Int32Array(n).fill(-1);
    this.hit = new Uint8Array(n * this.m);
    const area = (i: number) => boxes.width[i]! * boxes.depth[i]!;
    this.order = Array.from({ length: n }, (_, i) => i).sort((a, b) => area(b) - area(a) || a - b);
    let dense = true;
    let sum = 0;
    for (let i = 0; i < n; i++) {
      sum += area(i);
      for (let k = 0; k < this.m; k++) this.hit[i * this.m + k] = boxes.hits(i, k) ? 1 : 0;
      for (let j = 0; j < n; j++) if (i !== j && boxes.conflict[i * n + j] === 0) dense = false;
    }
    this.dense = dense && this.hit.every((h) => h === 1);
    this.sum = sum;
    this.slackArea = boxes.area - sum + 1e-5;
    this.all = (1 << n) - 1;
    const { bounds } = boxes;
    const longest = Math.max(bounds.right - bounds.left, bounds.back - bounds.front) + SLACK;
    this.sums = new Sums(boxes.width, boxes.depth, boxes.turnable, longest);
    if (this.dense) this.findTwins();
    const paired = new Set(this.twin);
    this.anchor = this.m === 0 && dense ? (this.order.find((i) => this.twin[i]! < 0 && !paired.has(i)) ?? -1) : -1;
  }

  private findTwins(): void {
    const { width, depth, turnable } = this.boxes;
    const same = (a: number, b: number) => Math.abs(a - b) < 1e-12;
    for (let p = 0; p < this.n; p++) {
      const i = this.order[p]!;
      for (let q = p - 1; q >= 0; q--) {
        const j = this.order[q]!;
        const straight = same(width[i]!, width[j]!) && same(depth[i]!, depth[j]!) && turnable[i] === turnable[j];
        const crossed = same(width[i]!, depth[j]!) && same(depth[i]!, width[j]!) && turnable[i]! && turnable[j]!;
        if (straight || crossed) {
          this.twin[i] = j;
          break;
        }
      }
    }
  }

  run(): BoxSearch {
    if (this.dense && this.slackArea < 0) return { spots: null, complete: true };
    const found = this.step(0);
    if (!found) return { spots: null, complete: this.dense && !this.work.spent };
    return { spots: { x: this.x, y: this.y, turned: this.turned }, complete: true };
  }

  private step(k: number): boolean {
    if (k === this.n) return true;
    const { bounds, width, depth, turnable } = this.boxes;
    for (const i of this.order) {
      if (this.used[i] === 1) continue;
      const twin = this.twin[i]!;
      if (twin >= 0 && this.used[twin] === 0) continue;
      for (let t = 0; t < (turnable[i] ? 2 : 1); t++) {
        const w = t === 1 ? depth[i]! : width[i]!;
        const d = t === 1 ? width[i]! : depth[i]!;
        const xMax = bounds.right - w + SLACK;
        const yMax = bounds.back - d + SLACK;
        if (bounds.left > xMax || bounds.front > yMax) continue;
        this.turned[i] = t;
        if (this.tryCorners(i, k, w, d, xMax, yMax)) return true;
        if (this.work.spent) return false;
      }
    }
    return false;
  }

  /** Corners: x from the left bound, obstacles' and placed boxes' right sides, y likewise from the front. */
  private tryCorners(i: number, k: number, w: number, d: number, xMax: number, yMax: number): boolean {
    const { bounds, obstacles } = this.boxes;
    const { m } = this;
    // Mirrored packings are equal: one box of its own size may stay in the front left quarter.
    const mirror = i === this.anchor;
    const xTop = mirror ? Math.min(xMax, (bounds.left + bounds.right - w) / 2 + SLACK) : xMax;
    const yTop = mirror ? Math.min(yMax, (bounds.front + bounds.back - d) / 2 + SLACK) : yMax;
    for (let b = -1; b < m + k; b++) {
      const y = b < 0 ? bounds.front : b < m ? obstacles[b]!.back : this.back[this.placed[b - m]!]!;
      if (y > yTop || y < bounds.front) continue;
      if (b >= 0 && !this.blocks(i, b)) continue;
      for (let a = -1; a < m + k; a++) {
        const x = a < 0 ? bounds.left : a < m ? obstacles[a]!.right : this.right[this.placed[a - m]!]!;
        if (x > xTop || x < bounds.left) continue;
        if (a >= 0 && !this.blocks(i, a)) continue;
        if (!this.rests(a, y, y + d, true) || !this.rests(b, x, x + w, false)) continue;
        if (this.seen(a, i, x, y, y + d, true) || this.seen(b, i, y, x, x + w, false)) continue;
        if (!this.free(i, k, x, y, w, d)) continue;
        this.x[i] = x;
        this.y[i] = y;
        this.right[i] = x + w;
        this.back[i] = y + d;
        if (this.repeats(i, k, a, b)) continue;
        this.placed[k] = i;
        if (this.dense && this.hopeless(k + 1)) continue;
        this.nodes++;
        if (!this.work.take(1)) return false;
        this.used[i] = 1;
        if (this.step(k + 1)) return true;
        this.used[i] = 0;
        if (this.work.spent) return false;
      }
    }
    return false;
  }

  private blocks(i: number, side: number): boolean {
    if (side < this.m) return this.hit[i * this.m + side] === 1;
    return this.boxes.conflict[i * this.n + this.placed[side - this.m]!] === 1;
  }

  /** Whether the side that gave the coordinate really stands beside (or before) the stretch from low to high. */
  private rests(side: number, low: number, high: number, upright: boolean): boolean {
    if (side < 0) return true;
    let from: number;
    let to: number;
    if (side < this.m) {
      const o = this.boxes.obstacles[side]!;
      from = upright ? o.front : o.left;
      to = upright ? o.back : o.right;
    } else {
      const j = this.placed[side - this.m]!;
      from = upright ? this.y[j]! : this.x[j]!;
      to = upright ? this.back[j]! : this.right[j]!;
    }
    return low < to - TOUCH && high > from + TOUCH;
  }

  /** Whether an earlier side gives the same coordinate. */
  private seen(side: number, i: number, at: number, low: number, high: number, upright: boolean): boolean {
    const { bounds, obstacles } = this.boxes;
    if (side >= 0 && (upright ? bounds.left : bounds.front) === at) return true;
    for (let s = 0; s < side; s++) {
      const box = obstacles[s];
      const j = this.placed[s - this.m]!;
      const edge = box !== undefined ? (upright ? box.right : box.back) : upright ? this.right[j]! : this.back[j]!;
      if (edge === at && this.blocks(i, s) && this.rests(s, low, high, upright)) return true;
    }
    return false;
  }

  private free(i: number, k: number, x: number, y: number, w: number, d: number): boolean {
    const { obstacles, conflict } = this.boxes;
    for (let o = 0; o < this.m; o++) {
      if (this.hit[i * this.m + o] === 0) continue;
      const box = obstacles[o]!;
      if (x + w > box.left + SLACK && x < box.right - SLACK && y + d > box.front + SLACK && y < box.back - SLACK)
        return false;
    }
    for (let p = 0; p < k; p++) {
      const j = this.placed[p]!;
      if (conflict[i * this.n + j] === 0) continue;
      if (x < this.right[j]! - TOUCH && y < this.back[j]! - TOUCH) return false;
    }
    return true;
  }

  /** Whether the same packing comes up with this box and the one before it in the other order. */
  private repeats(i: number, k: number, a: number, b: number): boolean {
    if (k === 0 || !this.dense) return false;
    const p = this.placed[k - 1]!;
    // Twins keep their order anyway, so that only boxes of different size may change places.
    if (p < i || this.twin[i] === p) return false;
    const last = this.m + k - 1;
    if (a === last || b === last) return false;
    return this.right[i]! <= this.x[p]! + TOUCH || this.back[i]! <= this.y[p]! + TOUCH;
  }

  /** Whether too little can still be covered for what is left, with the first k boxes standing. */
  private hopeless(k: number): boolean {
    const { bounds, obstacles } = this.boxes;
    let covered = 0;
    let set = this.all;
    for (let p = 0; p < k; p++) {
      const j = this.placed[p]!;
      covered += (this.right[j]! - this.x[j]!) * (this.back[j]! - this.y[j]!);
      set &= ~(1 << j);
    }
    let lost = areaBelow(this, k, bounds) - covered;
    for (const box of obstacles) lost -= areaBelow(this, k, box);
    if (lost > this.slackArea) return true;
    const left = this.n - k;
    if (this.m > 0 || left > MOST_SUMMED || (this.nodes < BOUND_AFTER && left > 5)) return false;
    return coverable(this, k, bounds, (length) => this.sums.most(set, length, SLACK)) < this.sum - covered - 1e-5;
  }
}
