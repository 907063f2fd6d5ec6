/** How wide text is in a picture: estimated from above for a wide sans-serif, since what draws the picture has its own fonts. */
import { glyphsOf } from '../../chart/text.js';

export const FONT = 12;

/** Shares of the font's size, by the letters that have them; measured on DejaVu Sans, which is wider than most. */
const SHARES: readonly [RegExp, number][] = [
  [/^[ijlI.,:;'|!]$/, 0.36],
  [/^[ ftr()[\]-]$/, 0.42],
  [/^[mwMW%@…—]$/, 1.01],
  [/^[A-Z&+=<>~]$/, 0.8],
];
const USUAL = 0.645;

function widthOfGlyph(glyph: string, columns: number): number {
  if (columns > 1) return 1.3 * FONT;
  return FONT * (SHARES.find(([letters]) => letters.test(glyph))?.[1] ?? (glyph > '\u024f' ? 0.95 : USUAL));
}

export const lengthOf = (text: string): number =>
  glyphsOf(text).reduce((sum, { glyph, width }) => sum + widthOfGlyph(glyph, width), 0);

/** The text within so much room, with a mark where it is cut; empty where that is too little for a letter and the mark. */
export function fitted(text: string, room: number): string {
  if (lengthOf(text) <= room) return text;
  let left = room - lengthOf('…');
  let kept = '';
  for (const { glyph, width } of glyphsOf(text)) {
    left -= widthOfGlyph(glyph, width);
    if (left < 0) break;
    kept += glyph;
  }
  return kept === '' ? '' : `${kept.trimEnd()}…`;
}
