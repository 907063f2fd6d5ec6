/** Minutes of a problem and times of the clock. */
import { addDays, instantFrom, instantOfIso, localOf, showClock, showDate, showIso } from '../units/clock.js';
import type { ProblemAsRead as Problem } from './problem.js';

const MINUTE = 60_000;
const DAY = 24 * 60;

export interface Window {
  readonly start: number;
  readonly end: number;
}

const instantAt = (problem: Problem, minute: number): number => problem.origin + minute * MINUTE;

/** `18:30` or `6:30 pm`, by the clock of the problem's zone. */
export const clockAt = (problem: Problem, minute: number): string =>
  showClock(instantAt(problem, minute), problem.zone, problem.units.clock);

/** Columns that the longest clock time takes. */
export const clockColumns = ({ units }: Pick<Problem, 'units'>): number => (units.clock === '24h' ? 5 : 8);

/** `2026-10-03`, by the calendar of the problem's zone. */
export const dateAt = (problem: Problem, minute: number): string => showDate(instantAt(problem, minute), problem.zone);

/** `2026-10-03T18:30:00+01:00`. */
export const isoAt = (problem: Problem, minute: number): string => showIso(instantAt(problem, minute), problem.zone);

/** Minutes after `start` of an ISO 8601 time with offset; NaN for anything else. */
export function minuteAt(problem: Problem, iso: string): number {
  const instant = instantOfIso(iso);
  return instant === null ? Number.NaN : (instant - problem.origin) / MINUTE;
}

/**
 * When a cook is there, from minute 0 to `horizon`: hours by the zone's clock on every day, in whole minutes, rising,
 * apart from each other. A clock time that comes twice is the first; one that the clocks jump past is the jump.
 */
export function stays(problem: Problem, cook: number, horizon: number): Window[] {
  const { from, to } = problem.cooks[cook]!;
  if (horizon <= 0) return [];
  if (from === null && to === null) return [{ start: 0, end: horizon }];
  const begin = from ?? 0;
  const finish = to ?? DAY;
  const overnight = finish <= begin;
  const today = { ...localOf(problem.origin, problem.zone), minute: 0 };
  const minuteOf = (day: number, minute: number): number => {
    const local = { ...addDays(today, day + (minute === DAY ? 1 : 0)), minute: minute % DAY };
    return Math.round((instantFrom(local, problem.zone) - problem.origin) / MINUTE);
  };
  const windows: Window[] = [];
  for (let day = -1; minuteOf(day, begin) < horizon; day++) {
    const start = Math.max(0, minuteOf(day, begin));
    const end = Math.min(horizon, minuteOf(overnight ? day + 1 : day, finish));
    if (end <= start) continue;
    const last = windows.at(-1);
    if (last && last.end >= start) windows[windows.length - 1] = { start: last.start, end: Math.max(last.end, end) };
    else windows.push({ start, end });
  }
  return windows;
}

/** `Dish/step`. */
export function stepKey(problem: Problem, id: number): string {
  const step = problem.steps[id]!;
  return `${problem.dishes[step.dish]!.name}/${step.name}`;
}
