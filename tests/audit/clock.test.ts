/** The audit's clock against minute-by-minute looks at the zone's own clock. */
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { zoneClock } from '../../src/audit/clock.js';

/** A day before each change of the clocks, UTC; half an hour in Lord Howe, at midnight in Cairo, none in Lagos. */
const EVES = [
  ['Europe/Lisbon', '2026-03-28T00:00:00Z'],
  ['Europe/Lisbon', '2026-10-24T00:00:00Z'],
  ['America/New_York', '2026-03-07T00:00:00Z'],
  ['America/New_York', '2026-10-31T00:00:00Z'],
  ['Australia/Lord_Howe', '2026-04-03T00:00:00Z'],
  ['Australia/Lord_Howe', '2026-10-02T00:00:00Z'],
  ['Africa/Cairo', '2026-04-23T00:00:00Z'],
  ['Africa/Cairo', '2026-10-28T00:00:00Z'],
  ['Africa/Lagos', '2026-06-01T00:00:00Z'],
  ['UTC', '2026-06-01T00:00:00Z'],
] as const;

describe('the zone’s clock', () => {
  it.each(EVES)('%s from %s: a time of day is the first minute that shows it or more', (zone, eve) => {
    const origin = Date.parse(eve);
    const clock = zoneClock(zone, origin);
    const shown = Array.from({ length: 4 * 1440 }, (_, minute) => {
      const local = DateTime.fromMillis(origin + minute * 60_000, { zone });
      return Date.UTC(local.year, local.month - 1, local.day, local.hour, local.minute) / 60_000;
    });
    for (let day = clock.day(0) + 1; day <= clock.day(0) + 2; day += 1) {
      for (let timeOfDay = 0; timeOfDay <= 1440; timeOfDay += 15) {
        const first = shown.findIndex((each) => each >= day * 1440 + timeOfDay);
        expect(clock.when(day, timeOfDay)).toBe(first);
      }
    }
  });

  it('reads minutes and offsets from ISO times', () => {
    const clock = zoneClock('Europe/Lisbon', Date.parse('2026-10-25T00:30:00+01:00'));
    expect(clock.minute('2026-10-25T00:45:00+01:00')).toBe(15);
    expect(clock.minute('2026-10-25T01:15:00+00:00')).toBe(105);
    expect(clock.isLocal('2026-10-25T01:15:00+00:00')).toBe(true);
    expect(clock.isLocal('2026-10-25T01:15:00Z')).toBe(true);
    expect(clock.isLocal('2026-10-25T01:15:00+01:00')).toBe(true);
    expect(clock.isLocal('2026-10-25T02:15:00+01:00')).toBe(false);
    expect(clock.isLocal('2026-10-25T01:15:00')).toBe(false);
    expect(zoneClock('America/New_York', 0).isLocal('2026-06-01T12:00:00-04:00')).toBe(true);
    expect(zoneClock('Asia/Kolkata', 0).isLocal('2026-06-01T12:00:00+05:30')).toBe(true);
  });

  it('shows the time of day', () => {
    const clock = zoneClock('Europe/Lisbon', Date.parse('2026-10-25T00:30:00+01:00'));
    expect([0, 60, 90, 1440].map((minute) => clock.show(minute))).toEqual(['00:30', '01:30', '01:00', '23:30']);
    expect(clock.show(Number.NaN)).toBe('?');
  });
});
