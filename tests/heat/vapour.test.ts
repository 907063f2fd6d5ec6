import { describe, expect, it } from 'vitest';
import {
  airPotential,
  boilingPoint,
  filmFactor,
  latentHeat,
  massTransferCoefficient,
  SEA_LEVEL_PRESSURE,
  saturationPressure,
  vapourFraction,
  vapourPotential,
  vapourPressure,
  wetBulb,
} from '../../src/heat/vapour.js';

const RANGE = Array.from({ length: 125 }, (_, i) => i);

describe('saturation', () => {
  it('is undone by the boiling point', () => {
    for (const celsius of RANGE) expect(boilingPoint(saturationPressure(celsius))).toBeCloseTo(celsius, 5);
  });

  it('rises, while the latent heat falls', () => {
    for (const celsius of RANGE) {
      expect(saturationPressure(celsius + 1)).toBeGreaterThan(saturationPressure(celsius));
      expect(latentHeat(celsius + 1)).toBeLessThan(latentHeat(celsius));
    }
  });
});

describe('vapourFraction', () => {
  it('is none in dry air, all in steam, and less than the share of the pressure between', () => {
    expect(vapourFraction(0, 1e5)).toBe(0);
    expect(vapourFraction(1e5, 1e5)).toBeCloseTo(1, 12);
    expect(vapourFraction(5e4, 1e5)).toBeCloseTo(0.3834, 3);
  });
});

describe('vapourPotential', () => {
  it('is −ln(1 − Y) up to 2 K below boiling, and from there on a straight line without a bend', () => {
    const fraction = vapourFraction(saturationPressure(60), SEA_LEVEL_PRESSURE);
    expect(vapourPotential(60, SEA_LEVEL_PRESSURE)).toBeCloseTo(-Math.log(1 - fraction), 12);
    const bend = boilingPoint(SEA_LEVEL_PRESSURE) - 2;
    const slope = (from: number): number =>
      (vapourPotential(from + 0.01, SEA_LEVEL_PRESSURE) - vapourPotential(from, SEA_LEVEL_PRESSURE)) / 0.01;
    expect(slope(bend - 0.011) / slope(bend + 0.001)).toBeCloseTo(1, 2);
    expect(slope(150) / slope(bend + 1)).toBeCloseTo(1, 6);
  });

  it('boils at some kilowatts a square metre and kelvin beside still air, as boiling does (Cengel: 2,500 to 100,000)', () => {
    const rise = vapourPotential(101, SEA_LEVEL_PRESSURE) - vapourPotential(100, SEA_LEVEL_PRESSURE);
    const perKelvin = massTransferCoefficient(8) * rise * latentHeat(100);
    expect(perKelvin).toBeGreaterThan(2500);
    expect(perKelvin).toBeLessThan(15_000);
  });

  it('of air is that of a surface at its dew point, of steam that at the boiling point', () => {
    expect(airPotential(saturationPressure(60), SEA_LEVEL_PRESSURE)).toBeCloseTo(
      vapourPotential(60, SEA_LEVEL_PRESSURE),
      12,
    );
    expect(airPotential(0, SEA_LEVEL_PRESSURE)).toBeCloseTo(0, 12);
    const steam = vapourPotential(boilingPoint(SEA_LEVEL_PRESSURE), SEA_LEVEL_PRESSURE);
    expect(airPotential(SEA_LEVEL_PRESSURE, SEA_LEVEL_PRESSURE)).toBe(steam);
    expect(airPotential(0.999 * SEA_LEVEL_PRESSURE, SEA_LEVEL_PRESSURE)).toBeLessThanOrEqual(steam);
  });
});

describe('filmFactor', () => {
  it('is x / (e^x − 1) within 4 per cent to x = 3, and nothing is left where the surface breathes out much', () => {
    for (const x of [-1, -0.3, 1e-9, 0.5, 1, 2, 3]) {
      expect(Math.abs((filmFactor((10 * x) / 1880, 10) * Math.expm1(x)) / x - 1)).toBeLessThan(0.04);
    }
    expect(filmFactor(0, 0)).toBe(1);
    expect(filmFactor(1, 10)).toBeLessThan(1e-6);
    expect(filmFactor(1, 10)).toBeGreaterThan(0);
  });
});

describe('wetBulb', () => {
  it('is the air’s temperature where the air is full, and lower the drier it is', () => {
    expect(wetBulb(25, vapourPressure(25, 1))).toBeCloseTo(25, 6);
    const dry = [1, 0.8, 0.5, 0.2, 0].map((humidity) => wetBulb(25, vapourPressure(25, humidity)));
    for (let i = 1; i < dry.length; i++) expect(dry[i]).toBeLessThan(dry[i - 1]!);
  });

  it('in an oven’s dry air lies near 42 °C, and in its steam at the boiling point', () => {
    expect(wetBulb(163, 1200)).toBeGreaterThan(38);
    expect(wetBulb(163, 1200)).toBeLessThan(46);
    expect(wetBulb(163, SEA_LEVEL_PRESSURE)).toBeCloseTo(boilingPoint(SEA_LEVEL_PRESSURE), 0);
  });
});
