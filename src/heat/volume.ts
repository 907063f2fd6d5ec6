/**
 * Heat conduction in a piece by finite volumes, one time step after another. What is kept is the heat stored in a cubic metre, J/m³, so
 * that properties may change with temperature and the balance still closes. °C, seconds, metres, J, W, kg.
 *
 * The steps are implicit and of second order: the Rosenbrock method of two stages ROS2 with γ = 1 − 1/√2, whose order does not hang on
 * an exact Jacobian. So its matrix is split into one tridiagonal factor for each direction (approximate factorisation), which is stable
 * for any step. Radiation, evaporation and properties enter each stage as they are
 * and the factors by their slope at the step's beginning.
 * Source: Verwer, Spee, Blom and Hundsdorfer, SIAM J. Sci. Comput. 20 (1999) 1456; Hundsdorfer and Verwer, Numerical Solution of Time-Dependent
 * Advection-Diffusion-Reaction Equations (2003), IV.5 (both from memory).
 */
import type { Exchange } from './exchange.js';
import type { Field } from './field.js';
import type { Grid, Side } from './grid.js';
import { Juice } from './juice.js';
import { Lines } from './lines.js';
import { type Matter, stateAt } from './properties.js';
import { Surface } from './surface.js';
import { apartBy, goOn, goOnByBoth, lookUp, lookUpSlopes, takeOffTwice } from './sweeps.js';

const GAMMA = 1 - Math.SQRT1_2;
/** So many times as far may one node be off; small corners count for little in the mean, and yet must not run away. */
const ONE_NODE = 20;

/** Temperatures and what follows from them, at the beginning of a step or on the way. */
class State {
  readonly heat: Float64Array;
  readonly celsius: Float64Array;
  /** Conductivity's integral over temperature, W/m. */
  readonly potential: Float64Array;
  /** W/m³ that each cell gains. */
  readonly gain: Float64Array;

  constructor(count: number) {
    this.heat = new Float64Array(count);
    this.celsius = new Float64Array(count);
    this.potential = new Float64Array(count);
    this.gain = new Float64Array(count);
  }
}

/** A direction in which heat flows, and the surfaces at its ends; null where nothing crosses there. */
interface Direction {
  readonly lines: Lines;
  readonly low: Surface | null;
  readonly high: Surface | null;
}

/** A piece in the middle of its history. `attempt` a step, and `accept` it or attempt a shorter one. */
export class Volume {
  readonly grid: Grid;
  readonly surfaces: readonly Surface[];
  /** m³ of each node, in the whole piece. */
  readonly volumes: Float64Array;
  /** J that have come in through the surface since the beginning. */
  heatIn = 0;

  private matter: Matter;
  private readonly directions: readonly Direction[];
  private readonly now: State;
  private readonly way: State;
  /** Rates of the two stages, W/m³. */
  private readonly first: Float64Array;
  private readonly second: Float64Array;
  private readonly saved: Float64Array;
  /** At the beginning of a step: m³K/J and m²/s, by which temperature and potential grow with the heat. */
  private readonly warming: Float64Array;
  private readonly diffusivity: Float64Array;
  private savedHeatIn = 0;
  private readonly juice: Juice;
  private readonly total: number;
  private step = 0;
  private stepHeat = 0;

  constructor(field: Field, exchangeOf: (side: Side) => Exchange) {
    const { grid, matter } = field;
    const { count } = grid;
    this.grid = grid;
    this.matter = matter;
    this.volumes = volumesOf(grid);
    this.total = this.volumes.reduce((sum, volume) => sum + volume, 0);
    const lines = grid.axes.map((_, axis) => new Lines(grid, axis));
    this.surfaces = grid.ends.map(
      (end) => new Surface(grid, end, lines[end.axis]!.starts, this.volumes, exchangeOf(end.side)),
    );
    this.juice = new Juice(this.volumes, this.surfaces);
    const at = (axis: number, end: 'low' | 'high'): Surface | null =>
      this.surfaces[grid.ends.findIndex((each) => each.axis === axis && each.end === end)] ?? null;
    // Nothing flows along an axis of one cell.
    this.directions = lines
      .map((each, axis) => ({ lines: each, low: at(axis, 'low'), high: at(axis, 'high') }))
      .filter((each) => each.lines.length > 1);
    [this.now, this.way] = [new State(count), new State(count)];
    [this.first, this.second, this.saved] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
    [this.warming, this.diffusivity] = [new Float64Array(count), new Float64Array(count)];
    this.take(field);
  }

  /** Begins anew with a field on the same grid, among what was round it before. */
  private take(field: Field): void {
    this.matter = field.matter;
    this.heatIn = 0;
    this.now.heat.set(field.heat);
    for (let s = 0; s < this.surfaces.length; s++) this.surfaces[s]!.takeLacks(field.lacks[s]!);
    this.evaluate(this.now);
    this.juice.begin(this.now.celsius, field.pressed);
  }

  /** Begins anew with a field on the same grid, among other things. */
  begin(field: Field, exchangeOf: (side: Side) => Exchange): void {
    for (const surface of this.surfaces) surface.surround(exchangeOf(surface.side));
    this.take(field);
  }

  /** From now on the piece is among other things. */
  surround(exchangeOf: (side: Side) => Exchange): void {
    for (const surface of this.surfaces) surface.surround(exchangeOf(surface.side));
    this.evaluate(this.now);
  }

  /** kg of water that have left since the beginning. */
  get waterLost(): number {
    return this.surfaces.reduce((sum, { waterLost }) => sum + waterLost, 0);
  }

  /** °C of each node. */
  get celsius(): Float64Array {
    return this.now.celsius;
  }

  /** J/m³ of each node. */
  get heat(): Float64Array {
    return this.now.heat;
  }

