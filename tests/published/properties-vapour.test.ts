/** Water and its vapour, against steam tables, the boiling point by altitude, and wet bulbs. */
import { describe, expect, it } from 'vitest';
import {
  boilingPoint,
  latentHeat,
  pressureAt,
  saturationPressure,
  vapourPressure,
  wetBulb,
} from '../../src/heat/vapour.js';
import { celsiusOfFahrenheit } from '../../src/units/temperature.js';

describe('saturation (IAPWS-IF97, check values of its tables 35 and 36, from memory)', () => {
  it.each([
    [300, 0.353658941e-2],
    [500, 0.263889776e1],
    [600, 0.123443146e2],
  ])('pressure at %d K: %f MPa', (kelvin, megapascal) => {
    expect(saturationPressure(kelvin - 273.15) / 1e6 / megapascal).toBeCloseTo(1, 8);
  });

  it.each([
    [0.1, 0.372755919e3],
    [1, 0.453035632e3],
    [10, 0.584149488e3],
  ])('temperature at %d MPa: %f K', (megapascal, kelvin) => {
    expect(boilingPoint(megapascal * 1e6) + 273.15).toBeCloseTo(kelvin, 6);
  });
});

describe('steam table (Cengel, Heat and Mass Transfer, Table A-9: pressure in kPa and latent heat in kJ/kg, from memory)', () => {
  it.each([
    [5, 0.8721, 2490],
    [20, 2.339, 2454],
    [40, 7.384, 2407],
    [60, 19.94, 2359],
    [80, 47.39, 2309],
    [100, 101.33, 2257],
    [120, 198.53, 2203],
  ])('%d °C', (celsius, pressure, latent) => {
    expect(Math.abs(saturationPressure(celsius) / 1000 / pressure - 1)).toBeLessThan(0.002);
    expect(Math.abs(latentHeat(celsius) / 1000 / latent - 1)).toBeLessThan(0.0015);
  });
});

describe('water boils lower up high (thermophysical.json, water_boiling_by_altitude: standard atmosphere with IAPWS-IF97, computed; °F of two tables)', () => {
  it.each([
    [0, 101.325, 99.97, [212, 212]],
    [152.4, 99.508, 99.47, [211.1, 211]],
    [304.8, 97.717, 98.96, [210.2, 210]],
    [609.6, 94.213, 97.95, [208.4, 208.2]],
    [914.4, 90.812, 96.93, [206.2]],
    [1219.2, 87.511, 95.92, [204.4]],
    [1524, 84.307, 94.9, [203, 202.6]],
    [1828.8, 81.2, 93.89, [201.1, 200.7]],
    [2133.6, 78.185, 92.87, [198.7]],
    [2438.4, 75.262, 91.85, [197.4, 196.9]],
    [3048, 69.682, 89.81, [193.6, 194]],
    [3657.6, 64.441, 87.77, [189.8]],
    [4267.2, 59.524, 85.72, [185.9]],
    [4572, 57.182, 84.7, [184.1]],
  ] as const)('%d m', (metres, kilopascal, celsius, printed) => {
    const pressure = pressureAt(metres);
    expect(Math.abs(pressure / 1000 - kilopascal)).toBeLessThan(0.01);
    expect(Math.abs(boilingPoint(pressure) - celsius)).toBeLessThan(0.011);
    for (const fahrenheit of printed) {
      expect(Math.abs(boilingPoint(pressure) - celsiusOfFahrenheit(fahrenheit))).toBeLessThan(0.35);
    }
  });
});

describe('wet bulb (ASHRAE psychrometric chart at sea level, read to 0.1 °C, from memory)', () => {
  it.each([
    [20, 0.5, 13.8],
    [25, 0.5, 17.9],
    [30, 0.5, 22],
    [40, 0.2, 21.7],
  ])('%d °C, relative humidity %f: %f °C, within 0.35', (air, humidity, expected) => {
    expect(Math.abs(wetBulb(air, vapourPressure(air, humidity)) - expected)).toBeLessThan(0.35);
  });
});
