/**
 * Limits on how long food may be neither cold nor hot, against the publications that print them, and the minutes that are held
 * against them. Records are those of time-temperature-control.json; °C within 0.3 where the publication prints tenths.
 */
import { describe, expect, it } from 'vitest';
import type { DishCurve } from '../../src/safety/curve.js';
import { comeUpOf, longestOut, zoneStretches } from '../../src/safety/exposure.js';
import {
  COME_UP,
  COOLING,
  DANGER_ZONE,
  LONGEST_IN_TRADE,
  LONGEST_OUT,
  type Printed,
  TRADE_ZONE,
} from '../../src/safety/published.js';
import { celsiusOfFahrenheit } from '../../src/units/temperature.js';

/** Whole °C differ by up to half a degree from the °F that they stand for. */
const sameTemperature = ({ fahrenheit, celsius }: Printed, printed: { F: number; C: number }): void => {
  expect(fahrenheit).toBe(printed.F);
  expect(Math.abs(celsius - printed.C)).toBeLessThanOrEqual(0.3);
  expect(Math.abs(celsius - celsiusOfFahrenheit(fahrenheit))).toBeLessThanOrEqual(0.5);
};

describe('limits', () => {
  it('USDA FSIS, "Danger Zone" fact sheet: 40 °F to 140 °F (4.4 and 60.0 °C), and 140 °F for hot holding', () => {
    sameTemperature(DANGER_ZONE.high, { F: 140, C: 60 });
    expect(DANGER_ZONE.low.fahrenheit).toBe(40);
    expect(Math.abs(DANGER_ZONE.low.celsius - 4.4)).toBeLessThan(0.5);
  });

  it('USDA FSIS, "Danger Zone" fact sheet: 2 h at most, 1 h above 90 °F (32.2 °C)', () => {
    expect(LONGEST_OUT.minutes).toBe(2 * 60);
    expect(LONGEST_OUT.inHotRoom).toBe(1 * 60);
    sameTemperature(LONGEST_OUT.hotRoom, { F: 90, C: 32.2 });
    // The shorter time begins a little before 90 °F: the safe side.
    expect(LONGEST_OUT.hotRoom.celsius).toBeLessThan(celsiusOfFahrenheit(90));
  });

  it('FDA Food Code 3-501.16(A): hot holding at 135 °F (57 °C), cold holding at 41 °F (5 °C)', () => {
    sameTemperature(TRADE_ZONE.high, { F: 135, C: 57 });
    sameTemperature(TRADE_ZONE.low, { F: 41, C: 5 });
  });

  it('FDA Food Code 3-501.14(A): 135 °F to 70 °F (21 °C) within 2 h, to 41 °F (5 °C) within 6 h in all', () => {
    sameTemperature(COOLING.from, { F: 135, C: 57 });
    sameTemperature(COOLING.first, { F: 70, C: 21 });
    sameTemperature(COOLING.cold, { F: 41, C: 5 });
    expect([COOLING.first.minutes, COOLING.cold.minutes]).toEqual([2 * 60, 6 * 60]);
  });

  it('FDA Food Code 3-501.19(B): 4 h by time alone, from at least 135 °F or at most 41 °F (fc-tphc-4)', () => {
    expect(LONGEST_IN_TRADE).toBe(4 * 60);
    expect([TRADE_ZONE.high.fahrenheit, TRADE_ZONE.low.fahrenheit]).toEqual([135, 41]);
  });

  it('USDA FSIS, Cooking Guideline (2021): 6 h between 50 and 130 °F while heating (fsis-heating-come-up)', () => {
    sameTemperature(COME_UP.low, { F: 50, C: 10 });
    expect(COME_UP.high.fahrenheit).toBe(130);
    expect(COME_UP.minutes).toBe(6 * 60);
  });
});

describe('minutes held against them', () => {
  /** All through at one temperature, for an hour. */
  const steady = (celsius: number): DishCurve => ({
    minutes: [0, 60],
    celsius: [celsius, celsius],
    surface: [celsius, celsius],
  });
  const minutesAt = (celsius: number, zone: typeof DANGER_ZONE | typeof TRADE_ZONE): number =>
    zoneStretches(steady(celsius), true, zone)!.reduce((sum, { start, end }) => sum + end - start, 0);

  it('USDA FSIS, "Danger Zone" fact sheet: between 4 and 60 °C, not at them (usda-danger-zone, usda-hot-hold)', () => {
    expect([3, 4, 4.5, 21, 59.9, 60, 75].map((celsius) => minutesAt(celsius, DANGER_ZONE))).toEqual([
      0, 0, 60, 60, 60, 0, 0,
    ]);
  });

  it('FDA Food Code 3-501.16(A): between 5 and 57 °C (fc-cold-hold, fc-hot-hold)', () => {
    expect([4.5, 5, 6, 56.9, 57, 59].map((celsius) => minutesAt(celsius, TRADE_ZONE))).toEqual([0, 0, 60, 60, 0, 0]);
  });

  it('USDA FSIS, the same: two hours in a room of up to 31 °C, one from 32 °C (usda-2h, usda-1h)', () => {
    expect([4, 21, 31.9, 32, 38].map(longestOut)).toEqual([120, 120, 120, 60, 60]);
  });

  it('USDA FSIS, Cooking Guideline (2021): coming up counts at the surface of intact pieces, else at the centre', () => {
    // The centre needs 500 minutes from 0 to 62.2 °C, of which 44.44 / 62.22 lie between the limits.
    const slow: DishCurve = { minutes: [0, 500], celsius: [0, 62.2222], surface: [0, 124.4444] };
    expect(comeUpOf(slow, false)).toBeCloseTo((500 * 44.4444) / 62.2222, 2);
    expect(comeUpOf(slow, true)).toBeCloseTo((250 * 44.4444) / 62.2222, 2);
    // Without a surface the centre stands for it.
    expect(comeUpOf({ minutes: slow.minutes, celsius: slow.celsius }, true)).toBeCloseTo(357.14, 1);
  });
});
