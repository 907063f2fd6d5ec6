/**
 * Packing by relaxation: from many seeded starts, the sum of squared overlaps is brought down by L-BFGS until the exact
 * test passes. For grounds and footprints with circles, where no finite list of corners is complete. Only square
 * roots and the four operations are used, so that every machine takes the same steps.
 */
import { extentX, extentY, turns } from './footprint.js';
import type { Spot } from './surface.js';
import type { Work } from './work.js';
import { numbers, type Task, Yard } from './yard.js';

/** Aims a little inside, so that a minimum that is met to rounding passes the test. */
const MARGIN = 4e-7;
const STEPS = 400;
/** Work of one footprint in one start, in nodes. */
const COST = 20;
const MEMORY = 8;

interface Field {
  readonly n: number;
  /** For each pair that must clear (j < 0: obstacle −1−j): grown half extents and radius. */
  readonly pairs: {
    readonly i: number;
    readonly j: number;
    readonly w: number;
    readonly d: number;
    readonly r: number;
  }[];
  /** Centres of the obstacles, x and y in turn. */
  readonly posts: number[];
  /** Where each centre may be, low and high in x, then in y. */
  readonly range: { xl: number; xh: number; yl: number; yh: number }[];
  readonly circle: { readonly middle: number; readonly w: number[]; readonly d: number[]; readonly r: number[] } | null;
}

/** Tries `starts` starts. Spots by index, or null where none succeeds (which proves nothing). */
export function packRelaxed(task: Task, starts: number, work: Work): readonly (Spot | null)[] | null {
  const { free, footprints } = task;
  const n = free.length;
  const random = numbers(7919 * n);
  const yard = new Yard(task);
  const turned = new Uint8Array(n);
  const turnable = free.map((i) => turns(footprints[i]!));
  const at = new Float64Array(2 * n);
  for (let start = 0; start < starts && work.take(COST * n); start++) {
    for (let k = 0; k < n; k++) turned[k] = turnable[k] && random() < 0.5 ? 1 : 0;
    const field = fieldOf(task, turned);
    for (let k = 0; k < n; k++) {
      const range = field.range[k]!;
      at[2 * k] = range.xl + random() * (range.xh - range.xl);
      at[2 * k + 1] = range.yl + random() * (range.yh - range.yl);
    }
    descend(field, at);
    if (yard.accepts(at, turned)) return yard.spots;
  }
  return null;
}

function fieldOf(task: Task, turned: Uint8Array): Field {
  const { ground, free, footprints, conflict, fixed } = task;
  const { bounds, surface } = ground;
  const total = footprints.length;
  const n = free.length;
  const half = free.map((i, k) => ({
    w: extentX(footprints[i]!, turned[k] === 1) / 2,
    d: extentY(footprints[i]!, turned[k] === 1) / 2,
    r: footprints[i]!.kind === 'round' ? extentX(footprints[i]!, false) / 2 : 0,
  }));
  const pairs: Field['pairs'] = [];
  const posts: number[] = [];
  for (let a = 0; a < n; a++) {
    const { w, d, r } = half[a]!;
    for (let b = a + 1; b < n; b++) {
      if (conflict[free[a]! * total + free[b]!] !== 1) continue;
      const o = half[b]!;
      pairs.push({ i: a, j: b, w: w - r + o.w - o.r, d: d - r + o.d - o.r, r: r + o.r + MARGIN });
    }
  }
  fixed.forEach((spot, j) => {
    if (spot === null) return;
    const footprint = footprints[j]!;
    const ow = extentX(footprint, spot.turned) / 2;
    const od = extentY(footprint, spot.turned) / 2;
    const or = footprint.kind === 'round' ? ow : 0;
    const post = posts.length / 2;
    posts.push(spot.x + ow, spot.y + od);
    for (let a = 0; a < n; a++) {
      if (conflict[free[a]! * total + j] !== 1) continue;
      const { w, d, r } = half[a]!;
      pairs.push({ i: a, j: -1 - post, w: w - r + ow - or, d: d - r + od - or, r: r + or + MARGIN });
    }
  });
  for (const wall of ground.walls) {
    const post = posts.length / 2;
    posts.push((wall.left + wall.right) / 2, (wall.front + wall.back) / 2);
    const ow = (wall.right - wall.left) / 2;
    const od = (wall.back - wall.front) / 2;
    half.forEach(({ w, d, r }, a) => {
      pairs.push({ i: a, j: -1 - post, w: w - r + ow, d: d - r + od, r: r + MARGIN });
    });
  }
  const range = half.map(({ w, d }) => ({
    xl: bounds.left + w,
    xh: bounds.right - w,
    yl: bounds.front + d,
    yh: bounds.back - d,
  }));
  const circle =
    surface.round === null
      ? null
      : {
          middle: surface.round / 2,
          w: half.map(({ w, r }) => w - r),
          d: half.map(({ d, r }) => d - r),
          r: half.map(({ r }) => r),
        };
  return { n, pairs, posts, range, circle };
}

