/**
 * Conduction along one direction of a grid: the lines of nodes that run that way, what flows along them, and the tridiagonal factor of
 * an implicit step. All lines have the same factor but for what their ends exchange: it is one conductivity's, the far end comes last,
 * and the near one is put in by Sherman and Morrison's formula.
 */
import type { Grid } from './grid.js';

/** One end of an axis that meets the surroundings. */
export interface Rim {
  /** Area over volume of the cells there, 1/m. */
  readonly perVolume: number;
  /** W/m²K of each line's end node. */
  readonly slope: Float64Array;
}

export class Lines {
  /** Nodes of a line, and how far one is from the next. */
  readonly length: number;
  readonly stride: number;
  /** The first node of each line. */
  readonly starts: Int32Array;

  /** Area over distance, between each node and the next; and one over each cell's size. */
  private readonly links: Float64Array;
  private readonly perSize: Float64Array;
  /** The factor, by place along a line; of the last place what is there without an exchange. */
  private readonly pivot: Float64Array;
  private readonly lower: Float64Array;
  private readonly upper: Float64Array;
  private last = 1;
  /** What one unit at the first, and at the last place comes to, where nothing is exchanged. */
  private readonly fromLow: Float64Array;
  private readonly fromHigh: Float64Array;
  private low: Rim | null = null;
  private high: Rim | null = null;
  private reach = 0;

  constructor(grid: Grid, axis: number) {
    const { sizes, links } = grid.axes[axis]!;
    this.length = sizes.length;
    this.stride = grid.strides[axis]!;
    this.starts = startsOf(grid, axis);
    this.links = links;
    this.perSize = sizes.map((size) => 1 / size);
    [this.pivot, this.lower, this.upper] = [
      new Float64Array(this.length),
      new Float64Array(this.length),
      new Float64Array(this.length),
    ];
    [this.fromLow, this.fromHigh] = [new Float64Array(this.length), new Float64Array(this.length)];
  }

  /** Adds to every cell's gain, W/m³, what flows in along the lines; `potential`: conductivity's integral over temperature, W/m. */
  conduct(potential: Float64Array, gain: Float64Array): void {
    if (this.stride === 1) this.conductAlong(potential, gain);
    else this.conductAcross(potential, gain);
  }

  /** What flows out of one is at hand for the next. */
  private conductAlong(potential: Float64Array, gain: Float64Array): void {
    const { length, links, perSize } = this;
    const last = length - 1;
    for (let base = 0; base < gain.length; base += length) {
      let inflow = 0;
      let here = potential[base]!;
      for (let n = 0, i = base; n < last; n++, i++) {
        const next = potential[i + 1]!;
        const outflow = links[n]! * (here - next);
        gain[i] = gain[i]! + perSize[n]! * (inflow - outflow);
        inflow = outflow;
        here = next;
      }
      gain[base + last] = gain[base + last]! + perSize[last]! * inflow;
    }
  }

  private conductAcross(potential: Float64Array, gain: Float64Array): void {
    const { length, stride, links, perSize } = this;
    const last = length - 1;
    const block = length * stride;
    for (let base = 0; base < gain.length; base += block) {
      for (let n = 0, i = base; n < length; n++) {
        const before = n > 0 ? perSize[n]! * links[n - 1]! : 0;
        const after = n < last ? perSize[n]! * links[n]! : 0;
        const back = n > 0 ? stride : 0;
        const ahead = n < last ? stride : 0;
        for (const to = i + stride; i < to; i++) {
          const here = potential[i]!;
          gain[i] = gain[i]! + before * (potential[i - back]! - here) + after * (potential[i + ahead]! - here);
        }
      }
    }
  }

  /**
   * Factors 1 − reach × (conduction along the lines, all of one conductivity in W/mK, and exchange at their ends); `reach` is seconds
   * over heat capacity, m³K/W.
   */
  factor(reach: number, conductivity: number, low: Rim | null, high: Rim | null): void {
    const { length, links, perSize, pivot, lower, upper } = this;
    [this.reach, this.low, this.high] = [reach, low, high];
    const all = reach * conductivity;
    let above = 0;
    for (let n = 0; n < length; n++) {
      const before = n > 0 ? all * perSize[n]! * links[n - 1]! : 0;
      const after = n < length - 1 ? all * perSize[n]! * links[n]! : 0;
      const diagonal = 1 + before + after - before * above;
      pivot[n] = 1 / diagonal;
      lower[n] = before / diagonal;
      upper[n] = after / diagonal;
      above = after / diagonal;
      this.last = diagonal;
    }
    if (low === null) return;
    this.unit(this.fromLow, 0);
    this.unit(this.fromHigh, length - 1);
  }

