/**
 * Conduction along one direction of a grid: the lines of nodes that run that way, what flows along them, and the tridiagonal factor of
 * an implicit step. Loops go across the lines where they can, so that no node waits for its neighbour's division.
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
  /** The factor, by node. */
  private readonly pivot: Float64Array;
  private readonly lower: Float64Array;
  private readonly upper: Float64Array;

  constructor(grid: Grid, axis: number) {
    const { sizes, links } = grid.axes[axis]!;
    this.length = sizes.length;
    this.stride = grid.strides[axis]!;
    this.starts = startsOf(grid, axis);
    this.links = links;
    this.perSize = sizes.map((size) => 1 / size);
    this.pivot = new Float64Array(grid.count);
    this.lower = new Float64Array(grid.count);
    this.upper = new Float64Array(grid.count);
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
   * Factors 1 − seconds × (conduction along the lines and exchange at their ends), for stored heat. By node, `diffusivity`: by how much
   * the potential grows with the heat, m²/s; `warming`: by how much the temperature does, m³K/J.
   */
  factor(seconds: number, diffusivity: Float64Array, warming: Float64Array, low: Rim | null, high: Rim | null): void {
    const { length, stride, links, perSize, pivot, lower, upper } = this;
    const last = length - 1;
    const block = length * stride;
    for (let base = 0, line = 0; base < pivot.length; base += block, line += stride) {
      for (let n = 0, i = base; n < length; n++) {
        const share = seconds * perSize[n]!;
        const before = n > 0 ? share * links[n - 1]! : 0;
        const after = n < last ? share * links[n]! : 0;
        const back = n > 0 ? stride : 0;
        const ahead = n < last ? stride : 0;
        const rim = n === 0 ? low : n === last ? high : null;
        const rimShare = rim === null ? 0 : seconds * rim.perVolume;
        for (let s = 0; s < stride; s++, i++) {
          const fromBefore = before * diffusivity[i - back]!;
          let diagonal = 1 + (before + after) * diffusivity[i]! - fromBefore * upper[i - back]!;
          if (rim !== null) diagonal += rimShare * rim.slope[line + s]! * warming[i]!;
          const inverse = 1 / diagonal;
          pivot[i] = inverse;
          lower[i] = fromBefore * inverse;
          upper[i] = after * diffusivity[i + ahead]! * inverse;
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
