/**
 * Bessel functions of the first kind of order 0 and 1, real arguments, to double precision (absolute error below 1e-15 up to
 * 50, 1e-14 relative to the envelope sqrt(2 / (pi x)) beyond).
 *
 * Source of the formulas: Abramowitz and Stegun, Handbook of Mathematical Functions, 9.1.10 (power series), 9.1.27 with 9.1.46
 * (recurrence run downwards and its sum, Miller's way), 9.2.5 with 9.2.9 and 9.2.10 (Hankel's asymptotic form).
 */

/** Below, the power series loses no digits; from the other on, Hankel's smallest term is below a double's last digit. */
const POWER_SERIES_TO = 2;
const HANKEL_FROM = 20;

/** [J0(x), J1(x)] for x >= 0. */
export function besselJ(x: number): readonly [j0: number, j1: number] {
  if (x < POWER_SERIES_TO) return powerSeries(x);
  return x < HANKEL_FROM ? downwards(x) : hankel(x);
}

function powerSeries(x: number): readonly [number, number] {
  const quarter = -(x * x) / 4;
  let [zero, one] = [1, 1];
  let j0 = 1;
  let j1 = 1;
  for (let k = 1; Math.abs(zero) > 1e-18; k++) {
    zero *= quarter / (k * k);
    one *= quarter / (k * (k + 1));
    j0 += zero;
    j1 += one;
  }
  return [j0, (j1 * x) / 2];
}

/** From an order at which J is nothing the recurrence is stable downwards; J0 + 2 (J2 + J4 + ...) = 1 sets the scale. */
function downwards(x: number): readonly [number, number] {
  const from = 2 * Math.ceil((x + 32) / 2);
  let [above, here] = [0, 1e-100];
  let evens = 0;
  for (let order = from; order > 0; order--) {
    if (order % 2 === 0) evens += here;
    [above, here] = [here, (2 * order * here) / x - above];
  }
  const scale = here + 2 * evens;
  return [here / scale, above / scale];
}

function hankel(x: number): readonly [number, number] {
  const [p0, q0] = hankelSums(0, x);
  const [p1, q1] = hankelSums(4, x);
  // cos and sin of x - pi/4 and x - 3pi/4, without rounding those differences.
  const [sum, difference] = [Math.cos(x) + Math.sin(x), Math.sin(x) - Math.cos(x)];
  const scale = 1 / Math.sqrt(Math.PI * x);
  return [scale * (p0 * sum - q0 * difference), scale * (p1 * difference + q1 * sum)];
}

/** P and Q for four times the order squared. */
function hankelSums(fourSquares: number, x: number): readonly [number, number] {
  let [p, q] = [1, 0];
  let term = 1;
  for (let k = 1; Math.abs(term) > 1e-17 && k < 4 * x; k++) {
    term *= (fourSquares - (2 * k - 1) ** 2) / (k * 8 * x);
    const signed = k % 4 < 2 ? term : -term;
    if (k % 2 === 0) p += signed;
    else q += signed;
  }
  return [p, q];
}
