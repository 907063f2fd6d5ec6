import { describe, expect, it } from 'vitest';
import { besselJ } from '../../src/heat/bessel.js';

/** Bessel's integral by the trapezoid rule, which for a periodic function is exact but for terms of order far above x. */
function byIntegral(order: 0 | 1, x: number): number {
  const points = 2 * Math.ceil(x) + 80;
  let sum = 0;
  for (let index = 0; index < points; index++) {
    const angle = (2 * Math.PI * index) / points;
    sum += Math.cos(order * angle - x * Math.sin(angle));
  }
  return sum / points;
}

describe('J0 and J1', () => {
  // By a program for any number of digits; x on both sides of every change of method.
  it.each([
    [0.1, 0.99750156206604, 0.049937526036242],
    [1, 0.7651976865579666, 0.4400505857449335],
    [1.99, 0.22966118404558944, 0.5773494940468116],
    [2.01, 0.2181268213258488, 0.5760600909547547],
    [5, -0.1775967713143383, -0.32757913759146523],
    [12.3, 0.1107979503075853, -0.1942588480405915],
    [19.99, 0.16768479902327915, 0.06519257814216636],
    [20.01, 0.1663481614896892, 0.06846618525879421],
    [50, 0.055812327669251816, -0.09751182812517514],
    [1000, 0.024786686152420176, 0.004728311907089524],
    [6000, 0.003468216726407822, -0.009698925817078628],
  ])('at %d', (x, zero, one) => {
    const [j0, j1] = besselJ(x);
    expect(Math.abs(j0 - zero)).toBeLessThan(1e-15);
    expect(Math.abs(j1 - one)).toBeLessThan(1e-15);
  });

  it('agree with Bessel’s integral', () => {
    for (let x = 0; x <= 60; x += 0.173) {
      const [j0, j1] = besselJ(x);
      expect(Math.abs(j0 - byIntegral(0, x))).toBeLessThan(3e-15);
      expect(Math.abs(j1 - byIntegral(1, x))).toBeLessThan(3e-15);
    }
  });

  it('are 1 and 0 at 0', () => {
    expect(besselJ(0)).toEqual([1, 0]);
  });
});
