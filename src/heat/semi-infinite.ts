/**
 * Half-infinite solids: what a thick piece does near one face, for as long as the other side has not noticed (Fo below about 0.05).
 *
 * One temperature to begin with, constant properties. SI: seconds, metres below the face, °C, W/m2. Errors: RangeError where a
 * number is out of its range. Source: Carslaw and Jaeger, Conduction of Heat in Solids, 2.4, 2.7, 2.9; Incropera and DeWitt, 5.7.
 */
import { erfc, erfcxFall, ierfc, inverseErfc } from './error-function.js';

/** What conducts: conductivity in W/(m K), diffusivity in m2/s. */
export interface Conductor {
  readonly conductivity: number;
  readonly diffusivity: number;
}

/** How strongly a solid holds its temperature on being touched, W s^0.5 / (m2 K): sqrt(conductivity x density x specific heat). */
export const effusivityOf = ({ conductivity, diffusivity }: Conductor): number => conductivity / Math.sqrt(diffusivity);

/** Temperature under a face that is at `face` °C from the first moment on. */
export function underHeldFace(
  { diffusivity }: Conductor,
  start: number,
  face: number,
  depth: number,
  seconds: number,
): number {
  return start + (face - start) * erfc(similarity(diffusivity, depth, seconds));
}

/**
 * The depth, m, down to which the temperature has come at least the `share` (above 0, up to 1) of the way from start to the held face's.
 */
export function depthReached({ diffusivity }: Conductor, share: number, seconds: number): number {
  return 2 * Math.sqrt(diffusivity * checked('seconds', seconds)) * inverseErfc(share);
}

/** Temperature under a face into which a steady `flux` flows, W/m2 (negative: out of it). */
export function underFlux(solid: Conductor, start: number, flux: number, depth: number, seconds: number): number {
  if (checked('seconds', seconds) === 0) return start;
  const reach = 2 * Math.sqrt(solid.diffusivity * seconds);
  return start + ((flux * reach) / solid.conductivity) * ierfc(similarity(solid.diffusivity, depth, seconds));
}

/** Temperature under a face that meets a medium at `medium` °C through `coefficient`, W/(m2 K). */
export function underConvection(
  solid: Conductor,
  start: number,
  medium: number,
  coefficient: number,
  depth: number,
  seconds: number,
): number {
  if (checked('seconds', seconds) === 0 || checked('coefficient', coefficient) === 0) return start;
  if (coefficient === Infinity) return underHeldFace(solid, start, medium, depth, seconds);
  const eta = similarity(solid.diffusivity, depth, seconds);
  const z = (coefficient * Math.sqrt(solid.diffusivity * seconds)) / solid.conductivity;
  // erfc(eta) - exp(...) erfc(eta + z), without the overflow of that exp.
  return start + (medium - start) * Math.exp(-eta * eta) * z * erfcxFall(eta, z);
}

/** Heat that flows in through a held face at this moment, W/m2; it falls with the square root of time. */
export function fluxIntoHeldFace(solid: Conductor, start: number, face: number, seconds: number): number {
  return (effusivityOf(solid) * (face - start)) / Math.sqrt(Math.PI * checked('seconds', seconds));
}

/** The temperature, °C, that two solids take where they touch, at once and for as long as both are thick. */
export function touchTemperature(
  one: Conductor & { readonly temperature: number },
  other: Conductor & { readonly temperature: number },
): number {
  const [a, b] = [effusivityOf(one), effusivityOf(other)];
  return (a * one.temperature + b * other.temperature) / (a + b);
}

/** depth / (2 sqrt(diffusivity x seconds)); Infinity at the first moment, but 0 at the face. */
function similarity(diffusivity: number, depth: number, seconds: number): number {
  if (checked('depth', depth) === 0) return 0;
  return depth / (2 * Math.sqrt(diffusivity * checked('seconds', seconds)));
}

function checked(what: string, value: number): number {
  if (!(value >= 0)) throw new RangeError(`${what} must be 0 or more, not ${value}`);
  return value;
}
