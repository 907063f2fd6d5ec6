/** The parts of a step that had to move: what was done of it in each place, and what is left. */
import type { Duration, Option } from '../../problem/problem.js';
import { type Doing, minutesOf } from './doing.js';
import type { Fact } from './facts.js';

type Part = Pick<Doing, 'start' | 'end' | 'celsius' | 'option'>;

/** No less than this share is left of what is not done. */
const LEAST_LEFT = 0.05;

/**
 * The only way that is left of what has happened: as it was. `before`: the step's parts before this one; `next`: what follows of it. A free
 * length is judged as a whole, in the last of its parts.
 */
export function asDone(
  { option, celsius, start, end }: Part,
  { free }: Pick<Fact, 'free'>,
  now: number,
  before: readonly Part[],
  next: 'done' | 'left' | 'nothing',
): Option {
  const minutes = end - start;
  const settings = option.place.kind === 'heated' ? [celsius!] : [];
  const own = { ...option, settings, forecasts: next !== 'nothing' ? null : option.forecasts };
  const { duration } = option;
  if (duration.kind !== 'range') return { ...own, duration: { kind: 'fixed', minutes, low: minutes, high: minutes } };
  const done = minutesOfAll(before);
  if (next !== 'nothing') {
    const beyond = next === 'left' ? beyondBest(option, [...before, { option, celsius, start, end }]) : 0;
    const best = { low: 0, high: minutes - beyond };
    return { ...own, duration: { ...duration, low: minutes, high: minutes, best } };
  }
  const best = { low: duration.best.low - done, high: duration.best.high - done };
  if (!free) return { ...own, duration: { ...duration, low: minutes, high: minutes, best } };
  const left = before.length === 0 ? duration : rangeLeft(option, before);
  const low = Math.max(left.low, now - start);
  return { ...own, duration: { ...left, low, high: Math.max(left.high, low) } };
}

/** A way of doing what is left after some parts. */
export function restOf(option: Option, parts: readonly Part[]): Option {
  const share = shareLeft(parts);
  const up = (minutes: number): number => Math.max(1, Math.ceil(minutes * share - 1e-9));
  const { duration } = option;
  const part = (): Duration => {
    if (duration.kind === 'range') return rangeLeft(option, parts);
    if (duration.kind === 'table') {
      // A share of whole minutes, so at each setting: between columns they would be rounded once, here they are twice.
      const levels = option.settings.length > 0 ? option.settings : duration.columns.map(({ celsius }) => celsius);
      return {
        kind: 'table',
        columns: levels.map((celsius) => ({ celsius, minutes: up(minutesOf(option, celsius)) })),
      };
    }
    return { kind: 'fixed', minutes: up(duration.minutes), low: up(duration.low), high: up(duration.high) };
  };
  return { ...option, duration: part(), forecasts: null };
}

const minutesOfAll = (parts: readonly Part[]): number => parts.reduce((sum, { start, end }) => sum + end - start, 0);

/** What is left as a share of the minutes that it takes wherever it is done. */
function shareLeft(parts: readonly Part[]): number {
  return parts.reduce((left, { option, celsius, start, end }) => {
    const asked = minutesOf(option, celsius);
    return asked <= 0 ? left : Math.max(LEAST_LEFT, left - (end - start) / asked);
  }, 1);
}

type Range = Extract<Duration, { kind: 'range' }>;

/** A free length less what was done of it. */
function rangeLeft({ duration }: Option, parts: readonly Part[]): Range {
  const { low, high, best } = duration as Range;
  const done = minutesOfAll(parts);
  const least = Math.max(1, low - done, Math.ceil(low * shareLeft(parts) - 1e-9));
  const most = Math.max(least, high - done);
  const within = (minutes: number): number => Math.min(most, Math.max(least, minutes - done));
  return { kind: 'range', low: least, high: most, best: { low: within(best.low), high: within(best.high) } };
}

/** Minutes beyond the best of a free length that the least of what is left leads to. */
function beyondBest(option: Option, parts: readonly Part[]): number {
  const { best } = option.duration as Range;
  return Math.max(0, minutesOfAll(parts) + rangeLeft(option, parts).low - best.high);
}
