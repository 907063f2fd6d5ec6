/**
 * Times at a temperature against the tables that print them, row by row, and integrals along curves. Figures are copied from
 * the publication named in each title; those that were computed from it say how.
 */
import { describe, expect, it } from 'vitest';
import type { Curve } from '../../src/safety/curve.js';
import { holdAt, lethalityOf } from '../../src/safety/lethality.js';
import {
  CHICKEN,
  FAT_CHICKEN_140,
  GROUND_MEAT,
  LEAN_CHICKEN,
  LEAN_TURKEY,
  type LethalityTable,
  MEAT,
  MEAT_7,
  TURKEY,
} from '../../src/safety/lethality-tables.js';
import { COME_UP } from '../../src/safety/published.js';
import { celsiusOfFahrenheit } from '../../src/units/temperature.js';

const secondsAt = (table: LethalityTable, fahrenheit: number): number =>
  holdAt(table, celsiusOfFahrenheit(fahrenheit)) * 60;
const steady = (celsius: number, minutes: number): Curve => ({ minutes: [0, minutes], celsius: [celsius, celsius] });

/** °F, °C as printed, seconds for 6.5 and for 7 log10. */
const APPENDIX_A: readonly (readonly [F: number, C: number, s65: number, s7: number])[] = [
  [130, 54.4, 6720, 7260],
  [131, 55.0, 5340, 5820],
  [132, 55.6, 4260, 4620],
  [133, 56.1, 3360, 3720],
  [134, 56.7, 2700, 2820],
  [135, 57.2, 2160, 2220],
  [136, 57.8, 1680, 1920],
  [137, 58.4, 1380, 1440],
  [138, 58.9, 1080, 1140],
  [139, 59.5, 900, 900],
  [140, 60.0, 720, 720],
  [141, 60.6, 540, 600],
  [142, 61.1, 480, 480],
  [143, 61.7, 360, 360],
  [144, 62.2, 300, 300],
  [145, 62.8, 240, 240],
  [146, 63.3, 169, 182],
  [147, 63.9, 134, 144],
  [148, 64.4, 107, 115],
  [149, 65.0, 85, 91],
  [150, 65.6, 67, 72],
  [151, 66.1, 54, 58],
  [152, 66.7, 43, 46],
  [153, 67.2, 34, 37],
  [154, 67.8, 27, 29],
  [155, 68.3, 22, 23],
  [156, 68.9, 17, 19],
  [157, 69.4, 14, 15],
  [158, 70.0, 0, 0],
  [159, 70.6, 0, 0],
  [160, 71.1, 0, 0],
];

