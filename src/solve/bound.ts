/**
 * A lower bound on the points of any plan: each path of each job alone in an empty kitchen (exact by dynamic programming, with
 * nothing charged that jobs share), plus what even the longest chain costs in lateness and length of day, plus the runs that
 * a machine cannot do without.
 */
import type { Model } from '../kernel/model.js';
import { Rng } from '../kernel/rng.js';
import { State } from '../kernel/state.js';
import { Inserter } from './insert.js';

/** Minutes before the landing that are looked at first; few jobs are best ready earlier. */
const NEAR = 60;

/** Beyond this many jobs the bound of a late plan takes longer than it is worth. */
const MANY_JOBS = 40;

/** Enough for every setting and every free length. */
const ALL = 100_000;

export interface Bound {
  /** Infinity where some job cannot be done even alone. */
  readonly points: number;
  /** Jobs that cannot be done even with the kitchen to themselves. */
  readonly hopeless: readonly number[];
}

export function lowerBound(model: Model, paths: readonly (readonly number[])[][], est: Int32Array): Bound {
  const alone = aloneBounds(model, paths, est);
  if (alone.hopeless.length > 0) return { points: Number.POSITIVE_INFINITY, hopeless: alone.hopeless };
  const { late, day } = chainBound(model, est);
  // Either all is in time, or a course lands a minute late at least, and begins a minute later with it.
  const jobs =
    late > 0 ? alone.anyhow + late : Math.min(alone.inTime, alone.anyhow + model.rates.late - model.rates.day);
  return { points: Math.max(0, jobs + day + runsBound(model) - 1e-6), hopeless: [] };
}

interface Alone {
  /** What the jobs cost at least where none is late; Infinity where one must be. */
  readonly inTime: number;
  /** What they cost at least in any case, lateness left out. */
  readonly anyhow: number;
  readonly hopeless: readonly number[];
}

/** What the jobs cost at least, each with the kitchen to itself. */
function aloneBounds(model: Model, paths: readonly (readonly number[])[][], est: Int32Array): Alone {
  const relaxed: Model = {
    ...model,
    machines: model.machines.map((machine) => ({ ...machine, runCost: 0, idleCost: 0 })),
    rates: { ...model.rates, late: 0, day: 0 },
    // Storage can make waiting cheaper, and no wait is dear before it has outlasted both.
    jobs: model.jobs.map((job) =>
      job.storage === null
        ? job
        : { ...job, rate: Math.min(job.rate, job.storage.rate), keeps: job.keeps + job.storage.keeps, storage: null },
    ),
  };
  const empty = new State(relaxed);
  const inserter = new Inserter(relaxed, paths, est, empty);
  const rng = new Rng(1);
  const bound = (path: readonly number[], lateness: number, reach: number): number =>
    inserter.planPath(empty, path, { lateness, reach, bias: null, noise: 0, target: 0, settings: ALL, rng })?.points ??
    Number.POSITIVE_INFINITY;
  const sum = (job: number, each: (path: readonly number[]) => number): number =>
    paths[job]!.reduce((total, path) => total + each(path), 0);
  const near = relaxed.jobs.map(({ id, rate, group }) => {
    const reach = group >= 0 && rate > 0 ? Math.min(NEAR, relaxed.horizon) : relaxed.horizon;
    return sum(id, (path) => {
      const points = bound(path, 0, reach);
      // Ending before the reach costs that much waiting at least; what has no place there may have none at all, or be late.
      return points < Number.POSITIVE_INFINITY && reach < relaxed.horizon ? Math.min(points, rate * reach) : points;
    });
  });
  const full = (job: number): number => sum(job, (path) => bound(path, model.horizon, model.horizon));
  const far = near.map((points, job) => (points < Number.POSITIVE_INFINITY ? 0 : full(job)));
  const hopeless = model.jobs.map((job) => job.id).filter((job) => far[job] === Number.POSITIVE_INFINITY);
  const inTime = near.reduce((x, y) => x + y, 0);
  // The full look is slow: where all in time costs less than one minute of lateness, it cannot raise the bound.
  const enough = inTime <= model.rates.late - model.rates.day || model.jobs.length > MANY_JOBS;
  const anyhow = enough ? far : near.map((points, job) => (points < Number.POSITIVE_INFINITY ? full(job) : far[job]!));
  return { inTime, anyhow: anyhow.reduce((x, y) => x + y, 0), hopeless };
}

/** Lateness that the earliest possible ends force, and the length of the day that the longest chains force. */
function chainBound(model: Model, est: Int32Array): { late: number; day: number } {
  let late = 0;
  const landing = model.groups.map((group) => {
    let at = group.due;
    for (const job of group.jobs) {
      for (const a of model.jobs[job]!.activities) at = Math.max(at, est[a]! + model.activities[a]!.shortest);
    }
    late += model.rates.late * (at - group.due);
    return at;
  });
  if (model.rates.late < model.rates.day) return { late, day: 0 };
  const latest = latestStarts(model, landing);
  let first = model.serve;
  for (const activity of model.activities) {
    let lead = Number.POSITIVE_INFINITY;
    for (const mode of activity.modes) {
      if (mode.machine < 0) lead = 0;
      else {
        const machine = model.machines[mode.machine]!;
        const rows = machine.states.length;
        for (const s of mode.settings) lead = Math.min(lead, machine.transition[rows * (rows + 1) + s.state]!);
      }
    }
    first = Math.min(first, latest[activity.id]! - lead);
  }
  return { late, day: model.rates.day * (model.serve - first) };
}

function latestStarts(model: Model, landing: readonly number[]): Float64Array {
  const latest = Float64Array.from(model.activities, (activity) => {
    const { group } = model.jobs[activity.job]!;
    return (group < 0 ? model.horizon : landing[group]!) - activity.shortest;
  });
  for (let moved = true; moved; ) {
    moved = false;
    for (const lag of model.lags) {
      const before = latest[lag.to]! - lag.low - model.activities[lag.from]!.shortest;
      if (before < latest[lag.from]!) {
        latest[lag.from] = before;
        moved = true;
      }
    }
  }
  return latest;
}

/** Runs beyond the first that activities bound to one machine force: the fewest levels that meet all their ranges. */
function runsBound(model: Model): number {
  let points = 0;
  model.machines.forEach((machine, m) => {
    const byProgram = new Map<number, { low: number; high: number }[]>();
    for (const activity of model.activities) {
      const programs = new Set(
        activity.modes.map((mode) => (mode.machine === m ? machine.states[mode.settings[0]!.state]!.program : -1)),
      );
      if (programs.size !== 1 || programs.has(-1)) continue;
      const levels = activity.modes.flatMap((mode) => mode.settings.map((s) => machine.states[s.state]!.level));
      const program = [...programs][0]!;
      const ranges = byProgram.get(program) ?? [];
      ranges.push({ low: Math.min(...levels), high: Math.max(...levels) });
      byProgram.set(program, ranges);
    }
    let runs = 0;
    for (const ranges of byProgram.values()) {
      ranges.sort((a, b) => a.high - b.high);
      let at = Number.NEGATIVE_INFINITY;
      for (const range of ranges) {
        if (range.low <= at + 1e-9) continue;
        at = range.high;
        runs++;
      }
    }
    points += machine.runCost * Math.max(0, runs - 1);
  });
  return points;
}
