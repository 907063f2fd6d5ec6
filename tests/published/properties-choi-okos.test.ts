/**
 * Thermal properties by composition (Choi and Okos, 1986) against the figures of thermophysical.json, and those against measured ones.
 */
import { describe, expect, it } from 'vitest';
import { type Composition, FOODS } from '../../src/heat/composition.js';
import {
  COMPONENTS,
  conductivityOf,
  densityOf,
  diffusivityOf,
  enthalpyOf,
  heatCapacityOf,
} from '../../src/heat/properties.js';

const NOTHING: Composition = { water: 0, protein: 0, fat: 0, carbohydrate: 0, fibre: 0, ash: 0 };

/** Within half of the last digit printed, and a little. */
const expectDigits = (got: number, printed: number, digits: number): void => {
  expect(Math.abs(got - printed)).toBeLessThanOrEqual(0.51 * 10 ** -digits);
};

describe('components by themselves (thermophysical.json, choi_okos_consistency, computed)', () => {
  it.each([
    ['protein', 20, 0.20164, 1319.53, 2.0319, 0.07764],
    ['protein', 60, 0.24077, 1298.8, 2.076, 0.09199],
    ['fat', 20, 0.17512, 917.24, 2.0117, 0.09625],
    ['fat', 60, 0.16351, 900.54, 2.0553, 0.0911],
    ['carbohydrate', 20, 0.22743, 1592.89, 1.5857, 0.09052],
    ['carbohydrate', 60, 0.26906, 1580.47, 1.6452, 0.10431],
    ['fibre', 20, 0.20704, 1304.18, 1.8807, 0.08347],
    ['fibre', 60, 0.24689, 1289.55, 1.939, 0.09712],
    ['ash', 20, 0.35648, 2418.19, 1.1289, 0.13158],
    ['ash', 60, 0.40322, 2406.96, 1.1927, 0.14259],
    ['water', 20, 0.60366, 995.74, 4.1766, 0.14321],
    ['water', 60, 0.65271, 983.84, 4.1905, 0.16052],
  ] as const)('%s at %d °C', (component, celsius, conductivity, density, heatCapacity, diffusivity) => {
    const pure = { ...NOTHING, [component]: 1 };
    expectDigits(conductivityOf(pure, celsius), conductivity, 5);
    expectDigits(densityOf(pure, celsius), density, 2);
    expectDigits(heatCapacityOf(pure, celsius) / 1000, heatCapacity, 4);
    // The authors' own fits of diffusivity; a wrong exponent in the conductivity of fat would be off by a third.
    expect(Math.abs((diffusivityOf(pure, celsius) * 1e6) / diffusivity - 1)).toBeLessThan(0.033);
  });

  it('water at 20 °C holds 4.182 kJ/kgK by the steam tables (disagreements_between_copies: 4.1762, not 4.1289)', () => {
    expect(Math.abs(heatCapacityOf({ ...NOTHING, water: 1 }, 20) - 4182)).toBeLessThan(10);
    expect(COMPONENTS.water.heatCapacity[0]).toBe(4176.2);
    expect(COMPONENTS.fat.conductivity[1]).toBe(-2.7604e-4);
    expect(COMPONENTS.fibre.heatCapacity[1]).toBe(1.8306);
  });
});

type Row = readonly [density: number, heatCapacity: number, conductivity: number, diffusivity: number];

