/**
 * How minutes fall on columns. A scale has one or more pieces of one and the same minutes a column, with a fold between
 * two of them where long empty hours are left out. The minutes a column are a whole part of the distance of two ticks, so
 * that ticks stand at even distances and on the cells where their times begin.
 */
import { clockColumns } from '../problem/hours.js';
import type { Problem } from '../problem/problem.js';
import { wallMinute } from './clock.js';

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface Piece extends Stretch {
  /** First column, and how many. */
  readonly column: number;
  readonly columns: number;
}

export interface Tick {
  readonly minute: number;
  readonly column: number;
  /** Index of its piece. */
  readonly piece: number;
}

export interface Scale {
  readonly columns: number;
  readonly perColumn: number;
  /** Minutes between two ticks. */
  readonly tick: number;
  readonly pieces: readonly Piece[];
  /** Those that are shown, in order. */
  readonly ticks: readonly Tick[];
}

/** Columns that a fold takes. */
export const FOLD = 2;
/** Columns between the labels of two ticks, at least. */
const BETWEEN = 2;
/** More ticks than this make a wide chart restless. */
const MOST_TICKS = 16;
/** Columns after the last minute, for the second half of a label centred there. */
const TAIL = 3;
const TICKS = [1, 2, 5, 10, 15, 30, 60, 120, 180, 240, 360, 720, 1440, 2880, 10080, 43200];

const leastTick = (problem: Problem): number => clockColumns(problem) + BETWEEN;
const tickColumns = (problem: Problem, columns: number): number =>
  Math.max(leastTick(problem), Math.floor(columns / MOST_TICKS));

/** The smallest distance of ticks for which that many columns show so many minutes with labels that do not touch. */
function tickFor(problem: Problem, minutes: number, columns: number): number {
  const least = tickColumns(problem, columns);
  return TICKS.find((tick) => Math.floor((columns * tick) / minutes) >= least) ?? TICKS.at(-1)!;
}

/** One piece that fills the columns and shows at least the stretch. */
export function evenScale(problem: Problem, stretch: Stretch, columns: number): Scale {
  const minutes = Math.max(1, stretch.to - stretch.from);
  const room = Math.max(leastTick(problem), columns - TAIL);
  const tick = tickFor(problem, minutes, room);
  const perColumn = tick / Math.max(1, Math.floor((room * tick) / minutes));
  const from = snapped(problem, stretch.from, tick, perColumn);
  const pieces = [{ from, to: from + columns * perColumn, column: 0, columns }];
  return { columns, perColumn, tick, pieces, ticks: ticksOf(problem, pieces, tick, perColumn) };
}

/** The stretches one after the other with folds between, in at most so many columns; they rise and do not touch. */
export function foldedScale(problem: Problem, stretches: readonly Stretch[], columns: number): Scale {
  if (stretches.length < 2) return evenScale(problem, stretches[0] ?? { from: 0, to: 60 }, columns);
  const total = stretches.reduce((sum, stretch) => sum + stretch.to - stretch.from, 0);
  const room = columns - TAIL;
  for (const tick of TICKS) {
    for (let parts = Math.floor((room * tick) / total); parts >= tickColumns(problem, room); parts -= 1) {
      const laid = lay(problem, stretches, tick, tick / parts);
      if (laid.touching !== null) return foldedScale(problem, joined(stretches, laid.touching), columns);
      if (laid.end > room) continue;
      const last = laid.pieces.at(-1)!;
      const rest = columns - laid.end;
      const pieces = laid.pieces.with(-1, {
        ...last,
        columns: last.columns + rest,
        to: last.to + (rest * tick) / parts,
      });
      const ticks = ticksOf(problem, pieces, tick, tick / parts);
      return { columns, perColumn: tick / parts, tick, pieces, ticks };
    }
  }
  return evenScale(problem, { from: stretches[0]!.from, to: stretches.at(-1)!.to }, columns);
}

/** The start moved back onto the cells that begin at ticks; may be a part of a minute. */
function snapped(problem: Problem, from: number, tick: number, perColumn: number): number {
  const whole = Math.floor(from);
  const into = (((wallMinute(problem, whole) % tick) + tick) % tick) + (from - whole);
  return from - into + Math.floor(into / perColumn + 1e-9) * perColumn;
}

function lay(problem: Problem, stretches: readonly Stretch[], tick: number, perColumn: number) {
  const pieces: Piece[] = [];
  let column = 0;
  for (const [index, stretch] of stretches.entries()) {
    const from = snapped(problem, stretch.from, tick, perColumn);
    // Wide enough for the label of a time beside a fold.
    const columns = Math.max(leastTick(problem) + 1, Math.ceil((stretch.to - from) / perColumn - 1e-9));
    const to = from + columns * perColumn;
    const next = stretches[index + 1];
    if (next && to + FOLD * perColumn > next.from) return { pieces, end: column, touching: index };
    pieces.push({ from, to, column, columns });
    column += columns + (next ? FOLD : 0);
  }
  return { pieces, end: column, touching: null };
}

function joined(stretches: readonly Stretch[], index: number): Stretch[] {
  const both = { from: stretches[index]!.from, to: stretches[index + 1]!.to };
  return [...stretches.slice(0, index), both, ...stretches.slice(index + 2)];
}

/** The column of a minute; may lie outside of 0..columns. A minute within a fold falls on the fold's first column. */
export function columnOf(scale: Scale, minute: number): number {
  let before: Piece | null = null;
  for (const piece of scale.pieces) {
    if (minute < piece.from) break;
    before = piece;
  }
  const piece = before ?? scale.pieces[0]!;
  const column = piece.column + Math.round((minute - piece.from) / scale.perColumn);
  return piece === scale.pieces.at(-1) ? column : Math.min(column, piece.column + piece.columns);
}

/** The minute at which a column begins. */
export function minuteOf(scale: Scale, column: number): number {
  const piece = scale.pieces.findLast((candidate) => column >= candidate.column) ?? scale.pieces[0]!;
  return piece.from + (column - piece.column) * scale.perColumn;
}

/** The first columns of the folds. */
export const foldsOf = (scale: Scale): number[] =>
  scale.pieces.slice(0, -1).map((piece) => piece.column + piece.columns);

function ticksOf(problem: Problem, pieces: readonly Piece[], tick: number, perColumn: number): Tick[] {
  const into = (minute: number) => ((wallMinute(problem, minute) % tick) + tick) % tick;
  const ticks: Tick[] = [];
  for (const [piece, { from, to, column, columns }] of pieces.entries()) {
    // A change of the clocks within the piece moves what is a whole hour, so each tick is looked for by itself.
    let minute = Math.ceil(from - 1e-9);
    while (minute < to) {
      const over = into(minute);
      if (over !== 0) {
        minute += tick - over;
        continue;
      }
      const at = column + Math.round((minute - from) / perColumn);
      if (at < column + columns) ticks.push({ minute, column: at, piece });
      minute += tick;
    }
  }
  return ticks;
}
