import { describe, expect, it } from 'vitest';
import { FOODS } from '../../src/heat/composition.js';
import {
  conductivityOf,
  constantMatter,
  densityOf,
  diffusivityOf,
  enthalpyOf,
  heatAt,
  heatCapacityOf,
  matterOf,
  stateAt,
} from '../../src/heat/properties.js';

const pork = FOODS.pork.composition;

describe('properties by composition', () => {
  it('take shares of the sum, whatever it is', () => {
    const { water, protein, fat, carbohydrate, fibre, ash } = pork;
    const doubled = {
      water: 2 * water,
      protein: 2 * protein,
      fat: 2 * fat,
      carbohydrate: 2 * carbohydrate,
      fibre: 2 * fibre,
      ash: 2 * ash,
    };
    for (const of of [conductivityOf, densityOf, heatCapacityOf, diffusivityOf, enthalpyOf]) {
      expect(of(doubled, 40)).toBeCloseTo(of(pork, 40), 9);
    }
  });

  it('stay as they are beyond 0 and 150 °C', () => {
    for (const of of [conductivityOf, densityOf, heatCapacityOf, diffusivityOf]) {
      expect(of(pork, -10)).toBe(of(pork, 0));
      expect(of(pork, 220)).toBe(of(pork, 150));
    }
  });

  it('enthalpy is the integral of the heat capacity', () => {
    expect(enthalpyOf(pork, 0)).toBe(0);
    for (const celsius of [-20, -0.5, 10, 60, 149.99, 150.5, 300]) {
      const slope = (enthalpyOf(pork, celsius + 0.001) - enthalpyOf(pork, celsius - 0.001)) / 0.002;
      expect(slope / heatCapacityOf(pork, celsius)).toBeCloseTo(1, 6);
    }
  });
});

describe('the table', () => {
  const matter = matterOf(pork);

  it('goes from heat to temperature and back', () => {
    for (let celsius = -45; celsius < 420; celsius += 0.37) {
      expect(stateAt(matter, heatAt(matter, celsius)).celsius).toBeCloseTo(celsius, 9);
    }
  });

  it('is the formulas’ own, within 2e-4 K and 1e-4 of the conductivity', () => {
    for (let celsius = 2; celsius < 148; celsius += 0.37) {
      const state = stateAt(matter, matter.density * enthalpyOf(pork, celsius));
      expect(Math.abs(state.celsius - celsius)).toBeLessThan(2e-4);
      expect(Math.abs(state.conductivity / conductivityOf(pork, celsius) - 1)).toBeLessThan(1e-4);
      expect(Math.abs(state.capacity / (matter.density * heatCapacityOf(pork, celsius)) - 1)).toBeLessThan(5e-4);
    }
    expect(matter.density).toBe(densityOf(pork, 20));
  });

  it('of a constant substance is exact', () => {
    const state = stateAt(constantMatter(1060, 3500, 0.47), 1060 * 3500 * 54.4);
    expect(state.celsius).toBeCloseTo(54.4, 9);
    expect(state.conductivity).toBe(0.47);
    expect(state.capacity).toBeCloseTo(1060 * 3500, 4);
    expect(() => constantMatter(1060, 0, 0.47)).toThrow(RangeError);
  });
});
