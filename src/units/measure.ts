/**
 * One reader for every kind of quantity: a number, or several, each with its unit. What differs between kinds (units,
 * bounds, spellings) stands in a `Scale`.
 */

/** A value, or what is wrong with the text in a cook's words, with a spelling that would do. */
export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly say: string; readonly hint: string };

/** What a file may hold where a quantity is due; a bare number is refused with the spellings that would do. */
export type Written = string | number;

export interface Unit {
  /** How the unit is written after a number when a spelling is proposed. */
  readonly symbol: string;
  readonly toBase: (count: number) => number;
}

export interface Scale {
  /** With its article: `a temperature`. */
  readonly noun: string;
  /** A few right spellings. */
  readonly examples: string;
  /** Units by every spelling, in lower case. */
  readonly units: ReadonlyMap<string, Unit>;
  /** Symbols that are proposed for a bare number. */
  readonly proposals: readonly string[];
  /** `1h 15m`, `7 lb 4 oz`: several parts are added up. */
  readonly compound: boolean;
  /** Bounds in the base unit, and what to say beyond them. */
  readonly low: number;
  readonly high: number;
  readonly bounds: string;
  /** Last touch to a value in the base unit; null refuses it with `whole`. */
  readonly settle: (value: number) => number | null;
  readonly whole: string;
}

/** A value in the base unit, with the first unit that was written. */
export interface Measure {
  readonly value: number;
  readonly unit: Unit;
}

export interface MeasureSpan {
  readonly low: number;
  readonly high: number;
  readonly unit: Unit;
}

const NUMBER = String.raw`(?:\d+\s+\d+/\d+|\d+/\d+|\d+(?:\.\d+)?|\.\d+)`;
const PART = new RegExp(String.raw`^\s*(-?${NUMBER})\s*([a-zA-Z°℃℉"″]+(?:/[a-zA-Z]+)?)\.?(?=$|[\s\d])`);
const BARE = new RegExp(String.raw`^\s*(-?${NUMBER})\s*$`);

/** `12`, `1.5`, `1/2`, `9 1/2`; NaN where the denominator is 0. */
function numberOf(text: string): number {
  const negative = text.startsWith('-');
  const words = (negative ? text.slice(1) : text).split(/\s+/);
  let sum = 0;
  for (const word of words) {
    const [top, bottom] = word.split('/');
    sum += bottom === undefined ? Number(top) : Number(bottom) === 0 ? Number.NaN : Number(top) / Number(bottom);
  }
  return negative ? -sum : sum;
}

/** Signs that a terminal would act upon or not show; the two joiners, which some scripts and emoji need, are not among them. */
const UNSHOWN = /(?![\u200c\u200d])[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu;

/** A text with `?` for everything that would not show as itself. */
export const shown = (text: string): string => text.replace(UNSHOWN, '?');

/** Shortens and cleans a text of the file so that it can stand in a message. */
export function quote(text: Written): string {
  const chars = [...shown(String(text))];
  return `\`${chars.length > 48 ? `${chars.slice(0, 45).join('')}...` : chars.join('')}\``;
}

export function refuse<T>(say: string, hint: string): Parsed<T> {
  return { ok: false, say, hint };
}

function needsUnit(scale: Scale, text: Written): Parsed<never> {
  const bare = String(text).trim();
  const spellings = scale.proposals.map((symbol) => `${bare}${symbol.length > 1 ? ' ' : ''}${symbol}`);
  return refuse(`${quote(bare)} needs a unit.`, spellings.join(' or '));
}

function parts(scale: Scale, text: string): Measure | null {
  let rest = text;
  let sum = 0;
  let unit: Unit | null = null;
  while (rest.trim() !== '') {
    const match = PART.exec(rest);
    const found = match && scale.units.get(match[2]!.toLowerCase());
    if (!match || !found || (unit !== null && !scale.compound)) return null;
    sum += found.toBase(numberOf(match[1]!));
    unit ??= found;
    rest = rest.slice(match[0].length);
  }
  return unit && Number.isFinite(sum) ? { value: sum, unit } : null;
}

function settled(scale: Scale, text: Written, measure: Measure): Parsed<Measure> {
  const value = scale.settle(measure.value);
  if (value === null) return refuse(`${quote(text)}: ${scale.whole}.`, scale.examples);
  if (value < scale.low || value > scale.high)
    return refuse(`${quote(text)} is out of bounds: ${scale.bounds}.`, scale.examples);
  return { ok: true, value: { value, unit: measure.unit } };
}

/** Reads one quantity. */
export function parseMeasure(scale: Scale, text: Written): Parsed<Measure> {
  if (isTooLong(text) || (typeof text === 'number' && !Number.isFinite(text)))
    return refuse(`${quote(text)} is not ${scale.noun}.`, scale.examples);
  if (typeof text === 'number' || BARE.test(text)) return needsUnit(scale, text);
  const measure = parts(scale, text);
  return measure ? settled(scale, text, measure) : refuse(`${quote(text)} is not ${scale.noun}.`, scale.examples);
}

/** Reads `20-30 min`, `2h-12h`, `0-15 min`, or one quantity, which is then both ends. */
export function parseMeasureSpan(scale: Scale, text: Written): Parsed<MeasureSpan> {
  if (isTooLong(text) || (typeof text === 'number' && !Number.isFinite(text)))
    return refuse(`${quote(text)} is not ${scale.noun}.`, scale.examples);
  if (typeof text === 'number' || BARE.test(text)) return needsUnit(scale, text);
  const single = parts(scale, text);
  if (single) {
    const one = settled(scale, text, single);
    return one.ok ? { ok: true, value: { low: one.value.value, high: one.value.value, unit: one.value.unit } } : one;
  }
  for (const separator of text.matchAll(/[-–—]|\bto\b/g)) {
    const [left, right] = [text.slice(0, separator.index), text.slice(separator.index + separator[0].length)];
    const high = parts(scale, right);
    const low = BARE.test(left) && high ? parts(scale, `${left} ${high.unit.symbol}`) : parts(scale, left);
    if (!low || !high) continue;
    const from = settled(scale, text, low);
    if (!from.ok) return from;
    const to = settled(scale, text, high);
    if (!to.ok) return to;
    const span = { low: from.value.value, high: to.value.value, unit: low.unit };
    if (span.low > span.high) {
      const turned = `${right.trim()} - ${BARE.test(left) ? `${left.trim()} ${high.unit.symbol}` : left.trim()}`;
      return refuse(`${quote(text)} runs backwards: the low end comes first.`, turned);
    }
    return { ok: true, value: span };
  }
  const bare = text.split(/[-–—]|\bto\b/);
  if (bare.length === 2 && bare.every((end) => BARE.test(end))) return needsUnit(scale, text);
  return refuse(`${quote(text)} is not ${scale.noun}.`, scale.examples);
}

/** No quantity is longer; what is, is refused before any work is done on it. */
const LONGEST = 60;
export const isTooLong = (text: Written): boolean => typeof text === 'string' && text.length > LONGEST;

/** Builds the map of a scale: each row is a symbol, its spellings, and the way to the base unit. */
export function unitsOf(
  rows: readonly { symbol: string; spellings: readonly string[]; toBase: (count: number) => number }[],
): ReadonlyMap<string, Unit> {
  return new Map(
    rows.flatMap((row) => row.spellings.map((spelling) => [spelling, { symbol: row.symbol, toBase: row.toBase }])),
  );
}
