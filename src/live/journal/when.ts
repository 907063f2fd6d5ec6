/** Clock times as they are said on the day: by the clock, a little while ago, or with their date. An instant is milliseconds since the epoch. */
import { addDays, instantOf, localOf, parseLocalTime, parseTimeOfDay } from '../../units/clock.js';
import { parseDuration } from '../../units/duration.js';
import { quote } from '../../units/measure.js';
import { type Refusal, refuse } from './names.js';

const MINUTE = 60_000;
const EXAMPLES = '17:05, "3 min ago" or "2026-10-03 17:05"';

/** `17:05` is the one nearest to `near`, `3 min ago` before it. */
export function instantSaid(text: string, near: number, zone: string): number | Refusal {
  if (text.trim().toLowerCase() === 'now') return near;
  const ago = /^(.*\S)\s+ago$/i.exec(text.trim());
  if (ago) {
    const past = parseDuration(ago[1]!);
    return past.ok ? near - past.value * MINUTE : refuse(past.say, '3 min ago');
  }
  const time = parseTimeOfDay(text);
  if (time.ok)
    return (
      nearestTo(near, time.value, zone) ??
      refuse(`There is no ${text.trim()} on that day: the clocks jump past it.`, EXAMPLES)
    );
  const local = parseLocalTime(text);
  if (!local.ok) return refuse(`${quote(text)} is not a clock time.`, EXAMPLES);
  return instantOf(local.value, zone) ?? refuse(`${quote(text)} does not exist: the clocks jump past it.`, EXAMPLES);
}

function nearestTo(near: number, minute: number, zone: string): number | null {
  const today = localOf(near, zone);
  const days = [-1, 0, 1].flatMap((day) => instantOf({ ...addDays(today, day), minute: minute % 1440 }, zone) ?? []);
  return days.sort((a, b) => Math.abs(a - near) - Math.abs(b - near))[0] ?? null;
}
