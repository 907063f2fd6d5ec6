/**
 * The shapes on which pans stand, and where they may stand. Metres; x left to right, y front to back, from the low corner.
 */
import type { Footprint } from '../problem/problem.js';

/** Where something stands: low corner of its bounding box; `turned` changes width and depth. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
}

/**
 * A flat area. `strips`: neighbours of one area with their own depths (a rack is one strip); a gap in x parts them.
 * A pan may straddle strips that touch. `round`: in addition everything lies within this circle, whose bounding box
 * starts at (0, 0).
 */
export interface Surface {
  readonly strips: readonly { readonly x: number; readonly width: number; readonly depth: number }[];
  readonly round: number | null;
}

/** Something to be placed; times are whole minutes, half-open, and say with which others it shares the surface. */
export interface Standing {
  readonly footprint: Footprint;
  readonly height: number;
  readonly start: number;
  readonly end: number;
  /** Set where it already stands and may not be moved. */
  readonly fixed: { readonly level: number; readonly spot: Spot } | null;
}
