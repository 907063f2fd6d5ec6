/** Proof that a model has no schedule: no order of what clashes agrees with the gaps, the hours and the horizon. */
import type { Activity, Model } from '../../kernel/model.js';
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

/** Activities with several modes that are told apart, where what all modes have in common gives no proof. */
const MOST_CHOICES = 8;

/** `effort`: distances that may be followed. */
export function refute(problem: Problem, model: Model, effort: number): Refutation {
  const modes = model.activities.map((activity) => [...activity.modes.keys()]);
  const open = modes.flatMap((list, a) => (list.length > 1 ? [a] : []));
  let work = 0;
  const dead = (kept: readonly (readonly number[])[], choices: readonly number[]): boolean => {
    const attempt = refuteModes(problem, model, kept, effort - work);
    work += attempt.work;
    const [next, ...others] = choices;
    if (attempt.proven || next === undefined || work > effort) return attempt.proven;
    return kept[next]!.every((mode) =>
      dead(
        kept.map((list, a) => (a === next ? [mode] : list)),
        others,
      ),
    );
  };
  const proven = dead(modes, open.length <= MOST_CHOICES ? open : []);
  return { proven, work };
}

/** With these modes of each activity only. */
function refuteModes(problem: Problem, model: Model, kept: readonly (readonly number[])[], effort: number): Refutation {
  const part: Model = {
    ...model,
    activities: model.activities.map((activity, a) =>
      kept[a]!.length === activity.modes.length ? activity : withModes(activity, kept[a]!),
    ),
  };
  const network = new Network(momentsOf(part));
  const ready = earliestStarts(part);
  if (ready === null || !network.add(distancesOf(part, ready))) return { proven: true, work: network.work };
  const options = (a: number) => kept[a]!.map((mode) => problem.steps[a]!.options[mode]!);
  const { pools, stays } = claimsOf({ kitchen: problem.kitchen, options }, part);
  // One branch that is not refuted is enough to end the attempt.
  const search = new OrderSearch(network, pools, stays, effort, () => true);
  const proven = !search.find() && search.complete;
  return { proven, work: network.work };
}

/** Some modes of an activity, with the lengths that they allow. */
function withModes(activity: Activity, kept: readonly number[]): Activity {
  const modes = kept.map((mode) => activity.modes[mode]!);
  const lengths = modes.flatMap(({ range, settings }) =>
    range === null ? settings.map((setting) => setting.minutes) : [range.low, range.high],
  );
  return { ...activity, modes, shortest: Math.min(...lengths), longest: Math.max(...lengths) };
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
