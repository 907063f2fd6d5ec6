/**
 * The same model with other costs. Whether there is a schedule does not depend on costs, but where a search puts things first does:
 * one that always puts a step where it is cheapest can stand in its own way for ever.
 */
import type { Lag, Model } from '../../kernel/model.js';
import type { Rng } from '../../kernel/rng.js';

/** Points a minute; small beside lateness. */
const TILT = 0.05;

/** Waiting between steps costs or earns something, by chance, and so does an early start. */
export function tilted(model: Model, rng: Rng): Model {
  const tilt = (): number => (rng.below(3) - 1) * TILT;
  // Points must not be negative in sum, so the activities pay for the most that all lags and the day can earn.
  const share = (TILT * model.horizon * (model.lags.length + 1)) / model.activities.length;
  const lags = new Map(model.lags.map((lag): [Lag, Lag] => [lag, { ...lag, rate: tilt() }]));
  return {
    ...model,
    lags: [...lags.values()],
    activities: model.activities.map((activity) => ({
      ...activity,
      modes: activity.modes.map((mode) => ({
        ...mode,
        settings: mode.settings.map((setting) => ({ ...setting, cost: setting.cost + share })),
      })),
      ins: activity.ins.map((lag) => lags.get(lag)!),
      outs: activity.outs.map((lag) => lags.get(lag)!),
    })),
    jobs: model.jobs.map((job) => ({ ...job, rate: rng.below(2) * TILT })),
    machines: model.machines.map((machine) => ({ ...machine, runCost: 0, idleCost: 0 })),
    rates: { ...model.rates, day: tilt() },
  };
}
