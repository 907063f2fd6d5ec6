/**
 * Heat conduction in a piece by finite volumes, one time step after another. What is kept is the heat stored in a cubic metre, J/m³, so
 * that properties may change with temperature and the balance still closes. °C, seconds, metres, J, W, kg.
 *
 * The steps are implicit and of second order: the Rosenbrock method of two stages ROS2 with γ = 1 − 1/√2, whose order does not hang on
 * an exact Jacobian, so its matrix is split into one tridiagonal factor for each direction (approximate factorisation). It is stable
 * for any step. Radiation, evaporation and properties enter each stage as they are and the factors by their slope at the step's beginning.
 * Source: Verwer, Spee, Blom and Hundsdorfer, SIAM J. Sci. Comput. 20 (1999) 1456; Hundsdorfer and Verwer, Numerical Solution of Time-Dependent
 * Advection-Diffusion-Reaction Equations (2003), IV.5 (both from memory).
 */
import type { Exchange } from './exchange.js';
import type { Field } from './field.js';
import type { Grid, Side } from './grid.js';
import { type Matter, ROW } from './properties.js';

const GAMMA = 1 - Math.SQRT1_2;

/** One end of an axis: its nodes, in the order of the axis's lines, and what it meets. */
export interface Face {
  readonly side: Side;
  readonly axis: number;
  readonly end: 'low' | 'high';
  readonly nodes: Int32Array;
  /** m² of each node, in the whole piece. */
  readonly areas: Float64Array;
  /** Area over volume of the cells, 1/m. */
  readonly perVolume: number;
}

/** Lines of nodes along an axis, and what flows along them. */
interface Lines {
  readonly length: number;
  readonly stride: number;
  readonly starts: Int32Array;
  /** Half of area over distance. */
  readonly links: Float64Array;
  /** One over the size of each cell. */
  readonly perSize: Float64Array;
  /** Index of the face at each end; -1 where there is none. */
  readonly low: number;
  readonly high: number;
}

/** Temperatures and what follows from them, at the beginning of a step or on the way. */
class State {
  readonly heat: Float64Array;
  readonly celsius: Float64Array;
  readonly conductivity: Float64Array;
  readonly capacity: Float64Array;
  /** W/m³ that each cell gains. */
  readonly gain: Float64Array;
  /** Of each face: kg/m² lost by each node so far, and W/m² in, its slope, and kg/m²s of water out now. */
  readonly lost: readonly Float64Array[];
  readonly flux: readonly Float64Array[];
  readonly slope: readonly Float64Array[];
  readonly water: readonly Float64Array[];

  constructor(count: number, faces: readonly Face[]) {
    this.heat = new Float64Array(count);
    this.celsius = new Float64Array(count);
    this.conductivity = new Float64Array(count);
    this.capacity = new Float64Array(count);
    this.gain = new Float64Array(count);
    const each = (): Float64Array[] => faces.map(({ nodes }) => new Float64Array(nodes.length));
    this.lost = each();
    this.flux = each();
    this.slope = each();
    this.water = each();
  }

  copyFrom(other: State): void {
    this.heat.set(other.heat);
    for (const [i, lost] of this.lost.entries()) lost.set(other.lost[i]!);
  }
}

/** A piece in the middle of its history. `attempt` a step, and `accept` it or attempt a shorter one. */
export class Volume {
  readonly grid: Grid;
  readonly faces: readonly Face[];
  /** m³ of each node, in the whole piece. */
  readonly volumes: Float64Array;
  /** J that have come in through the surface since the beginning, and kg of water that have left. */
  heatIn = 0;
  waterLost = 0;

  private readonly matter: Matter;
  private readonly lines: readonly Lines[];
  private readonly exchanges: Exchange[];
  private readonly now: State;
  private readonly way: State;
  private readonly saved: State;
  private savedHeatIn = 0;
  private savedWaterLost = 0;
  /** Rates of the two stages, W/m³, then the step's change in J/m³; and K/s of the stage at work. */
  private readonly first: Float64Array;
  private readonly second: Float64Array;
  private readonly warming: Float64Array;
  private readonly scratch: Float64Array;
  private readonly totalVolume: number;
  private step = 0;
  private stepHeat = 0;