describe('the meat table', () => {
  it.each(APPENDIX_A)(
    'USDA FSIS, Appendix A (1999) table 1, %d °F (%d °C): %d s for 6.5 log10, %d s for 7 (lethality.json, beef_table)',
    (F, C, s65, s7) => {
      const celsius = celsiusOfFahrenheit(F);
      expect(Math.abs(celsius - C)).toBeLessThan(0.1);
      for (const [table, seconds] of [
        [MEAT, s65],
        [MEAT_7, s7],
      ] as const) {
        expect(secondsAt(table, F)).toBeCloseTo(seconds, 6);
        const held = lethalityOf(steady(celsius, seconds / 60), table);
        expect(held.share).toBeCloseTo(1, 6);
        expect(held.logs).toBeCloseTo(held.required, 5);
        expect(held.reached).toBeCloseTo(seconds / 60, 6);
        if (seconds > 0) expect(lethalityOf(steady(celsius, (seconds - 1) / 60), table).reached).toBeNull();
      }
    },
  );

  it('begins at 130 °F: less is credited with nothing, however long', () => {
    expect(secondsAt(MEAT, 129.9)).toBe(Number.POSITIVE_INFINITY);
    expect(lethalityOf(steady(celsiusOfFahrenheit(129.9), 100_000), MEAT)).toMatchObject({ logs: 0, reached: null });
  });

  it('FDA Food Code 3-401.11(B)(2), 2005 and later: the same times (time-temperature-control.json, food_code_roast_hold_table)', () => {
    const printed: readonly (readonly [F: number, s: number])[] = [
      [130, 6720],
      [131, 5340],
      [133, 3360],
      [135, 2160],
      [136, 1680],
      [138, 1080],
      [140, 720],
      [142, 480],
      [144, 300],
      [145, 240],
      [147, 134],
      [149, 85],
      [151, 54],
      [153, 34],
      [155, 22],
      [157, 14],
      [158, 0],
    ];
    for (const [F, s] of printed) expect(secondsAt(MEAT, F)).toBeCloseTo(s, 6);
  });

  it('is 67 s x 10^((150 - °F)/10), z = 10 °F, rounded up to the unit printed, but at 136 °F, where 28.05 min is printed as 28 (computed; lethality.json, implied_kinetics_closed_form)', () => {
    const odd = APPENDIX_A.filter(([F, , seconds]) => {
      if (seconds === 0) return false;
      const unit = F < 146 ? 60 : 1;
      return Math.ceil((67 * 10 ** ((150 - F) / 10)) / unit - 1e-9) * unit !== seconds;
    });
    expect(odd.map(([F]) => F)).toEqual([136]);
  });

  it('lies between its rows at or above that line, and near it', () => {
    for (let F = 130; F < 157; F += 0.1) {
      const line = 67 * 10 ** ((150 - F) / 10);
      // 136 °F is printed as 28 min; the line gives 28.05.
      expect(secondsAt(MEAT, F)).toBeGreaterThan(line * 0.998);
      expect(secondsAt(MEAT, F)).toBeLessThan(F < 146 ? line + 60 : line * 1.05);
    }
  });
});

describe('ground meat', () => {
  it('FDA Food Code 3-401.11(A)(2): no time below 145 °F, and never less than its 3 min, 1 min, 17 s (15 s before 2017) and at once (safe-temperatures.json, equivalents)', () => {
    expect(secondsAt(GROUND_MEAT, 144.9)).toBe(Number.POSITIVE_INFINITY);
    for (const [F, s] of [
      [145, 180],
      [150, 60],
      [155, 17],
      [158, 0],
    ] as const)
      expect(secondsAt(GROUND_MEAT, F)).toBeGreaterThanOrEqual(s);
    expect(secondsAt(GROUND_MEAT, 158)).toBe(0);
  });
});

