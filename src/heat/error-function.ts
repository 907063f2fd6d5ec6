/**
 * The complementary error function and its relatives, real arguments, to about 1e-14 relative.
 *
 * Source of the formulas: Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.6 (series), 7.1.14 (continued fraction),
 * 7.2.1 (ierfc).
 */
import { newtonWithin } from './root-finding.js';

const SQRT_PI = Math.sqrt(Math.PI);
/** Below, the series; from here on, the continued fraction. */
const FRACTION_FROM = 1.5;

/** erfc(x), the part of a step at the surface that has not yet come in. */
export function erfc(x: number): number {
  if (x < 0) return 2 - erfc(-x);
  return x < FRACTION_FROM ? 1 - erfSeries(x) : Math.exp(-x * x) * erfcxFraction(x);
}

/** exp(x^2) erfc(x), which neither over- nor underflows for x >= 0. Below x = -26 it is Infinity. */
export function erfcx(x: number): number {
  if (x < 0) return 2 * Math.exp(x * x) - erfcx(-x);
  return x < FRACTION_FROM ? Math.exp(x * x) * (1 - erfSeries(x)) : erfcxFraction(x);
}

/** The integral of erfc from x to infinity. */
export function ierfc(x: number): number {
  if (x < 0) return ierfc(-x) - 2 * x;
  return Math.exp(-x * x) * (1 / SQRT_PI - x * erfcx(x));
}

/** The x >= 0 with erfc(x) = y, for 0 < y <= 1. */
export function inverseErfc(y: number): number {
  if (!(y > 0 && y <= 1)) throw new RangeError(`erfc takes values above 0 and up to 1 for x >= 0, not ${y}`);
  if (y === 1) return 0;
  // The logarithm is nearly a parabola, and never underflows.
  const far = Math.sqrt(-Math.log(y)) + 1;
  return newtonWithin((x) => [Math.log(y) + x * x - Math.log(erfcx(x)), 2 / (SQRT_PI * erfcx(x))], 0, far);
}

/**
 * (erfcx(x) - erfcx(x + z)) / z, also where z is next to nothing (then it is minus the slope of erfcx). x >= 0; z >= -1.
 */
export function erfcxFall(x: number, z: number): number {
  if (Math.abs(z) > 0.05) return (erfcx(x) - erfcx(x + z)) / z;
  // Taylor, with the derivatives by y' = 2 x y - 2 / sqrt(pi) and its own derivatives.
  let before = erfcx(x);
  let derivative = 2 * x * before - 2 / SQRT_PI;
  let power = 1;
  let sum = 0;
  for (let n = 1; n <= 10; n++) {
    sum -= derivative * power;
    [before, derivative] = [derivative, 2 * x * derivative + 2 * n * before];
    power *= z / (n + 1);
  }
  return sum;
}

/**
 * The inverse Laplace transform of 1 / (q^k (q + b)), q = sqrt(s), at time t, divided by t^((k - 1) / 2), as a function of
 * z = b sqrt(t) >= -1; k = 3 or 4. It is the sum over j of (-z)^j / Gamma((k + 1 + j) / 2).
 */
export function surfaceSum(k: 3 | 4, z: number): number {
  if (z > 1) {
    const two = (1 - erfcx(z)) / z;
    const three = (2 / SQRT_PI - two) / z;
    return k === 3 ? three : (1 - three) / z;
  }
  let even = k === 3 ? 1 : 4 / (3 * SQRT_PI);
  let odd = -z * (k === 3 ? 4 / (3 * SQRT_PI) : 1 / 2);
  let sum = 0;
  for (let j = 0; j < 60; j += 2) {
    sum += even + odd;
    even *= (2 * z * z) / (k + 1 + j);
    odd *= (2 * z * z) / (k + 2 + j);
  }
  return sum;
}

/** All terms have one sign: no digits are lost. */
function erfSeries(x: number): number {
  let term = x;
  let sum = x;
  for (let k = 1; term > 1e-18 * sum; k++) {
    term *= (2 * x * x) / (2 * k + 1);
    sum += term;
  }
  return (2 / SQRT_PI) * Math.exp(-x * x) * sum;
}

function erfcxFraction(x: number): number {
  // So deep that what is cut off is below the last digit.
  let below = 0;
  for (let n = Math.ceil(12 + 220 / (x * x)); n >= 1; n--) below = n / 2 / (x + below);
  return 1 / (SQRT_PI * (x + below));
}
