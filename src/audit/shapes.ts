/**
 * Shapes seen from above, checked by plain distances: rectangles along the axes and true circles. Metres.
 * Shares nothing with the packing that found the places.
 */
import type { Footprint, Grate, Load, Span } from '../problem/problem.js';

/** A millionth of a metre: what rounding may do. */
export const SLACK = 1e-6;

/** x from `left` to `right`, y from `front` to `back`; a circle is given by its bounding box. */
export interface Shape {
  readonly round: boolean;
  readonly left: number;
  readonly right: number;
  readonly front: number;
  readonly back: number;
}

export interface Strip {
  readonly name: string;
  readonly x: number;
  readonly width: number;
  readonly depth: number;
}

/** The shape of a footprint whose bounding box has its low corner at (x, y). */
export function shapeAt(footprint: Footprint, spot: { x: number; y: number; turned: boolean }): Shape {
  const round = footprint.kind === 'round';
  const width = round ? footprint.diameter : spot.turned ? footprint.depth : footprint.width;
  const depth = round ? footprint.diameter : spot.turned ? footprint.width : footprint.depth;
  return { round, left: spot.x, right: spot.x + width, front: spot.y, back: spot.y + depth };
}

const radius = (shape: Shape): number => (shape.right - shape.left) / 2;
const centreX = (shape: Shape): number => (shape.left + shape.right) / 2;
const centreY = (shape: Shape): number => (shape.front + shape.back) / 2;
const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);

/** Whether two shapes share more than an edge. */
export function overlap(one: Shape, two: Shape): boolean {
  if (one.round && two.round) {
    const apart = Math.hypot(centreX(one) - centreX(two), centreY(one) - centreY(two));
    return apart < radius(one) + radius(two) - SLACK;
  }
  if (one.round || two.round) {
    const [circle, box] = one.round ? [one, two] : [two, one];
    const x = centreX(circle);
    const y = centreY(circle);
    const apart = Math.hypot(x - clamp(x, box.left, box.right), y - clamp(y, box.front, box.back));
    return apart < radius(circle) - SLACK;
  }
  return (
    Math.min(one.right, two.right) - Math.max(one.left, two.left) > SLACK &&
    Math.min(one.back, two.back) - Math.max(one.front, two.front) > SLACK
  );
}

/** Whether a shape lies within a circle whose bounding box starts at (0, 0). */
export function withinCircle(shape: Shape, diameter: number): boolean {
  const middle = diameter / 2;
  if (shape.round) {
    return Math.hypot(centreX(shape) - middle, centreY(shape) - middle) + radius(shape) <= middle + SLACK;
  }
  const farX = Math.max(Math.abs(shape.left - middle), Math.abs(shape.right - middle));
  const farY = Math.max(Math.abs(shape.front - middle), Math.abs(shape.back - middle));
  return Math.hypot(farX, farY) <= middle + SLACK;
}

/** The strips above which some of the shape lies, from left to right. */
export function stripsUnder(shape: Shape, strips: readonly Strip[]): Strip[] {
  return strips
    .filter((strip) => Math.min(shape.right, strip.x + strip.width) - Math.max(shape.left, strip.x) > SLACK)
    .sort((one, two) => one.x - two.x);
}

/**
 * Whether a shape lies within the union of strips that start at y = 0. Strips that touch are one area; they may
 * have different depths, and of a circle only the part above a strip counts there.
 */
export function withinStrips(shape: Shape, strips: readonly Strip[]): boolean {
  let reached = shape.left;
  for (const strip of stripsUnder(shape, strips)) {
    if (strip.x > reached + SLACK) return false;
    reached = Math.max(reached, strip.x + strip.width);
    const { front, back } = partAbove(shape, strip);
    if (front < -SLACK || back > strip.depth + SLACK) return false;
  }
  return reached >= shape.right - SLACK;
}

/** How far to the front and back a shape reaches between the sides of a strip. */
function partAbove(shape: Shape, strip: Strip): { front: number; back: number } {
  if (!shape.round) return shape;
  const x = centreX(shape);
  const aside = x - clamp(x, strip.x, strip.x + strip.width);
  const reach = Math.sqrt(Math.max(0, radius(shape) ** 2 - aside ** 2));
  return { front: centreY(shape) - reach, back: centreY(shape) + reach };
}

/** A grate's zones that are free in a mode. */
export function freeZones(grate: Grate, lit: readonly string[]): Strip[] {
  return grate.zones.filter((zone) => !lit.includes(zone.name));
}

/** Whether a burner that carries such sizes carries the load, by its narrower side; a row without load is no matter. */
export function isCarried(load: Load | null, carries: Span): boolean {
  if (load === null) return true;
  const { footprint } = load;
  const side = footprint.kind === 'round' ? footprint.diameter : Math.min(footprint.width, footprint.depth);
  return side >= carries.low - SLACK && side <= carries.high + SLACK;
}
