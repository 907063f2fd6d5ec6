/**
 * One after another, each where it touches two things: walls, or what stands already. For any mix of rectangles and
 * circles on any ground; good rather than complete. The centre of a new footprint that touches something lies on an
 * upright line, a level line or a circle; the crossings of these are the candidates.
 */
import type { Footprint } from '../problem/problem.js';
import { areaOf, extentX, extentY, turns } from './footprint.js';
import type { Spot } from './surface.js';
import type { Work } from './work.js';
import { numbers, type Task, Yard } from './yard.js';

/** What a centre may lie on. */
interface Loci {
  readonly upright: number[];
  readonly level: number[];
  readonly circles: { readonly x: number; readonly y: number; readonly r: number }[];
}

/** Work of placing one, in nodes. */
const COST = 20;

/** Lower is better: front first, left first, or as far from the middle as can be. */
type Taste = (x: number, y: number) => number;

/** Tries `orders` orders (the largest first, then shuffled), each with every taste. Spots by index, or null. */
export function packTouching(task: Task, orders: number, work: Work): readonly (Spot | null)[] | null {
  const { bounds } = task.ground;
  const mx = (bounds.left + bounds.right) / 2;
  const my = (bounds.front + bounds.back) / 2;
  const tastes: Taste[] = [
    (x, y) => y + 1e-3 * x,
    (x, y) => x + 1e-3 * y,
    (x, y) => -Math.abs(x - mx) - Math.abs(y - my) + 1e-3 * x + 1e-4 * y,
  ];
  const { footprints } = task;
  const order = [...task.free].sort((a, b) => areaOf(footprints[b]!) - areaOf(footprints[a]!) || a - b);
  const random = numbers(order.length);
  const yard = new Yard(task);
  for (let round = 0; round < orders; round++) {
    if (round > 0) shuffle(order, random);
    for (const taste of tastes) {
      if (!work.take(order.length * COST)) return null;
      yard.clear();
      if (order.every((i) => place(yard, i, taste))) return yard.spots;
    }
  }
  return null;
}

function shuffle(order: number[], random: () => number): void {
  for (let i = order.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    const kept = order[i]!;
    order[i] = order[j]!;
    order[j] = kept;
  }
}

function place(yard: Yard, i: number, taste: Taste): boolean {
  const footprint = yard.task.footprints[i]!;
  let best: Spot | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < (turns(footprint) ? 2 : 1); turn++) {
    const turned = turn === 1;
    const hw = extentX(footprint, turned) / 2;
    const hd = extentY(footprint, turned) / 2;
    const consider = (cx: number, cy: number) => {
      // By its far corner, so that the two turns compare fairly.
      const worth = taste(cx + hw, cy + hd);
      if (!(worth < least - 1e-12)) return;
      const spot = { x: cx - hw, y: cy - hd, turned };
      if (!yard.holds(i, spot)) return;
      best = spot;
      least = worth;
    };
    crossings(lociOf(yard, i, footprint, hw, hd), consider);
  }
  if (best === null) return false;
  yard.put(i, best);
  return true;
}

function lociOf(yard: Yard, i: number, footprint: Footprint, hw: number, hd: number): Loci {
  const { ground, conflict } = yard.task;
  const loci: Loci = { upright: [], level: [hd], circles: [] };
  for (const strip of ground.surface.strips) {
    loci.upright.push(strip.x + hw, strip.x + strip.width - hw);
    loci.level.push(strip.depth - hd);
  }
  const radius = footprint.kind === 'round' ? hw : 0;
  const bw = hw - radius;
  const bd = hd - radius;
  if (radius > 0) {
    for (const wall of ground.walls)
      for (const x of [wall.left, wall.right]) loci.circles.push({ x, y: wall.front, r: radius });
  }
  if (ground.surface.round !== null) {
    const middle = ground.surface.round / 2;
    loci.upright.push(middle);
    loci.level.push(middle);
    corners(loci, middle, middle, bw, bd, middle - radius);
  }
  for (let j = 0; j < yard.n; j++) {
    const body = yard.bodies[j];
    if (!body || conflict[i * yard.n + j] !== 1) continue;
    const w = bw + body.hw;
    const d = bd + body.hd;
    const r = radius + body.radius;
    loci.upright.push(body.cx - w - r, body.cx + w + r);
    loci.level.push(body.cy - d - r, body.cy + d + r);
    if (r > 0) corners(loci, body.cx, body.cy, w, d, r);
  }
  return loci;
}

/** The circles around the four corners of a box; one where the box is a point. */
function corners(loci: Loci, x: number, y: number, w: number, d: number, r: number): void {
  for (const sx of w > 0 ? [-w, w] : [0]) {
    for (const sy of d > 0 ? [-d, d] : [0]) loci.circles.push({ x: x + sx, y: y + sy, r });
  }
}

function crossings(loci: Loci, consider: (x: number, y: number) => void): void {
  const { upright, level, circles } = loci;
  for (const y of level) for (const x of upright) consider(x, y);
  for (let a = 0; a < circles.length; a++) {
    const c = circles[a]!;
    for (const x of upright) {
      const h = Math.sqrt(c.r * c.r - (x - c.x) * (x - c.x));
      if (h >= 0) {
        consider(x, c.y - h);
        consider(x, c.y + h);
      }
    }
    for (const y of level) {
      const h = Math.sqrt(c.r * c.r - (y - c.y) * (y - c.y));
      if (h >= 0) {
        consider(c.x - h, y);
        consider(c.x + h, y);
      }
    }
    for (let b = 0; b < a; b++) crossCircles(c, circles[b]!, consider);
  }
}

function crossCircles(
  a: { x: number; y: number; r: number },
  b: { x: number; y: number; r: number },
  consider: (x: number, y: number) => void,
): void {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const square = dx * dx + dy * dy;
  if (square < 1e-18) return;
  const along = (square + a.r * a.r - b.r * b.r) / (2 * square);
  const across = a.r * a.r - along * along * square;
  // Circles that just touch: rounding may leave the crossing a hair's breadth below zero.
  if (across < -1e-12) return;
  const h = Math.sqrt(Math.max(0, across) / square);
  const px = a.x + along * dx;
  const py = a.y + along * dy;
  consider(px - h * dy, py + h * dx);
  consider(px + h * dy, py - h * dx);
}
