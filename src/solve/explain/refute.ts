/** Proof that a model has no schedule: no order of what clashes agrees with the gaps, the hours and the horizon. */
import type { Model } from '../../kernel/model.js';
import type { Problem } from '../../problem/problem.js';
import { earliestStarts } from '../paths.js';
import { endOf, landingOf, momentsOf, startOf, ZERO } from './claim.js';
import { claimsOf } from './claims.js';
import { type Distance, Network } from './network.js';
import { OrderSearch } from './order-search.js';

export interface Refutation {
  /** True: there is no schedule. False: none of this was found to be so. */
  readonly proven: boolean;
  /** Distances followed. */
  readonly work: number;
}

export function refute(problem: Problem, model: Model, effort: number): Refutation {
  const network = new Network(momentsOf(model));
  const ready = earliestStarts(model);
  if (ready === null || !network.add(distancesOf(model, ready))) return { proven: true, work: network.work };
  const { pools, stays } = claimsOf({ kitchen: problem.kitchen, options: (a) => problem.steps[a]!.options }, model);
  // One branch that is not refuted is enough to end the attempt.
  const search = new OrderSearch(network, pools, stays, effort, () => true);
  const proven = !search.find() && search.complete;
  return { proven, work: network.work };
}

/** The lags, lengths and due times of a model, and the horizon. */
export function distancesOf(model: Model, ready: Int32Array): Distance[] {
  const out: Distance[] = [];
  for (const activity of model.activities) {
    const [start, end] = [startOf(activity.id), endOf(activity.id)];
    out.push({ from: ZERO, to: start, least: ready[activity.id]! });
    out.push({ from: start, to: end, least: activity.shortest });
    out.push({ from: end, to: start, least: -activity.longest });
    out.push({ from: end, to: ZERO, least: -model.horizon });
    const { group } = model.jobs[activity.job]!;
    if (activity.sink && group >= 0) out.push({ from: end, to: landingOf(model, group), least: 0 });
  }
  for (const lag of model.lags) {
    out.push({ from: endOf(lag.from), to: startOf(lag.to), least: lag.low });
    if (lag.high < Number.POSITIVE_INFINITY) out.push({ from: startOf(lag.to), to: endOf(lag.from), least: -lag.high });
  }
  model.groups.forEach((group, g) => {
    out.push({ from: ZERO, to: landingOf(model, g), least: group.due });
  });
  return out;
}
