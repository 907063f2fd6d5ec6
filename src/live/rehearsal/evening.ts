/** How long each step really takes on one evening, which hangs on the seed alone. */
import { deviates, minutesAt, type Spread, WRITTEN_DEVIATIONS } from '../../chance/draws.js';
import { STANDARD_DEVIATIONS } from '../../heat/spread.js';
import type { Option, Problem } from '../../problem/problem.js';
import { minutesOf } from '../reshuffle/doing.js';

/** A step of which nobody says how long it may take is mostly done in this many times its minutes. */
const UNSAID = { low: 0.9, high: 1.15 };

/** By step: in deviations, how far from its likely minutes it is on this evening, in whatever place it is done. */
export function pacesOf(problem: Problem, seed: number): number[] {
  return problem.steps.map(({ id }) => deviates(1, seed, id)[0]!);
}

/** Minutes that a way of doing a step takes at a temperature, at so many deviations from the likely ones; null where that is the cook's choice. */
export function realMinutes(option: Option, celsius: number | null, deviations: number): number | null {
  if (option.duration.kind === 'range') return null;
  return Math.max(1, Math.round(minutesAt(spreadOf(option, celsius), deviations)));
}

/** Of a way of doing a step at a temperature whose minutes are not the cook's choice. */
export function spreadOf(option: Option, celsius: number | null): Spread {
  const { duration, forecasts } = option;
  const likely = minutesOf(option, celsius);
  const forecast = forecasts?.find((each) => each.celsius === celsius);
  if (forecast !== undefined && Number.isFinite(forecast.high)) {
    const { low, high } = forecast;
    return { low: Math.min(low, likely), likely, high: Math.max(high, likely), deviations: STANDARD_DEVIATIONS };
  }
  if (duration.kind === 'fixed' && duration.low < duration.high) {
    return { low: duration.low, likely, high: duration.high, deviations: WRITTEN_DEVIATIONS };
  }
  return { low: likely * UNSAID.low, likely, high: likely * UNSAID.high, deviations: WRITTEN_DEVIATIONS };
}
