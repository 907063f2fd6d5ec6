/** Orders of a meal that may be good to have where its steps take longer: those of schedules in which they do. */
import { STANDARD_DEVIATIONS } from '../heat/spread.js';
import { isSettled, type Model } from '../kernel/model.js';
import { State } from '../kernel/state.js';
import type { Option, Problem } from '../problem/problem.js';
import type { Compiled } from '../solve/compile.js';
import { type SolveOptions, solve } from '../solve/solve.js';
import { WRITTEN_DEVIATIONS } from './draws.js';

/** A schedule of the meal with every unsure step so many deviations longer than likely, as an order for the meal itself; null without one. */
export function orderFor(compiled: Compiled, deviations: number, options: SolveOptions): State | null {
  const { schedule } = solve(lengthened(compiled.problem, deviations), { ...options, explain: false });
  if (schedule === null) return null;
  return asOrder(compiled.model, schedule.state);
}

/** A schedule of the same activities with other lengths, as an order; what is settled is as it is. */
export function asOrder(model: Model, state: State): State {
  const order = new State(model);
  for (const { id } of model.activities) {
    if (isSettled(model, id)) continue;
    const at = {
      start: state.start[id]!,
      minutes: state.minutes[id]!,
      mode: state.mode[id]!,
      setting: state.setting[id]!,
    };
    order.place(id, at, state.hands[id]!, state.units[id]!);
  }
  for (const key of ['mode', 'setting', 'start', 'minutes'] as const) order.store[key].set(state.store[key]);
  return order;
}

function lengthened(problem: Problem, deviations: number): Problem {
  const by = (option: Option, celsius: number | null): number => Math.ceil(deviations * deviationOf(option, celsius));
  const steps = problem.steps.map((step) => ({ ...step, options: step.options.map((option) => longer(option, by)) }));
  return { ...problem, steps };
}

/** Minutes of one deviation to the longer side, as far as the file or the heat model says. */
function deviationOf({ duration, forecasts }: Option, celsius: number | null): number {
  if (duration.kind === 'fixed')
    return (duration.high - duration.minutes) / (forecasts === null ? WRITTEN_DEVIATIONS : STANDARD_DEVIATIONS);
  const forecast = forecasts?.find((each) => each.celsius === celsius);
  return forecast === undefined ? 0 : (forecast.high - forecast.likely) / STANDARD_DEVIATIONS;
}

/** A way of doing a step that takes so many minutes more; a table as many at each temperature, those of its middle one, so that it stays convex. */
export function longer(option: Option, by: (option: Option, celsius: number | null) => number): Option {
  const { duration, forecasts, settings } = option;
  if (duration.kind === 'range') return option;
  if (duration.kind === 'fixed') {
    const more = by(option, null);
    return { ...option, duration: { ...duration, minutes: duration.minutes + more, high: duration.high + more } };
  }
  const levels = forecasts?.map(({ celsius }) => celsius) ?? settings;
  const more = by(option, levels[Math.floor(levels.length / 2)] ?? null);
  const columns = duration.columns.map(({ celsius, minutes }) => ({ celsius, minutes: minutes + more }));
  return { ...option, duration: { ...duration, columns } };
}
