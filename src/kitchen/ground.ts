/** A surface as the packing searches see it: one box, what in it must stay free, and the lines that a pan can rest against. */
import type { Footprint } from '../problem/problem.js';
import { areaOf, extentX, extentY, liesOn, SLACK, tidy, turns } from './footprint.js';
import type { Spot, Surface } from './surface.js';

/** An upright rectangle by its edges. */
export interface Box {
  readonly left: number;
  readonly front: number;
  readonly right: number;
  readonly back: number;
}

export interface Ground {
  readonly surface: Surface;
  /** Around all strips (and within the circle's own box). */
  readonly bounds: Box;
  /** Parts of the bounds on which nothing stands: behind short strips, and gaps between strips. */
  readonly walls: readonly Box[];
  /** Square metres that can be covered at most. */
  readonly area: number;
  /** One strip and no circle: most racks. */
  readonly plain: boolean;
}

const grounds = new WeakMap<Surface, Ground>();

/** The ground of a surface; worked out once for each surface object. */
export function groundOf(surface: Surface): Ground {
  let ground = grounds.get(surface);
  if (ground === undefined) {
    ground = measure(surface);
    grounds.set(surface, ground);
  }
  return ground;
}

function measure(surface: Surface): Ground {
  const { strips, round } = surface;
  const first = strips[0];
  if (first === undefined)
    return { surface, bounds: { left: 0, front: 0, right: 0, back: 0 }, walls: [], area: 0, plain: false };
  let right = first.x;
  let back = 0;
  let area = 0;
  for (const strip of strips) {
    right = Math.max(right, strip.x + strip.width);
    back = Math.max(back, strip.depth);
    area += round === null ? strip.width * strip.depth : sliceOfCircle(round, strip.x, strip.x + strip.width);
  }
  const walls: Box[] = [];
  let reached = first.x;
  for (const strip of strips) {
    if (strip.x > reached + 1e-9) walls.push({ left: reached, front: 0, right: strip.x, back });
    reached = strip.x + strip.width;
    if (strip.depth < back) walls.push({ left: strip.x, front: strip.depth, right: reached, back });
  }
  const bounds = { left: first.x, front: 0, right, back };
  return { surface, bounds, walls, area, plain: round === null && strips.length === 1 };
}

/** Area of the part of a circle (bounding box from 0) between two upright lines. */
function sliceOfCircle(diameter: number, from: number, to: number): number {
  const r = diameter / 2;
  const upTo = (x: number) => {
    const t = Math.min(Math.max(x - r, -r), r);
    return t * Math.sqrt(Math.max(0, r * r - t * t)) + r * r * Math.asin(t / r);
  };
  return upTo(to) - upTo(from);
}

/** A spot for one footprint with nothing else there, or null where it fits in neither turn: exact. */
export function alone(ground: Ground, footprint: Footprint): Spot | null {
  const { bounds, surface } = ground;
  const both = turns(footprint);
  for (let turn = 0; turn < (both ? 2 : 1); turn++) {
    const turned = turn === 1;
    const w = extentX(footprint, turned);
    const d = extentY(footprint, turned);
    if (ground.plain) {
      if (w <= bounds.right - bounds.left + SLACK && d <= bounds.back + SLACK) return { x: bounds.left, y: 0, turned };
      continue;
    }
    // Pushed to the left, it rests against the left edge of some strip; in a circle, as near to the middle as the strips allow.
    for (const strip of surface.strips) {
      const low = { x: strip.x, y: 0, turned };
      if (surface.round === null) {
        if (liesOn(surface, footprint, low, SLACK)) return low;
        continue;
      }
      const middle = (surface.round - w) / 2;
      const y = (surface.round - d) / 2;
      for (const x of [middle, strip.x, strip.x + strip.width - w]) {
        if (liesOn(surface, footprint, { x, y, turned }, SLACK)) return tidy({ x, y, turned });
      }
    }
    if (footprint.kind === 'round' && surface.round === null) {
      // Pushed to the left, a round pan may come to rest against the corner of a strip that is less deep.
      for (const wall of ground.walls) {
        const rise = Math.max(0, wall.front - d / 2);
        const x = wall.right + Math.sqrt(Math.max(0, (d * d) / 4 - rise * rise)) - d / 2;
        if (liesOn(surface, footprint, { x, y: 0, turned }, SLACK)) return tidy({ x, y: 0, turned });
      }
    }
  }
  return null;
}

/** Whether the footprints together need more area than there is: then they can never stand there at once. */
export function tooLarge(ground: Ground, footprints: readonly Footprint[]): boolean {
  let sum = 0;
  for (const footprint of footprints) sum += areaOf(footprint);
  return sum > ground.area + 1e-5;
}
