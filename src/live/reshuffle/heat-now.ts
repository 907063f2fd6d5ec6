/** How hot an appliance is now by the plan in force, and how soon it can be at another heat. */
import type { Machine } from '../../kernel/model.js';
import type { Problem } from '../../problem/problem.js';
import type { RunAsRead } from './doing.js';

/** °C at a minute: of the run that is on, on the way to the next, of the one before where another follows, else cooling. */
export function heatNow({ kitchen }: Problem, appliance: number, runs: readonly RunAsRead[], now: number): number {
  const { heats, cools } = kitchen.appliances[appliance]!;
  const { room } = kitchen;
  const before = runs.findLast((run) => run.start <= now);
  if (before !== undefined && now < before.end) return before.celsius;
  const next = runs.find((run) => run.start > now);
  const from = before?.celsius ?? room;
  if (next === undefined) {
    if (before === undefined) return room;
    return now === before.end ? from : Math.max(Math.min(room, from), from - cools * (now - before.end));
  }
  const left = next.start - now;
  if (left >= next.changeover) return from;
  return next.celsius >= from
    ? Math.max(from, next.celsius - heats * left)
    : Math.min(from, next.celsius + cools * left);
}

/** By state of the machine: the earliest minute at which it can be in it; `never` before a minute. */
export function readyBy(
  { kitchen }: Problem,
  appliance: number,
  { states }: Machine,
  celsius: number,
  now: number,
  never: number,
): Int32Array {
  const { heats, cools } = kitchen.appliances[appliance]!;
  return Int32Array.from(states, ({ level }) => {
    const rise = level - celsius;
    const minutes = rise >= 0 ? rise / heats : -rise / cools;
    return Math.max(never, now + (Math.abs(rise) < 1e-9 ? 0 : Math.ceil(minutes - 1e-9)));
  });
}
