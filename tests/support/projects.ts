/** Random small projects, and a plain way to schedule them that shares nothing with the engine. */
import fc from 'fast-check';
import type { Project } from '../../src/sequence/project.js';

const wholes = (most: number, count: number) => fc.array(fc.nat(most), { minLength: count, maxLength: count });

/** Projects of `least` to `most` activities whose modes fit their renewables; lags only from lower to higher numbers. */
export function projects(shape: {
  readonly least: number;
  readonly most: number;
  readonly modes: number;
  readonly capacities: readonly number[];
  readonly stocks: number;
}): fc.Arbitrary<Project> {
  const { least, most, modes, capacities, stocks } = shape;
  const mode = fc.record({
    minutes: fc.nat(6),
    uses: fc.tuple(...capacities.map((capacity) => fc.oneof(fc.constant(0), fc.nat(capacity)))),
    consumes: wholes(4, stocks),
  });
  const activity = fc.array(mode, { minLength: 1, maxLength: modes });
  return fc.array(activity, { minLength: least, maxLength: most }).chain((activities) => {
    const pair = fc.tuple(fc.nat(activities.length - 1), fc.nat(activities.length - 1), fc.nat(2));
    return fc.record({
      activities: fc.constant(activities),
      lags: fc
        .array(pair, { maxLength: activities.length })
        .map((pairs) =>
          pairs.flatMap(([a, b, low]) => (a === b ? [] : [{ from: Math.min(a, b), to: Math.max(a, b), low }])),
        ),
      renewables: fc.constant(capacities),
      nonrenewables: wholes(2 * activities.length, stocks),
    });
  });
}

/** Everything that is wrong with a schedule. */
export function faultsOf(project: Project, starts: ArrayLike<number>, modes: ArrayLike<number>): string[] {
  const chosen = project.activities.map((all, j) => all[modes[j]!]!);
  const faults = project.lags
    .filter(({ from, to, low }) => starts[to]! < starts[from]! + chosen[from]!.minutes + low)
    .map(({ from, to }) => `${to} too soon after ${from}`);
  const last = Math.max(0, ...chosen.map(({ minutes }, j) => starts[j]! + minutes));
  for (let t = 0; t < last; t++) {
    project.renewables.forEach((capacity, k) => {
      const used = chosen.reduce(
        (sum, { uses, minutes }, j) => sum + (starts[j]! <= t && t < starts[j]! + minutes ? uses[k]! : 0),
        0,
      );
      if (used > capacity) faults.push(`renewable ${k} at ${t}`);
    });
  }
  project.nonrenewables.forEach((stock, k) => {
    if (chosen.reduce((sum, { consumes }) => sum + consumes[k]!, 0) > stock) faults.push(`nonrenewable ${k}`);
  });
  return faults;
}

/** Serial schedule generation by trying one minute after the other. */
export function plainStarts(project: Project, list: readonly number[], modes: ArrayLike<number>): number[] {
  const starts = project.activities.map(() => Number.POSITIVE_INFINITY);
  const minutes = (j: number): number => project.activities[j]![modes[j]!]!.minutes;
  for (const j of list) {
    const from = project.lags
      .filter(({ to }) => to === j)
      .reduce((most, lag) => Math.max(most, starts[lag.from]! + minutes(lag.from) + lag.low), 0);
    for (let t = from; starts[j] === Number.POSITIVE_INFINITY; t++) {
      const free = Array.from({ length: minutes(j) }, (_, d) => t + d).every((at) =>
        project.renewables.every((capacity, k) => {
          const uses = (i: number): number => project.activities[i]![modes[i]!]!.uses[k]!;
          const others = list.filter((i) => starts[i]! <= at && at < starts[i]! + minutes(i));
          return others.reduce((sum, i) => sum + uses(i), uses(j)) <= capacity;
        }),
      );
      if (free) starts[j] = t;
    }
  }
  return starts;
}

/** All orders in which each activity stands after those before it. */
export function* orders(project: Project, done: readonly number[] = []): Generator<readonly number[]> {
  if (done.length === project.activities.length) yield done;
  for (let j = 0; j < project.activities.length; j++) {
    const ready = project.lags.every(({ from, to }) => to !== j || done.includes(from));
    if (!done.includes(j) && ready) yield* orders(project, [...done, j]);
  }
}

/** Every choice of modes. */
export function* choices(project: Project, done: readonly number[] = []): Generator<readonly number[]> {
  const modes = project.activities[done.length];
  if (modes === undefined) yield done;
  else for (let m = 0; m < modes.length; m++) yield* choices(project, [...done, m]);
}

export function makespanOf(project: Project, starts: ArrayLike<number>, modes: ArrayLike<number>): number {
  return project.activities.reduce((most, all, j) => Math.max(most, starts[j]! + all[modes[j]!]!.minutes), 0);
}

/** Of all orders and choices of modes; Infinity: no choice leaves the nonrenewables whole. An active schedule is among the best ones. */
export function optimum(project: Project): number {
  let best = Number.POSITIVE_INFINITY;
  for (const modes of choices(project)) {
    const useless = project.activities.some((all, j) =>
      all[modes[j]!]!.uses.some((use, k) => use > project.renewables[k]!),
    );
    if (useless) continue;
    const over = project.nonrenewables.some(
      (stock, k) => project.activities.reduce((sum, all, j) => sum + all[modes[j]!]!.consumes[k]!, 0) > stock,
    );
    if (over) continue;
    for (const order of orders(project)) {
      best = Math.min(best, makespanOf(project, plainStarts(project, order, modes), modes));
    }
  }
  return best;
}
