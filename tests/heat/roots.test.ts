import { describe, expect, it } from 'vitest';
import { besselJ } from '../../src/heat/bessel.js';
import { eigenvalue, type Form } from '../../src/heat/roots.js';

const FORMS: readonly Form[] = ['wall', 'cylinder', 'sphere'];

/** What is nought at a root, over its size. */
function remainder(form: Form, biot: number, zeta: number): number {
  const [sine, cosine] = [Math.sin(zeta), Math.cos(zeta)];
  const [j0, j1] = besselJ(zeta);
  switch (form) {
    case 'wall':
      return (zeta * sine - biot * cosine) / (zeta + biot);
    case 'cylinder':
      return (zeta * j1 - biot * j0) / (zeta + biot);
    case 'sphere':
      return ((1 - biot) * sine - zeta * cosine) / (zeta + biot);
  }
}

describe('eigenvalues', () => {
  const biots = [1e-4, 1e-3, 0.01, 0.1, 0.5, 0.999999, 1, 1.000001, 2, 7, 50, 1e3, 1e4, 1e5, 1e6];

  it.each(FORMS)('solve their equation, rise, and lie one in each turn: %s', (form) => {
    for (const biot of biots) {
      let before = 0;
      for (let n = 1; n <= 60; n++) {
        const zeta = eigenvalue(form, biot, n);
        expect(Math.abs(remainder(form, biot, zeta))).toBeLessThan(1e-15 * n + 1e-15);
        expect(zeta).toBeGreaterThan(Math.max(before, (n - 1) * Math.PI));
        expect(zeta).toBeLessThan(n * Math.PI);
        before = zeta;
      }
    }
  });

  it.each(FORMS)('rise with the Biot number: %s', (form) => {
    for (const n of [1, 2, 10]) {
      const roots = [0, ...biots, Infinity].map((biot) => eigenvalue(form, biot, n));
      for (let index = 1; index < roots.length; index++) expect(roots[index]).toBeGreaterThan(roots[index - 1]!);
    }
  });

  // Zeros of J0 and J1: Abramowitz and Stegun, table 9.5; of tan x = x: table 4.19.
  it('have their known ends', () => {
    for (const n of [1, 2, 5]) {
      expect(eigenvalue('wall', Infinity, n)).toBeCloseTo((n - 0.5) * Math.PI, 13);
      expect(eigenvalue('sphere', Infinity, n)).toBeCloseTo(n * Math.PI, 13);
      expect(eigenvalue('wall', 0, n)).toBe((n - 1) * Math.PI);
    }
    expect([1, 2, 3].map((n) => eigenvalue('cylinder', Infinity, n).toFixed(10))).toEqual([
      '2.4048255577',
      '5.5200781103',
      '8.6537279129',
    ]);
    expect([1, 2, 3].map((n) => eigenvalue('cylinder', 0, n).toFixed(5))).toEqual(['0.00000', '3.83171', '7.01559']);
    expect([1, 2, 3].map((n) => eigenvalue('sphere', 0, n).toFixed(5))).toEqual(['0.00000', '4.49341', '7.72525']);
  });

  it('of a small Biot number start at sqrt(directions x Bi)', () => {
    for (const [index, form] of FORMS.entries()) {
      expect(eigenvalue(form, 1e-10, 1) / Math.sqrt((index + 1) * 1e-10)).toBeCloseTo(1, 9);
    }
  });

  it('are refused for numbers that mean nothing', () => {
    expect(() => eigenvalue('wall', -1, 1)).toThrow(RangeError);
    expect(() => eigenvalue('wall', Number.NaN, 1)).toThrow(RangeError);
    expect(() => eigenvalue('wall', 1, 0)).toThrow(RangeError);
    expect(() => eigenvalue('wall', 1, 1.5)).toThrow(RangeError);
  });
});
