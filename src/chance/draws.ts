/**
 * How minutes are drawn. A spread is two halves of normal distributions that meet at `likely`, which is the median: as often longer as
 * shorter. `low` and `high` lie `deviations` standard deviations of their half away from it.
 */
import { erfc } from '../heat/error-function.js';
import { Rng } from '../kernel/rng.js';

/** Standard deviations to the ends of a spread that a cook writes: one evening in ten takes less than `low`, one in ten more than `high`. */
export const WRITTEN_DEVIATIONS = 1.2815515655446004;

export interface Spread {
  /** Minutes. */
  readonly low: number;
  readonly likely: number;
  readonly high: number;
  readonly deviations: number;
}

/** No step takes less. */
const LEAST = 1;

/** Minutes of a spread at so many standard deviations from the likely ones. */
export function minutesAt({ low, likely, high, deviations }: Spread, z: number): number {
  const side = z < 0 ? likely - low : high - likely;
  return Math.max(Math.min(likely, LEAST), likely + (z * side) / deviations);
}

/** What has lasted longer by so many standard deviations was forgotten, perhaps: its spread says no more than there. */
const FAR = 3;

/** The same of what has lasted so many minutes already and is not over: as much further among what it may take from there on. */
export function minutesBeyond(spread: Spread, been: number, z: number): number {
  const { low, likely, high, deviations } = spread;
  const far = likely + (FAR * (high - likely)) / deviations;
  if (been > far) return been - far + minutesBeyond(spread, far, z);
  const side = been < likely ? likely - low : high - likely;
  if (side <= 0) return Math.max(been, minutesAt(spread, z));
  const since = ((been - likely) * deviations) / side;
  return Math.max(been, minutesAt(spread, -normalQuantile(above(since) * above(z))));
}

/** How often a normal deviate is greater. */
const above = (z: number): number => erfc(z / Math.SQRT2) / 2;

/**
 * Standard normal deviates, stratified: one in each of `count` parts of equal chance, in an order of the seed and the key alone, so that
 * the same step of another plan has the same evenings (a column of a Latin hypercube; M. D. McKay et al., Technometrics 21(2), 1979).
 */
export function deviates(count: number, seed: number, key: number): Float64Array {
  const rng = new Rng(Math.imul(seed, 0x9e3779b1) ^ (key + 1));
  const out = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const at = rng.below(i + 1);
    const z = normalQuantile((i + rng.real()) / count);
    out[i] = out[at]!;
    out[at] = z;
  }
  return out;
}

/**
 * Rational approximations by P. J. Acklam (2003), right to a relative 1.2e-9, for many draws; `p` in (0, 1), else infinite. `inverseErfc`
 * of the heat model is exact, and takes many times as long.
 */
export function normalQuantile(p: number): number {
  if (p < 0.02425) return p <= 0 ? Number.NEGATIVE_INFINITY : tail(Math.sqrt(-2 * Math.log(p)));
  if (p > 1 - 0.02425) return p >= 1 ? Number.POSITIVE_INFINITY : -tail(Math.sqrt(-2 * Math.log(1 - p)));
  const q = p - 0.5;
  const r = q * q;
  return (q * polynomial(MIDDLE, r)) / (polynomial(MIDDLE_UNDER, r) * r + 1);
}

const tail = (q: number): number => polynomial(TAIL, q) / (polynomial(TAIL_UNDER, q) * q + 1);

const polynomial = (factors: readonly number[], x: number): number => factors.reduce((sum, c) => sum * x + c, 0);

const MIDDLE = [
  -39.69683028665376, 220.9460984245205, -275.9285104469687, 138.357751867269, -30.66479806614716, 2.506628277459239,
];
const MIDDLE_UNDER = [-54.47609879822406, 161.5858368580409, -155.6989798598866, 66.80131188771972, -13.28068155288572];
const TAIL = [
  -0.007784894002430293, -0.3223964580411365, -2.400758277161838, -2.549732539343734, 4.374664141464968,
  2.938163982698783,
];
const TAIL_UNDER = [0.007784695709041462, 0.3224671290700398, 2.445134137142996, 3.754408661907416];
