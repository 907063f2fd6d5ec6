import { describe, expect, it } from 'vitest';
import {
  instantFrom,
  instantOf,
  instantOfIso,
  isZone,
  localOf,
  parseLocalTime,
  parseTimeOfDay,
  showClock,
  showDate,
  showIso,
} from '../../src/units/clock.js';

const local = (text: string) => {
  const parsed = parseLocalTime(text);
  if (!parsed.ok) throw new Error(parsed.say);
  return parsed.value;
};
const at = (text: string, zone: string) => {
  const instant = instantOf(local(text), zone);
  return instant === null ? null : new Date(instant).toISOString();
};

describe('clock times', () => {
  it.each([
    ['18:30', 1110],
    ['9:05', 545],
    ['00:00', 0],
    ['24:00', 1440],
    ['3:30 pm', 930],
    ['12:00 am', 0],
    ['12 pm', 720],
  ])('%s', (text, minute) => {
    expect(parseTimeOfDay(text)).toEqual({ ok: true, value: minute });
  });

  it.each(['18', '18:60', '25:00', '24:01', '13 pm', '0 am', '', 'noon', '18:30:00', `18:30${' '.repeat(100)}`])(
    'refuses %s',
    (text) => {
      expect(parseTimeOfDay(text)).toMatchObject({ ok: false, hint: '18:30' });
    },
  );

  it.each(['2026-10-03 18:30', '2026-10-03T18:30', '2026-10-3 6:30 pm', ' 2026-10-03   18:30 '])(
    'reads the date %s',
    (text) => {
      expect(local(text)).toEqual({ year: 2026, month: 10, day: 3, minute: 1110 });
    },
  );

  it.each([
    ['18:30', '`18:30` has no date.'],
    ['2026-10-03', '`2026-10-03` is not a date and a clock time.'],
    ['2026-02-30 18:30', '`2026-02-30 18:30`: there is no such day.'],
    ['2026-10-03 25:30', '`2026-10-03 25:30` is not a date and a clock time.'],
    ['2026-10-03 24:00', '`2026-10-03 24:00` is not a date and a clock time.'],
    ['1926-10-03 18:30', '`1926-10-03 18:30`: the year lies between 2000 and 2199.'],
    ['03/10/2026 18:30', '`03/10/2026 18:30` is not a date and a clock time.'],
    ['2026-10-03T18:30Z', '`2026-10-03T18:30Z` is not a date and a clock time.'],
  ])('refuses the date %s', (text, say) => {
    expect(parseLocalTime(text)).toMatchObject({ ok: false, say });
  });
});

describe('zones', () => {
  it('knows IANA names and nothing else', () => {
    expect(['Europe/Lisbon', 'UTC', 'America/Argentina/Ushuaia', 'Etc/GMT+1'].every(isZone)).toBe(true);
    expect(['Lisbon', 'local', 'system', '+01:00', '', 'Europe/', 'UTC+1'].some(isZone)).toBe(false);
  });

  it('takes the first of two instants and none where the clocks jump', () => {
    expect(at('2026-10-25 01:30', 'Europe/Lisbon')).toBe('2026-10-25T00:30:00.000Z');
    expect(at('2026-03-29 01:30', 'Europe/Lisbon')).toBeNull();
    expect(at('2026-11-01 01:30', 'America/New_York')).toBe('2026-11-01T05:30:00.000Z');
    expect(at('2026-03-08 02:30', 'America/New_York')).toBeNull();
    // Half an hour, and the southern summer.
    expect(at('2026-04-05 01:45', 'Australia/Lord_Howe')).toBe('2026-04-04T14:45:00.000Z');
    expect(at('2026-10-04 02:15', 'Australia/Lord_Howe')).toBeNull();
    // A day that never was: Samoa crossed the date line.
    expect(at('2011-12-30 12:00', 'Pacific/Apia')).toBeNull();
    expect(at('2026-10-03 18:30', 'Asia/Kathmandu')).toBe('2026-10-03T12:45:00.000Z');
  });

  it('goes to the jump from a time that the clocks jump past', () => {
    const jump = instantFrom(local('2026-03-29 01:30'), 'Europe/Lisbon');
    expect(new Date(jump).toISOString()).toBe('2026-03-29T01:00:00.000Z');
    expect(showClock(jump, 'Europe/Lisbon')).toBe('02:00');
  });

  it('shows an instant by the zone, and reads it back', () => {
    const instant = Date.UTC(2026, 9, 3, 17, 30);
    expect(showClock(instant, 'Europe/Lisbon')).toBe('18:30');
    expect(showDate(instant, 'Pacific/Auckland')).toBe('2026-10-04');
    expect(showIso(instant, 'Europe/Lisbon')).toBe('2026-10-03T18:30:00+01:00');
    expect(showIso(instant, 'UTC')).toBe('2026-10-03T17:30:00+00:00');
    expect(localOf(instant, 'America/New_York')).toEqual({ year: 2026, month: 10, day: 3, minute: 810 });
    expect(instantOfIso('2026-10-03T18:30:00+01:00')).toBe(instant);
    expect(instantOfIso('2026-10-03T17:30Z')).toBe(instant);
    expect(instantOfIso('2026-10-03T18:30:00')).toBeNull();
    expect(instantOfIso('soon')).toBeNull();
  });

  it('shows the old year and hours behind UTC, with halves', () => {
    const instant = Date.UTC(2027, 0, 1, 2, 15);
    expect(showIso(instant, 'America/St_Johns')).toBe('2026-12-31T22:45:00-03:30');
    expect(showClock(instant, 'America/St_Johns')).toBe('22:45');
    expect(localOf(instant, 'America/St_Johns')).toEqual({ year: 2026, month: 12, day: 31, minute: 1365 });
    expect(instantOfIso('2026-12-31T22:45:00-03:30')).toBe(instant);
  });

  it('shows both of the times that come twice', () => {
    const second = Date.UTC(2026, 9, 25, 1, 30);
    expect(showIso(second - 60 * 60_000, 'Europe/Lisbon')).toBe('2026-10-25T01:30:00+01:00');
    expect(showIso(second, 'Europe/Lisbon')).toBe('2026-10-25T01:30:00+00:00');
  });

  it.each(['2026-02-30T18:30:00Z', '2026-13-01T18:30:00Z', '2026-10-03T25:00:00Z', '2026-10-03 18:30Z', '2026-10-03Z'])(
    'reads no instant from %s',
    (text) => {
      expect(instantOfIso(text)).toBeNull();
    },
  );
});
