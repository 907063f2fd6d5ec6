/** A sentence that is to be noticed, with its mark. */
import { type Glyphs, inGlyphs } from './glyphs.js';
import { type Line, type Role, segment } from './line.js';
import { clean, wrap } from './text.js';

export function noteLines(text: string, width: number, glyphs: Glyphs, role: Role): Line[] {
  return wrap(inGlyphs(clean(text), glyphs), width - 4).map((line, index) => [
    segment(index === 0 ? `  ${glyphs.caution} ` : '    ', role),
    segment(line),
  ]);
}
