/** Room for a roast that is late, in the rest that follows it. Minutes. */
import type { Duration, Step } from '../problem/problem.js';
import { restAfter } from '../problem/rests.js';
import { likelyForecast } from './curves.js';

/**
 * A roast may be late: the best part of the rest that follows begins so much higher that a shorter rest makes good for it. It
 * stays a wish, as `best` is.
 */
export function withCushions(steps: readonly Step[]): Step[] {
  const late = new Map<number, number>();
  for (const step of steps) {
    const rest = restAfter(steps, step.id);
    if (rest !== null) late.set(rest, Math.max(latenessOf(step), late.get(rest) ?? 0));
  }
  return steps.map((step) => {
    const minutes = late.get(step.id) ?? 0;
    const options = step.options.map((option) => ({ ...option, duration: cushioned(option.duration, minutes) }));
    return minutes === 0 ? step : { ...step, options };
  });
}

/** By how much a step may take longer than likely; 0 where the heat model was not asked. */
function latenessOf({ options }: Step): number {
  const late = options.map((option) => {
    const forecast = likelyForecast(option);
    return forecast === null ? 0 : Math.ceil(forecast.high - forecast.likely);
  });
  return Math.max(...late);
}

function cushioned(duration: Duration, minutes: number): Duration {
  if (duration.kind !== 'range') return duration;
  const { low, high, best } = duration;
  const from = Math.max(best.low, Math.min(high, low + minutes));
  return { ...duration, best: { low: from, high: Math.max(from, best.high) } };
}
