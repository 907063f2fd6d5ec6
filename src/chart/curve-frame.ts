/** The frame of a drawing of temperatures over time: scales, the numbers at its left, the minutes below it. °C, minutes. */
import { showMinutes } from '../units/show.js';
import { type Degree, fahrenheitOfCelsius } from '../units/temperature.js';
import { Labels } from './axis.js';
import type { Glyphs } from './glyphs.js';
import { CellRow, type Line, segment } from './line.js';
import { widthOf } from './text.js';

/** Temperatures over time, in a straight line between its points; equal rows, at least one, minutes never fall. */
export interface Trace {
  readonly minutes: ArrayLike<number>;
  /** °C. */
  readonly celsius: ArrayLike<number>;
}

export interface FrameSize {
  readonly columns: number;
  /** Rows for the curves, at most. */
  readonly rows: number;
}

/** Columns of the numbers at the left. */
const LEFT = 5;
/** Degrees that a row may stand for; every other row has its number. */
const ROW_STEPS = [0.5, 1, 2, 2.5, 5, 10, 20, 25, 50, 100, 200];
/** Minutes that may lie between two ticks, and columns that must. */
const TICK_STEPS = [1, 2, 5, 10, 15, 20, 30, 60, 120, 180, 240, 360, 720, 1440, 2880];
const TICK_COLUMNS = 13;

export class Frame {
  readonly columns: number;
  readonly rows: number;
  /** Degrees, as shown, at the bottom, and how many a row stands for. */
  private readonly low: number;
  private readonly step: number;
  private readonly ticks: number[];

  /** Around all that the traces show, and the levels. `total`: minutes, more than 0. */
  constructor(
    traces: readonly Trace[],
    levels: readonly number[],
    readonly total: number,
    readonly degree: Degree,
    size: FrameSize,
  ) {
    this.columns = Math.max(10, size.columns - LEFT);
    const shown = [...traces.flatMap(({ celsius }) => Array.from(celsius)), ...levels].map((one) => this.shown(one));
    const [least, most] = [Math.min(...shown), Math.max(...shown)];
    const rowsWith = (step: number): number => Math.floor(most / step) - Math.floor(least / step) + 1;
    this.step = ROW_STEPS.find((step) => rowsWith(step) <= size.rows) ?? ROW_STEPS.at(-1)!;
    this.low = Math.floor(least / this.step) * this.step;
    this.rows = rowsWith(this.step);
    const wide = (TICK_COLUMNS / this.columns) * total;
    const apart = TICK_STEPS.find((step) => step >= wide) ?? TICK_STEPS.at(-1)!;
    this.ticks = Array.from({ length: Math.floor(total / apart) + 1 }, (_, k) => k * apart);
  }

  private shown(celsius: number): number {
    return this.degree === 'C' ? celsius : fahrenheitOfCelsius(celsius);
  }

  /** How many rows high a temperature is above the bottom. */
  heightOf(celsius: number): number {
    return (this.shown(celsius) - this.low) / this.step;
  }

  /** The row of a temperature, counted from the bottom. */
  rowOf(celsius: number): number {
    return Math.min(this.rows - 1, Math.max(0, Math.floor(this.heightOf(celsius) + 1e-9)));
  }

  /** The column of a minute. */
  columnOf(minute: number): number {
    return Math.min(this.columns - 1, Math.max(0, Math.floor((minute / this.total) * this.columns)));
  }

  /** The minutes of a column, from its left to its right. */
  minutesOf(column: number): { from: number; to: number } {
    return { from: (column / this.columns) * this.total, to: ((column + 1) / this.columns) * this.total };
  }

  /** Empty rows with the grid behind, from the bottom up. */
  emptyRows(glyphs: Glyphs): CellRow[] {
    return Array.from({ length: this.rows }, () => {
      const row = new CellRow(this.columns);
      for (const tick of this.ticks) row.write(this.columnOf(tick), glyphs.grid, 'grid', true);
      return row;
    });
  }

  /** The rows from the top down with their numbers; `level`, °C, has its own in the place of its row's. */
  numbered(rows: readonly CellRow[], level: number | null): Line[] {
    const apart = 2 * this.step;
    const own = level === null ? -1 : this.rowOf(level);
    return rows
      .map((row, at): Line => {
        const value = this.low + at * this.step;
        const even = Math.abs(value / apart - Math.round(value / apart)) < 1e-6;
        const number = at === own ? Math.round(this.shown(level!)) : even ? value : null;
        const told = number === null ? '' : String(number);
        return [segment(`${told.padStart(LEFT - 1)} `, at === own ? 'landing' : 'axis'), ...row.line()];
      })
      .reverse();
  }

  /** The rule and its minutes. */
  axis(glyphs: Glyphs): Line[] {
    const rule = new CellRow(this.columns);
    rule.write(0, glyphs.rule.repeat(this.columns), 'grid');
    for (const tick of this.ticks) rule.write(this.columnOf(tick), glyphs.tick, 'grid');
    const times = new CellRow(this.columns + LEFT);
    const labels = new Labels(times);
    for (const tick of this.ticks)
      labels.put(LEFT + this.columnOf(tick), tick === 0 ? '0' : showMinutes(tick), 'axis', true);
    return [this.under(rule), times.line()];
  }

  /** A row below or above the curves. */
  under(row: CellRow): Line {
    return [segment(' '.repeat(LEFT)), ...row.line()];
  }

  /** Words that end at their column, or begin there where there is no room, on as few rows as they need. */
  above(marks: readonly { readonly minute: number; readonly say: string }[]): Line[] {
    const rows: { row: CellRow; taken: { from: number; to: number }[] }[] = [];
    for (const { minute, say } of marks) {
      const width = widthOf(say);
      const to = Math.min(this.columns, Math.max(width, this.columnOf(minute) + 1));
      const from = to - width;
      let free = rows.find(({ taken }) => taken.every((other) => to + 1 < other.from || from > other.to + 1));
      if (free === undefined) {
        free = { row: new CellRow(this.columns), taken: [] };
        rows.push(free);
      }
      free.taken.push({ from, to });
      free.row.write(from, say, 'landing');
    }
    return rows.map(({ row }) => this.under(row));
  }
}

/** °C at a minute; the ends stand beyond them. */
export function valueAt({ minutes, celsius }: Trace, minute: number): number {
  const last = minutes.length - 1;
  let at = 0;
  while (at < last && minutes[at + 1]! < minute) at += 1;
  if (at === last || minute <= minutes[at]!) return celsius[at]!;
  const share = (minute - minutes[at]!) / (minutes[at + 1]! - minutes[at]!);
  return celsius[at]! + share * (celsius[at + 1]! - celsius[at]!);
}

/** The lowest and the highest °C within some minutes. */
export function spanWithin(trace: Trace, from: number, to: number): { low: number; high: number } {
  const inside = Array.from(trace.celsius).filter((_, at) => trace.minutes[at]! > from && trace.minutes[at]! < to);
  const all = [valueAt(trace, from), valueAt(trace, to), ...inside];
  return { low: Math.min(...all), high: Math.max(...all) };
}
