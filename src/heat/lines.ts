/**
 * Conduction along one direction of a grid: the lines of nodes that run that way, what flows along them, and the tridiagonal factor of
 * an implicit step. Loops go across the lines, so that no node waits for its neighbour's division.
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

  /** Half of area over distance, between each node and the next; and one over each cell's size. */
  private readonly links: Float64Array;
  private readonly perSize: Float64Array;
  /** The factor, by node. */
  private readonly pivot: Float64Array;
  private readonly lower: Float64Array;
  private readonly upper: Float64Array;

  constructor(grid: Grid, axis: number) {
    const { sizes, links } = grid.axes[axis]!;
    this.length = sizes.length;
    this.stride = grid.strides[axis]!;
    this.starts = startsOf(grid, axis);
    this.links = links.map((link) => link / 2);
    this.perSize = sizes.map((size) => 1 / size);
    this.pivot = new Float64Array(grid.count);
    this.lower = new Float64Array(grid.count);
    this.upper = new Float64Array(grid.count);
  }

  /** Adds to every cell's gain, W/m³, what flows in along the lines. */
  conduct(celsius: Float64Array, conductivity: Float64Array, gain: Float64Array): void {
    const { length, stride, links, perSize } = this;
    const last = length - 1;
    const block = length * stride;
    for (let base = 0; base < gain.length; base += block) {
      if (stride === 1) {
        // Neighbours lie side by side: what flows out of one is at hand for the next.
        let inflow = 0;
        for (let n = 0; n < last; n++) {
          const i = base + n;
          const outflow = links[n]! * (conductivity[i]! + conductivity[i + 1]!) * (celsius[i]! - celsius[i + 1]!);
          gain[i] = gain[i]! + perSize[n]! * (inflow - outflow);
          inflow = outflow;
        }
        gain[base + last] = gain[base + last]! + perSize[last]! * inflow;
        continue;
      }
      for (let n = 0; n < last; n++) {
        const link = links[n]!;
        const share = perSize[n]!;
        const shareNext = perSize[n + 1]!;
        const from = base + n * stride;
        for (let i = from; i < from + stride; i++) {
          const inflow = link * (conductivity[i]! + conductivity[i + stride]!) * (celsius[i + stride]! - celsius[i]!);
          gain[i] = gain[i]! + share * inflow;
          gain[i + stride] = gain[i + stride]! - shareNext * inflow;
        }
      }
    }
  }

  /**
   * Factors 1 − reach × (conduction along the lines and exchange at their ends); `reach` is seconds over heat capacity, m³K/W.
   */
  factor(reach: number, conductivity: Float64Array, low: Rim | null, high: Rim | null): void {
    const { length, stride, links, perSize, pivot, lower, upper } = this;
    const last = length - 1;
    const block = length * stride;
    for (let base = 0, line = 0; base < pivot.length; base += block, line += stride) {
      for (let n = 0; n < length; n++) {
        const share = reach * perSize[n]!;
        const before = n > 0 ? share * links[n - 1]! : 0;
        const after = n < last ? share * links[n]! : 0;
        const back = n > 0 ? stride : 0;
        const ahead = n < last ? stride : 0;
        const rim = n === 0 ? low : n === last ? high : null;
        const rimShare = rim === null ? 0 : reach * rim.perVolume;
        const from = base + n * stride;
        for (let s = 0; s < stride; s++) {
          const i = from + s;
          const k = conductivity[i]!;
          const toBefore = before * (k + conductivity[i - back]!);
          const toAfter = after * (k + conductivity[i + ahead]!);
          let diagonal = 1 + toBefore + toAfter;
          if (rim !== null) diagonal += rimShare * rim.slope[line + s]!;
          const inverse = 1 / (n > 0 ? diagonal - toBefore * upper[i - back]! : diagonal);
          pivot[i] = inverse;
          lower[i] = toBefore * inverse;
          upper[i] = toAfter * inverse;
        }
      }
    }
  }

  /** Solves the factor for a right-hand side, in its place. */
  solve(values: Float64Array): void {
    const { length, stride, pivot, lower, upper } = this;
    const block = length * stride;
    for (let base = 0; base < values.length; base += block) {
      for (let i = base; i < base + stride; i++) values[i] = values[i]! * pivot[i]!;
      for (let i = base + stride; i < base + block; i++) {
        values[i] = values[i]! * pivot[i]! + lower[i]! * values[i - stride]!;
      }
      for (let i = base + block - stride - 1; i >= base; i--) values[i] = values[i]! + upper[i]! * values[i + stride]!;
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
