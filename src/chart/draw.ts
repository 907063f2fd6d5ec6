/** Lanes on a scale become rows of cells. */
import { shortHeat } from '../problem/degrees.js';
import { drawFolds, drawGrid } from './axis.js';
import { type Glyphs, inGlyphs } from './glyphs.js';
import type { Bar, Lane } from './lanes.js';
import { CellRow, type Line, type Role, segment } from './line.js';
import { columnOf, type Scale } from './scale.js';
import { cut, cutApart, pad, widthOf } from './text.js';
import type { View, ViewRun } from './view.js';

export interface Drawing {
  readonly view: View;
  readonly scale: Scale;
  readonly glyphs: Glyphs;
  /** Columns before the scale: the pointer, the lane's name, a mark for what lies before. */
  readonly gutter: number;
  /** Index of the step under the cursor; null: none. */
  readonly cursor: number | null;
  /** The present minute, or null. */
  readonly now: number | null;
}

/** The gutter for lanes of these names: what the longest needs, within a third of the width. */
export function gutterFor(lanes: readonly Lane[], width: number): number {
  const longest = Math.max(6, ...lanes.map((lane) => lane.indent + widthOf(lane.mark + lane.label)));
  return Math.min(longest + 3, Math.max(10, Math.floor(width * (width < 100 ? 0.24 : 0.2))));
}

/** The lanes with their names cut to what the gutter leaves, so that no two that differ look alike. */
export function fitLabels(lanes: readonly Lane[], gutter: number, glyphs: Glyphs): Lane[] {
  const room = (lane: Lane) => gutter - 3 - lane.indent - widthOf(lane.mark);
  const fitted = new Map<Lane, string>();
  for (const columns of new Set(lanes.map(room))) {
    const group = lanes.filter((lane) => room(lane) === columns);
    const labels = cutApart(
      group.map((lane) => lane.label),
      columns,
      glyphs.ellipsis,
    );
    for (const [index, lane] of group.entries()) fitted.set(lane, labels[index]!);
  }
  return lanes.map((lane) => ({ ...lane, label: fitted.get(lane)! }));
}

/** The lane as a row of `gutter` + scale columns. */
export function drawLane(drawing: Drawing, lane: Lane): Line {
  const { view, scale, glyphs, gutter, cursor } = drawing;
  const row = new CellRow(scale.columns);
  drawGrid(row, view, scale, glyphs);
  if (lane.heat !== null) drawHeat(drawing, row, lane.heat);
  const order = [...lane.bars].sort((a, b) => Number(a.step !== null) - Number(b.step !== null) || a.from - b.from);
  for (const bar of order) drawBar(drawing, row, bar);
  drawFolds(row, scale, glyphs);
  if (drawing.now !== null) row.write(columnOf(scale, drawing.now), glyphs.now, 'warn');
  const here = cursor !== null && lane.bars.some((bar) => bar.step === cursor);
  const earlier = lane.bars.some((bar) => bar.step !== null && columnOf(scale, bar.from) < 0);
  const later = lane.bars.some((bar) => bar.step !== null && columnOf(scale, bar.to) > scale.columns);
  if (later) row.write(scale.columns - 1, glyphs.after, 'dim');
  return [
    here ? segment(glyphs.pointer, 'cursor') : segment(' '),
    segment(
      ' '.repeat(lane.indent) + pad(lane.mark + lane.label, gutter - lane.indent - 3, glyphs.ellipsis),
      lane.role,
    ),
    segment(earlier ? ` ${glyphs.before}` : '  ', 'dim'),
    ...row.line(),
  ];
}

/** First cell and the one after the last: a bar has one cell at least, and two that follow each other share none. */
function cells(scale: Scale, from: number, to: number): { start: number; end: number } {
  const start = columnOf(scale, from);
  return { start, end: Math.max(start + 1, columnOf(scale, to)) };
}

