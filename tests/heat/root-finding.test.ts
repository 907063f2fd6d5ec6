import { describe, expect, it } from 'vitest';
import { crossingWithin, newtonWithin } from '../../src/heat/root-finding.js';

describe('Newton within a bracket', () => {
  it('finds a plain root to the last digit', () => {
    expect(newtonWithin((x) => [x * x - 2, 2 * x], 0, 2)).toBeCloseTo(Math.SQRT2, 15);
    expect(newtonWithin((x) => [x - 0.75, 1], 0, 1)).toBe(0.75);
  });

  it('finds a root next to nought to the last digit of that', () => {
    const root = newtonWithin((x) => [x * x - 1e-40, 2 * x], 0, 1);
    expect(root / 1e-20).toBeCloseTo(1, 14);
  });

  it('stays inside where slopes lead away or are nothing', () => {
    const seen: number[] = [];
    const root = newtonWithin(
      (x) => {
        seen.push(x);
        return [Math.atan(50 * (x - 3)), 0];
      },
      0,
      10,
    );
    expect(root).toBeCloseTo(3, 14);
    expect(seen.every((x) => x > 0 && x < 10)).toBe(true);
    expect(newtonWithin((x) => [Math.cbrt(x - 3), 1 / (3 * Math.cbrt(x - 3) ** 2)], 0, 10)).toBeCloseTo(3, 13);
  });
});

describe('a crossing without slopes', () => {
  it('is found within the tolerance, with few looks', () => {
    let looks = 0;
    const at = crossingWithin(
      (x) => {
        looks++;
        return Math.exp(x) - 5;
      },
      0,
      10,
      1e-12,
    );
    expect(Math.abs(at - Math.log(5))).toBeLessThanOrEqual(1e-12);
    expect(looks).toBeLessThan(25);
  });

  it('is found on steps, cliffs and infinite ends as well', () => {
    const step = crossingWithin((x) => (x < 0.3 ? -1e300 : 1), 0, 1, 1e-12);
    expect(Math.abs(step - 0.3)).toBeLessThanOrEqual(1e-12);
    const cliff = crossingWithin((x) => (x < 0.9 ? x - 0.7 : Infinity), 0, 1, 1e-12);
    expect(Math.abs(cliff - 0.7)).toBeLessThanOrEqual(1e-12);
  });

  it('is an end where the function does not cross', () => {
    expect(crossingWithin((x) => x + 1, 0, 1, 1e-9)).toBe(0);
    expect(crossingWithin((x) => x - 2, 0, 1, 1e-9)).toBe(1);
  });
});
