/** The temperatures at which a step can be done, from what is written, the table, the mode and the dial. */
import { quote } from '../units/measure.js';
import { showTemperature, showTemperatureSpan } from '../units/show.js';
import {
  celsiusOfFahrenheit,
  fahrenheitOfCelsius,
  parseTemperature,
  parseTemperatureSpan,
} from '../units/temperature.js';
import { nearest } from './nearest.js';
import { type Dial, FLAMES, type Flame, type Mode, type Span } from './problem.js';
import type { Reading } from './reading.js';
import type { PlaceEntry, StepEntry } from './schema.js';
import type { Table } from './times.js';

export type Heat =
  | { readonly kind: 'flame'; readonly flame: Flame }
  | { readonly kind: 'range'; readonly range: Span; readonly ideal: number };

/** The heat that a step or an entry writes itself; undefined where it writes none, or a wrong one, which is then said. */
export function heatOf(reading: Reading, holder: StepEntry | PlaceEntry): Heat | undefined {
  const { heat } = holder;
  if (heat === undefined) return undefined;
  if (typeof heat === 'object') {
    const range = reading.quantity(heat, 'range', parseTemperatureSpan);
    const ideal = reading.quantity(heat, 'ideal', parseTemperature);
    if (!range) return undefined;
    if (ideal && (ideal.celsius < range.low || ideal.celsius > range.high)) {
      reading.error('heat', reading.at(heat, 'ideal'), 'The ideal lies outside of the range.');
    }
    return { kind: 'range', range: spanOf(range), ideal: ideal?.celsius ?? middle(range) };
  }
  if (typeof heat === 'string' && /^\s*[a-z]/i.test(heat)) {
    const flame = FLAMES.find((one) => one === heat);
    if (flame) return { kind: 'flame', flame };
    reading.error(
      'heat',
      reading.at(holder, 'heat'),
      `${quote(heat)} is neither a temperature nor a flame.`,
      nearest(heat, FLAMES) ?? '165C, or on a burner low, medium, high',
    );
    return undefined;
  }
  const range = reading.quantity(holder, 'heat', parseTemperatureSpan);
  return range && { kind: 'range', range: spanOf(range), ideal: middle(range) };
}

const spanOf = ({ low, high }: Span): Span => ({ low, high });
const middle = ({ low, high }: Span): number => (low + high) / 2;

/** The temperature of the `count`th mark of a dial, °C. */
const mark = (dial: Dial, count: number): number =>
  dial.unit === 'F' ? celsiusOfFahrenheit(count * dial.step) : count * dial.step;

/** The mark at or below a temperature. */
function markBelow(dial: Dial, celsius: number): number {
  const count = Math.floor((dial.unit === 'F' ? fahrenheitOfCelsius(celsius) : celsius) / dial.step + 1e-9);
  return mark(dial, count) > celsius + 1e-9 ? count - 1 : count;
}

/** Dial temperatures from `low` to `high`, °C, rising. */
export function dialSettings(dial: Dial, low: number, high: number): number[] {
  const settings: number[] = [];
  for (let count = markBelow(dial, low); mark(dial, count) <= high; count++) {
    if (mark(dial, count) >= low) settings.push(mark(dial, count));
  }
  return settings;
}

export type Settings =
  | { readonly settings: readonly number[]; readonly ideal: number | null }
  | { readonly say: string; readonly hint?: string };

/**
 * Temperatures that may be set, and the ideal: the written range, cut to the columns of the table and to the mode's range.
 * `who` is the appliance with its mode, for the message where none is left.
 */
export function settingsOf(who: string, mode: Mode, dial: Dial, heat: Heat | undefined, table: Table | null): Settings {
  const written = heat?.kind === 'range' ? heat : null;
  const columns: Span | null = table && { low: table.columns[0]!.celsius, high: table.columns.at(-1)!.celsius };
  const show = (span: Span) => showTemperatureSpan(span.low, span.high, dial.unit);
  const wanted = written?.range ?? columns ?? mode.heat;
  const within = columns ? cut(wanted, columns) : wanted;
  if (within.low > within.high)
    return { say: `The heat ${show(wanted)} lies outside of the table's columns, ${show(columns!)}.` };
  const range = cut(within, mode.heat);
  if (range.low > range.high) {
    return { say: `${who} has ${show(mode.heat)}, but the step wants ${show(within)}.` };
  }
  const settings = dialSettings(dial, range.low, range.high);
  if (settings.length === 0) {
    const below = markBelow(dial, range.low);
    const near = [mark(dial, below), mark(dial, below + 1)].map((celsius) => showTemperature(celsius, dial.unit));
    return {
      say: `The dial of ${who} goes in steps of ${dial.step}${dial.unit}: it has nothing at ${show(range)}.`,
      hint: near.join(' or '),
    };
  }
  return { settings, ideal: written ? written.ideal : columns ? middle(columns) : null };
}

const cut = (a: Span, b: Span): Span => ({ low: Math.max(a.low, b.low), high: Math.min(a.high, b.high) });