  private unit(values: Float64Array, at: number): void {
    const { length, pivot, lower, upper } = this;
    values.fill(0);
    values[at] = pivot[at]!;
    for (let n = at + 1; n < length; n++) values[n] = lower[n]! * values[n - 1]!;
    for (let n = length - 2; n >= 0; n--) values[n] = values[n]! + upper[n]! * values[n + 1]!;
  }

  /** Solves the factor for a right-hand side, in its place. */
  solve(values: Float64Array): void {
    const perSlope = this.high === null ? 0 : this.reach * this.high.perVolume;
    if (this.stride === 1) this.solveAlong(values, perSlope);
    else this.solveAcross(values, perSlope);
    if (this.low !== null) this.exchangeLow(this.low, values, perSlope);
  }

  /** Line by line, where neighbours lie side by side. */
  private solveAlong(values: Float64Array, perSlope: number): void {
    const { length, pivot, lower, upper, last, high } = this;
    const end = length - 1;
    for (let base = 0, line = 0; base < values.length; base += length, line++) {
      let value = values[base]! * pivot[0]!;
      values[base] = value;
      for (let n = 1; n < end; n++) {
        value = values[base + n]! * pivot[n]! + lower[n]! * value;
        values[base + n] = value;
      }
      const exchanged = high === null ? 0 : perSlope * high.slope[line]!;
      value = (values[base + end]! + lower[end]! * last * value) / (last + exchanged);
      values[base + end] = value;
      for (let n = end - 1; n >= 0; n--) {
        value = values[base + n]! + upper[n]! * value;
        values[base + n] = value;
      }
    }
  }

  /** All lines of a block at once, place by place. */
  private solveAcross(values: Float64Array, perSlope: number): void {
    const { length, stride, pivot, lower, upper, last, high } = this;
    const end = length - 1;
    const block = length * stride;
    for (let base = 0, line = 0; base < values.length; base += block, line += stride) {
      for (let i = base; i < base + stride; i++) values[i] = values[i]! * pivot[0]!;
      for (let n = 1, i = base + stride; n < end; n++) {
        const own = pivot[n]!;
        const share = lower[n]!;
        for (const to = i + stride; i < to; i++) values[i] = values[i]! * own + share * values[i - stride]!;
      }
      const before = lower[end]! * last;
      for (let s = 0, i = base + end * stride; s < stride; s++, i++) {
        const exchanged = high === null ? 0 : perSlope * high.slope[line + s]!;
        values[i] = (values[i]! + before * values[i - stride]!) / (last + exchanged);
      }
      for (let n = end - 1, i = base + end * stride - 1; n >= 0; n--) {
        const share = upper[n]!;
        for (const to = i - stride; i > to; i--) values[i] = values[i]! + share * values[i + stride]!;
      }
    }
  }

  /** Puts in what the low ends exchange. */
  private exchangeLow(low: Rim, values: Float64Array, perSlope: number): void {
    const { length, stride, fromLow, fromHigh, high } = this;
    const end = length - 1;
    const block = length * stride;
    const perLow = this.reach * low.perVolume;
    for (let base = 0, line = 0; base < values.length; base += block, line += stride) {
      for (let s = 0; s < stride; s++) {
        const across = high === null ? 0 : perSlope * high.slope[line + s]!;
        const exchanged = perLow * low.slope[line + s]!;
        const back = (across * fromLow[end]!) / (1 + across * fromHigh[end]!);
        const share = (exchanged * values[base + s]!) / (1 + exchanged * (fromLow[0]! - back * fromHigh[0]!));
        for (let n = 0, i = base + s; n < length; n++, i += stride) {
          values[i] = values[i]! - share * (fromLow[n]! - back * fromHigh[n]!);
        }
      }
    }
  }
}

/** The first nodes of all lines along an axis, in the order of the nodes. */
function startsOf(grid: Grid, axis: number): Int32Array {
  const stride = grid.strides[axis]!;
  const length = grid.axes[axis]!.nodes.length;
  const starts = new Int32Array(grid.count / length);
  let l = 0;
  for (let i = 0; i < grid.count; i++) if (Math.floor(i / stride) % length === 0) starts[l++] = i;
  return starts;
}
