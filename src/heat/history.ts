/** What a piece went through: rows of time, temperatures and balances that grow as the solver goes. */
import { SIDES, type Side } from './grid.js';
import type { Volume } from './volume.js';

/** Equal rows; the first is the beginning, the last the end. °C, seconds, J, kg. */
export interface History {
  /** Since the beginning. */
  readonly seconds: Float64Array;
  /** In the geometric centre, where a probe goes. */
  readonly core: Float64Array;
  /** K/s there. */
  readonly coreRate: Float64Array;
  /** Of the coldest node, wherever it is: inside while the piece is heated, on the surface while it cools. */
  readonly coldest: Float64Array;
  /** Over the volume. */
  readonly mean: Float64Array;
  /** Over each side's area; only the sides that exchange heat. */
  readonly surface: Readonly<Partial<Record<Side, Float64Array>>>;
  /** J that have come in through the surface, what evaporation took away subtracted. */
  readonly heatIn: Float64Array;
  /** J above what was stored at the beginning. */
  readonly stored: Float64Array;
  /** kg of water that have left the surface, less what has condensed on it. */
  readonly waterLost: Float64Array;
}

const FIXED = ['seconds', 'core', 'coreRate', 'coldest', 'mean', 'heatIn', 'stored', 'waterLost'] as const;

/** Takes down one row after the other. */
export class Recorder {
  private rows = 0;
  private room = 128;
  private readonly columns: Float64Array[];
  private readonly sides: readonly Side[];
  private readonly storedAtFirst: number;

  constructor(private readonly volume: Volume) {
    this.sides = SIDES.filter((side) => volume.surfaces.some((surface) => surface.side === side));
    this.columns = Array.from({ length: FIXED.length + this.sides.length }, () => new Float64Array(this.room));
    this.storedAtFirst = this.totals().stored;
  }

  note(seconds: number): void {
    if (this.rows === this.room) this.grow();
    const { volume, columns, rows } = this;
    const { coldest, mean, stored } = this.totals();
    const values = [
      seconds,
      volume.core,
      volume.coreRate,
      coldest,
      mean,
      volume.heatIn,
      stored - this.storedAtFirst,
      volume.waterLost,
    ];
    for (let i = 0; i < values.length; i++) columns[i]![rows] = values[i]!;
    for (let i = 0; i < this.sides.length; i++) columns[FIXED.length + i]![rows] = this.meanOf(this.sides[i]!);
    this.rows++;
  }

  history(): History {
    const cut = this.columns.map((column) => column.slice(0, this.rows));
    const fixed = Object.fromEntries(FIXED.map((name, i) => [name, cut[i]!])) as Record<
      (typeof FIXED)[number],
      Float64Array
    >;
    return { ...fixed, surface: Object.fromEntries(this.sides.map((side, i) => [side, cut[FIXED.length + i]!])) };
  }

  private grow(): void {
    this.room *= 2;
    for (const [i, column] of this.columns.entries()) {
      const wider = new Float64Array(this.room);
      wider.set(column);
      this.columns[i] = wider;
    }
  }

  private totals(): { coldest: number; mean: number; stored: number } {
    const { celsius, heat, volumes } = this.volume;
    let [coldest, sum, stored, total] = [Number.POSITIVE_INFINITY, 0, 0, 0];
    for (let i = 0; i < celsius.length; i++) {
      const volume = volumes[i]!;
      if (celsius[i]! < coldest) coldest = celsius[i]!;
      sum += volume * celsius[i]!;
      stored += volume * heat[i]!;
      total += volume;
    }
    return { coldest, mean: sum / total, stored };
  }

  private meanOf(side: Side): number {
    let [sum, total] = [0, 0];
    const { surfaces, celsius } = this.volume;
    for (const { side: of, nodes, areas } of surfaces) {
      if (of !== side) continue;
      for (let l = 0; l < nodes.length; l++) {
        sum += areas[l]! * celsius[nodes[l]!]!;
        total += areas[l]!;
      }
    }
    return sum / total;
  }
}

/** Takes down nothing but the highest core. */
export class Highest {
  core = Number.NEGATIVE_INFINITY;
  seconds = 0;

  constructor(private readonly volume: Volume) {}

  note(seconds: number): void {
    const { core } = this.volume;
    if (core > this.core) [this.core, this.seconds] = [core, seconds];
  }
}

/** The rows' value at a time between them, by the row's neighbours in a straight line; the ends stand beyond them. */
export function valueAt(history: History, column: Float64Array, seconds: number): number {
  const { seconds: times } = history;
  let [low, high] = [0, times.length - 1];
  if (seconds <= times[low]!) return column[low]!;
  if (seconds >= times[high]!) return column[high]!;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (times[middle]! <= seconds) low = middle;
    else high = middle;
  }
  const part = (seconds - times[low]!) / (times[high]! - times[low]!);
  return column[low]! + part * (column[high]! - column[low]!);
}
