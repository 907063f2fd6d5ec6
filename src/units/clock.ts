/** Clock times and dates of an IANA zone. An instant is milliseconds since the epoch; a time of day is minutes after midnight. */
import { DateTime, IANAZone } from 'luxon';
import { isTooLong, type Parsed, quote, refuse, type Written } from './measure.js';

/** A date and a time of day on the wall, without a zone. */
export interface LocalTime {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  /** Minutes after midnight. */
  readonly minute: number;
}

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const TIME = String.raw`(\d{1,2})(?::(\d{2}))?(?:\s*([ap])\.?m\.?)?`;
const TIME_ALONE = new RegExp(`^\\s*${TIME}\\s*$`, 'i');
const DATE_AND_TIME = new RegExp(String.raw`^\s*(\d{4})-(\d{1,2})-(\d{1,2})(?:\s+|T)${TIME}\s*$`, 'i');

function timeOfDay(hours: string, minutes: string | undefined, half: string | undefined): number | null {
  if (minutes === undefined && half === undefined) return null;
  const hour = Number(hours);
  const minute = Number(minutes ?? 0);
  if (minute > 59) return null;
  if (half === undefined) return hour < 24 || (hour === 24 && minute === 0) ? hour * 60 + minute : null;
  if (hour < 1 || hour > 12) return null;
  return ((hour % 12) + (half.toLowerCase() === 'p' ? 12 : 0)) * 60 + minute;
}

/** `15:00`, `9:30`, `3:30 pm`, `24:00`; minutes after midnight, 1440 for `24:00`. */
export function parseTimeOfDay(text: Written): Parsed<number> {
  const match = isTooLong(text) ? null : TIME_ALONE.exec(String(text));
  const minute = match && timeOfDay(match[1]!, match[2], match[3]);
  return minute === null ? refuse(`${quote(text)} is not a clock time.`, '18:30') : { ok: true, value: minute };
}

/** `2026-10-03 18:30`, also with a `T` between; years 2000 to 2199. */
export function parseLocalTime(text: Written): Parsed<LocalTime> {
  const match = isTooLong(text) ? null : DATE_AND_TIME.exec(String(text));
  if (!match) {
    const say = parseTimeOfDay(text).ok
      ? `${quote(text)} has no date.`
      : `${quote(text)} is not a date and a clock time.`;
    return refuse(say, '2026-10-03 18:30');
  }
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const minute = timeOfDay(match[4]!, match[5], match[6]);
  if (minute === null || minute === 1440)
    return refuse(`${quote(text)} is not a date and a clock time.`, '2026-10-03 18:30');
  if (!DateTime.utc(year, month, day).isValid)
    return refuse(`${quote(text)}: there is no such day.`, '2026-10-03 18:30');
  if (year < 2000 || year > 2199)
    return refuse(`${quote(text)}: the year lies between 2000 and 2199.`, '2026-10-03 18:30');
  return { ok: true, value: { year, month, day, minute } };
}

/** True for a name of the IANA zone data, e.g. `Europe/Lisbon`, `UTC`. */
export function isZone(name: string): boolean {
  return /^[A-Za-z][A-Za-z0-9_+\-/]*$/.test(name) && IANAZone.isValidZone(name);
}

/** Every zone name that can be proposed. */
export const zoneNames = (): readonly string[] => ['UTC', ...Intl.supportedValuesOf('timeZone')];

const wall = (local: LocalTime): number => Date.UTC(local.year, local.month - 1, local.day) + local.minute * MINUTE;

/** Instants that show this time on the wall, rising: two when the clocks go back over it, none when they jump past it. */
function instantsOf(local: LocalTime, zone: string): number[] {
  const iana = IANAZone.create(zone);
  const shown = wall(local);
  const offsets = new Set([-36, -24, -12, 0, 12, 24, 36].map((hours) => iana.offset(shown + hours * HOUR)));
  return [...offsets]
    .map((offset) => ({ offset, instant: shown - offset * MINUTE }))
    .filter(({ offset, instant }) => iana.offset(instant) === offset)
    .map(({ instant }) => instant)
    .sort((a, b) => a - b);
}

/** The instant of a local time; the first of two; null where the clocks jump past it. */
export function instantOf(local: LocalTime, zone: string): number | null {
  return instantsOf(local, zone)[0] ?? null;
}

