/**
 * The nodes at one end of an axis of a grid, and what they exchange with the surroundings in a step. A surface has a second thing to
 * step beside its heat, the water that it lacks: the drier, the less evaporates, the warmer it gets. Both go implicitly and
 * together. Juice that is pressed out of the piece comes to its surface and makes up for what has left. °C, W/m², kg/m², seconds.
 */
import type { Exchange } from './exchange.js';
import type { End, Grid, Side } from './grid.js';

/** A slope so many times as steep is taken anew. */
const STEEPER = 1.5;

/** At the beginning of a step, or on the way: node by node. */
class Skin {
  /** kg/m² that have left and not been made up for. */
  readonly lacks: Float64Array;
  /** kg/m²s that come from inside. */
  juice = 0;
  /** The fields of `Exchange`. */
  readonly heat: Float64Array;
  readonly slope: Float64Array;
  readonly water: Float64Array;
  readonly waterSlope: Float64Array;
  readonly heatDrying: Float64Array;
  readonly waterDrying: Float64Array;

  constructor(length: number) {
    this.lacks = new Float64Array(length);
    this.heat = new Float64Array(length);
    this.slope = new Float64Array(length);
    this.water = new Float64Array(length);
    this.waterSlope = new Float64Array(length);
    this.heatDrying = new Float64Array(length);
    this.waterDrying = new Float64Array(length);
  }
}

export class Surface {
  readonly side: Side;
  readonly nodes: Int32Array;
  /** m² of each node, in the whole piece. */
  readonly areas: Float64Array;
  /** Area over volume of the cells, 1/m. */
  readonly perVolume: number;
  /** W/m²K of each node that the step's factor takes. */
  readonly slope: Float64Array;
  /** kg of water that have left since the beginning. */
  waterLost = 0;

  private readonly now: Skin;
  private readonly way: Skin;
  /** kg/m²s of the two stages: by how much more is lacking, and what leaves. */
  private readonly first: Float64Array;
  private readonly second: Float64Array;
  private readonly leavesFirst: Float64Array;
  private readonly leavesSecond: Float64Array;
  private readonly saved: Float64Array;
  private savedWaterLost = 0;
  private exchange: Exchange;

  constructor(grid: Grid, { axis, end, side }: End, starts: Int32Array, volumes: Float64Array, exchange: Exchange) {
    const { sizes, low, high } = grid.axes[axis]!;
    const last = sizes.length - 1;
    this.side = side;
    this.nodes = starts.map((start) => start + (end === 'low' ? 0 : last * grid.strides[axis]!));
    this.perVolume = end === 'low' ? low / sizes[0]! : high / sizes[last]!;
    this.areas = Float64Array.from(this.nodes, (i) => volumes[i]! * this.perVolume);
    const { length } = starts;
    const fresh = (): Float64Array => new Float64Array(length);
    [this.slope, this.saved] = [fresh(), fresh()];
    [this.first, this.second, this.leavesFirst, this.leavesSecond] = [fresh(), fresh(), fresh(), fresh()];
    [this.now, this.way] = [new Skin(length), new Skin(length)];
    this.exchange = exchange;
  }

  surround(exchange: Exchange): void {
    this.exchange = exchange;
  }

  /** kg/m² that it lacks, spread on an array of the grid's nodes, from it and to it. */
  takeLacks(lacks: Float64Array): void {
    const { nodes, now } = this;
    this.waterLost = 0;
    for (let l = 0; l < nodes.length; l++) now.lacks[l] = lacks[nodes[l]!]!;
  }

  giveLacks(lacks: Float64Array): void {
    const { nodes, now } = this;
    for (let l = 0; l < nodes.length; l++) lacks[nodes[l]!] = now.lacks[l]!;
  }

  /** Adds to the cells' gain, W/m³, what comes in. */
  meet(onTheWay: boolean, celsius: Float64Array, gain: Float64Array): void {
    const { nodes, perVolume, exchange } = this;
    const skin = onTheWay ? this.way : this.now;
    for (let l = 0; l < nodes.length; l++) {
      const i = nodes[l]!;
      exchange.at(celsius[i]!, skin.lacks[l]!);
      skin.heat[l] = exchange.heat;
      skin.slope[l] = exchange.slope;
      skin.water[l] = exchange.water;
      skin.waterSlope[l] = exchange.waterSlope;
      skin.heatDrying[l] = exchange.heatDrying;
      skin.waterDrying[l] = exchange.waterDrying;
      gain[i] = gain[i]! + perVolume * exchange.heat;
    }
  }

