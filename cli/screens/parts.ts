/** What the frames of several screens are made of. */
import type { Glyphs } from '../../src/chart/glyphs.js';
import { clip, type Line, lineWidth, plainLine, segment } from '../../src/chart/line.js';
import { pad, widthOf } from '../../src/chart/text.js';

export interface Size {
  readonly columns: number;
  readonly rows: number;
}

/** As many lines as the window has rows, none wider than its columns. */
export function fitted(lines: readonly Line[], { columns, rows }: Size): Line[] {
  const full = [...lines, ...Array.from({ length: Math.max(0, rows - lines.length) }, (): Line => [])];
  return full.slice(0, rows).map((line) => clip(line, columns));
}

/** Left and right in one row; the right part gives way where there is no room for it. */
export function spread(left: Line, right: Line, columns: number): Line {
  const gap = columns - lineWidth(left) - lineWidth(right);
  return gap < 2 ? left : [...left, segment(' '.repeat(gap)), ...right];
}

/** A key and what it does. */
export const hint = (key: string, words: string, on = false): Line => [
  segment(` ${key} `, on ? 'cursor' : 'key'),
  segment(`${words} `, on ? 'strong' : 'dim'),
];

/** Those that fit; the first give way, save the last two. */
export function hintsWithin(hints: readonly Line[], columns: number): Line {
  const kept = [...hints];
  while (kept.length > 2 && kept.reduce((sum, line) => sum + lineWidth(line), 0) > columns) kept.splice(0, 1);
  return kept.flat();
}

type Rows = readonly (readonly [string, string])[];

/** The help: keys, and what the marks mean. */
export function keyLines(keys: Rows, marks: Rows): Line[] {
  const column = Math.max(...keys.map(([key]) => widthOf(key))) + 3;
  const row = ([key, words]: readonly [string, string]): Line => [
    segment(`   ${pad(key, column, '')}`, 'key'),
    segment(words),
  ];
  return [plainLine(' Keys', 'strong'), ...keys.map(row), [], plainLine(' Marks', 'strong'), ...marks.map(row)];
}

/** Rows of a list from a line on, with a mark where more lies above or below. */
export function listed(lines: readonly Line[], scroll: number, rows: number, glyphs: Glyphs): Line[] {
  const top = Math.max(0, Math.min(scroll, lines.length - rows));
  const shown = lines.slice(top, top + rows);
  const filled = [...shown, ...Array.from({ length: Math.max(0, rows - shown.length) }, (): Line => [])];
  const above: Line = plainLine(` ${glyphs.above} ${top} more above`, 'dim');
  const below: Line = plainLine(` ${glyphs.below} ${lines.length - top - rows} more below`, 'dim');
  if (top > 0 && rows > 2) filled[0] = above;
  if (top + rows < lines.length && rows > 2) filled[rows - 1] = below;
  return filled;
}
