/** Days and wall clocks for a chart; times of day stand in `problem/hours`. */
import type { Problem } from '../problem/problem.js';
import { offsetAt, showDay, showLongDay } from '../units/clock.js';

type Zoned = Pick<Problem, 'origin' | 'zone'>;

const instant = (problem: Zoned, minute: number): number => problem.origin + minute * 60_000;

/** `Sat 3 Oct` */
export const dayAt = (problem: Zoned, minute: number): string => showDay(instant(problem, minute), problem.zone);

/** `Saturday 3 October 2026` */
export const longDayAt = (problem: Zoned, minute: number): string =>
  showLongDay(instant(problem, minute), problem.zone);

/** Minutes of the zone's clock since the epoch: what a clock on the wall shows, so ticks fall on whole hours there. */
export function wallMinute(problem: Zoned, minute: number): number {
  const time = instant(problem, minute);
  return Math.floor(time / 60_000) + offsetAt(time, problem.zone);
}

export const sameDay = (problem: Zoned, a: number, b: number): boolean =>
  Math.floor(wallMinute(problem, a) / 1440) === Math.floor(wallMinute(problem, b) / 1440);