/** Sum of squared overlaps; writes its slope into `slope`. */
function energy(field: Field, at: Float64Array, slope: Float64Array): number {
  slope.fill(0);
  let sum = 0;
  const { pairs, posts, range, circle } = field;
  for (const { i, j, w, d, r } of pairs) {
    const dx = at[2 * i]! - (j >= 0 ? at[2 * j]! : posts[2 * (-1 - j)]!);
    const dy = at[2 * i + 1]! - (j >= 0 ? at[2 * j + 1]! : posts[2 * (-1 - j) + 1]!);
    const qx = Math.abs(dx) - w;
    const qy = Math.abs(dy) - d;
    if (qx >= r || qy >= r) continue;
    let depth: number;
    let nx = 0;
    let ny = 0;
    if (qx > 0 && qy > 0) {
      const far = Math.sqrt(qx * qx + qy * qy);
      depth = r - far;
      nx = qx / far;
      ny = qy / far;
    } else if (qx > qy) {
      depth = r - qx;
      nx = 1;
    } else {
      depth = r - qy;
      ny = 1;
    }
    if (depth <= 0) continue;
    sum += depth * depth;
    const gx = -2 * depth * (dx < 0 ? -nx : nx);
    const gy = -2 * depth * (dy < 0 ? -ny : ny);
    slope[2 * i] = slope[2 * i]! + gx;
    slope[2 * i + 1] = slope[2 * i + 1]! + gy;
    if (j >= 0) {
      slope[2 * j] = slope[2 * j]! - gx;
      slope[2 * j + 1] = slope[2 * j + 1]! - gy;
    }
  }
  for (let k = 0; k < field.n; k++) {
    const { xl, xh, yl, yh } = range[k]!;
    sum += outside(at, slope, 2 * k, xl, xh) + outside(at, slope, 2 * k + 1, yl, yh);
    if (circle === null) continue;
    const dx = at[2 * k]! - circle.middle;
    const dy = at[2 * k + 1]! - circle.middle;
    const fx = Math.abs(dx) + circle.w[k]!;
    const fy = Math.abs(dy) + circle.d[k]!;
    const far = Math.sqrt(fx * fx + fy * fy);
    const depth = far + circle.r[k]! - circle.middle + MARGIN;
    if (depth <= 0 || far === 0) continue;
    sum += depth * depth;
    slope[2 * k] = slope[2 * k]! + (2 * depth * (dx < 0 ? -fx : fx)) / far;
    slope[2 * k + 1] = slope[2 * k + 1]! + (2 * depth * (dy < 0 ? -fy : fy)) / far;
  }
  return sum;
}

function outside(at: Float64Array, slope: Float64Array, v: number, low: number, high: number): number {
  const over = at[v]! < low ? at[v]! - low : at[v]! > high ? at[v]! - high : 0;
  slope[v] = slope[v]! + 2 * over;
  return over * over;
}

/** L-BFGS with halving steps; moves `at`. */
function descend(field: Field, at: Float64Array): void {
  const size = at.length;
  let slope = new Float64Array(size);
  let nextSlope = new Float64Array(size);
  const next = new Float64Array(size);
  const way = new Float64Array(size);
  const moves: Float64Array[] = [];
  const turnsOf: Float64Array[] = [];
  const scales: number[] = [];
  let value = energy(field, at, slope);
  for (let step = 0; step < STEPS && value > 1e-16; step++) {
    for (let v = 0; v < size; v++) way[v] = -slope[v]!;
    const alphas: number[] = [];
    for (let k = moves.length - 1; k >= 0; k--) {
      const alpha = scales[k]! * dot(moves[k]!, way);
      alphas[k] = alpha;
      add(way, turnsOf[k]!, -alpha);
    }
    const last = moves.length - 1;
    const first = last >= 0 ? 1 / (scales[last]! * dot(turnsOf[last]!, turnsOf[last]!)) : 0.25;
    for (let v = 0; v < size; v++) way[v] = way[v]! * first;
    for (let k = 0; k < moves.length; k++) add(way, moves[k]!, alphas[k]! - scales[k]! * dot(turnsOf[k]!, way));
    const down = dot(slope, way);
    if (!(down < 0)) {
      if (moves.length === 0) return;
      moves.length = 0;
      turnsOf.length = 0;
      scales.length = 0;
      continue;
    }
    let stride = 1;
    let reached = Number.POSITIVE_INFINITY;
    for (let cut = 0; cut < 30; cut++, stride /= 2) {
      for (let v = 0; v < size; v++) next[v] = at[v]! + stride * way[v]!;
      reached = energy(field, next, nextSlope);
      if (reached <= value + 1e-4 * stride * down) break;
    }
    if (!(reached < value)) return;
    const move = new Float64Array(size);
    const change = new Float64Array(size);
    for (let v = 0; v < size; v++) {
      move[v] = next[v]! - at[v]!;
      change[v] = nextSlope[v]! - slope[v]!;
      at[v] = next[v]!;
    }
    const bend = dot(move, change);
    if (bend > 1e-30) {
      moves.push(move);
      turnsOf.push(change);
      scales.push(1 / bend);
      if (moves.length > MEMORY) {
        moves.shift();
        turnsOf.shift();
        scales.shift();
      }
    }
    [slope, nextSlope] = [nextSlope, slope];
    // A minimum that is not a packing: no way on from here.
    if (value - reached < 1e-9 * reached) return;
    value = reached;
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let v = 0; v < a.length; v++) sum += a[v]! * b[v]!;
  return sum;
}

function add(to: Float64Array, what: Float64Array, times: number): void {
  for (let v = 0; v < to.length; v++) to[v] = to[v]! + times * what[v]!;
}
