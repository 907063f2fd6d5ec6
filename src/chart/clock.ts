/** Days and wall clocks for a chart; times of day stand in `problem/hours`. */
import { DateTime, IANAZone } from 'luxon';
import type { Problem } from '../problem/problem.js';

type Zoned = Pick<Problem, 'origin' | 'zone'>;

const instant = (problem: Zoned, minute: number): number => problem.origin + minute * 60_000;
const at = (problem: Zoned, minute: number): DateTime =>
  DateTime.fromMillis(instant(problem, minute), { zone: problem.zone, locale: 'en-US' });

/** `Sat 3 Oct` */
export const dayAt = (problem: Zoned, minute: number): string => at(problem, minute).toFormat('ccc d LLL');

/** `Saturday 3 October 2026` */
export const longDayAt = (problem: Zoned, minute: number): string => at(problem, minute).toFormat('cccc d LLLL yyyy');

/** Minutes of the zone's clock since the epoch: what a clock on the wall shows, so ticks fall on whole hours there. */
export function wallMinute(problem: Zoned, minute: number): number {
  const time = instant(problem, minute);
  return Math.floor(time / 60_000) + IANAZone.create(problem.zone).offset(time);
}

export const sameDay = (problem: Zoned, a: number, b: number): boolean =>
  Math.floor(wallMinute(problem, a) / 1440) === Math.floor(wallMinute(problem, b) / 1440);
