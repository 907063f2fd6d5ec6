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

function addMinutes(local: LocalTime, minutes: number): LocalTime {
  const moved = DateTime.fromMillis(wall(local) + minutes * MINUTE, { zone: 'utc' });
  return { year: moved.year, month: moved.month, day: moved.day, minute: moved.hour * 60 + moved.minute };
}

/** The same time of day, some days later or earlier. */
export const addDays = (local: LocalTime, days: number): LocalTime => addMinutes(local, days * 1440);

/** What the wall shows at an instant. */
export function localOf(instant: number, zone: string): LocalTime {
  const time = DateTime.fromMillis(instant, { zone });
  return { year: time.year, month: time.month, day: time.day, minute: time.hour * 60 + time.minute };
}

/** `18:30` in a zone. */
export const showClock = (instant: number, zone: string): string =>
  DateTime.fromMillis(instant, { zone }).toFormat('HH:mm');

/** `2026-10-03` in a zone. */
export const showDate = (instant: number, zone: string): string =>
  DateTime.fromMillis(instant, { zone }).toFormat('yyyy-MM-dd');

/** `Sat 3 Oct` in a zone. */
export const showDay = (instant: number, zone: string): string =>
  DateTime.fromMillis(instant, { zone, locale: 'en-US' }).toFormat('ccc d LLL');

/** `Saturday 3 October 2026` in a zone. */
export const showLongDay = (instant: number, zone: string): string =>
  DateTime.fromMillis(instant, { zone, locale: 'en-US' }).toFormat('cccc d LLLL yyyy');

/** Minutes by which the zone's clocks are ahead of UTC at an instant. */
export const offsetAt = (instant: number, zone: string): number => IANAZone.create(zone).offset(instant);

/** `2026-10-03T18:30:00+01:00`. */
export function showIso(instant: number, zone: string): string {
  return DateTime.fromMillis(instant, { zone }).toFormat("yyyy-MM-dd'T'HH:mm:ssZZ");
}

/** The instant of an ISO 8601 time with offset; null for anything else. */
export function instantOfIso(iso: string): number | null {
  if (!/(?:Z|[+-]\d{2}:?\d{2})$/i.test(iso)) return null;
  const time = DateTime.fromISO(iso, { setZone: true });
  return time.isValid ? time.toMillis() : null;
}