  get core(): number {
    return this.now.celsius[this.grid.core]!;
  }

  /** K/s. */
  get coreRate(): number {
    return this.now.gain[this.grid.core]! / this.capacity;
  }

  /** Seconds that heat takes through the piece: half thickness² over the core's diffusivity. */
  get span(): number {
    const { conductivity, capacity } = stateAt(this.matter, this.now.heat[this.grid.core]!);
    return ((this.grid.body.thickness / 2) ** 2 * capacity) / conductivity;
  }

  field(): Field {
    const lacks = this.surfaces.map((surface) => {
      const each = new Float64Array(this.grid.count);
      surface.giveLacks(each);
      return each;
    });
    return { grid: this.grid, matter: this.matter, heat: this.now.heat.slice(), lacks, pressed: this.juice.out };
  }

  /**
   * Reckons a step of so many seconds; returns how far the step's two orders differ, in K, root mean square over the volume, or at
   * the node where they differ most over ONE_NODE if that is more.
   */
  attempt(seconds: number): number {
    const { way, first, second, capacity } = this;
    const part = GAMMA * seconds;
    this.step = seconds;
    this.moisten(seconds, null);
    let heatOne = this.firstStage(seconds, part);
    if (this.steepen()) heatOne = this.firstStage(seconds, part);
    takeOffTwice(way.gain, first);
    const heatTwo = this.stage(true, part, second) - 2 * heatOne;
    this.stepHeat = (seconds * (3 * heatOne + heatTwo)) / 2;
    return (seconds / (2 * capacity)) * apartBy(first, second, this.volumes, this.total, ONE_NODE);
  }

  /** The first stage, and where it leads. */
  private firstStage(seconds: number, part: number): number {
    const { now, way, first } = this;
    for (const surface of this.surfaces) surface.prepare(part);
    for (const { lines, low, high } of this.directions) lines.factor(part, this.diffusivity, this.warming, low, high);
    const watts = this.stage(false, part, first);
    goOn(now.heat, first, seconds, way.heat);
    for (const surface of this.surfaces) surface.lookAhead(seconds);
    this.evaluate(way);
    this.moisten(seconds, way.celsius);
    return watts;
  }

  private steepen(): boolean {
    let found = false;
    for (const surface of this.surfaces) found = surface.steepen(this.now.celsius, this.way.celsius) || found;
    return found;
  }

  /** Takes the attempted step. */
  accept(): void {
    const { now, first, second, step } = this;
    this.saved.set(now.heat);
    this.savedHeatIn = this.heatIn;
    goOnByBoth(now.heat, first, second, step);
    for (const surface of this.surfaces) surface.accept(step);
    this.heatIn += this.stepHeat;
    this.evaluate(now);
    if (this.juicy) this.juice.accept(this.matter, now.celsius, step);
  }

  /** Takes back the last accepted step. */
  takeBack(): void {
    this.now.heat.set(this.saved);
    this.heatIn = this.savedHeatIn;
    this.juice.takeBack();
    for (const surface of this.surfaces) surface.takeBack();
    this.evaluate(this.now);
  }

  /** J/m³K at the core now. */
  private get capacity(): number {
    return stateAt(this.matter, this.now.heat[this.grid.core]!).capacity;
  }

  /** From the stored heat: temperatures, properties, and what every cell gains. */
  private evaluate(state: State): void {
    const { heat, celsius, potential, gain } = state;
    lookUp(this.matter, heat, celsius, potential);
    if (state === this.now) lookUpSlopes(this.matter, heat, this.warming, this.diffusivity);
    gain.fill(0);
    for (const { lines } of this.directions) lines.conduct(potential, gain);
    for (const surface of this.surfaces) surface.meet(state === this.way, celsius, gain);
  }

  /** Brings juice to the surface, the same everywhere; `celsius`: where the step leads, null where that is not known yet. */
  private moisten(seconds: number, celsius: Float64Array | null): void {
    const { matter, juice, surfaces } = this;
    const seeps = !this.juicy
      ? 0
      : celsius === null
        ? juice.expected(matter, seconds)
        : juice.ahead(matter, celsius, seconds);
    for (const surface of surfaces) surface.moisten(celsius !== null, seeps);
  }

  private get juicy(): boolean {
    return this.matter.juice > 0 && this.surfaces.length > 0;
  }

  /** One stage: from the right-hand side in the state's gain to the cells' rates, W/m³. Returns the heat that comes in by it, W. */
  private stage(onTheWay: boolean, part: number, rates: Float64Array): number {
    rates.set((onTheWay ? this.way : this.now).gain);
    let watts = 0;
    for (const surface of this.surfaces) watts += surface.begin(onTheWay, part, rates);
    for (const { lines, low, high } of this.directions) {
      lines.solve(rates);
      // What each factor lets out through its own ends, so that the balance closes whatever the split.
      if (low !== null) watts -= low.end(onTheWay, part, this.warming, rates);
      if (high !== null) watts -= high.end(onTheWay, part, this.warming, rates);
    }
    return watts;
  }
}

const kept = new WeakMap<Grid, Volume>();

/** One for a field. It is kept by its grid, and so is good until the next on the same one. */
export function volumeOf(field: Field, exchangeOf: (side: Side) => Exchange): Volume {
  const before = kept.get(field.grid);
  if (before !== undefined) {
    before.begin(field, exchangeOf);
    return before;
  }
  const volume = new Volume(field, exchangeOf);
  kept.set(field.grid, volume);
  return volume;
}

function volumesOf(grid: Grid): Float64Array {
  return new Float64Array(grid.count).map((_, i) =>
    grid.axes.reduce(
      (volume, { sizes }, a) => volume * sizes[Math.floor(i / grid.strides[a]!) % sizes.length]!,
      grid.copies,
    ),
  );
}