describe('the poultry tables', () => {
  it.each([
    [136, 3798, 3840],
    [140, 1512, 1686],
    [145, 504, 630],
    [150, 162, 228],
    [155, 44.2, 72],
    [160, 13.7, 25.6],
  ])(
    'USDA FSIS, Time-Temperature Tables for Cooking Ready-to-Eat Poultry (2005), 1 %% fat, %d °F: chicken %d s, turkey %d s (lethality.json, poultry_rows)',
    (F, chicken, turkey) => {
      expect(secondsAt(LEAN_CHICKEN, F)).toBeCloseTo(chicken, 6);
      expect(secondsAt(LEAN_TURKEY, F)).toBeCloseTo(turkey, 6);
      expect(lethalityOf(steady(celsiusOfFahrenheit(F), turkey / 60), LEAN_TURKEY).logs).toBeCloseTo(7, 5);
    },
  );

  it('the same tables: chicken with 12 % fat, which is for unknown fat as well, 35 min at 140 °F (lethality.json, poultry_rows)', () => {
    expect(FAT_CHICKEN_140).toEqual({ fahrenheit: 140, seconds: 2100 });
    expect(secondsAt(CHICKEN, 140)).toBeCloseTo(2100, 6);
    expect(lethalityOf(steady(60, 35), CHICKEN).reached).toBeCloseTo(35, 9);
    expect(lethalityOf(steady(60, 34.9), CHICKEN).reached).toBeNull();
  });

  it('USDA FSIS, Cooking Guideline (2021): at 160 °F 13.7 to 26.9 s, by species and fat; the longest is not undercut for birds of any kind', () => {
    expect(secondsAt(LEAN_CHICKEN, 160)).toBe(13.7);
    expect(secondsAt(TURKEY, 160)).toBeGreaterThanOrEqual(26.9);
  });

  it('the same tables: 165 °F is below 10 s for every species and fat, and counts as at once; no row below 136 °F', () => {
    for (const table of [CHICKEN, TURKEY, LEAN_CHICKEN, LEAN_TURKEY]) {
      expect(secondsAt(table, 165)).toBe(0);
      expect(secondsAt(table, 164)).toBeGreaterThan(10);
      expect(secondsAt(table, 135.9)).toBe(Number.POSITIVE_INFINITY);
    }
  });

  it('USDA FSIS, the same: never the beef column of 7 log10, which is shorter in every row', () => {
    for (let F = 136; F < 165; F++) {
      expect(secondsAt(LEAN_CHICKEN, F)).toBeGreaterThan(secondsAt(MEAT_7, F));
      expect(secondsAt(TURKEY, F)).toBeGreaterThanOrEqual(secondsAt(CHICKEN, F));
    }
  });

  it.each([
    ['Listeria monocytogenes', 57.8, 2.6],
    ['Listeria monocytogenes', 62.8, 0.6],
    ['Salmonella Typhimurium', 60, 1.4],
  ])(
    'Thermal Food Processing (Sun, ed.), table 7.1: seven times the D of %s at %d °C, %d min, is within the turkey’s time (lethality.json, other_D_values; the columns of the copy are not quite certain)',
    (_, celsius, d) => {
      expect(holdAt(LEAN_TURKEY, celsius)).toBeGreaterThan(7 * d);
    },
  );
});

describe('integrals along a curve', () => {
  /** One straight line from freezing to 90 °C, as a table of two rows: D is 103.08 s at 140 °F, z is 10 °F. */
  const line: LethalityTable = {
    ...MEAT,
    logs: 1,
    rows: [32, 194].map((fahrenheit) => ({ fahrenheit, seconds: 103.08 * 10 ** ((140 - fahrenheit) / 10) })),
    atOnce: 194,
  };
  const curveOf = (points: readonly (readonly [minute: number, celsius: number])[]): Curve => ({
    minutes: points.map(([minute]) => minute),
    celsius: Float64Array.from(points, ([, celsius]) => celsius),
  });
  const FIRST = curveOf([
    [0, 50],
    [20, 54.44],
    [60, 57.22],
    [80, 60],
    [100, 60],
  ]);
  const SECOND = curveOf([
    [0, 40],
    [60, 60],
    [75, 66],
    [90, 66],
    [120, 55],
  ]);

  it.each([
    ['first', 40.2893, 23.4513, FIRST],
    ['second', 332.3465, 193.4496, SECOND],
  ])(
    'the %s of lethality_integral_examples: %d min at 60 °C, %d log10 (lethality.json, computed there as a trapezoid of 200,001 points with D 103.08 s at 60 °C, z 5.5556 °C)',
    (_, minutes, logs, curve) => {
      const held = lethalityOf(curve, line, 60);
      expect(held.equivalent.minutes / minutes).toBeCloseTo(1, 4);
      expect(held.logs / logs).toBeCloseTo(1, 4);
    },
  );

  it('are less by the table, which is rounded up and credits nothing below 54.4 °C', () => {
    for (const curve of [FIRST, SECOND]) {
      const [table, straight] = [lethalityOf(curve, MEAT), lethalityOf(curve, line, 60)];
      expect(table.logs).toBeLessThan(straight.logs);
      expect(table.logs).toBeGreaterThan(0.85 * straight.logs);
    }
  });
});

describe('coming up to heat', () => {
  it('USDA FSIS, Cooking Guideline (2021): 6 h at most between 50 and 130 °F (time-temperature-control.json, fsis-heating-come-up)', () => {
    expect([COME_UP.low.fahrenheit, COME_UP.high.fahrenheit, COME_UP.minutes]).toEqual([50, 130, 6 * 60]);
  });
});