  /**
   * Where a node's exchange turns out steeper, on the way to where the first stage leads, than at the step's beginning (evaporation
   * near the boiling point), takes the steeper slope for the step. Returns whether there was such a node.
   */
  steepen(before: Float64Array, after: Float64Array): boolean {
    const { nodes, now, way } = this;
    let found = false;
    for (let l = 0; l < nodes.length; l++) {
      const i = nodes[l]!;
      const warmer = after[i]! - before[i]!;
      const slope = (now.heat[l]! - way.heat[l]!) / warmer;
      if (Math.abs(warmer) > 1 && slope > STEEPER * now.slope[l]!) {
        now.slope[l] = slope;
        now.waterSlope[l] = Math.max((way.water[l]! - now.water[l]!) / warmer, now.waterSlope[l]!);
        found = true;
      }
    }
    return found;
  }

  /** Makes the slope ready for a step; `part` is γ times its seconds. Drying along with the warming takes some of it off. */
  prepare(part: number): void {
    const { slope, now } = this;
    for (let l = 0; l < slope.length; l++) {
      const drying = (part * now.heatDrying[l]! * now.waterSlope[l]!) / (1 + part * now.waterDrying[l]!);
      slope[l] = now.slope[l]! - drying;
    }
  }

  /** Begins a stage: adds to its right-hand side, W/m³, what the drying of the step brings in. Returns the heat that comes in so far, W. */
  begin(onTheWay: boolean, part: number, rates: Float64Array): number {
    const { nodes, areas, perVolume, now, first, leavesFirst } = this;
    const skin = onTheWay ? this.way : now;
    const dries = onTheWay ? this.second : first;
    const leaves = onTheWay ? this.leavesSecond : leavesFirst;
    const twice = onTheWay ? 2 : 0;
    let watts = 0;
    for (let l = 0; l < nodes.length; l++) {
      const i = nodes[l]!;
      const water = skin.water[l]!;
      const drying = now.waterDrying[l]!;
      const more = (water - skin.juice - twice * first[l]!) / (1 + part * drying);
      // Wet is as wet as it gets.
      dries[l] = onTheWay ? more : Math.max(more, -now.lacks[l]! / part);
      leaves[l] = water - twice * leavesFirst[l]! - part * drying * dries[l]!;
      const extra = part * now.heatDrying[l]! * dries[l]!;
      rates[i] = rates[i]! + perVolume * extra;
      watts += areas[l]! * (skin.heat[l]! + extra);
    }
    return watts;
  }

  /** Ends a stage, when the factor of this end's axis has been solved. Returns what the warming takes off the heat that comes in, W. */
  end(onTheWay: boolean, part: number, warming: Float64Array, rates: Float64Array): number {
    const { nodes, areas, slope, now } = this;
    const dries = onTheWay ? this.second : this.first;
    const leaves = onTheWay ? this.leavesSecond : this.leavesFirst;
    let watts = 0;
    for (let l = 0; l < nodes.length; l++) {
      const i = nodes[l]!;
      const warmer = part * rates[i]! * warming[i]!;
      const more = (now.waterSlope[l]! * warmer) / (1 + part * now.waterDrying[l]!);
      dries[l] = dries[l]! + more;
      leaves[l] = leaves[l]! + more;
      watts += areas[l]! * slope[l]! * warmer;
    }
    return watts;
  }

  /** What it lacks by the first stage alone, on which the second looks. */
  lookAhead(seconds: number): void {
    const { now, way, first } = this;
    for (let l = 0; l < first.length; l++) way.lacks[l] = Math.max(now.lacks[l]! + seconds * first[l]!, 0);
  }

  accept(seconds: number): void {
    const { now, first, second, leavesFirst, leavesSecond, areas, saved } = this;
    this.savedWaterLost = this.waterLost;
    const half = seconds / 2;
    for (let l = 0; l < first.length; l++) {
      saved[l] = now.lacks[l]!;
      this.waterLost += areas[l]! * half * (3 * leavesFirst[l]! + leavesSecond[l]!);
      // Water that condenses on a surface that lacks none makes it no wetter than wet.
      now.lacks[l] = Math.max(now.lacks[l]! + half * (3 * first[l]! + second[l]!), 0);
    }
  }

  /** Juice that comes from inside, kg/m²s. What a wet surface cannot hold drips off. */
  moisten(onTheWay: boolean, juice: number): void {
    (onTheWay ? this.way : this.now).juice = juice;
  }

  takeBack(): void {
    this.now.lacks.set(this.saved);
    this.waterLost = this.savedWaterLost;
  }
}
