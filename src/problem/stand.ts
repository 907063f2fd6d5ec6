/** What a step sets down, and whether there is room for it, in words. */
import { quote } from '../units/measure.js';
import { type LengthUnit, showLength, showSize } from '../units/show.js';
import { footprintFits, heightFits, pieceFootprint, tallestLoad } from './fits.js';
import type { Appliance, Footprint, Kitchen, Load, Mode, Pan, Piece, Racks } from './problem.js';

/** A pan with the piece in it, or the piece alone; null where neither has a size. */
export function loadOf(pan: Pan | null, piece: Piece | null): Load | null {
  const height = piece?.thickness ?? 0;
  if (pan) return { footprint: pan.footprint, height: Math.max(pan.height, height) };
  const footprint = piece && pieceFootprint(piece);
  return footprint && { footprint, height };
}

/** `the pan ...` or `the piece`. */
export const calledOf = (pan: Pan | null): string => (pan ? `the pan ${quote(pan.name)}` : 'the piece');

/** A cook who sets an appliance in °F measures in inches. */
export const lengthUnitOf = ({ appliances }: Kitchen): LengthUnit =>
  appliances.some((appliance) => appliance.dial.unit === 'F') ? 'in' : 'cm';

/** Why a load finds no room in an appliance's mode even where nothing else is in it; null where it does. */
export function noRoom(where: Appliance, how: Mode, load: Load, called: string, unit: LengthUnit): string | null {
  const who = `${quote(where.name)} in mode ${quote(how.name)}`;
  const what = called.replace(/^t/, 'T');
  if (!footprintFits(where, how, load.footprint)) {
    const room = where.surface.kind === 'racks' ? `: a rack is ${showRack(where.surface, unit)}` : '';
    return `${what} (${showFootprint(load.footprint, unit)}) fits nowhere in ${who}${room}.`;
  }
  if (heightFits(where, how, load)) return null;
  const [height, limit] = [load.height, tallestLoad(where, how)].map((each) => showLength(each, unit));
  return `${what} is ${height} high; ${who} takes at most ${limit}.`;
}

const showRack = (rack: Racks, unit: LengthUnit): string => showSize(rack.width, rack.depth, unit);

const showFootprint = (footprint: Footprint, unit: LengthUnit): string =>
  footprint.kind === 'round'
    ? `${showLength(footprint.diameter, unit)} across`
    : showSize(footprint.width, footprint.depth, unit);
