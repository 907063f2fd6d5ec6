/** What a plan calls the place where something stands. */
import type { Appliance, Footprint } from '../problem/problem.js';
import type { Placed } from './arrange.js';
import { extentX, TOLERANCE } from './footprint.js';

/**
 * `rack 2` on racks; on a grate the zones above which some of it stands, from left to right: `left + middle`.
 * Throws a RangeError for burners, which go by their own names.
 */
export function placeName({ name, surface }: Appliance, footprint: Footprint, { level, spot }: Placed): string {
  if (surface.kind === 'burners') throw new RangeError(`${name} has burners, which go by their own names`);
  if (surface.kind === 'racks') return `rack ${level}`;
  const right = spot.x + extentX(footprint, spot.turned);
  return surface.zones
    .filter((zone) => Math.min(right, zone.x + zone.width) - Math.max(spot.x, zone.x) > TOLERANCE)
    .map((zone) => zone.name)
    .join(' + ');
}
