import { describe, expect, it } from 'vitest';
import { Exchange, INSULATED, isInsulated, type Surroundings } from '../../src/heat/exchange.js';
import { latentHeat, wetBulb } from '../../src/heat/vapour.js';
import { onPlate, oven, wet } from '../support/pieces.js';

function at(surroundings: Surroundings, celsius: number, lost = 0) {
  const exchange = new Exchange(surroundings);
  exchange.at(celsius, lost);
  const { heat, slope, water, waterSlope, heatDrying, waterDrying } = exchange;
  return { heat, slope, water, waterSlope, heatDrying, waterDrying };
}

const plain = { air: 160, coefficient: 12 };

describe('dry exchange', () => {
  it('is coefficient times difference, and falls by the coefficient', () => {
    expect(at(plain, 60)).toMatchObject({ heat: 1200, slope: 12, water: 0 });
    expect(at(plain, 200).heat).toBe(-480);
  });

  it('touches by a share, and leaves the rest to the air and the walls', () => {
    const plate = { celsius: 250, coefficient: 400, share: 0.25 };
    expect(at({ ...plain, plate }, 50).heat).toBeCloseTo(0.75 * 12 * 110 + 0.25 * 400 * 200, 9);
    expect(at({ ...plain, plate: { ...plate, share: 1 } }, 50).heat).toBeCloseTo(400 * 200, 9);
  });

  it('is none where it is insulated', () => {
    expect(isInsulated(INSULATED)).toBe(true);
    expect(isInsulated({ ...INSULATED, plate: { celsius: 200, coefficient: 500, share: 0 } })).toBe(true);
    expect(isInsulated({ ...INSULATED, walls: { celsius: 100, emissivity: 1 } })).toBe(false);
    expect(at(INSULATED, 80)).toMatchObject({ heat: -0, slope: 0, water: 0 });
  });
});

describe('evaporation', () => {
  it('takes nothing more in at the wet bulb', () => {
    const moisture = { vapour: 1500, wetness: 1, dries: Number.POSITIVE_INFINITY };
    const settled = wetBulb(160, 1500);
    const { heat, water, slope } = at({ ...plain, moisture }, settled);
    // The table between whole eighths of a degree is a straight line.
    expect(Math.abs(heat)).toBeLessThan(0.01 * slope);
    expect(water * latentHeat(settled)).toBeCloseTo(12 * (160 - settled) * 0.97, -2);
  });

  it('is less from a surface less wet, and half as much through the layer that the first measure of water has left', () => {
    const bare = at({ ...plain, moisture: wet(1, 2) }, 80);
    expect(at({ ...plain, moisture: wet(0.4, 2) }, 80).water / bare.water).toBeCloseTo(0.4, 12);
    expect(at({ ...plain, moisture: wet(1, 2) }, 80, 2).water / bare.water).toBeCloseTo(0.5, 12);
    expect(at({ ...plain, moisture: wet(1, Number.POSITIVE_INFINITY) }, 80, 2).water).toBeCloseTo(bare.water, 12);
    expect(at({ ...plain, moisture: wet(0) }, 80)).toMatchObject({ water: 0, heatDrying: 0, waterDrying: 0 });
  });

  it('turns round where the air holds more, on any surface', () => {
    const steam = { vapour: 70_000, wetness: 0.2, dries: 1 };
    const cold = at({ air: 100, coefficient: 10, moisture: steam }, 20, 50);
    expect(cold.water).toBeLessThan(0);
    expect(cold.heat).toBeGreaterThan(10 * 80);
    // As much as on a wet one.
    expect(cold.water).toBeCloseTo(at({ air: 100, coefficient: 10, moisture: { ...steam, wetness: 1 } }, 20).water, 6);
  });

  it('needs moving air, and holds a wet face on a hot plate near the boiling point', () => {
    expect(at({ air: 20, coefficient: 0, moisture: wet() }, 80).water).toBe(0);
    expect(at(onPlate(250), 100).heat).toBeLessThan(0);
    expect(at(onPlate(250), 80).heat).toBeGreaterThan(0);
  });

  it('begins lower where the air is thin', () => {
    const high = { ...wet(), pressure: 75_000 };
    expect(at({ ...plain, moisture: high }, 90).water).toBeGreaterThan(at({ ...plain, moisture: wet() }, 90).water);
  });
});

describe('slopes', () => {
  const cases: readonly (readonly [string, Surroundings])[] = [
    ['plain', plain],
    ['oven', oven(165)],
    ['plate', onPlate(260, 300, 0.4)],
  ];
  it.each(cases)('of %s are those of the exchange itself, within a tenth', (_, surroundings) => {
    for (const celsius of [30.03, 70.03, 93.03, 97.03, 99.28, 105.03]) {
      const [here, warmer, drier] = [
        at(surroundings, celsius, 0.3),
        at(surroundings, celsius + 1e-4, 0.3),
        at(surroundings, celsius, 0.3001),
      ];
      const near = (got: number, of: number): void =>
        expect(Math.abs(got - of)).toBeLessThan(0.1 * Math.abs(of) + 0.03 * here.slope);
      near(here.slope, (here.heat - warmer.heat) / 1e-4);
      expect(here.waterSlope).toBeCloseTo((warmer.water - here.water) / 1e-4, 3);
      expect(here.waterDrying).toBeCloseTo((here.water - drier.water) / 1e-4, 3);
      near(here.heatDrying, (drier.heat - here.heat) / 1e-4);
    }
  });
});

describe('what is refused', () => {
  it.each([
    ['a temperature', { ...plain, air: Number.NaN }],
    ['a temperature', { ...plain, walls: { celsius: 2000, emissivity: 0.9 } }],
    ['a coefficient', { ...plain, coefficient: -1 }],
    ['a share', { ...plain, walls: { celsius: 160, emissivity: 1.1 } }],
    ['a share', { ...plain, moisture: wet(2) }],
    ['moisture', { ...plain, moisture: wet(1, 0) }],
    ['moisture', { ...plain, moisture: { ...wet(), vapour: -1 } }],
  ] as const)('%s out of its range', (_, surroundings) => {
    expect(() => new Exchange(surroundings)).toThrow(RangeError);
  });
});
