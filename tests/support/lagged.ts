/** Small random problems with least and greatest time lags, and their least makespan by trying all starts. */
import type { Rng } from '../../src/kernel/rng.js';
import { horizonOf, type Problem, type TimeLag } from '../../src/optimum/problem.js';

/** Two to three activities of up to so many modes, and a last one that ends them in most cases. */
export function randomLagged(rng: Rng, modes: number): Problem {
  const count = 2 + rng.below(2);
  const capacities = [1 + rng.below(3), 1 + rng.below(3)];
  const mode = () => ({
    minutes: rng.below(4),
    uses: capacities.map((capacity) => rng.below(capacity + 1)),
    consumes: [rng.below(4)],
  });
  const activities = Array.from({ length: count }, () => Array.from({ length: 1 + rng.below(modes) }, mode));
  const last = { minutes: 0, uses: [0, 0], consumes: [0] };
  const lags: TimeLag[] = [];
  for (let lag = rng.below(5); lag > 0; lag--) {
    const from = rng.below(count);
    const to = (from + 1 + rng.below(count - 1)) % count;
    lags.push({ from, to, least: rng.below(8) - 5, after: rng.below(2) === 0 ? 'start' : 'end' });
  }
  for (let from = 0; from < count; from++) {
    if (rng.below(6) > 0) lags.push({ from, to: count, least: rng.below(2), after: 'end' });
  }
  return { activities: [...activities, [last]], lags, renewables: capacities, nonrenewables: [2 + rng.below(6)] };
}

/** The least start of the last activity; Infinity where there is no schedule. */
export function leastMakespan(problem: Problem): number {
  const { activities, lags, renewables, nonrenewables } = problem;
  const horizon = horizonOf(problem);
  const starts: number[] = [];
  const modes: number[] = [];
  const minutes = (j: number): number => activities[j]![modes[j]!]!.minutes;
  const fits = (j: number): boolean => {
    for (const { from, to, least, after } of lags) {
      if (Math.max(from, to) !== j) continue;
      if (starts[to]! < starts[from]! + least + (after === 'end' ? minutes(from) : 0)) return false;
    }
    for (let t = starts[j]!; t < starts[j]! + minutes(j); t++) {
      const running = starts.map((_, i) => i).filter((i) => starts[i]! <= t && t < starts[i]! + minutes(i));
      const used = (k: number): number => running.reduce((sum, i) => sum + activities[i]![modes[i]!]!.uses[k]!, 0);
      if (renewables.some((capacity, k) => used(k) > capacity)) return false;
    }
    const consumed = (k: number): number => modes.reduce((sum, m, i) => sum + activities[i]![m]!.consumes[k]!, 0);
    return nonrenewables.every((stock, k) => consumed(k) <= stock);
  };
  let least = Number.POSITIVE_INFINITY;
  const place = (j: number): void => {
    if (j === activities.length) {
      least = Math.min(least, starts.at(-1)!);
      return;
    }
    activities[j]!.forEach((_, m) => {
      modes[j] = m;
      for (let t = 0; t <= horizon && (j < activities.length - 1 || t < least); t++) {
        starts[j] = t;
        if (fits(j)) place(j + 1);
      }
    });
    starts.length = j;
    modes.length = j;
  };
  place(0);
  return least;
}

/** Everything that is wrong with a schedule. */
export function lagFaults(
  { activities, lags, renewables, nonrenewables }: Problem,
  starts: readonly number[],
  modes: readonly number[],
): string[] {
  const chosen = activities.map((all, j) => all[modes[j]!]!);
  const faults = lags
    .filter(
      ({ from, to, least, after }) =>
        starts[to]! < starts[from]! + least + (after === 'end' ? chosen[from]!.minutes : 0),
    )
    .map(({ from, to }) => `${to} too soon after ${from}`);
  for (const t of starts) {
    if (t < 0) faults.push(`starts at ${t}`);
    renewables.forEach((capacity, k) => {
      const running = chosen.filter(({ minutes }, j) => starts[j]! <= t && t < starts[j]! + minutes);
      if (running.reduce((sum, { uses }) => sum + uses[k]!, 0) > capacity) faults.push(`renewable ${k} at ${t}`);
    });
  }
  nonrenewables.forEach((stock, k) => {
    if (chosen.reduce((sum, { consumes }) => sum + consumes[k]!, 0) > stock) faults.push(`nonrenewable ${k}`);
  });
  return faults;
}
