/** Lengths in metres, to the micrometre, so that sums and comparisons of written sizes are exact enough to pack with. */
import {
  isTooLong,
  type Parsed,
  parseMeasure,
  parseMeasureSpan,
  quote,
  refuse,
  type Scale,
  unitsOf,
  type Written,
} from './measure.js';
import type { LengthUnit } from './show.js';

/** Rounds metres to the micrometre. */
export const toMicrometre = (metres: number): number => Math.round(metres * 1e6) / 1e6;

const LENGTH: Scale = {
  noun: 'a length',
  examples: '30 cm or 12 in',
  units: unitsOf([
    { symbol: 'mm', spellings: ['mm'], toBase: (count) => count / 1000 },
    { symbol: 'cm', spellings: ['cm'], toBase: (count) => count / 100 },
    { symbol: 'm', spellings: ['m'], toBase: (count) => count },
    { symbol: 'in', spellings: ['in', 'inch', 'inches', '"', '″'], toBase: (count) => count * 0.0254 },
    { symbol: 'ft', spellings: ['ft', 'foot', 'feet'], toBase: (count) => count * 0.3048 },
  ]),
  proposals: ['cm', 'in'],
  compound: false,
  low: 0.001,
  high: 10,
  bounds: 'it is at least 1 mm and at most 10 m',
  settle: toMicrometre,
  whole: '',
};

export interface Size {
  readonly width: number;
  readonly depth: number;
}

/** `30 cm`, `12 in`, `9 1/2 in`; metres. */
export function parseLength(text: Written): Parsed<number> {
  const parsed = parseMeasure(LENGTH, text);
  return parsed.ok ? { ok: true, value: parsed.value.value } : parsed;
}

/** In which unit a written length is to be told again; cm for what is no length. */
export function lengthUnitOf(text: Written): LengthUnit {
  const parsed = parseMeasure(LENGTH, text);
  return parsed.ok && ['in', 'ft'].includes(parsed.value.unit.symbol) ? 'in' : 'cm';
}

/** `16-30 cm`, or one length for both ends; metres. */
export function parseLengthSpan(text: Written): Parsed<{ low: number; high: number }> {
  const parsed = parseMeasureSpan(LENGTH, text);
  return parsed.ok ? { ok: true, value: { low: parsed.value.low, high: parsed.value.high } } : parsed;
}

/** `30 x 41 cm`, `13 x 18 in`, `30 cm x 41 cm`; metres, width (left to right) first. */
export function parseSize(text: Written): Parsed<Size> {
  const wrong = refuse<Size>(`${quote(text)} is not a size: width x depth.`, '30 x 41 cm or 13 x 18 in');
  const sides = String(text).split(/[x×]/i);
  if (sides.length !== 2 || isTooLong(text)) return wrong;
  const [left, right] = sides as [string, string];
  if (/^[\d./\s]+$/.test(right)) return refuse(`${quote(text)} needs a unit.`, `${text} cm or ${text} in`);
  const depth = parseMeasure(LENGTH, right);
  if (!depth.ok) return wrong;
  const width = /[a-z"″]/i.test(left)
    ? parseMeasure(LENGTH, left)
    : parseMeasure(LENGTH, `${left} ${depth.value.unit.symbol}`);
  if (!width.ok) return wrong;
  return { ok: true, value: { width: width.value.value, depth: depth.value.value } };
}
