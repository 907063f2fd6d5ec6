/** Orders of a meal that may be good to have where its steps take longer: those of schedules in which they do. */
import { STANDARD_DEVIATIONS } from '../heat/spread.js';
import { State } from '../kernel/state.js';
import type { Duration, Option, Problem } from '../problem/problem.js';
import type { Compiled } from '../solve/compile.js';
import { type SolveOptions, solve } from '../solve/solve.js';
import { WRITTEN_DEVIATIONS } from './draws.js';

/** A schedule of the meal with every unsure step so many deviations longer than likely, as an order for the meal itself; null without one. */
export function orderFor(compiled: Compiled, deviations: number, options: SolveOptions): State | null {
  const { schedule } = solve(lengthened(compiled.problem, deviations), { ...options, explain: false });
  if (schedule === null) return null;
  const { state } = schedule;
  const order = new State(compiled.model);
  for (const { id } of compiled.model.activities) {
    const at = {
      start: state.start[id]!,
      minutes: state.minutes[id]!,
      mode: state.mode[id]!,
      setting: state.setting[id]!,
    };
    order.place(id, at, state.hands[id]!, state.units[id]!);
  }
  const { mode, setting, start, minutes } = state.store;
  for (const [into, from] of [
    [order.store.mode, mode],
    [order.store.setting, setting],
    [order.store.start, start],
    [order.store.minutes, minutes],
  ] as const) {
    into.set(from);
  }
  return order;
}

function lengthened(problem: Problem, deviations: number): Problem {
  const steps = problem.steps.map((step) => ({
    ...step,
    options: step.options.map((option) => ({ ...option, duration: longer(option, deviations) })),
  }));
  return { ...problem, steps };
}

function longer({ duration, forecasts }: Option, deviations: number): Duration {
  if (duration.kind === 'range') return duration;
  const by = (ends: number, all: number): number => Math.ceil((deviations * ends) / all);
  if (duration.kind === 'fixed') {
    const minutes = by(duration.high - duration.minutes, forecasts === null ? WRITTEN_DEVIATIONS : STANDARD_DEVIATIONS);
    return { ...duration, minutes: duration.minutes + minutes, high: duration.high + minutes };
  }
  // The same at every temperature, so that the table stays convex.
  const spreads = forecasts?.map(({ likely, high }) => high - likely) ?? [0];
  const more = by(spreads[Math.floor(spreads.length / 2)]!, STANDARD_DEVIATIONS);
  const columns = duration.columns.map(({ celsius, minutes }) => ({ celsius, minutes: minutes + more }));
  return { ...duration, columns };
}
