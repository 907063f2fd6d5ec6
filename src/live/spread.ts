/** How far from its likely minutes a step may end: what new plans keep room for, and what simulated evenings draw from. */
import { type Spread, WRITTEN_DEVIATIONS } from '../chance/draws.js';
import { STANDARD_DEVIATIONS } from '../heat/spread.js';
import type { Option } from '../problem/problem.js';
import { minutesOf } from './reshuffle/doing.js';

/** A step of which nobody says how long it may take is mostly done in this many times its minutes. */
const UNSAID = { low: 0.9, high: 1.15 };

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
