/** The steps of a schedule whose minutes are not sure. */
import { STANDARD_DEVIATIONS } from '../heat/spread.js';
import type { Schedule } from '../solve/schedule.js';
import { type Spread, WRITTEN_DEVIATIONS } from './draws.js';

export interface Risk extends Spread {
  /** The step's id, which is its activity's. */
  readonly activity: number;
}

/** In the order of the steps. Where the heat model was asked, its answer for the plan's own waits, temperature and rest counts. */
export function risksOf({ compiled, state, predictions }: Schedule): Risk[] {
  return compiled.problem.steps.flatMap(({ id, options }): Risk[] => {
    const { duration, forecasts } = options[state.mode[id]!]!;
    const pull = predictions.pulls.get(id);
    if (pull !== undefined || forecasts !== null) {
      const level = compiled.model.machines[state.modeOf(id).machine]?.states[state.stateOf(id)]?.level ?? null;
      const known = pull?.minutes ?? forecasts?.find(({ celsius }) => celsius === level);
      return known === undefined ? [] : spread(id, known, STANDARD_DEVIATIONS);
    }
    return duration.kind === 'fixed' ? spread(id, { ...duration, likely: duration.minutes }, WRITTEN_DEVIATIONS) : [];
  });
}

function spread(activity: number, { low, likely, high }: Omit<Spread, 'deviations'>, deviations: number): Risk[] {
  return low < high && Number.isFinite(high) ? [{ activity, low, likely, high, deviations }] : [];
}
