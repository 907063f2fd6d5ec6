/** How quantities are shown. Lengths in metres, minutes, °C, kilograms come in; short texts go out. */
import { type Degree, fahrenheitOfCelsius } from './temperature.js';

/** `0 min`, `45 min`, `1 h`, `1 h 15 min`, `2 d 3 h`; a minus sign before what is negative, `any time` for Infinity. */
export function showMinutes(minutes: number): string {
  if (!Number.isFinite(minutes)) return 'any time';
  if (minutes < 0) return `-${showMinutes(-minutes)}`;
  const whole = Math.round(minutes);
  const [days, hours, rest] = [Math.floor(whole / 1440), Math.floor((whole % 1440) / 60), whole % 60];
  const shown = [days > 0 ? `${days} d` : '', hours > 0 ? `${hours} h` : '', rest > 0 ? `${rest} min` : ''];
  return shown.filter((part) => part !== '').join(' ') || '0 min';
}

/** At most one decimal, without a trailing zero. */
const short = (value: number): string => String(Math.round(value * 10) / 10 + 0);

/** `165 °C` or `330 °F`. */
export function showTemperature(celsius: number, degree: Degree = 'C'): string {
  return `${short(degree === 'C' ? celsius : fahrenheitOfCelsius(celsius))} °${degree}`;
}

/** A core temperature as a thermometer is read: `57 °C` or `135 °F`, whole degrees. */
export function showCore(celsius: number, degree: Degree = 'C'): string {
  return `${Math.round(degree === 'C' ? celsius : fahrenheitOfCelsius(celsius))} °${degree}`;
}

/** `150-180 °C`, or one temperature where both ends are the same. */
export function showTemperatureSpan(low: number, high: number, degree: Degree = 'C'): string {
  if (low === high) return showTemperature(low, degree);
  return `${showTemperature(low, degree).split(' ')[0]}-${showTemperature(high, degree)}`;
}

export type LengthUnit = 'cm' | 'in';

const lengthIn = (metres: number, unit: LengthUnit): string => short(unit === 'cm' ? metres * 100 : metres / 0.0254);

/** `30 cm` or `12 in`. */
export const showLength = (metres: number, unit: LengthUnit = 'cm'): string => `${lengthIn(metres, unit)} ${unit}`;

/** `a`, `a and b`, `a, b and c`. */
export function showList(parts: readonly string[]): string {
  return parts.length < 2 ? (parts[0] ?? '') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}

/** `46 x 33 cm` or `18 x 13 in`, width first. */
export function showSize(width: number, depth: number, unit: LengthUnit = 'cm'): string {
  return `${lengthIn(width, unit)} x ${lengthIn(depth, unit)} ${unit}`;
}

/** `2.8 kg`, `450 g`, or pounds: `6.2 lb`. */
export function showWeight(kilograms: number, unit: 'kg' | 'lb' = 'kg'): string {
  if (unit === 'lb') return `${short(kilograms / 0.45359237)} lb`;
  return kilograms < 1 ? `${Math.round(kilograms * 1000)} g` : `${Math.round(kilograms * 100) / 100} kg`;
}
