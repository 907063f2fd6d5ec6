/** When the meal is served, in which zone, and when the day begins. */
import {
  instantFrom,
  instantOf,
  isZone,
  localOf,
  parseLocalTime,
  parseTimeOfDay,
  showClock,
  showDate,
  zoneNames,
} from '../units/clock.js';
import { quote } from '../units/measure.js';
import type { Spot } from './message.js';
import { nearest } from './nearest.js';
import type { Problem } from './problem.js';
import type { Reading } from './reading.js';
import type { MealFile } from './schema.js';

const MINUTE = 60_000;
const DAY = 24 * 60;

export type Clock = Pick<Problem, 'zone' | 'origin' | 'serve'>;

/** Times that replace those of the file: `2026-10-03 18:30`, or `18:30` on the day of the file's serving time. */
export interface OtherTimes {
  readonly serve?: string | undefined;
  readonly start?: string | undefined;
}

/** The clock of a meal, or undefined where a part is missing or wrong, which is then said. */
export function readClock(reading: Reading, meal: MealFile, other: OtherTimes): Clock | undefined {
  const zone = meal.zone === undefined ? undefined : readZone(reading, meal.zone, reading.at(meal, 'zone'));
  const serveSpot = reading.at(meal, 'serve');
  const startSpot = meal.start === undefined ? serveSpot : reading.at(meal, 'start');
  const written = meal.serve === undefined ? undefined : instant(reading, meal.serve, zone, 'none', serveSpot);
  const serve = other.serve === undefined ? written : instant(reading, other.serve, zone, written ?? 'lost', serveSpot);
  const wanted = other.start ?? meal.start;
  const start = wanted === undefined ? undefined : instant(reading, wanted, zone, serve ?? 'lost', startSpot);
  if (zone === undefined || serve === undefined) return undefined;
  const origin = wanted === undefined ? serve - DAY * MINUTE : start;
  if (origin === undefined) return undefined;
  if (origin >= serve) {
    const when = `${showDate(serve, zone)} ${showClock(serve, zone)}`;
    reading.error('clock', startSpot, `The start is not before the serving time, ${when}.`);
  }
  return { zone, origin, serve: Math.round((serve - origin) / MINUTE) };
}

function readZone(reading: Reading, name: string, spot: Spot): string | undefined {
  if (isZone(name)) return name;
  const names = zoneNames();
  const city = names.find((one) => one.toLowerCase().endsWith(`/${name.trim().toLowerCase().replace(/\s+/g, '_')}`));
  reading.error('zone', spot, `${quote(name)} is no time zone.`, city ?? nearest(name, names) ?? 'Europe/Lisbon');
  return undefined;
}

/**
 * Milliseconds since the epoch. `day` is an instant whose date counts where only a clock time is written: `none` where a
 * date must be written, `lost` where that instant itself is wrong (which is said already).
 */
function instant(
  reading: Reading,
  text: string,
  zone: string | undefined,
  day: number | 'none' | 'lost',
  spot: Spot,
): number | undefined {
  const time = parseTimeOfDay(text);
  const leans = time.ok && time.value < DAY && day !== 'none';
  if (leans && (day === 'lost' || zone === undefined)) return undefined;
  const local = leans
    ? { ok: true as const, value: { ...localOf(day as number, zone!), minute: time.value } }
    : parseLocalTime(text);
  if (!local.ok) {
    reading.error('clock', spot, local.say, local.hint);
    return undefined;
  }
  if (zone === undefined) return undefined;
  const found = instantOf(local.value, zone);
  if (found !== null) return found;
  const jump = instantFrom(local.value, zone);
  const clock = showClock(jump, zone);
  reading.error(
    'clock',
    spot,
    `${quote(text)} does not exist: the clocks of ${zone} jump to ${clock} there.`,
    `${showDate(jump, zone)} ${clock}`,
  );
  return undefined;
}
