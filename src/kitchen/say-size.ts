/** Sizes in messages: inches where they were clearly meant, else centimetres (a problem does not keep the unit written). */
import type { Footprint } from '../problem/problem.js';
import { type LengthUnit, showLength, showSize } from '../units/show.js';

const INCH = 0.0254;

/** How far a length lies from the next whole half of a unit, metres. */
const offHalf = (metres: number, unit: number): number => {
  const halves = (2 * metres) / unit;
  return (Math.abs(halves - Math.round(halves)) * unit) / 2;
};

/**
 * The unit for some lengths (metres) that are told together: inches where each is within half a millimetre of a whole half
 * inch and they are not all whole half centimetres.
 */
export function unitOf(lengths: readonly number[]): LengthUnit {
  const inches = lengths.every((metres) => offHalf(metres, INCH) <= 5e-4);
  return inches && !lengths.every((metres) => offHalf(metres, 0.01) <= 5e-5) ? 'in' : 'cm';
}

/** The sides of a footprint, or its diameter. */
export const sidesOf = (footprint: Footprint): number[] =>
  footprint.kind === 'round' ? [footprint.diameter] : [footprint.width, footprint.depth];

/** `13 x 18 in`, or `14 in` for a round one. */
export function saySize(footprint: Footprint, unit: LengthUnit): string {
  return footprint.kind === 'round'
    ? showLength(footprint.diameter, unit)
    : showSize(footprint.width, footprint.depth, unit);
}
