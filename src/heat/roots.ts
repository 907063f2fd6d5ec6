/**
 * Eigenvalues of a wall, a long cylinder and a sphere that give heat to, or take it from, a medium by convection.
 *
 * Biot number here: coefficient times half thickness or radius, over conductivity. Roots (zeta in some books, lambda in others):
 * wall zeta tan zeta = Bi; cylinder zeta J1(zeta) / J0(zeta) = Bi; sphere 1 - zeta cot zeta = Bi.
 * Source: Carslaw and Jaeger, Conduction of Heat in Solids, 3.11, 7.7, 9.4; Incropera and DeWitt, 5.5 and 5.6.
 */
import { besselJ } from './bessel.js';
import { newtonWithin } from './root-finding.js';

export type Form = 'wall' | 'cylinder' | 'sphere';

/** Directions in which heat comes in: surface over volume of a body with half thickness or radius 1. */
export const DIRECTIONS: Readonly<Record<Form, 1 | 2 | 3>> = { wall: 1, cylinder: 2, sphere: 3 };

/** In place of an infinite Biot number: the surface then is at the medium's temperature to a double's last digit. */
const HELD = 1e15;

/** The Biot number as the formulas take it; a RangeError where it is no number from 0 to Infinity. */
export function checkedBiot(biot: number): number {
  if (!(biot >= 0)) throw new RangeError(`A Biot number is 0 or more, not ${biot}`);
  return Math.min(biot, HELD);
}

/**
 * The n-th positive root, n = 1, 2, ..., to about 1e-15 relative. Biot from 0 (an insulated surface; the first root then is 0) to Infinity
 * (a surface held at a temperature); checked from 1e-4 to 1e6.
 */
export function eigenvalue(form: Form, biot: number, n: number): number {
  if (!(Number.isInteger(n) && n >= 1)) throw new RangeError(`Roots are counted from 1, not ${n}`);
  const bi = checkedBiot(biot);
  if (bi === 0 && n === 1) return 0;
  if (form === 'wall') return wallRoot(bi, n);
  return form === 'cylinder' ? cylinderRoot(bi, n) : sphereRoot(bi, n);
}

/** Within (0, pi / 2) above (n - 1) pi, where both sine and cosine are positive but for a common sign. */
function wallRoot(bi: number, n: number): number {
  const start = (n - 1) * Math.PI;
  if (bi === 0) return start;
  const above = newtonWithin(
    (x) => {
      const [sine, cosine] = [Math.sin(x), Math.cos(x)];
      const zeta = start + x;
      return [zeta * sine - bi * cosine, (1 + bi) * sine + zeta * cosine];
    },
    0,
    Math.PI / 2,
  );
  return start + above;
}

/**
 * zeta J1 / J0 rises from -Infinity to Infinity between two zeros of J0. The n-th of them lies a little above (n - 1/4) pi and
 * below (n - 1/8) pi, so that this bracket holds one root for every Biot number.
 */
function cylinderRoot(bi: number, n: number): number {
  const sign = n % 2 === 1 ? 1 : -1;
  return newtonWithin(
    (zeta) => {
      const [j0, j1] = besselJ(zeta);
      return [sign * (zeta * j1 - bi * j0), sign * (zeta * j0 + bi * j1)];
    },
    (n - 1) * Math.PI,
    (n - 1 / 8) * Math.PI,
  );
}

/** Within (0, pi) above (n - 1) pi. */
function sphereRoot(bi: number, n: number): number {
  if (n === 1) return firstSphereRoot(bi);
  const start = (n - 1) * Math.PI;
  const above = newtonWithin(
    (x) => {
      const [sine, cosine] = [Math.sin(x), Math.cos(x)];
      const zeta = start + x;
      return [(1 - bi) * sine - zeta * cosine, zeta * sine - bi * cosine];
    },
    0,
    Math.PI,
  );
  return start + above;
}

/** Divided by zeta, which takes away the root at 0. */
function firstSphereRoot(bi: number): number {
  return newtonWithin(
    (zeta) => {
      const sine = Math.sin(zeta);
      const less = sineLessCosine(zeta);
      return [(less - bi * sine) / zeta, sine - ((1 - bi) * less) / (zeta * zeta)];
    },
    0,
    Math.PI,
  );
}

/** sin x - x cos x, without loss of digits near 0. */
function sineLessCosine(x: number): number {
  if (x > 1) return Math.sin(x) - x * Math.cos(x);
  let power = (x * x * x) / 6;
  let sum = 2 * power;
  for (let k = 2; k <= 10; k++) {
    power *= -(x * x) / (2 * k * (2 * k + 1));
    sum += 2 * k * power;
  }
  return sum;
}
