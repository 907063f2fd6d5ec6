/**
 * The zone's clock: plan times to whole minutes after `start`, and the hours of a day to such minutes.
 * Independent of how the problem was read: it uses only the zone's offsets.
 */
import { IANAZone } from 'luxon';

const MINUTE = 60_000;
const DAY = 1440;
/** Further from a moment than any zone is from UTC, so that the offsets before and after a change are both seen. */
const BEYOND_ANY_OFFSET = 26 * 60;

export interface Clock {
  /** Minutes after `start` of an ISO time; a fraction where it is not a whole minute, NaN where it is no time. */
  minute(iso: string): number;
  /** Whether the ISO time is written with the offset that the zone has then. */
  isLocal(iso: string): boolean;
  /** `18:30`, by the zone's clock. */
  show(minute: number): string;
  /** The day, counted from 1970-01-01 by the zone's clock. */
  day(minute: number): number;
  /**
   * Minutes after `start` when the clock first shows that time of that day (`timeOfDay` in minutes, 1440: the next
   * midnight). Where the clock jumps over it: the jump, since from then on the clock shows more.
   */
  when(day: number, timeOfDay: number): number;
}

/** @param origin milliseconds since the epoch of minute 0. */
export function zoneClock(zoneName: string, origin: number): Clock {
  const zone = IANAZone.create(zoneName);
  const first = origin / MINUTE;
  const known = new Map<number, number>();
  /** Minutes east of UTC at a UTC minute since the epoch; it changes only on quarters of an hour. */
  const offset = (utc: number): number => {
    const quarter = Math.floor(utc / 15);
    const found = known.get(quarter) ?? zone.offset(quarter * 15 * MINUTE);
    known.set(quarter, found);
    return found;
  };
  const local = (minute: number): number => {
    const utc = first + minute;
    return utc + offset(utc);
  };

  return {
    minute: (iso) => (Date.parse(iso) - origin) / MINUTE,
    isLocal(iso) {
      const written = /(?:Z|([+-])(\d\d):?(\d\d))$/i.exec(iso);
      if (written === null) return false;
      const east = written[1] === undefined ? 0 : Number(written[2]) * 60 + Number(written[3]);
      return (written[1] === '-' ? -east : east) === offset(Date.parse(iso) / MINUTE);
    },
    show(minute) {
      if (!Number.isFinite(minute)) return '?';
      const ofDay = ((Math.floor(local(minute)) % DAY) + DAY) % DAY;
      const pad = (value: number): string => String(value).padStart(2, '0');
      return `${pad(Math.floor(ofDay / 60))}:${pad(ofDay % 60)}`;
    },
    day: (minute) => Math.floor(local(minute) / DAY),
    when(day, timeOfDay) {
      const shown = day * DAY + timeOfDay;
      const before = offset(shown - BEYOND_ANY_OFFSET);
      const after = offset(shown + BEYOND_ANY_OFFSET);
      // The offset before a change is tried first: a time that comes twice is the first.
      if (offset(shown - before) === before) return shown - before - first;
      if (offset(shown - after) === after) return shown - after - first;
      let early = shown - after;
      let late = shown - before;
      while (late - early > 1) {
        const middle = Math.floor((early + late) / 2);
        if (offset(middle) === before) early = middle;
        else late = middle;
      }
      return late - first;
    },
  };
}
