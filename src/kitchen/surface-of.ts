/** The surfaces of an appliance: on what its pans stand in a mode, and how its levels share the cavity. */
import type { Appliance, Mode } from '../problem/problem.js';
import type { Surface } from './surface.js';

/** Equal surfaces that lie above each other and share a height. Metres. */
export interface Shelves {
  readonly surface: Surface;
  /** How many there are; 1 for a grate. */
  readonly levels: number;
  /** Of the cavity, shared by all loaded levels; Infinity where there is none. */
  readonly height: number;
  /** Free height that each loaded level needs above its tallest load. */
  readonly clearance: number;
  /** Limit on each load's height; Infinity where there is none. */
  readonly limit: number;
}

/** Zone edges written in centimetres or inches may miss each other by rounding. */
const JOIN = 1e-9;

/**
 * On what pans stand in this mode: a rack is one strip; a grate is its zones without the mode's lit ones, and those of a
 * round grate are strips of the circle. Throws a RangeError for burners, which have no surface.
 */
export function surfaceOf(appliance: Appliance, mode: Mode | null): Surface {
  const { surface } = appliance;
  if (surface.kind === 'burners') throw new RangeError(`${appliance.name} has burners and no surface`);
  if (surface.kind === 'racks') return { strips: [{ x: 0, width: surface.width, depth: surface.depth }], round: null };
  const { round } = surface;
  const lit = new Set(mode?.lit ?? []);
  const free = surface.zones.filter((zone) => !lit.has(zone.name)).sort((a, b) => a.x - b.x);
  const strips: { x: number; width: number; depth: number }[] = [];
  for (const zone of free) {
    const depth = round ?? zone.depth;
    const last = strips.at(-1);
    if (last !== undefined && last.depth === depth && Math.abs(last.x + last.width - zone.x) <= JOIN)
      last.width = zone.x + zone.width - last.x;
    else strips.push({ x: zone.x, width: zone.width, depth });
  }
  return { strips, round };
}

/** The levels of an appliance in a mode; a grate is one level without a cavity. Throws a RangeError for burners. */
export function shelvesOf(appliance: Appliance, mode: Mode | null): Shelves {
  const surface = surfaceOf(appliance, mode);
  const limit = mode?.height ?? Number.POSITIVE_INFINITY;
  const racks = appliance.surface;
  if (racks.kind !== 'racks') return { surface, levels: 1, height: Number.POSITIVE_INFINITY, clearance: 0, limit };
  return { surface, levels: racks.count, height: racks.height, clearance: racks.clearance, limit };
}