function drawBar({ scale, glyphs, cursor }: Drawing, row: CellRow, bar: Bar): void {
  const full = cells(scale, bar.from, bar.to);
  let start = Math.max(0, full.start);
  const end = Math.min(scale.columns, full.end);
  if (full.end <= 0 || start >= end) return;
  if (bar.texture === 'lit') {
    row.write(start, `${glyphs.lit} `.repeat(end - start).slice(0, end - start), 'dim', true);
    if (end - start > 6) row.write(start + 1, ` ${bar.label} `, 'dim', true);
    return;
  }
  const own: Role = bar.dish === null ? 'plain' : `dish ${bar.dish}`;
  if (bar.texture === 'wait') {
    row.write(start, glyphs.fill.wait.repeat(end - start), own, true);
    return;
  }
  // Two short things in one cell: the later one gives way by a cell if it can, else the cell says that there are several.
  if (!row.isFree(start)) {
    if (end - start > 1) start += 1;
    else {
      row.write(start, glyphs.several, 'strong');
      return;
    }
  }
  const chosen = bar.step !== null && bar.step === cursor;
  const texture = chosen ? 'cursor' : bar.texture;
  const solid = texture === 'heat' && bar.dish !== null;
  row.write(start, glyphs.fill[texture].repeat(end - start), chosen ? 'cursor' : own);
  const broken = foldWithin(scale, start, end);
  const label = labelFor(bar, (broken ?? end) - start, glyphs);
  row.write(start, label, chosen ? 'cursor' : solid ? `on dish ${bar.dish}` : own);
}

/** The first fold's column within the cells, where a label has to end; null where none is. */
function foldWithin(scale: Scale, start: number, end: number): number | null {
  const piece = scale.pieces.slice(0, -1).find((each) => {
    const fold = each.column + each.columns;
    return fold > start && fold < end;
  });
  return piece ? piece.column + piece.columns : null;
}

function labelFor(bar: Bar, columns: number, glyphs: Glyphs): string {
  const room = Math.max(1, columns - bar.bare);
  if (widthOf(bar.label) <= room) return bar.label;
  return room >= widthOf(bar.short) + 4 || bar.label === bar.short
    ? cut(bar.label, room, room > 4 && widthOf(glyphs.ellipsis) === 1 ? glyphs.ellipsis : '')
    : cut(bar.short, room, '');
}

/** The temperature as steps: a ramp for each changeover, a level for each run, with its temperature and mode on it. */
function drawHeat(drawing: Drawing, row: CellRow, appliance: number): void {
  const { view, scale, glyphs } = drawing;
  const runs = view.runs.filter((run) => run.appliance === appliance).sort((a, b) => a.from - b.from);
  const { room } = view.problem.kitchen;
  const hottest = Math.max(room + 1, ...runs.map((run) => run.row.celsius));
  const level = (celsius: number) => {
    const share = Math.min(1, Math.max(0, (celsius - room) / (hottest - room)));
    return glyphs.levels[Math.round(share * (glyphs.levels.length - 1))]!;
  };
  let before = room;
  for (const run of runs) {
    if (run.ready < run.from) drawRamp(drawing, row, run, before, level);
    const { start, end } = cells(scale, run.from, run.to);
    const from = Math.max(0, start);
    const to = Math.min(scale.columns, end);
    if (to > from) {
      row.write(from, level(run.row.celsius).repeat(to - from), 'heat');
      row.write(from, heatLabel(drawing, run, to - from), 'heat');
    }
    before = run.row.celsius;
  }
}

function drawRamp(
  { scale, glyphs }: Drawing,
  row: CellRow,
  run: ViewRun,
  before: number,
  level: (celsius: number) => string,
): void {
  const start = columnOf(scale, run.ready);
  const end = columnOf(scale, run.from);
  for (let column = Math.max(0, start); column < Math.min(end, scale.columns); column += 1) {
    const share = (column - start + 0.5) / (end - start);
    const slope = run.row.celsius >= before ? glyphs.rises : glyphs.falls;
    row.write(column, slope ?? level(before + share * (run.row.celsius - before)), 'dim');
  }
}

function heatLabel({ view, glyphs }: Drawing, run: ViewRun, columns: number): string {
  const degree = view.problem.kitchen.appliances[run.appliance]!.dial.unit;
  const heat = inGlyphs(shortHeat(view.problem, run.row.celsius, degree).replace(' ', ''), glyphs);
  const whole = `${heat} ${run.row.mode}`;
  if (widthOf(whole) <= columns) return whole;
  if (widthOf(heat) <= columns) return heat;
  const bare = heat.replace(/°?[CF]$/, '');
  return widthOf(bare) <= columns ? bare : '';
}
