/** Weights in kilograms. */
import { type Parsed, parseMeasure, type Scale, unitsOf, type Written } from './measure.js';

const WEIGHT: Scale = {
  noun: 'a weight',
  examples: '3.2 kg or 7 lb',
  units: unitsOf([
    { symbol: 'kg', spellings: ['kg'], toBase: (count) => count },
    { symbol: 'g', spellings: ['g'], toBase: (count) => count / 1000 },
    // The international pound and its ounce, exact by definition.
    { symbol: 'lb', spellings: ['lb', 'lbs', 'pound', 'pounds'], toBase: (count) => count * 0.45359237 },
    { symbol: 'oz', spellings: ['oz', 'ounce', 'ounces'], toBase: (count) => count * 0.028349523125 },
  ]),
  proposals: ['kg', 'lb'],
  compound: true,
  low: 0.001,
  high: 500,
  bounds: 'it is at least 1 g and at most 500 kg',
  settle: (value) => value,
  whole: '',
};

/** `3.2 kg`, `7 lb`, `7 lb 4 oz`; kilograms. */
export function parseWeight(text: Written): Parsed<number> {
  const parsed = parseMeasure(WEIGHT, text);
  return parsed.ok ? { ok: true, value: parsed.value.value } : parsed;
}

/** In which unit a written weight is to be told again; kg for what is no weight. */
export function weightUnitOf(text: Written): 'kg' | 'lb' {
  const parsed = parseMeasure(WEIGHT, text);
  return parsed.ok && ['lb', 'oz'].includes(parsed.value.unit.symbol) ? 'lb' : 'kg';
}
