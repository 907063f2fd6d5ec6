/** What a step sets down, and whether there is room for it, in words. */
import { quote } from '../units/measure.js';
import { showLength, showSize } from '../units/show.js';
import { footprintFits, heightFits, pieceFootprint, tallestLoad } from './fits.js';
import type { Appliance, Footprint, Load, Mode, Pan, Piece } from './problem.js';

/** A pan with the piece in it, or the piece alone; null where neither has a size. */
export function loadOf(pan: Pan | null, piece: Piece | null): Load | null {
  const height = piece?.thickness ?? 0;
  if (pan) return { footprint: pan.footprint, height: Math.max(pan.height, height) };
  const footprint = piece && pieceFootprint(piece);
  return footprint && { footprint, height };
}

/** `the pan ...` or `the piece`. */
export const calledOf = (pan: Pan | null): string => (pan ? `the pan ${quote(pan.name)}` : 'the piece');

/** Why a load finds no room in an appliance's mode even where nothing else is in it; null where it does. */
export function noRoom(where: Appliance, how: Mode, load: Load, called: string): string | null {
  const who = `${quote(where.name)} in mode ${quote(how.name)}`;
  const what = called.replace(/^t/, 'T');
  if (!footprintFits(where, how, load.footprint)) {
    return `${what} (${showFootprint(load.footprint)}) fits nowhere in ${who}${roomOf(where)}.`;
  }
  if (heightFits(where, how, load)) return null;
  return `${what} is ${showLength(load.height)} high; ${who} takes at most ${showLength(tallestLoad(where, how))}.`;
}

const showFootprint = (footprint: Footprint): string =>
  footprint.kind === 'round' ? `${showLength(footprint.diameter)} across` : showSize(footprint.width, footprint.depth);

function roomOf({ surface }: Appliance): string {
  return surface.kind === 'racks' ? `: a rack is ${showSize(surface.width, surface.depth)}` : '';
}