  constructor(
    field: Field,
    exchangeOf: (side: Side) => Exchange,
  ) {
    const { grid, matter } = field;
    this.grid = grid;
    this.matter = matter;
    this.volumes = volumesOf(grid);
    this.faces = facesOf(grid, this.volumes);
    // Nothing flows along an axis of one cell; the first stays so that there is always a factor to solve.
    this.lines = grid.axes
      .map((_, axis) => linesOf(grid, axis, this.faces))
      .filter(({ length }, axis) => axis === 0 || length > 1);
    this.exchanges = this.faces.map(({ side }) => exchangeOf(side));
    this.now = new State(grid.count, this.faces);
    this.way = new State(grid.count, this.faces);
    this.saved = new State(grid.count, this.faces);
    this.first = new Float64Array(grid.count);
    this.second = new Float64Array(grid.count);
    this.warming = new Float64Array(grid.count);
    this.scratch = new Float64Array(Math.max(...grid.axes.map((axis) => axis.nodes.length)));
    this.totalVolume = this.volumes.reduce((sum, volume) => sum + volume, 0);
    this.now.heat.set(field.heat);
    for (const [f, { nodes }] of this.faces.entries()) {
      for (const [l, i] of nodes.entries()) this.now.lost[f]![l] = field.lost[f]![i]!;
    }
    this.evaluate(this.now);
  }

  /** From now on the piece is among other things. */
  surround(exchangeOf: (side: Side) => Exchange): void {
    for (const [i, { side }] of this.faces.entries()) this.exchanges[i] = exchangeOf(side);
    this.evaluate(this.now);
  }

  get celsius(): Float64Array {
    return this.now.celsius;
  }

  get core(): number {
    return this.now.celsius[this.grid.core]!;
  }

  /** K/s. */
  get coreRate(): number {
    return this.now.gain[this.grid.core]! / this.now.capacity[this.grid.core]!;
  }

  /** Seconds that heat takes through the piece: half thickness² over the core's diffusivity. */
  get span(): number {
    const { core, body } = this.grid;
    return (body.thickness / 2) ** 2 * (this.now.capacity[core]! / this.now.conductivity[core]!);
  }

  get heat(): Float64Array {
    return this.now.heat;
  }

  field(): Field {
    const lost = this.faces.map(({ nodes }, f) => {
      const each = new Float64Array(this.grid.count);
      for (const [l, i] of nodes.entries()) each[i] = this.now.lost[f]![l]!;
      return each;
    });
    return { grid: this.grid, matter: this.matter, heat: this.now.heat.slice(), lost };
  }

  /** Reckons a step of so many seconds; returns how far the step's two orders differ, in K, root mean square over the volume. */
  attempt(seconds: number): number {
    const { now, way, first, second, warming, volumes } = this;
    const count = now.heat.length;
    this.step = seconds;
    const heatOne = this.solve(seconds, now, first);
    for (let i = 0; i < count; i++) way.heat[i] = now.heat[i]! + seconds * first[i]!;
    for (let f = 0; f < way.lost.length; f++) {
      const [ahead, before, water] = [way.lost[f]!, now.lost[f]!, now.water[f]!];
      for (let l = 0; l < ahead.length; l++) ahead[l] = Math.max(before[l]! + seconds * water[l]!, 0);
    }
    this.evaluate(way);
    for (let i = 0; i < count; i++) way.gain[i] = way.gain[i]! - 2 * first[i]!;
    const heatTwo = this.solve(seconds, way, second) - 2 * heatOne;
    this.stepHeat = (seconds * (3 * heatOne + heatTwo)) / 2;
    let error = 0;
    for (let i = 0; i < count; i++) {
      const [one, two] = [first[i]!, second[i]!];
      const off = (seconds * (one + two)) / (2 * now.capacity[i]!);
      error += volumes[i]! * off * off;
      warming[i] = (seconds * (3 * one + two)) / 2;
    }
    return Math.sqrt(error / this.totalVolume);
  }

