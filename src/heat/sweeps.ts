/**
 * Loops over all nodes of a volume. Each is a function of its own: a process that has just begun compiles it once, and not again for each
 * place that it is called from.
 */
import { type Matter, ROW } from './properties.js';

/** From the heat stored, J/m³: °C, and the conductivity's integral over that, W/m. */
export function lookUp(matter: Matter, heat: Float64Array, celsius: Float64Array, potential: Float64Array): void {
  const { table, lowest, rowsPerHeat, rows } = matter;
  for (let i = 0; i < heat.length; i++) {
    const place = (heat[i]! - lowest) * rowsPerHeat;
    const row = place < 0 ? 0 : place >= rows ? rows - 1 : Math.floor(place);
    const part = place - row;
    const at = row * ROW;
    celsius[i] = table[at]! + part * table[at + 1]!;
    potential[i] = table[at + 2]! + part * table[at + 3]!;
  }
}

/** By how much the temperature, m³K/J, and the potential, m²/s, grow with the heat stored. */
export function lookUpSlopes(
  matter: Matter,
  heat: Float64Array,
  warming: Float64Array,
  diffusivity: Float64Array,
): void {
  const { table, lowest, rowsPerHeat, rows } = matter;
  for (let i = 0; i < heat.length; i++) {
    const place = (heat[i]! - lowest) * rowsPerHeat;
    const row = place < 0 ? 0 : place >= rows ? rows - 1 : Math.floor(place);
    const at = row * ROW;
    warming[i] = table[at + 1]! * rowsPerHeat;
    diffusivity[i] = table[at + 3]! * rowsPerHeat;
  }
}

/** What it comes to after so many seconds at these rates. */
export function goOn(from: Float64Array, rates: Float64Array, seconds: number, to: Float64Array): void {
  for (let i = 0; i < from.length; i++) to[i] = from[i]! + seconds * rates[i]!;
}

/** Goes on in place by the two stages of a step. */
export function goOnByBoth(values: Float64Array, first: Float64Array, second: Float64Array, seconds: number): void {
  const half = seconds / 2;
  for (let i = 0; i < values.length; i++) values[i] = values[i]! + half * (3 * first[i]! + second[i]!);
}

export function takeOffTwice(values: Float64Array, what: Float64Array): void {
  for (let i = 0; i < values.length; i++) values[i] = values[i]! - 2 * what[i]!;
}

/** Root mean square of the sum of two over the volume, or at one node over `oneNode` if that is more. */
export function apartBy(
  first: Float64Array,
  second: Float64Array,
  volumes: Float64Array,
  total: number,
  oneNode: number,
): number {
  let sum = 0;
  let most = 0;
  for (let i = 0; i < first.length; i++) {
    const both = first[i]! + second[i]!;
    const square = both * both;
    sum += volumes[i]! * square;
    if (square > most) most = square;
  }
  return Math.sqrt(Math.max(sum / total, most / (oneNode * oneNode)));
}
