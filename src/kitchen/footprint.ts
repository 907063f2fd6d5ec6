/** Footprints seen from above: their extents, whether two overlap, and whether one lies on a surface. Metres. */
import type { Footprint } from '../problem/problem.js';
import type { Spot, Surface } from './surface.js';

/** Two footprints may share this much, so that what exactly fits does fit: a micrometre. */
export const TOLERANCE = 1e-6;

/** What the searches allow themselves: a little less, so that a spot that was rounded still passes. */
export const SLACK = 0.9e-6;

/** Extent along x of a footprint that stands turned or not. */
export function extentX(footprint: Footprint, turned: boolean): number {
  if (footprint.kind === 'round') return footprint.diameter;
  return turned ? footprint.depth : footprint.width;
}

/** Extent along y of a footprint that stands turned or not. */
export function extentY(footprint: Footprint, turned: boolean): number {
  if (footprint.kind === 'round') return footprint.diameter;
  return turned ? footprint.width : footprint.depth;
}

/** The area that a footprint covers, square metres. */
export function areaOf(footprint: Footprint): number {
  if (footprint.kind === 'rectangle') return footprint.width * footprint.depth;
  return (Math.PI / 4) * footprint.diameter * footprint.diameter;
}

/** Whether a quarter turn changes the footprint. */
export const turns = (footprint: Footprint): boolean =>
  footprint.kind === 'rectangle' && Math.abs(footprint.width - footprint.depth) > 1e-12;

/** A footprint around its centre: half extents, and the radius by which its corners are rounded (0 for a rectangle). */
export interface Body {
  readonly cx: number;
  readonly cy: number;
  /** Half of the width; 0 for a round footprint. */
  readonly hw: number;
  readonly hd: number;
  readonly radius: number;
}

/** The body of a footprint on its spot. */
export function bodyAt(footprint: Footprint, spot: Spot): Body {
  if (footprint.kind === 'round') {
    const radius = footprint.diameter / 2;
    return { cx: spot.x + radius, cy: spot.y + radius, hw: 0, hd: 0, radius };
  }
  const hw = extentX(footprint, spot.turned) / 2;
  const hd = extentY(footprint, spot.turned) / 2;
  return { cx: spot.x + hw, cy: spot.y + hd, hw, hd, radius: 0 };
}

/**
 * How far two bodies reach into each other, metres; at most 0 where they do not. Exact for any mix of rectangles and circles:
 * the one's centre is measured against the other grown by the one (a box with rounded corners).
 */
export function reach(a: Body, b: Body): number {
  const qx = Math.abs(a.cx - b.cx) - a.hw - b.hw;
  const qy = Math.abs(a.cy - b.cy) - a.hd - b.hd;
  const round = a.radius + b.radius;
  if (qx > 0 && qy > 0) return round - Math.sqrt(qx * qx + qy * qy);
  return round - Math.max(qx, qy);
}

/** A spot rounded to a nanometre, so that plans read well. */
export function tidy({ x, y, turned }: Spot): Spot {
  // The zero keeps -0 out of plans.
  const round = (metres: number) => Math.round(metres * 1e9) / 1e9 + 0;
  return { x: round(x), y: round(y), turned };
}

/** Whether two placed footprints overlap by more than the tolerance. */
export function overlaps(a: Footprint, at: Spot, b: Footprint, bt: Spot): boolean {
  return reach(bodyAt(a, at), bodyAt(b, bt)) > TOLERANCE;
}

/** How much less far back a round footprint reaches between the sides of a strip than at its middle. */
function receding(footprint: Footprint, spot: Spot, strip: { readonly x: number; readonly width: number }): number {
  if (footprint.kind !== 'round') return 0;
  const radius = footprint.diameter / 2;
  const middle = spot.x + radius;
  const aside = middle - Math.min(Math.max(middle, strip.x), strip.x + strip.width);
  return radius - Math.sqrt(Math.max(0, radius * radius - aside * aside));
}

/**
 * Whether a footprint on its spot lies on the surface: on strips that touch, within the depth of every strip that it
 * covers (of a circle only the part above the strip counts), and within the circle of a round surface.
 */
export function liesOn(surface: Surface, footprint: Footprint, spot: Spot, tolerance = TOLERANCE): boolean {
  const w = extentX(footprint, spot.turned);
  const d = extentY(footprint, spot.turned);
  if (spot.y < -tolerance) return false;
  // Walks from strip to strip as long as they touch; the strips stand in rising x.
  let reached = spot.x + tolerance;
  const end = spot.x + w - tolerance;
  for (const strip of surface.strips) {
    if (reached >= end) break;
    if (strip.x + strip.width <= reached) continue;
    if (strip.x > reached + tolerance) return false;
    if (spot.y + d - receding(footprint, spot, strip) > strip.depth + tolerance) return false;
    reached = strip.x + strip.width;
  }
  if (reached < end) return false;
  if (surface.round === null) return true;
  const body = bodyAt(footprint, spot);
  const middle = surface.round / 2;
  const far = (c: number, h: number) => Math.abs(c - middle) + h;
  const fx = far(body.cx, body.hw);
  const fy = far(body.cy, body.hd);
  return Math.sqrt(fx * fx + fy * fy) + body.radius <= middle + tolerance;
}