/** By food: kJ/kgK as ASHRAE prints it, and properties at 20 and 60 °C. */
const BY_COMPOSITION: readonly (readonly [keyof typeof FOODS, number, Row, Row])[] = [
  ['beef', 3.53, [1054.35, 3.5835, 0.51113, 0.13528], [1040.76, 3.6058, 0.55501, 0.14789]],
  ['beefRound', 3.52, [1055.75, 3.5583, 0.50638, 0.13479], [1042.08, 3.581, 0.54984, 0.14735]],
  ['veal', 3.65, [1051.95, 3.6486, 0.5237, 0.13645], [1038.56, 3.67, 0.56887, 0.14925]],
  ['lamb', 3.62, [1051.19, 3.6068, 0.51473, 0.13576], [1037.68, 3.6288, 0.5587, 0.14837]],
  ['pork', 3.59, [1045.62, 3.5737, 0.50574, 0.13534], [1032.01, 3.5961, 0.54795, 0.14765]],
  ['chicken', 4.34, [1034.25, 3.4308, 0.47202, 0.13303], [1020.25, 3.4552, 0.50885, 0.14435]],
  ['turkey', 3.53, [1046.56, 3.5364, 0.4981, 0.13458], [1032.83, 3.5593, 0.53956, 0.14677]],
  ['cod', 3.78, [1047.63, 3.7484, 0.54281, 0.13823], [1034.54, 3.7684, 0.5898, 0.15129]],
  ['salmon', 3.68, [1051.08, 3.6422, 0.52233, 0.13644], [1037.67, 3.6637, 0.56714, 0.14918]],
  ['egg', 3.63, [1028.84, 3.6315, 0.51239, 0.13714], [1015.51, 3.6532, 0.55321, 0.14912]],
  ['carrot', 3.92, [1038.67, 3.87, 0.57157, 0.14219], [1026.46, 3.8893, 0.61989, 0.15527]],
  ['potato', 3.67, [1076.96, 3.6418, 0.54848, 0.13984], [1064.55, 3.6649, 0.59647, 0.15288]],
];

describe('foods by composition (thermophysical.json, foods_by_composition: ASHRAE Refrigeration, Table 3)', () => {
  it.each(BY_COMPOSITION)('%s: as computed there', (name, _, ...rows) => {
    const { composition } = FOODS[name];
    for (const [i, celsius] of [20, 60].entries()) {
      const [density, heatCapacity, conductivity, diffusivity] = rows[i]!;
      expectDigits(densityOf(composition, celsius), density, 2);
      expectDigits(heatCapacityOf(composition, celsius) / 1000, heatCapacity, 4);
      expectDigits(conductivityOf(composition, celsius), conductivity, 5);
      expectDigits(diffusivityOf(composition, celsius) * 1e6, diffusivity, 5);
    }
  });

  // The printed heat capacity of chicken is above that of water, and cannot be right.
  it.each(BY_COMPOSITION.filter(([name]) => name !== 'chicken'))(
    '%s: heat capacity within 0.06 kJ/kgK of the printed %f',
    (name, printed) => {
      expect(Math.abs(heatCapacityOf(FOODS[name].composition, 20) / 1000 - printed)).toBeLessThan(0.06);
    },
  );
});

describe('measured figures, which scatter', () => {
  it.each([
    ['beef, round', 'beefRound', 52, 0.133],
    ['halibut', 'cod', 52, 0.147],
    ['codfish', 'cod', 5, 0.122],
    ['ham, smoked', 'ham', 5, 0.118],
  ] as const)(
    'diffusivity of %s within 15 per cent (thermophysical.json, diffusivities: Singh, 1982)',
    (_, name, celsius, measured) => {
      expect(Math.abs((diffusivityOf(FOODS[name].composition, celsius) * 1e6) / measured - 1)).toBeLessThan(0.15);
    },
  );

  it.each([
    ['beef, lean', 'beef', 3, 0.506],
    ['veal', 'veal', 6, 0.476],
    ['pork, lean leg', 'pork', 4, 0.478],
    ['turkey breast', 'turkey', 3, 0.496],
    ['cod', 'cod', 3, 0.534],
    ['salmon', 'salmon', 4, 0.502],
  ] as const)(
    'conductivity of %s within 8 per cent (thermophysical.json, conductivities: Lentz, 1961, from memory)',
    (_, name, celsius, measured) => {
      expect(Math.abs(conductivityOf(FOODS[name].composition, celsius) / measured - 1)).toBeLessThan(0.08);
    },
  );

  it.each([
    ['beef, lean', 'beef', 3.43],
    ['poultry, fresh', 'chicken', 3.31],
    ['carrot', 'carrot', 3.87],
    ['potatoes', 'potato', 3.52],
  ] as const)(
    'mean heat capacity of %s from 0 to 100 °C within 6 per cent (thermophysical.json, specific_heats: Geankoplis, A.4-1)',
    (_, name, printed) => {
      expect(Math.abs(enthalpyOf(FOODS[name].composition, 100) / 1e5 / printed - 1)).toBeLessThan(0.06);
    },
  );
});
