/**
 * When clocks change, by law. European Union: Directive 2000/84/EC, articles 2 and 3: the last Sundays of March and
 * October, at 1 a.m. Greenwich time. United States: Energy Policy Act of 2005, section 110: the second Sunday of March
 * and the first of November, at 2 a.m. local time. Both from memory; the Sundays are counted here.
 */
import { describe, expect, it } from 'vitest';
import { instantOf, showIso } from '../../src/units/clock.js';

const YEARS = [2024, 2025, 2026, 2027, 2028];
const HOUR = 3_600_000;

/** Days of a month that are Sundays. */
const sundays = (year: number, month: number): number[] =>
  Array.from({ length: 31 }, (_, day) => new Date(Date.UTC(year, month - 1, day + 1)))
    .filter((date) => date.getUTCMonth() === month - 1 && date.getUTCDay() === 0)
    .map((date) => date.getUTCDate());

const offset = (instant: number, zone: string): string => showIso(instant, zone).slice(19);

describe('the clocks change when the law says', () => {
  it.each(YEARS)('in the European Union in %i (Directive 2000/84/EC)', (year) => {
    const spring = Date.UTC(year, 2, sundays(year, 3).at(-1)!, 1);
    const autumn = Date.UTC(year, 9, sundays(year, 10).at(-1)!, 1);
    for (const [zone, winter, summer] of [
      ['Europe/Lisbon', '+00:00', '+01:00'],
      ['Europe/Paris', '+01:00', '+02:00'],
      ['Europe/Helsinki', '+02:00', '+03:00'],
    ] as const) {
      expect([offset(spring - 1, zone), offset(spring, zone)]).toEqual([winter, summer]);
      expect([offset(autumn - 1, zone), offset(autumn, zone)]).toEqual([summer, winter]);
    }
    // In Paris 2:30 does not exist in spring, and is the first of two in autumn.
    const local = (month: number, day: number) => ({ year, month, day, minute: 150 });
    expect(instantOf(local(3, sundays(year, 3).at(-1)!), 'Europe/Paris')).toBeNull();
    expect(instantOf(local(10, sundays(year, 10).at(-1)!), 'Europe/Paris')).toBe(autumn - HOUR / 2);
  });

  it.each(YEARS)('in the United States in %i (Energy Policy Act of 2005)', (year) => {
    const local = (month: number, day: number, minute: number) => ({ year, month, day, minute });
    const spring = sundays(year, 3)[1]!;
    const autumn = sundays(year, 11)[0]!;
    const zone = 'America/New_York';
    expect(instantOf(local(3, spring, 119), zone)).toBe(Date.UTC(year, 2, spring, 6, 59));
    expect(instantOf(local(3, spring, 120), zone)).toBeNull();
    expect(instantOf(local(3, spring, 180), zone)).toBe(Date.UTC(year, 2, spring, 7));
    expect(instantOf(local(11, autumn, 90), zone)).toBe(Date.UTC(year, 10, autumn, 5, 30));
    expect(instantOf(local(11, autumn, 120), zone)).toBe(Date.UTC(year, 10, autumn, 7));
  });
});
