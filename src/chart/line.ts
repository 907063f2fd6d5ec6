/**
 * A drawn line as data: stretches of text with a role. A role says what a stretch is, never how it looks; whoever shows
 * the line gives each role a colour, or none, and the text must be understood without it.
 */
import { glyphsOf, widthOf } from './text.js';

export type Role =
  | 'plain'
  | 'strong'
  | 'dim'
  | 'title'
  | 'axis'
  | 'grid'
  | 'landing'
  | 'heat'
  /** The core of a piece, and its surface. */
  | 'core'
  | 'surface'
  | 'good'
  | 'warn'
  | 'cursor'
  | 'key'
  /** A dish's own colour, by its number. */
  | `dish ${number}`
  /** Writing on a stretch that is filled with a dish's own colour. */
  | `on dish ${number}`;

export interface Segment {
  readonly text: string;
  readonly role: Role;
}
export type Line = readonly Segment[];

export const segment = (text: string, role: Role = 'plain'): Segment => ({ text, role });
export const plainLine = (text: string, role: Role = 'plain'): Line => (text === '' ? [] : [{ text, role }]);

/** The characters of a line, without blanks at its end. */
export const textOf = (line: Line): string =>
  line
    .map((part) => part.text)
    .join('')
    .trimEnd();

export const lineWidth = (line: Line): number => line.reduce((sum, part) => sum + widthOf(part.text), 0);

interface Cell {
  glyph: string;
  role: Role;
  /** Nothing stands here yet, or only the grid behind. */
  free: boolean;
}

/** One row of cells to draw into. What lies outside is cut off; a wide character that would be halved becomes a blank. */
export class CellRow {
  private readonly cells: Cell[];

  constructor(readonly columns: number) {
    this.cells = Array.from({ length: columns }, () => ({ glyph: ' ', role: 'plain' as Role, free: true }));
  }

  isFree(column: number): boolean {
    return this.cells[column]?.free ?? false;
  }

  /** Writes text from a column on; `behind` leaves the cells free for what comes in front. */
  write(column: number, text: string, role: Role, behind = false): void {
    let at = column;
    for (const { glyph, width } of glyphsOf(text)) {
      if (at >= 0 && at + width <= this.columns) {
        this.cells[at] = { glyph, role, free: behind };
        for (let more = 1; more < width; more += 1) this.cells[at + more] = { glyph: '', role, free: behind };
      } else {
        for (let part = 0; part < width; part += 1) {
          if (at + part >= 0 && at + part < this.columns) this.cells[at + part] = { glyph: ' ', role, free: behind };
        }
      }
      at += width;
    }
  }

  line(): Line {
    const parts: { text: string; role: Role }[] = [];
    for (const cell of this.cells) {
      const last = parts.at(-1);
      if (last && last.role === cell.role) last.text += cell.glyph;
      else parts.push({ text: cell.glyph, role: cell.role });
    }
    return parts;
  }
}

/** The line within so many columns, as it is: no mark where it was cut. */
export function clip(line: Line, columns: number): Line {
  const row = new CellRow(columns);
  let at = 0;
  for (const part of line) {
    row.write(at, part.text, part.role);
    at += widthOf(part.text);
    if (at >= columns) break;
  }
  return at >= columns ? row.line() : line;
}
