/** Durations in whole minutes. */
import { type Parsed, parseMeasure, parseMeasureSpan, type Scale, unitsOf, type Written } from './measure.js';

const LONGEST = 60 * 24 * 60;

const DURATION: Scale = {
  noun: 'a duration',
  examples: '90 min, 1h 30m or 6 h',
  units: unitsOf([
    { symbol: 'min', spellings: ['m', 'min', 'mins', 'minute', 'minutes'], toBase: (count) => count },
    { symbol: 'h', spellings: ['h', 'hr', 'hrs', 'hour', 'hours'], toBase: (count) => count * 60 },
    { symbol: 'd', spellings: ['d', 'day', 'days'], toBase: (count) => count * 1440 },
  ]),
  proposals: ['min', 'h'],
  compound: true,
  low: 0,
  high: LONGEST,
  bounds: 'it is at least 0 min and at most 60 days',
  settle: (value) => (Math.abs(value - Math.round(value)) < 1e-6 ? Math.round(value) : null),
  whole: 'times are whole minutes',
};

/** `90 min`, `1h 15m`, `6 h`, `2 days`; minutes. */
export function parseDuration(text: Written): Parsed<number> {
  const parsed = parseMeasure(DURATION, text);
  return parsed.ok ? { ok: true, value: parsed.value.value } : parsed;
}

/** `20-30 min`, `2h-12h`, `0-15 min`, or one duration for both ends; minutes. */
export function parseDurationSpan(text: Written): Parsed<{ low: number; high: number }> {
  const parsed = parseMeasureSpan(DURATION, text);
  return parsed.ok ? { ok: true, value: { low: parsed.value.low, high: parsed.value.high } } : parsed;
}