  /** Takes the attempted step. */
  accept(): void {
    const { now, way, saved, warming } = this;
    saved.copyFrom(now);
    this.savedHeatIn = this.heatIn;
    this.savedWaterLost = this.waterLost;
    for (let i = 0; i < warming.length; i++) now.heat[i] = now.heat[i]! + warming[i]!;
    for (const [f, lost] of now.lost.entries()) {
      const [one, two, { areas }] = [now.water[f]!, way.water[f]!, this.faces[f]!];
      for (let l = 0; l < lost.length; l++) {
        const left = (this.step * (one[l]! + two[l]!)) / 2;
        this.waterLost += areas[l]! * left;
        lost[l] = Math.max(lost[l]! + left, 0);
      }
    }
    this.heatIn += this.stepHeat;
    this.evaluate(now);
  }

  /** Takes back the last accepted step. */
  takeBack(): void {
    this.now.copyFrom(this.saved);
    this.heatIn = this.savedHeatIn;
    this.waterLost = this.savedWaterLost;
    this.evaluate(this.now);
  }

  /** From the stored heat: temperatures, properties, and what every cell gains. */
  private evaluate(state: State): void {
    const { heat, celsius, conductivity, capacity, gain } = state;
    const { table, lowest, rowsPerHeat, rows } = this.matter;
    for (let i = 0; i < heat.length; i++) {
      const place = (heat[i]! - lowest) * rowsPerHeat;
      const row = place < 0 ? 0 : place >= rows ? rows - 1 : Math.floor(place);
      const part = place - row;
      const at = row * ROW;
      celsius[i] = table[at]! + part * table[at + 1]!;
      conductivity[i] = table[at + 2]! + part * table[at + 3]!;
      capacity[i] = table[at + 4]!;
      gain[i] = 0;
    }
    for (let a = 0; a < this.lines.length; a++) conduct(this.lines[a]!, celsius, conductivity, gain);
    for (let f = 0; f < this.faces.length; f++) this.exchange(state, f);
  }

  private exchange(state: State, f: number): void {
    const { nodes, perVolume } = this.faces[f]!;
    const exchange = this.exchanges[f]!;
    const { celsius, gain } = state;
    const [lost, flux, slope, water] = [state.lost[f]!, state.flux[f]!, state.slope[f]!, state.water[f]!];
    for (let l = 0; l < nodes.length; l++) {
      const i = nodes[l]!;
      exchange.at(celsius[i]!, lost[l]!);
      flux[l] = exchange.heat;
      slope[l] = exchange.slope;
      water[l] = exchange.water;
      gain[i] = gain[i]! + perVolume * exchange.heat;
    }
  }

  /**
   * One stage: from the right-hand side in `state.gain` to the cells' rates, W/m³, through one tridiagonal factor after the other, all
   * with the properties and slopes of the step's beginning. Returns the heat that comes in by it, W.
   */
  private solve(seconds: number, state: State, rates: Float64Array): number {
    const { now, warming, scratch } = this;
    const reach = GAMMA * seconds;
    rates.set(state.gain);
    let watts = 0;
    for (let f = 0; f < this.faces.length; f++) watts += dot(this.faces[f]!.areas, state.flux[f]!);
    for (let a = 0; a < this.lines.length; a++) {
      const lines = this.lines[a]!;
      const low = lines.low < 0 ? null : now.slope[lines.low]!;
      const high = lines.high < 0 ? null : now.slope[lines.high]!;
      const lowShare = lines.low < 0 ? 0 : reach * this.faces[lines.low]!.perVolume;
      const highShare = lines.high < 0 ? 0 : reach * this.faces[lines.high]!.perVolume;
      sweep(lines, reach, now.conductivity, now.capacity, low, lowShare, high, highShare, rates, warming, scratch);
      for (let i = 0; i < rates.length; i++) rates[i] = now.capacity[i]! * warming[i]!;
      // What each factor lets out through its own ends; so the balance closes whatever the split.
      if (lines.low >= 0) watts -= reach * this.drawn(lines.low);
      if (lines.high >= 0) watts -= reach * this.drawn(lines.high);
    }
    return watts;
  }

