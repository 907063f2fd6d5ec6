import { describe, expect, it } from 'vitest';
import type { Body } from '../../src/heat/body.js';
import { conductionIn, langston, temperatureOf, thetaOf } from '../../src/heat/product.js';

const MEAT = { conductivity: 0.47, diffusivity: 1.27e-7 };
const LOIN: Body = { shape: 'cylinder', thickness: 0.1, length: 0.34 };
const BODIES: readonly Body[] = [
  { shape: 'slab', thickness: 0.03, width: null, length: null },
  LOIN,
  { shape: 'sphere', thickness: 0.12 },
  { shape: 'brick', thickness: 0.06, width: 0.1, length: 0.2 },
];

describe('conduction in bodies', () => {
  it('of great length is that in the form across it', () => {
    const long = conductionIn({ ...LOIN, length: 10 }, MEAT, 20);
    const bar = conductionIn({ shape: 'brick', thickness: 0.05, width: 10, length: 10 }, MEAT, 20);
    const slab = conductionIn({ shape: 'slab', thickness: 0.05, width: null, length: null }, MEAT, 20);
    expect(bar.theta(1800)).toBeCloseTo(slab.theta(1800), 12);
    expect(long.theta(5400)).toBeGreaterThan(conductionIn(LOIN, MEAT, 20).theta(5400));
  });

  it('of a cube does not care which side is up', () => {
    const cube = conductionIn({ shape: 'brick', thickness: 0.08, width: 0.08, length: 0.08 }, MEAT, 25);
    expect(cube.theta(2000, [0.2, 0.5, 0.9])).toBeCloseTo(cube.theta(2000, [0.9, 0.2, 0.5]), 13);
    const side = conductionIn({ shape: 'slab', thickness: 0.08, width: null, length: null }, MEAT, 25);
    expect(cube.theta(2000)).toBeCloseTo(side.theta(2000) ** 3, 13);
  });

  it.each(BODIES)('takes up the mean of its thetas: $shape', (body) => {
    const conduction = conductionIn(body, MEAT, 20);
    for (const seconds of [0, 1, 600, 7200]) {
      expect(conduction.heatFraction(seconds)).toBeCloseTo(1 - conduction.mean(seconds), 13);
    }
    expect(conduction.heatFraction(0)).toBe(0);
  });

  it('a mean is the mean over the volume', () => {
    const conduction = conductionIn(LOIN, MEAT, 20);
    const cells = 40;
    let sum = 0;
    for (let i = 0; i < cells; i++) {
      for (let j = 0; j < cells; j++) {
        const [r, z] = [(i + 0.5) / cells, (j + 0.5) / cells];
        sum += (conduction.theta(3600, [r, z]) * 2 * r) / cells ** 2;
      }
    }
    expect(sum).toBeCloseTo(conduction.mean(3600), 3);
  });

  it.each(BODIES)('begins at 1 and knows when the core gets anywhere: $shape', (body) => {
    const conduction = conductionIn(body, MEAT, 20);
    expect(conduction.theta(0)).toBe(1);
    for (const theta of [0.9999, 0.99, 0.7, 0.3, 0.01, 1e-9, 1e-200]) {
      const seconds = conduction.secondsTo(theta);
      expect(conduction.theta(seconds) / theta).toBeCloseTo(1, 9);
    }
    expect(conduction.secondsTo(1)).toBe(0);
    expect(conduction.secondsTo(1.2)).toBe(0);
    expect(conduction.secondsTo(0)).toBe(Infinity);
    expect(conduction.secondsTo(-0.1)).toBe(Infinity);
    // So near to the start that it drowns in rounding, it still is an early moment.
    const first = conduction.secondsTo(1 - 1e-15);
    expect(first).toBeGreaterThan(0);
    expect(first).toBeLessThan(conduction.secondsTo(0.9999));
  });

  it('never gets anywhere without heat', () => {
    expect(conductionIn(LOIN, MEAT, 0).secondsTo(0.9)).toBe(Infinity);
  });

  it('is refused for numbers that mean nothing', () => {
    expect(() => conductionIn({ shape: 'sphere', thickness: 0 }, MEAT, 20)).toThrow(RangeError);
    expect(() => conductionIn(LOIN, MEAT, -1)).toThrow(RangeError);
    const conduction = conductionIn(LOIN, MEAT, 20);
    expect(() => conduction.theta(-1)).toThrow(RangeError);
    expect(() => conduction.theta(60, [2])).toThrow(RangeError);
    expect(() => conduction.secondsTo(Number.NaN)).toThrow(RangeError);
  });
});

describe('theta and temperature', () => {
  it('are each other’s way back, for heating and for cooling', () => {
    expect(thetaOf(4, 4, 160)).toBe(1);
    expect(thetaOf(160, 4, 160)).toBeCloseTo(0, 15);
    expect(temperatureOf(thetaOf(58, 4, 160), 4, 160)).toBeCloseTo(58, 12);
    expect(temperatureOf(thetaOf(30, 80, 5), 80, 5)).toBeCloseTo(30, 12);
  });

  it('heat fractions add up by Langston’s rule: Q1 + Q2 (1 - Q1) + Q3 (1 - Q1) (1 - Q2)', () => {
    expect(langston([0.4])).toBe(0.4);
    expect(langston([0.4, 0.3])).toBeCloseTo(0.58, 14);
    expect(langston([0.4, 0.3, 0.1])).toBeCloseTo(0.4 + 0.3 * 0.6 + 0.1 * 0.6 * 0.7, 14);
    expect(langston([])).toBe(0);
  });
});
