/** The time axis: a row of days where there is more than one, a row of times, a rule with ticks and landings. */
import { clockAt } from '../problem/hours.js';
import { dayAt, sameDay, wallMinute } from './clock.js';
import type { Glyphs } from './glyphs.js';
import { CellRow, type Line } from './line.js';
import { columnOf, FOLD, foldsOf, minuteOf, type Scale } from './scale.js';
import { widthOf } from './text.js';
import type { View } from './view.js';

/** Columns between two labels, at least. */
const BETWEEN = 2;

/** Labels that keep their distance; the first to come has the place. */
export class Labels {
  private readonly taken: { from: number; to: number }[] = [];
  constructor(private readonly row: CellRow) {}

  /** Writes the label around or from a column where it stays clear of the others; says whether it did. */
  put(column: number, text: string, role: 'axis' | 'landing' | 'strong', centred: boolean): boolean {
    const width = widthOf(text);
    const wished = centred ? column - Math.floor(width / 2) : column;
    const from = Math.max(0, Math.min(wished, this.row.columns - width));
    const to = from + width;
    if (this.taken.some((other) => from < other.to + BETWEEN && other.from < to + BETWEEN)) return false;
    this.taken.push({ from, to });
    this.row.write(from, text, role);
    return true;
  }
}

const shows = (scale: Scale, column: number) => column >= 0 && column < scale.columns;

/** The rows above the lanes, each as wide as the scale. */
export function axisRows(view: View, scale: Scale, glyphs: Glyphs): Line[] {
  const days = dayRow(view, scale);
  return [...(days ? [days] : []), timeRow(view, scale), ruleRow(view, scale, glyphs)];
}

function timeRow(view: View, scale: Scale): Line {
  const row = new CellRow(scale.columns);
  const labels = new Labels(row);
  for (const landing of view.landings) {
    const column = columnOf(scale, landing.at);
    if (shows(scale, column)) labels.put(column, clockAt(view.problem, landing.at), 'landing', true);
  }
  const labelled = new Set<number>();
  // At the edges a label stands beside its tick instead of around it: the others come first.
  const cramped = (column: number) => Number(column < 2 || column > scale.columns - 3);
  for (const tick of scale.ticks.toSorted((a, b) => cramped(a.column) - cramped(b.column))) {
    if (labels.put(tick.column, clockAt(view.problem, tick.minute), 'axis', true)) labelled.add(tick.piece);
  }
  for (const [index, piece] of scale.pieces.entries()) {
    if (labelled.has(index)) continue;
    const near = Math.ceil(piece.from + scale.perColumn);
    const minute = near + ((5 - (wallMinute(view.problem, near) % 5)) % 5);
    labels.put(columnOf(scale, minute), clockAt(view.problem, minute), 'axis', true);
  }
  return row.line();
}

function dayRow(view: View, scale: Scale): Line | null {
  const { problem } = view;
  const end = minuteOf(scale, scale.columns - 1);
  const first = scale.pieces[0]!.from;
  if (sameDay(problem, Math.ceil(first), Math.floor(end))) return null;
  const row = new CellRow(scale.columns);
  const labels = new Labels(row);
  let day = '';
  for (let column = 0; column < scale.columns; column += 1) {
    const name = dayAt(problem, Math.floor(minuteOf(scale, column)));
    if (name !== day && labels.put(column, name, 'strong', false)) day = name;
  }
  return row.line();
}

function ruleRow(view: View, scale: Scale, glyphs: Glyphs): Line {
  const row = new CellRow(scale.columns);
  row.write(0, glyphs.rule.repeat(scale.columns), 'grid');
  for (const tick of scale.ticks) row.write(tick.column, glyphs.tick, 'grid');
  for (const landing of view.landings) row.write(columnOf(scale, landing.at), glyphs.landed, 'landing');
  for (const fold of foldsOf(scale)) row.write(fold, glyphs.fold.repeat(FOLD), 'grid');
  const hidden = outside(view, scale);
  if (hidden.before > 0) row.write(0, `${glyphs.before} ${hidden.before} earlier `, 'strong');
  if (hidden.after > 0) {
    const text = ` ${hidden.after} later ${glyphs.after}`;
    row.write(scale.columns - widthOf(text), text, 'strong');
  }
  return row.line();
}

/** How many steps lie wholly before and after what the scale shows. */
export function outside(view: View, scale: Scale): { before: number; after: number } {
  const from = scale.pieces[0]!.from;
  const to = scale.pieces.at(-1)!.to;
  return {
    before: view.steps.filter((step) => step.to <= from).length,
    after: view.steps.filter((step) => step.from >= to).length,
  };
}

/** What stands behind the bars of a lane: dots at ticks, a line at landings. */
export function drawGrid(row: CellRow, view: View, scale: Scale, glyphs: Glyphs): void {
  for (const tick of scale.ticks) row.write(tick.column, glyphs.grid, 'grid', true);
  for (const landing of view.landings) row.write(columnOf(scale, landing.at), glyphs.landing, 'landing', true);
}

export function drawFolds(row: CellRow, scale: Scale, glyphs: Glyphs): void {
  for (const fold of foldsOf(scale)) row.write(fold, glyphs.fold.repeat(FOLD), 'grid');
}
