/** Temperatures in °C, and how fast an appliance changes its own in °C a minute. */
import { type Parsed, parseMeasure, parseMeasureSpan, refuse, type Scale, unitsOf, type Written } from './measure.js';

export type Degree = 'C' | 'F';

/** °F to °C, in full double precision; every °F in the program comes through here. */
export const celsiusOfFahrenheit = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;
export const fahrenheitOfCelsius = (celsius: number): number => celsius * 1.8 + 32;

const TEMPERATURE: Scale = {
  noun: 'a temperature',
  examples: '165C or 330F',
  units: unitsOf([
    { symbol: 'C', spellings: ['c', '°c', '℃'], toBase: (count) => count },
    { symbol: 'F', spellings: ['f', '°f', '℉'], toBase: celsiusOfFahrenheit },
  ]),
  proposals: ['C', 'F'],
  compound: false,
  low: -80,
  high: 800,
  bounds: 'a kitchen has -80C to 800C',
  settle: (value) => value,
  whole: '',
};

const RATE: Scale = {
  ...TEMPERATURE,
  noun: 'a change of temperature a minute',
  examples: '11C/min or 20F/min',
  units: unitsOf([
    { symbol: 'C/min', spellings: ['c/min', '°c/min', '℃/min', 'c/m'], toBase: (count) => count },
    { symbol: 'F/min', spellings: ['f/min', '°f/min', '℉/min', 'f/m'], toBase: (count) => count / 1.8 },
  ]),
  proposals: ['C/min', 'F/min'],
  low: 0.01,
  high: 1000,
  bounds: 'it is above 0 and at most 1000C/min',
};

const STEP: Scale = {
  ...TEMPERATURE,
  noun: 'the step of a dial',
  examples: '5C or 25F',
  units: unitsOf([
    { symbol: 'C', spellings: ['c', '°c', '℃'], toBase: (count) => count },
    { symbol: 'F', spellings: ['f', '°f', '℉'], toBase: (count) => count },
  ]),
  low: 0.5,
  high: 200,
  bounds: 'a dial goes in steps of 0.5 to 200 degrees',
};

export interface TemperatureSpan {
  /** °C. */
  readonly low: number;
  readonly high: number;
  /** The unit it was written in. */
  readonly degree: Degree;
}

/** `165C`, `165 °C`, `330F`; °C. */
export function parseTemperature(text: Written): Parsed<{ celsius: number; degree: Degree }> {
  const parsed = parseMeasure(TEMPERATURE, text);
  return parsed.ok
    ? { ok: true, value: { celsius: parsed.value.value, degree: parsed.value.unit.symbol as Degree } }
    : parsed;
}

/** `150-180C`, `300F-350F`, or one temperature for both ends; °C. */
export function parseTemperatureSpan(text: Written): Parsed<TemperatureSpan> {
  const parsed = parseMeasureSpan(TEMPERATURE, text);
  if (!parsed.ok) return parsed;
  const { low, high, unit } = parsed.value;
  return { ok: true, value: { low, high, degree: unit.symbol as Degree } };
}

/** `11C/min`, `20F/min`; °C a minute. */
export function parseRate(text: Written): Parsed<number> {
  const parsed = parseMeasure(RATE, text);
  return parsed.ok ? { ok: true, value: parsed.value.value } : parsed;
}

/** `5C`, `25F`: the step of a dial in its own degrees, not converted. */
export function parseDial(text: Written): Parsed<{ unit: Degree; step: number }> {
  const parsed = parseMeasure(STEP, text);
  if (!parsed.ok) return parsed;
  if (!Number.isInteger(parsed.value.value * 2)) {
    return refuse(`\`${text}\` is not the step of a dial: whole or half degrees are.`, STEP.examples);
  }
  return { ok: true, value: { unit: parsed.value.unit.symbol as Degree, step: parsed.value.value } };
}
