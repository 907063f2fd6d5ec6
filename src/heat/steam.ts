/**
 * The vapour in the air of an oven in which something wet roasts: what the roast gives off, in the air that goes through the oven. A cool
 * oven is dry, for little heat reaches the roast; a hot one is humid. °C, Pa, kg/m²s.
 */
import { Exchange, type Surroundings } from './exchange.js';
import { SEA_LEVEL_PRESSURE, vapourFraction } from './vapour.js';

/** An oven's air and walls at any heat, without the vapour. */
export type Dry = (celsius: number) => Surroundings;

/** In the air of a kitchen, Pa: half of saturation at 20 °C. */
const KITCHEN = 1170;
/** How near the vapour is found, as a part of the air's pressure, and the surface's temperature, K. */
const NEAR = 1e-5;
const NEAR_KELVIN = 1e-3;

/**
 * Partial pressure of the vapour in an oven of `celsius`, Pa, through which goes as much air as through one of `usual` °C where it is
 * `vapour`. A wet roast settles where all the heat that reaches it evaporates water. Valid for ovens of 20 to 350 °C.
 */
export function steamIn(celsius: number, dry: Dry, usual: number, vapour: number): number {
  const air = givenOff(dry(usual), vapour) / (toAir(vapour) - toAir(KITCHEN));
  const around = dry(celsius);
  const share = middle(KITCHEN / SEA_LEVEL_PRESSURE, 1, NEAR, (part) => {
    const there = part * SEA_LEVEL_PRESSURE;
    return givenOff(around, there) < air * (toAir(there) - toAir(KITCHEN));
  });
  return share * SEA_LEVEL_PRESSURE;
}

/** What evaporates from a wet roast that has settled in air with so much vapour. */
function givenOff(dry: Surroundings, vapour: number): number {
  const exchange = new Exchange({ ...dry, moisture: { vapour, wetness: 1, dries: Number.POSITIVE_INFINITY } });
  const surface = middle(0, Math.max(dry.air, 100), NEAR_KELVIN, (at) => {
    exchange.at(at, 0);
    return exchange.heat < 0;
  });
  exchange.at(surface, 0);
  return exchange.water;
}

/** kg of vapour to a kg of dry air. */
function toAir(vapour: number): number {
  const share = vapourFraction(vapour, SEA_LEVEL_PRESSURE);
  return share / (1 - share);
}

/** Where between two numbers something begins to be so, by halving. */
function middle(low: number, high: number, near: number, isSo: (at: number) => boolean): number {
  let [no, yes] = [low, high];
  while (yes - no > near) {
    const at = (no + yes) / 2;
    if (isSo(at)) yes = at;
    else no = at;
  }
  return (no + yes) / 2;
}
