/** A piece's temperatures over time as cells: its core and surface, or the cores of several ways beside each other. °C, minutes. */
import { showCore } from '../units/show.js';
import type { Degree } from '../units/temperature.js';
import { flow } from './chart.js';
import { Frame, type FrameSize, spanWithin, type Trace, valueAt } from './curve-frame.js';
import { type Glyphs, inGlyphs, type Texture } from './glyphs.js';
import { CellRow, type Line, type Role, segment } from './line.js';
import { widthOf } from './text.js';

/** A part of the way of a piece. */
export interface Stage {
  readonly name: string;
  readonly texture: Texture;
  readonly from: number;
  readonly to: number;
}

/** A moment that has a line of its own, and what stands above it. */
export interface Mark {
  readonly minute: number;
  readonly say: string;
}

export interface CurvePicture {
  readonly core: Trace;
  readonly surface: Trace;
  /** One after the other, from minute 0 to the end. */
  readonly stages: readonly Stage[];
  readonly marks: readonly Mark[];
  /** A temperature that has a line of its own, with its name; null: none. */
  readonly level: { readonly celsius: number; readonly name: string } | null;
  readonly degree: Degree;
}

/** The core as an area, filled by what is done to the piece; the surface as a row of rings; what is done again below. */
export function curveLines(picture: CurvePicture, size: FrameSize, glyphs: Glyphs): Line[] {
  const { core, surface, stages, marks, level, degree } = picture;
  const total = stages.at(-1)!.to;
  const frame = new Frame([core, surface], level === null ? [] : [level.celsius], total, degree, size);
  const rows = frame.emptyRows(glyphs);
  if (level !== null) drawLevel(rows, frame, level.celsius, glyphs);
  for (const { minute } of marks)
    for (const row of rows) row.write(frame.columnOf(minute), glyphs.landing, 'landing', true);
  for (let column = 0; column < frame.columns; column += 1) {
    const { from, to } = frame.minutesOf(column);
    drawArea(rows, column, frame.heightOf(valueAt(core, (from + to) / 2)), textureAt(stages, (from + to) / 2), glyphs);
    drawSpan(rows, frame, column, spanWithin(surface, from, to), glyphs.loose, 'surface');
  }
  const told = marks.map(({ minute, say }) => ({ minute, say: inGlyphs(say, glyphs) }));
  return [
    ...frame.above(told),
    ...frame.numbered(rows, level?.celsius ?? null),
    ...frame.axis(glyphs),
    frame.under(stageRow(frame, stages, glyphs)),
    ...flow(keyOf(picture, glyphs), size.columns),
  ];
}

/** A core among others. */
export interface LetteredTrace {
  /** One column wide; the rest is drawn with it in small. */
  readonly letter: string;
  /** Its number, for its colour. */
  readonly number: number;
  readonly core: Trace;
  /** The minute of the pull, and the last. */
  readonly pull: number;
  readonly to: number;
}

/** The cores of several ways, each drawn with its letter: a capital on the heat, a small one from the pull on. */
export function traceLines(
  traces: readonly LetteredTrace[],
  level: CurvePicture['level'],
  degree: Degree,
  size: FrameSize,
  glyphs: Glyphs,
): Line[] {
  const total = Math.max(...traces.map(({ to }) => to));
  const cores = traces.map(({ core }) => core);
  const frame = new Frame(cores, level === null ? [] : [level.celsius], total, degree, size);
  const rows = frame.emptyRows(glyphs);
  if (level !== null) drawLevel(rows, frame, level.celsius, glyphs);
  for (const { letter, number, core, pull, to: end } of traces) {
    for (let column = 0; column <= frame.columnOf(end); column += 1) {
      const { from, to } = frame.minutesOf(column);
      const glyph = (from + to) / 2 < pull ? letter : letter.toLowerCase();
      const middle = valueAt(core, Math.min(end, (from + to) / 2));
      drawSpan(rows, frame, column, { low: middle, high: middle }, glyph, `dish ${number}`, glyphs.several);
    }
  }
  const [first] = traces;
  const key: Line[] = [
    [segment(first!.letter), segment(' on the heat', 'dim')],
    [segment(first!.letter.toLowerCase()), segment(' from the pull on', 'dim')],
    [segment(glyphs.several), segment(' several', 'dim')],
    ...levelKey(level, degree, glyphs),
  ];
  return [...frame.numbered(rows, level?.celsius ?? null), ...frame.axis(glyphs), ...flow(key, size.columns)];
}

function drawLevel(rows: readonly CellRow[], frame: Frame, celsius: number, glyphs: Glyphs): void {
  rows[frame.rowOf(celsius)]!.write(0, glyphs.fill.wait.repeat(frame.columns), 'landing', true);
}

/** A column filled up to a height in rows, its top in eighths. */
function drawArea(rows: readonly CellRow[], column: number, height: number, texture: Texture, glyphs: Glyphs): void {
  const eighths = Math.max(0, Math.round(height * 8));
  const full = Math.floor(eighths / 8);
  for (let row = 0; row < Math.min(full, rows.length); row += 1) rows[row]!.write(column, glyphs.fill[texture], 'core');
  const part = eighths % 8;
  if (part > 0) rows[full]?.write(column, glyphs.levels[part - 1]!, 'core');
}

/** Every row of a column between two temperatures; `over` stands where something is already. */
function drawSpan(
  rows: readonly CellRow[],
  frame: Frame,
  column: number,
  { low, high }: { low: number; high: number },
  glyph: string,
  role: Role,
  over = glyph,
): void {
  for (let row = frame.rowOf(low); row <= frame.rowOf(high); row += 1) {
    const free = rows[row]!.isFree(column);
    rows[row]!.write(column, free ? glyph : over, free || over === glyph ? role : 'plain');
  }
}

const textureAt = (stages: readonly Stage[], minute: number): Texture =>
  (stages.find(({ to }) => minute < to) ?? stages.at(-1)!).texture;

/** `sear██oven at 165 °C█████rest▒▒▒▒` */
function stageRow(frame: Frame, stages: readonly Stage[], glyphs: Glyphs): CellRow {
  const row = new CellRow(frame.columns);
  for (const { name, texture, from, to } of stages) {
    const first = frame.columnOf(from);
    const columns = (to >= frame.total ? frame.columns : frame.columnOf(to)) - first;
    if (columns <= 0) continue;
    row.write(first, glyphs.fill[texture].repeat(columns), 'core');
    const told = inGlyphs(name, glyphs);
    if (widthOf(told) < columns) row.write(first, told, 'plain');
  }
  return row;
}

function keyOf({ level, stages, degree }: CurvePicture, glyphs: Glyphs): Line[] {
  const { heat, rest } = glyphs.fill;
  const rests = stages.some(({ texture }) => texture === 'rest');
  return [
    [segment(rests ? heat + rest : heat, 'core'), segment(rests ? ' core, on the heat and at rest' : ' core', 'dim')],
    [segment(glyphs.loose, 'surface'), segment(' surface, its hottest side', 'dim')],
    ...levelKey(level, degree, glyphs),
  ];
}

function levelKey(level: CurvePicture['level'], degree: Degree, glyphs: Glyphs): Line[] {
  if (level === null) return [];
  const told = inGlyphs(` ${level.name} ${showCore(level.celsius, degree)}`, glyphs);
  return [[segment(glyphs.fill.wait, 'landing'), segment(told, 'dim')]];
}
