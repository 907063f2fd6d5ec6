/** Whether one load alone finds room on an empty place: plain geometry, metres. */
import type { Appliance, Burners, Footprint, Grate, Load, Mode, Piece, Racks } from './problem.js';

/** Below the micrometre to which lengths are read. */
const EPSILON = 1e-9;

/** The side that a burner goes by. */
export const narrowerSide = (footprint: Footprint): number =>
  footprint.kind === 'round' ? footprint.diameter : Math.min(footprint.width, footprint.depth);

/** A piece seen from above as it lies, its length along x; null where its sizes are not said. */
export function pieceFootprint({ shape, thickness, width, length }: Piece): Footprint | null {
  if (shape === 'sphere') return thickness === null ? null : { kind: 'round', diameter: thickness };
  const side = shape === 'cylinder' ? thickness : width;
  return length === null || side === null || thickness === null
    ? null
    : { kind: 'rectangle', width: length, depth: side };
}

/** Indices of the burners that carry a load. */
export function carryingBurners(surface: Burners, load: Load): number[] {
  const side = narrowerSide(load.footprint);
  return [...surface.burners.keys()].filter((index) => {
    const { carries } = surface.burners[index]!;
    return side >= carries.low - EPSILON && side <= carries.high + EPSILON;
  });
}

/** Neighbouring strips that may hold something, each from its `x` with its width and depth. */
interface Strip {
  readonly x: number;
  readonly width: number;
  readonly depth: number;
}

/** Zones that hold a pan in a mode, as runs of neighbours. */
function freeRuns(grate: Grate, mode: Mode): Strip[][] {
  const runs: Strip[][] = [];
  let open = false;
  for (const zone of grate.zones) {
    const free = !mode.lit.includes(zone.name);
    if (free && open) runs.at(-1)!.push(zone);
    else if (free) runs.push([zone]);
    open = free;
  }
  return runs;
}

/** Whether a load fits the footprint of an appliance in a mode, turned or not. */
export function footprintFits(appliance: Appliance, mode: Mode, footprint: Footprint): boolean {
  const { surface } = appliance;
  if (surface.kind === 'burners') return false;
  if (surface.kind === 'racks') return fitsRack(surface, footprint);
  return freeRuns(surface, mode).some((run) => turns(footprint).some((one) => fitsRun(run, surface.round, one)));
}

const turns = (footprint: Footprint): Footprint[] =>
  footprint.kind === 'round'
    ? [footprint]
    : [footprint, { ...footprint, width: footprint.depth, depth: footprint.width }];

function fitsRack(rack: Racks, footprint: Footprint): boolean {
  if (footprint.kind === 'round') return footprint.diameter <= Math.min(rack.width, rack.depth) + EPSILON;
  return turns(footprint).some(
    (one) => one.kind === 'rectangle' && one.width <= rack.width + EPSILON && one.depth <= rack.depth + EPSILON,
  );
}

function fitsRun(run: readonly Strip[], round: number | null, footprint: Footprint): boolean {
  if (round !== null) return fitsCircle(run, round, footprint);
  return footprint.kind === 'round' ? circleOnStrips(run, footprint.diameter) : rectangleOnStrips(run, footprint);
}

/** A rectangle needs neighbouring strips that are each deep enough and together wide enough. */
function rectangleOnStrips(run: readonly Strip[], { width, depth }: { width: number; depth: number }): boolean {
  let sum = 0;
  for (const strip of run) {
    sum = strip.depth + EPSILON >= depth ? sum + strip.width : 0;
    if (sum + EPSILON >= width) return true;
  }
  return false;
}

/**
 * A circle stands at the front edge, where every strip begins. A strip that is less deep than the circle is wide keeps
 * its centre away: by how much follows from the height at which the strip ends.
 */
function circleOnStrips(run: readonly Strip[], diameter: number): boolean {
  const radius = diameter / 2;
  const left = run[0]!.x;
  const right = run.at(-1)!.x + run.at(-1)!.width;
  const barred: [number, number][] = [
    [Number.NEGATIVE_INFINITY, left + radius],
    [right - radius, Number.POSITIVE_INFINITY],
  ];
  for (const strip of run) {
    if (strip.depth + EPSILON >= diameter) continue;
    const above = strip.depth - radius;
    const away = above > 0 ? Math.sqrt(radius * radius - above * above) : radius;
    barred.push([strip.x - away, strip.x + strip.width + away]);
  }
  barred.sort((a, b) => a[0] - b[0]);
  let reached = Number.NEGATIVE_INFINITY;
  for (const [from, to] of barred) {
    if (from + EPSILON >= reached && reached > Number.NEGATIVE_INFINITY) return true;
    reached = Math.max(reached, to);
  }
  return false;
}

/** Strips of a round grate: the load stands in the middle from front to back, as near to the middle as its run lets it. */
function fitsCircle(run: readonly Strip[], round: number, footprint: Footprint): boolean {
  const radius = round / 2;
  const left = run[0]!.x;
  const right = run.at(-1)!.x + run.at(-1)!.width;
  const width = footprint.kind === 'round' ? footprint.diameter : footprint.width;
  if (width > right - left + EPSILON) return false;
  const x = Math.max(left, Math.min(radius - width / 2, right - width));
  if (footprint.kind === 'round') return Math.abs(x + width / 2 - radius) + width / 2 <= radius + EPSILON;
  const reach = Math.max(Math.abs(x - radius), Math.abs(x + width - radius));
  return Math.hypot(reach, footprint.depth / 2) <= radius + EPSILON;
}

/** The tallest load that an appliance takes in a mode when nothing else is in it; Infinity where there is no limit. */
export function tallestLoad(appliance: Appliance, mode: Mode): number {
  const { surface } = appliance;
  const cavity = surface.kind === 'racks' ? surface.height - surface.clearance : Number.POSITIVE_INFINITY;
  return Math.min(cavity, mode.height ?? Number.POSITIVE_INFINITY);
}

/** Whether a load is low enough for an appliance in a mode. */
export const heightFits = (appliance: Appliance, mode: Mode, load: Load): boolean =>
  load.height <= tallestLoad(appliance, mode) + EPSILON;
