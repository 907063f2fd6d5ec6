/** What checks against worked examples of conduction have in common. */
import { expect } from 'vitest';
import type { Form } from '../../src/heat/roots.js';
import { oneTerm, profileOf } from '../../src/heat/series.js';

export const CENGEL = 'Cengel, Heat and Mass Transfer, chapter 4';
export const INCROPERA = 'Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, chapter 5';

/** Within 1e-4 of an exact answer, of which at least five digits are recorded. */
export const expectComputed = (got: number, computed: number): void => {
  expect(Math.abs(got - computed)).toBeLessThanOrEqual(1e-4 * Math.abs(computed));
};

/** Within 1 % of what a book prints. */
export const expectPrinted = (got: number, printed: number): void => {
  expect(Math.abs(got - printed)).toBeLessThanOrEqual(0.01 * Math.abs(printed));
};

/** Fourier number at which the one-term form has the middle at `theta`. */
export function oneTermFourier(form: Form, biot: number, theta: number): number {
  const { zeta, amplitude } = oneTerm(form, biot);
  return Math.log(amplitude / theta) / (zeta * zeta);
}

export function oneTermTheta(form: Form, biot: number, fourier: number, position: number): number {
  const { zeta, amplitude } = oneTerm(form, biot);
  return amplitude * Math.exp(-zeta * zeta * fourier) * profileOf(form, zeta * position);
}
