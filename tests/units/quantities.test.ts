import { describe, expect, it } from 'vitest';
import { parseDuration, parseDurationSpan } from '../../src/units/duration.js';
import { lengthUnitOf, parseLength, parseLengthSpan, parseSize } from '../../src/units/length.js';
import { type Parsed, quote, shown } from '../../src/units/measure.js';
import {
  celsiusOfFahrenheit,
  fahrenheitOfCelsius,
  parseDial,
  parseRate,
  parseTemperature,
  parseTemperatureSpan,
} from '../../src/units/temperature.js';
import { parseWeight, weightUnitOf } from '../../src/units/weight.js';

/** The value, or the refusal as `say | hint`. */
const out = <T>(parsed: Parsed<T>) => (parsed.ok ? parsed.value : `${parsed.say} | ${parsed.hint}`);

describe('a temperature', () => {
  it.each([
    ['163C', 163],
    ['163 C', 163],
    ['163°C', 163],
    ['163 °C', 163],
    ['163 ℃', 163],
    ['163c', 163],
    ['162.5C', 162.5],
    ['-18C', -18],
    ['212F', 100],
    ['32 °F', 0],
    ['325F', (325 - 32) / 1.8],
  ])('%s', (text, celsius) => {
    expect(out(parseTemperature(text))).toMatchObject({ celsius });
  });

  it.each([
    [325, '`325` needs a unit. | 325C or 325F'],
    ['325', '`325` needs a unit. | 325C or 325F'],
    ['325K', '`325K` is not a temperature. | 165C or 330F'],
    ['hot', '`hot` is not a temperature. | 165C or 330F'],
    ['', '`` is not a temperature. | 165C or 330F'],
    ['150-180C', '`150-180C` is not a temperature. | 165C or 330F'],
    ['1e9C', '`1e9C` is not a temperature. | 165C or 330F'],
    ['900C', '`900C` is out of bounds: a kitchen has -80C to 800C. | 165C or 330F'],
    [Number.NaN, '`NaN` is not a temperature. | 165C or 330F'],
  ])('refuses %s', (text, refusal) => {
    expect(out(parseTemperature(text))).toBe(refusal);
  });

  it.each([
    ['150-180C', 150, 180, 'C'],
    ['150C-180C', 150, 180, 'C'],
    ['150 – 180 °C', 150, 180, 'C'],
    ['150 to 180C', 150, 180, 'C'],
    ['165C', 165, 165, 'C'],
    ['-18--12C', -18, -12, 'C'],
    ['212-392F', 100, 200, 'F'],
  ])('range %s', (text, low, high, degree) => {
    expect(out(parseTemperatureSpan(text))).toEqual({ low, high, degree });
  });

  it.each([
    ['180-150C', '`180-150C` runs backwards: the low end comes first. | 150C - 180 C'],
    ['150-180', '`150-180` needs a unit. | 150-180C or 150-180F'],
    ['150-180-200C', '`150-180-200C` is not a temperature. | 165C or 330F'],
    ['-', '`-` is not a temperature. | 165C or 330F'],
  ])('refuses the range %s', (text, refusal) => {
    expect(out(parseTemperatureSpan(text))).toBe(refusal);
  });

  it('goes from °F to °C and back without loss where a dial has marks', () => {
    for (let fahrenheit = 100; fahrenheit <= 550; fahrenheit += 5) {
      expect(fahrenheitOfCelsius(celsiusOfFahrenheit(fahrenheit))).toBeCloseTo(fahrenheit, 10);
    }
  });
});

describe('how fast an appliance changes, and its dial', () => {
  it.each([
    ['14C/min', 14],
    ['14 °C/min', 14],
    ['18F/min', 10],
  ])('%s', (text, rate) => {
    expect(out(parseRate(text))).toBeCloseTo(rate, 12);
  });

  it.each([
    [14, '`14` needs a unit. | 14 C/min or 14 F/min'],
    ['14C', '`14C` is not a change of temperature a minute. | 11C/min or 20F/min'],
    ['0C/min', '`0C/min` is out of bounds: it is above 0 and at most 1000C/min. | 11C/min or 20F/min'],
  ])('refuses %s', (text, refusal) => {
    expect(out(parseRate(text))).toBe(refusal);
  });

  it('reads a dial in its own degrees', () => {
    expect(out(parseDial('25F'))).toEqual({ unit: 'F', step: 25 });
    expect(out(parseDial('2.5C'))).toEqual({ unit: 'C', step: 2.5 });
    expect(out(parseDial('0.3C'))).toMatch(/out of bounds/);
    expect(out(parseDial('1.3C'))).toMatch(/whole or half degrees/);
  });
});

