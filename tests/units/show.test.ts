import { describe, expect, it } from 'vitest';
import {
  showLength,
  showMinutes,
  showSize,
  showTemperature,
  showTemperatureSpan,
  showWeight,
} from '../../src/units/show.js';
import { celsiusOfFahrenheit } from '../../src/units/temperature.js';

describe('how quantities are shown', () => {
  it.each([
    [0, '0 min'],
    [45, '45 min'],
    [60, '1 h'],
    [75, '1 h 15 min'],
    [1500, '1 d 1 h'],
    [-20, '-20 min'],
    [Number.POSITIVE_INFINITY, 'any time'],
  ])('%s minutes', (minutes, text) => {
    expect(showMinutes(minutes)).toBe(text);
  });

  it('temperatures in either degree', () => {
    expect(showTemperature(165)).toBe('165 °C');
    expect(showTemperature(celsiusOfFahrenheit(330), 'F')).toBe('330 °F');
    expect(showTemperature(162.777)).toBe('162.8 °C');
    expect(showTemperature(-0.01)).toBe('0 °C');
    expect(showTemperatureSpan(150, 180)).toBe('150-180 °C');
    expect(showTemperatureSpan(150, 150)).toBe('150 °C');
    expect(showTemperatureSpan(celsiusOfFahrenheit(300), celsiusOfFahrenheit(350), 'F')).toBe('300-350 °F');
  });

  it('lengths, sizes and weights', () => {
    expect(showLength(0.3)).toBe('30 cm');
    expect(showLength(0.3048, 'in')).toBe('12 in');
    expect(showSize(0.46, 0.33)).toBe('46 x 33 cm');
    expect(showSize(0.4572, 0.3302, 'in')).toBe('18 x 13 in');
    expect(showWeight(2.8)).toBe('2.8 kg');
    expect(showWeight(0.45)).toBe('450 g');
    expect(showWeight(3.17514659, 'lb')).toBe('7 lb');
  });
});