/** The same, but for a time that the clocks jump past the moment of the jump. */
export function instantFrom(local: LocalTime, zone: string): number {
  for (let later = 0; later <= 1440; later++) {
    const instant = instantOf(addMinutes(local, later), zone);
    if (instant !== null) return instant;
  }
  return wall(local);
}

/** What a Date shows in UTC. */
const fieldsOf = (date: Date): LocalTime => ({
  year: date.getUTCFullYear(),
  month: date.getUTCMonth() + 1,
  day: date.getUTCDate(),
  minute: date.getUTCHours() * 60 + date.getUTCMinutes(),
});

const addMinutes = (local: LocalTime, minutes: number): LocalTime => fieldsOf(new Date(wall(local) + minutes * MINUTE));

/** The same time of day, some days later or earlier. */
export const addDays = (local: LocalTime, days: number): LocalTime => addMinutes(local, days * 1440);

/** By zone and instant: what is told of a plan, again and again, is of the same few hundred minutes, and each costs more than all else that is told. */
const offsets = new Map<string, Map<number, number>>();
const MOST_KNOWN = 20_000;

/** Minutes by which the zone's clocks are ahead of UTC at an instant. */
export function offsetAt(instant: number, zone: string): number {
  let known = offsets.get(zone);
  if (known === undefined || known.size > MOST_KNOWN) {
    known = new Map();
    offsets.set(zone, known);
  }
  const found = known.get(instant);
  if (found !== undefined) return found;
  const offset = IANAZone.create(zone).offset(instant);
  known.set(instant, offset);
  return offset;
}

/** A Date whose UTC is what the zone's wall shows: a plan has many times, and each costs a DateTime far more. */
const onWall = (instant: number, zone: string): Date => new Date(instant + offsetAt(instant, zone) * MINUTE);

/** What the wall shows at an instant. */
export const localOf = (instant: number, zone: string): LocalTime => fieldsOf(onWall(instant, zone));

/** `18:30` in a zone, or by a clock of twelve hours `6:30 pm`. */
export function showClock(instant: number, zone: string, face: '24h' | '12h' = '24h'): string {
  const time = onWall(instant, zone).toISOString().slice(11, 16);
  if (face === '24h') return time;
  const hour = Number(time.slice(0, 2));
  return `${hour % 12 === 0 ? 12 : hour % 12}${time.slice(2)} ${hour < 12 ? 'am' : 'pm'}`;
}

/** `2026-10-03` in a zone. */
export const showDate = (instant: number, zone: string): string => dateOf(onWall(instant, zone));

const dateOf = (date: Date): string => date.toISOString().slice(0, 10);

/** `Sat 3 Oct` in a zone. */
export const showDay = (instant: number, zone: string): string =>
  DateTime.fromMillis(instant, { zone, locale: 'en-US' }).toFormat('ccc d LLL');

/** `Saturday 3 October 2026` in a zone. */
export const showLongDay = (instant: number, zone: string): string =>
  DateTime.fromMillis(instant, { zone, locale: 'en-US' }).toFormat('cccc d LLLL yyyy');

/** `2026-10-03T18:30:00+01:00`. */
export function showIso(instant: number, zone: string): string {
  const offset = offsetAt(instant, zone);
  const two = (value: number): string => String(value).padStart(2, '0');
  const ahead = `${two(Math.floor(Math.abs(offset) / 60))}:${two(Math.abs(offset) % 60)}`;
  return `${onWall(instant, zone).toISOString().slice(0, 19)}${offset < 0 ? '-' : '+'}${ahead}`;
}

const ISO = /^(\d{4}-\d{2}-\d{2})T\d{2}:\d{2}(?::\d{2}(?:\.\d{1,3})?)?(?:Z|[+-]\d{2}:\d{2})$/;

/** The instant of an ISO 8601 time with offset; null for anything else. */
export function instantOfIso(iso: string): number | null {
  const day = ISO.exec(iso)?.[1];
  const instant = Date.parse(iso);
  if (day === undefined || Number.isNaN(instant)) return null;
  // To a Date the 30th of February is the 2nd of March.
  return dateOf(new Date(day)) === day ? instant : null;
}