describe('a duration', () => {
  it.each([
    ['90 min', 90],
    ['90min', 90],
    ['90 minutes', 90],
    ['1h 15m', 75],
    ['1h15m', 75],
    ['1 h 15 min', 75],
    ['6 h', 360],
    ['1.5 h', 90],
    ['1 1/2 h', 90],
    ['2 days', 2880],
    ['0 min', 0],
    ['1/3 h', 20],
  ])('%s', (text, minutes) => {
    expect(out(parseDuration(text))).toBe(minutes);
  });

  it.each([
    [90, '`90` needs a unit. | 90 min or 90h'],
    ['90', '`90` needs a unit. | 90 min or 90h'],
    ['1h 15', '`1h 15` is not a duration. | 90 min, 1h 30m or 6 h'],
    ['1.25 min', '`1.25 min`: times are whole minutes. | 90 min, 1h 30m or 6 h'],
    ['90 s', '`90 s` is not a duration. | 90 min, 1h 30m or 6 h'],
    ['-5 min', '`-5 min` is out of bounds: it is at least 0 min and at most 60 days. | 90 min, 1h 30m or 6 h'],
    ['61 days', '`61 days` is out of bounds: it is at least 0 min and at most 60 days. | 90 min, 1h 30m or 6 h'],
    ['1/0 h', '`1/0 h` is not a duration. | 90 min, 1h 30m or 6 h'],
    ['9'.repeat(100), `\`${'9'.repeat(45)}...\` is not a duration. | 90 min, 1h 30m or 6 h`],
  ])('refuses %s', (text, refusal) => {
    expect(out(parseDuration(text))).toBe(refusal);
  });

  it.each([
    ['20-30 min', 20, 30],
    ['2h-12h', 120, 720],
    ['0-15 min', 0, 15],
    ['90 min - 2 h', 90, 120],
    ['1h 30m-2h', 90, 120],
    ['1-1.5 h', 60, 90],
    ['10 min', 10, 10],
    ['30 min to 1 h', 30, 60],
  ])('range %s', (text, low, high) => {
    expect(out(parseDurationSpan(text))).toEqual({ low, high });
  });

  it('refuses a range that runs backwards', () => {
    expect(out(parseDurationSpan('30-20 min'))).toMatch(/^`30-20 min` runs backwards/);
  });
});

describe('a length and a size', () => {
  it.each([
    ['30 cm', 0.3],
    ['300mm', 0.3],
    ['0.3 m', 0.3],
    ['12 in', 0.3048],
    ['12"', 0.3048],
    ['9 1/2 in', 0.2413],
    ['1 ft', 0.3048],
  ])('%s', (text, metres) => {
    expect(out(parseLength(text))).toBe(metres);
  });

  it.each([
    ['30 x 41 cm', 0.3, 0.41],
    ['30x41cm', 0.3, 0.41],
    ['30 cm x 41 cm', 0.3, 0.41],
    ['300 mm × 41 cm', 0.3, 0.41],
    ['13 x 18 in', 0.3302, 0.4572],
    ['9 1/2 x 13 in', 0.2413, 0.3302],
  ])('%s', (text, width, depth) => {
    expect(out(parseSize(text))).toEqual({ width, depth });
  });

  it.each([
    ['30 x 41', '`30 x 41` needs a unit. | 30 x 41 cm or 30 x 41 in'],
    ['30 cm', '`30 cm` is not a size: width x depth. | 30 x 41 cm or 13 x 18 in'],
    ['30 x 41 x 9 cm', '`30 x 41 x 9 cm` is not a size: width x depth. | 30 x 41 cm or 13 x 18 in'],
    ['x 41 cm', '`x 41 cm` is not a size: width x depth. | 30 x 41 cm or 13 x 18 in'],
    [30, '`30` is not a size: width x depth. | 30 x 41 cm or 13 x 18 in'],
  ])('refuses the size %s', (text, refusal) => {
    expect(out(parseSize(text))).toBe(refusal);
  });

  it('reads a range and refuses what is no length', () => {
    expect(out(parseLengthSpan('16-30 cm'))).toEqual({ low: 0.16, high: 0.3 });
    expect(out(parseLength(30))).toBe('`30` needs a unit. | 30 cm or 30 in');
    expect(out(parseLength('30 kg'))).toBe('`30 kg` is not a length. | 30 cm or 12 in');
    expect(out(parseLength('0 cm'))).toMatch(/at least 1 mm/);
  });
});

describe('a weight', () => {
  it.each([
    ['3.2 kg', 3.2],
    ['450 g', 0.45],
    ['7 lb', 7 * 0.45359237],
    ['7 lb 4 oz', 7.25 * 0.45359237],
  ])('%s', (text, kilograms) => {
    expect(out(parseWeight(text))).toBeCloseTo(kilograms, 12);
  });

  it('refuses a bare number', () => {
    expect(out(parseWeight(7))).toBe('`7` needs a unit. | 7 kg or 7 lb');
  });
});

describe('the unit in which it is told again', () => {
  it('is that of the family in which it is written', () => {
    expect(['30 cm', '8mm', '1 m', '12 in', '1ft', '9 1/2"', 'long'].map(lengthUnitOf)).toEqual([
      'cm',
      'cm',
      'cm',
      'in',
      'in',
      'in',
      'cm',
    ]);
    expect(['3.2 kg', '450 g', '7 lb 4 oz', '8oz', 'heavy'].map(weightUnitOf)).toEqual(['kg', 'kg', 'lb', 'lb', 'kg']);
  });
});

describe('what a message quotes', () => {
  it('is cut and holds nothing that a terminal would act upon', () => {
    expect(quote('a\u001b[31mb')).toBe('`a?[31mb`');
    expect(quote('x'.repeat(60))).toBe(`\`${'x'.repeat(45)}...\``);
    expect(shown('\u202eabc\u2028')).toBe('?abc?');
  });
});
