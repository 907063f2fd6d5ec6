/**
 * Transient conduction in one dimension: a wall heated through both faces, a long cylinder, a sphere, at one temperature to begin with,
 * from a moment on in a medium of another, through a constant coefficient; constant properties.
 *
 * Dimensionless throughout. `theta` = (T - medium) / (start - medium), 1 at first, falling to 0. `fourier` = diffusivity times time
 * over the square of the half thickness or radius. `biot` = coefficient times half thickness or radius, over conductivity.
 * `position`: 0 in the middle, 1 at the surface. Errors: RangeError where a number is out of its range.
 * Source: Carslaw and Jaeger, Conduction of Heat in Solids, 3.11, 7.7, 9.4; Incropera and DeWitt, 5.5 and 5.6.
 */
import { besselJ } from './bessel.js';
import { EARLY_UNTIL, earlyGain, earlyMeanGain } from './early.js';
import { checkedBiot, DIRECTIONS, eigenvalue, type Form } from './roots.js';

export interface Series {
  readonly form: Form;
  readonly biot: number;
  /** The n-th eigenvalue, n = 1, 2, ... */
  root(n: number): number;
  /** Its amplitude, so that theta is the sum of amplitude x profile(root, position) x exp(-root^2 fourier). */
  amplitude(n: number): number;
  /** Any fourier >= 0, any position from 0 to 1; absolute error below 1e-9 for Biot 1e-4 to 1e6 and Infinity. */
  theta(fourier: number, position?: number): number;
  /** Theta of the mean temperature, the same range and error. */
  mean(fourier: number): number;
  /** Heat taken up (or given away), over the most that can be: 1 - mean. */
  heatFraction(fourier: number): number;
}

/** What is below exp(-LAST) of the first term is left out. */
const LAST = 36;

/** The series of a form at a Biot number from 0 to Infinity. Roots are found when first needed and kept. */
export function seriesOf(form: Form, biot: number): Series {
  const bi = checkedBiot(biot);
  const roots: number[] = [];
  const root = (n: number): number => {
    while (roots.length < n) roots.push(eigenvalue(form, bi, roots.length + 1));
    return roots[n - 1]!;
  };
  /** The sum of weight(n) exp(-root^2 fourier), the terms that matter. */
  const sum = (fourier: number, weight: (n: number) => number): number => {
    const first = root(1) ** 2;
    let total = weight(1) * Math.exp(-first * fourier);
    for (let n = 2; (root(n) ** 2 - first) * fourier < LAST; n++) {
      total += weight(n) * Math.exp(-(root(n) ** 2) * fourier);
    }
    return total;
  };
  const early = (fourier: number): boolean => {
    if (!(fourier >= 0)) throw new RangeError(`A Fourier number is 0 or more, not ${fourier}`);
    return fourier <= EARLY_UNTIL[form];
  };
  const mean = (fourier: number): number => {
    if (bi === 0) return 1;
    if (early(fourier)) return 1 - earlyMeanGain(form, bi, fourier);
    return sum(fourier, (n) => meanAmplitude(form, bi, root(n)));
  };
  return {
    form,
    biot,
    root,
    amplitude: (n) => amplitudeOf(form, bi, root(n), n),
    theta: (fourier, position = 0) => {
      if (!(position >= 0 && position <= 1)) throw new RangeError(`A position is 0 to 1, not ${position}`);
      if (early(fourier)) return 1 - earlyGain(form, bi, fourier, position);
      return sum(fourier, (n) => amplitudeOf(form, bi, root(n), n) * profileOf(form, root(n) * position));
    },
    mean,
    heatFraction: (fourier) => 1 - mean(fourier),
  };
}

/**
 * The coefficients of the one-term form theta = amplitude x profile(zeta, position) x exp(-zeta^2 fourier), which holds to 2 % for
 * fourier > 0.2. `zeta` and `amplitude` are the zeta1 and C1 (lambda1 and A1) of the books.
 */
export function oneTerm(form: Form, biot: number): { readonly zeta: number; readonly amplitude: number } {
  const bi = checkedBiot(biot);
  const zeta = eigenvalue(form, bi, 1);
  return { zeta, amplitude: amplitudeOf(form, bi, zeta, 1) };
}

/** The profile of a term at `zeta` x position: cos, J0 or sin x / x; 1 in the middle. */
export function profileOf(form: Form, x: number): number {
  if (form === 'wall') return Math.cos(x);
  if (form === 'cylinder') return besselJ(x)[0];
  return x === 0 ? 1 : Math.sin(x) / x;
}

/** With the equation of the roots put in, so that no digits are lost where a root is near a zero of sine or cosine. */
function amplitudeOf(form: Form, bi: number, zeta: number, n: number): number {
  // Nothing goes in: only the first term stands.
  if (bi === 0) return n === 1 ? 1 : 0;
  const square = zeta * zeta;
  if (form === 'cylinder') {
    const [j0, j1] = besselJ(zeta);
    return (2 * j1) / (zeta * (j0 * j0 + j1 * j1));
  }
  const sign = n % 2 === 1 ? 1 : -1;
  if (form === 'wall') return (sign * 2 * bi * Math.hypot(zeta, bi)) / (zeta * (square + bi * bi + bi));
  return (sign * 2 * bi * Math.hypot(zeta, bi - 1)) / (square + bi * bi - bi);
}

/** A term's share of the mean: amplitude times the mean of its profile. */
function meanAmplitude(form: Form, bi: number, zeta: number): number {
  const directions = DIRECTIONS[form];
  const square = zeta * zeta;
  return (2 * directions * bi * bi) / (square * (square + bi * bi + (2 - directions) * bi));
}
