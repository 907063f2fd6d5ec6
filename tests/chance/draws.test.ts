import { describe, expect, it } from 'vitest';
import {
  deviates,
  minutesAt,
  minutesBeyond,
  normalQuantile,
  type Spread,
  WRITTEN_DEVIATIONS,
} from '../../src/chance/draws.js';
import { inverseErfc } from '../../src/heat/error-function.js';

describe('the normal quantile', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1; more digits from memory.
  it.each([
    [0.5, 0],
    [0.9, 1.2815515655],
    [0.95, 1.644853627],
    [0.975, 1.959963985],
    [0.99, 2.326347874],
    [0.999, 3.090232306],
  ])('of %f is %f, and the same below the middle', (p, z) => {
    expect(normalQuantile(p)).toBeCloseTo(z, 8);
    expect(normalQuantile(1 - p)).toBeCloseTo(-z, 8);
  });

  it('is that of the exact error function', () => {
    for (let i = 1; i <= 500; i++) {
      const exact = -Math.SQRT2 * inverseErfc(i / 500);
      expect(Math.abs(normalQuantile(i / 1000) - exact)).toBeLessThan(1e-8);
    }
    expect(normalQuantile(1e-6)).toBeCloseTo(-Math.SQRT2 * inverseErfc(2e-6), 7);
  });

  it('is infinite at the ends', () => {
    expect([normalQuantile(0), normalQuantile(1)]).toEqual([Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]);
  });
});

describe('deviates', () => {
  const some = deviates(1000, 7, 3);

  it('lie one in each part of equal chance', () => {
    const sorted = [...some].sort((a, b) => a - b);
    sorted.forEach((z, i) => {
      expect(z).toBeGreaterThanOrEqual(normalQuantile(i / 1000));
      expect(z).toBeLessThanOrEqual(normalQuantile((i + 1) / 1000));
    });
  });

  it('are the same for the same seed and key, and have nothing to do with those of another', () => {
    expect(deviates(1000, 7, 3)).toEqual(some);
    for (const other of [deviates(1000, 8, 3), deviates(1000, 7, 4)]) {
      const correlation = some.reduce((sum, z, i) => sum + z * other[i]!, 0) / 1000;
      expect(Math.abs(correlation)).toBeLessThan(0.1);
    }
  });
});

describe('minutes', () => {
  const spread: Spread = { low: 10, likely: 12, high: 15, deviations: WRITTEN_DEVIATIONS };

  it('are below low once in ten, above high once in ten, and as often below likely as above', () => {
    const minutes = deviates(10_000, 1, 0).map((z) => minutesAt(spread, z));
    expect(minutes.filter((one) => one < 10).length).toBe(1000);
    expect(minutes.filter((one) => one < 12).length).toBe(5000);
    expect(minutes.filter((one) => one > 15).length).toBe(1000);
  });

  it('are never less than one', () => {
    expect(minutesAt({ ...spread, low: 2 }, -9)).toBe(1);
  });
});

describe('minutes of what goes on', () => {
  const spread: Spread = { low: 16, likely: 20, high: 30, deviations: WRITTEN_DEVIATIONS };

  it.each([0, 14, 20, 24, 35])('are those of the evenings on which it is not over after %i', (been) => {
    const all = Array.from(deviates(200_000, 1, 1), (z) => minutesAt(spread, z));
    const longer = all.filter((minutes) => minutes > been).sort((a, b) => a - b);
    for (const p of [0.1, 0.5, 0.9]) {
      const expected = longer[Math.floor(p * longer.length)]!;
      expect(Math.abs(minutesBeyond(spread, been, normalQuantile(p)) - expected)).toBeLessThan(0.3);
    }
  });

  it('are no less than it has been, and more where that says much', () => {
    expect(minutesBeyond({ low: 20, likely: 20, high: 20, deviations: 1 }, 12, 0)).toBe(20);
    expect(minutesBeyond({ low: 20, likely: 20, high: 20, deviations: 1 }, 25, 0)).toBe(25);
    expect(minutesBeyond({ low: 20, likely: 20, high: 24, deviations: 1 }, 12, 1)).toBe(24);
    // Of what was forgotten nothing is known but that it is not over.
    expect(minutesBeyond(spread, 10_000, 0)).toBeGreaterThan(10_000);
    expect(minutesBeyond(spread, 10_000, 3)).toBeLessThan(10_030);
  });
});