  /** W/s by which a face's heat falls while its nodes warm. */
  private drawn(f: number): number {
    const { nodes, areas } = this.faces[f]!;
    const slope = this.now.slope[f]!;
    let sum = 0;
    for (let l = 0; l < nodes.length; l++) sum += areas[l]! * slope[l]! * this.warming[nodes[l]!]!;
    return sum;
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** Adds to every cell what flows in along the lines, W/m³. */
function conduct(lines: Lines, celsius: Float64Array, conductivity: Float64Array, gain: Float64Array): void {
  const { length, stride, starts, links, perSize } = lines;
  for (let l = 0; l < starts.length; l++) {
    let i = starts[l]!;
    let t = celsius[i]!;
    let k = conductivity[i]!;
    let inflow = 0;
    for (let n = 0; n < length - 1; n++) {
      const next = i + stride;
      const tNext = celsius[next]!;
      const kNext = conductivity[next]!;
      const outflow = links[n]! * (k + kNext) * (t - tNext);
      gain[i] = gain[i]! + perSize[n]! * (inflow - outflow);
      inflow = outflow;
      i = next;
      t = tNext;
      k = kNext;
    }
    gain[i] = gain[i]! + perSize[length - 1]! * inflow;
  }
}

/** Solves (capacity − reach × conduction along the lines) warming = rates; `low` and `high` are the slopes of what is exchanged at the ends. */
function sweep(
  lines: Lines,
  reach: number,
  conductivity: Float64Array,
  capacity: Float64Array,
  low: Float64Array | null,
  lowShare: number,
  high: Float64Array | null,
  highShare: number,
  rates: Float64Array,
  warming: Float64Array,
  upper: Float64Array,
): void {
  const { length, stride, starts, links, perSize } = lines;
  const last = length - 1;
  for (let l = 0; l < starts.length; l++) {
    let i = starts[l]!;
    let k = conductivity[i]!;
    let link = 0;
    let above = 0;
    let value = 0;
    for (let n = 0; n < length; n++) {
      const share = reach * perSize[n]!;
      let linkNext = 0;
      if (n < last) {
        const kNext = conductivity[i + stride]!;
        linkNext = links[n]! * (k + kNext);
        k = kNext;
      }
      let diagonal = capacity[i]! + share * (link + linkNext);
      if (n === 0 && low !== null) diagonal += lowShare * low[l]!;
      if (n === last && high !== null) diagonal += highShare * high[l]!;
      const lower = share * link;
      const pivot = 1 / (diagonal - lower * above);
      above = share * linkNext * pivot;
      upper[n] = above;
      value = (rates[i]! + lower * value) * pivot;
      warming[i] = value;
      link = linkNext;
      i += stride;
    }
    i -= stride;
    for (let n = last - 1; n >= 0; n--) {
      i -= stride;
      value = warming[i]! + upper[n]! * value;
      warming[i] = value;
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

function linesOf(grid: Grid, axis: number, faces: readonly Face[]): Lines {
  const { sizes, links } = grid.axes[axis]!;
  const faceAt = (end: 'low' | 'high'): number => faces.findIndex((face) => face.axis === axis && face.end === end);
  return {
    length: sizes.length,
    stride: grid.strides[axis]!,
    starts: startsOf(grid, axis),
    links: links.map((link) => link / 2),
    perSize: sizes.map((size) => 1 / size),
    low: faceAt('low'),
    high: faceAt('high'),
  };
}

function volumesOf(grid: Grid): Float64Array {
  return new Float64Array(grid.count).map((_, i) =>
    grid.axes.reduce(
      (volume, { sizes }, a) => volume * sizes[Math.floor(i / grid.strides[a]!) % sizes.length]!,
      grid.copies,
    ),
  );
}

function facesOf(grid: Grid, volumes: Float64Array): Face[] {
  return grid.ends.map(({ axis, end, side }) => {
    const { sizes, low, high } = grid.axes[axis]!;
    const to = end === 'low' ? 0 : (sizes.length - 1) * grid.strides[axis]!;
    const nodes = startsOf(grid, axis).map((start) => start + to);
    const perVolume = end === 'low' ? low / sizes[0]! : high / sizes[sizes.length - 1]!;
    return { side, axis, end, nodes, perVolume, areas: Float64Array.from(nodes, (i) => volumes[i]! * perVolume) };
  });
}
