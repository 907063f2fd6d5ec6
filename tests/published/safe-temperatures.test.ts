/**
 * The figures behind the cautions, against the publications that print them. Each figure was copied from the publication
 * that stands beside it; °C within 0.3 of the exact conversion, as FSIS prints tenths and others whole degrees.
 */
import { describe, expect, it } from 'vitest';
import {
  CORE_FIGURES,
  type CoreKind,
  HIGHEST_CORE,
  meets,
  type Printed,
  PUBLICATIONS,
} from '../../src/safety/published.js';
import { celsiusOfFahrenheit } from '../../src/units/temperature.js';

/** Whole °C differ by up to half a degree from the °F that they stand for. */
const sameTemperature = ({ fahrenheit, celsius }: Printed, printed: { F: number; C: number }): void => {
  expect(fahrenheit).toBe(printed.F);
  expect(Math.abs(celsius - printed.C)).toBeLessThanOrEqual(0.3);
  expect(Math.abs(celsius - celsiusOfFahrenheit(fahrenheit))).toBeLessThanOrEqual(0.5);
};

const FSIS: readonly (readonly [kind: CoreKind, F: number, C: number, rest: number])[] = [
  ['red meat', 145, 62.8, 3],
  ['meat', 145, 62.8, 3],
  ['pork', 145, 62.8, 3],
  ['raw ham', 145, 62.8, 3],
  ['cooked ham', 165, 73.9, 0],
  ['ground meat', 160, 71.1, 0],
  ['ground poultry', 165, 73.9, 0],
  ['poultry', 165, 73.9, 0],
  ['stuffing', 165, 73.9, 0],
  ['leftovers', 165, 73.9, 0],
  ['casserole', 165, 73.9, 0],
  ['eggs', 160, 71.1, 0],
  ['fish', 145, 62.8, 0],
  ['shellfish', 145, 62.8, 0],
];

describe('core temperatures and rests', () => {
  it.each(FSIS)(
    'USDA FSIS, Safe Minimum Internal Temperature Chart: %s %d °F (%d °C), rest %d min',
    (kind, F, C, rest) => {
      const figure = CORE_FIGURES[kind];
      sameTemperature(figure, { F, C });
      expect(figure.rest).toBe(rest);
      expect(figure.publication).toBe(PUBLICATIONS.coreChart);
      expect(meets(C, figure)).toBe(true);
      expect(meets(celsiusOfFahrenheit(F), figure)).toBe(true);
      expect(meets(celsiusOfFahrenheit(F - 1), figure)).toBe(false);
    },
  );

  it('USDA FSIS chart: ham packed cooked in an inspected plant, 140 °F (60 °C)', () => {
    expect(CORE_FIGURES['cooked ham'].or).toContain('60 °C (140 °F)');
    expect(celsiusOfFahrenheit(140)).toBeCloseTo(60, 9);
  });

  it('Health Canada, Safe Internal Cooking Temperatures (2012-12-21): game 74 °C (165 °F), no rest', () => {
    sameTemperature(CORE_FIGURES.game, { F: 165, C: 74 });
    expect(CORE_FIGURES.game).toMatchObject({ rest: 0, publication: PUBLICATIONS.canada });
  });

  it.each([
    ['pork', 71, 160],
    ['raw ham', 71, 160],
    ['fish', 70, 158],
    ['shellfish', 74, 165],
    ['eggs', 74, 165],
    ['poultry', 82, 180],
  ] as const)(
    'Health Canada (2012-12-21, whole birds by the later chart) is stricter: %s %d °C (%d °F)',
    (kind, C, F) => {
      expect(CORE_FIGURES[kind].stricter).toContain(`Health Canada asks ${C} °C (${F} °F)`);
      expect(Math.abs(C - celsiusOfFahrenheit(F))).toBeLessThanOrEqual(0.5);
      expect(C).toBeGreaterThanOrEqual(CORE_FIGURES[kind].celsius);
    },
  );

  it('has no figure above the one that clears every name', () => {
    for (const figure of Object.values(CORE_FIGURES)) expect(meets(HIGHEST_CORE.celsius, figure)).toBe(true);
  });
});

describe('what is only from memory', () => {
  it('is said to be', () => {
    const remembered = Object.values(PUBLICATIONS).filter(({ obtained }) => obtained === 'from memory');
    expect(remembered.map(({ name }) => name).sort()).toEqual(['FDA Food Code 3-302.11', 'NFPA, grilling safety']);
  });
});
