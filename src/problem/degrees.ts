/** Heats in the degrees that a meal's file asks for. */
import { showCore, showTemperature, showTemperatureSpan } from '../units/show.js';
import type { Degree } from '../units/temperature.js';
import type { ProblemAsRead as Problem } from './problem.js';

type Asking = Pick<Problem, 'units'>;

/** The degrees asked for, else those of the dial, else °C. */
export const degreeFor = ({ units }: Asking, dial: Degree = 'C'): Degree => units.heat ?? dial;

const withOther = ({ units }: Asking, degree: Degree, told: string, celsius: number): string =>
  units.both ? `${told} (${showCore(celsius, degree === 'C' ? 'F' : 'C')})` : told;

/** `165 °C`, or where both are asked for `165 °C (329 °F)`. What was not written in these degrees is told in whole ones. */
export function showHeat(problem: Asking, celsius: number, dial?: Degree): string {
  const degree = degreeFor(problem, dial);
  return withOther(problem, degree, shortHeat(problem, celsius, dial), celsius);
}

/** The same without brackets, for where there is little room. */
export function shortHeat(problem: Asking, celsius: number, dial?: Degree): string {
  const degree = degreeFor(problem, dial);
  return degree === (dial ?? 'C') ? showTemperature(celsius, degree) : showCore(celsius, degree);
}

/** `150-180 °C`. */
export function showHeatSpan(problem: Asking, low: number, high: number, dial?: Degree): string {
  const degree = degreeFor(problem, dial);
  const told = showTemperatureSpan(low, high, degree);
  return problem.units.both ? `${told} (${showTemperatureSpan(low, high, degree === 'C' ? 'F' : 'C')})` : told;
}

/** A core, as a thermometer is read: `57 °C`, or `57 °C (135 °F)`. */
export function showCoreHeat(problem: Asking, celsius: number, dial?: Degree): string {
  const degree = degreeFor(problem, dial);
  return withOther(problem, degree, showCore(celsius, degree), celsius);
}
