/** Which jobs are taken out of a schedule before it is repaired: one small function for each neighbourhood. */
import { blocksOf, type Run, runsOf } from '../kernel/blocks.js';
import type { Machine, Model } from '../kernel/model.js';
import type { Rng } from '../kernel/rng.js';
import type { State } from '../kernel/state.js';
import type { Bias } from './variants.js';

export interface Removal {
  readonly jobs: readonly number[];
  /** A machine state that the repair should agree on. */
  readonly bias: Bias | null;
}

export type Destroy = (state: State, size: number, rng: Rng) => Removal;

/** Any jobs. */
export const anyJobs: Destroy = (state, size, rng) => {
  const all = rng.shuffle(state.model.jobs.map((job) => job.id));
  return { jobs: all.slice(0, size), bias: null };
};

/** Jobs that are on near each other in time. */
export const nearInTime: Destroy = (state, size, rng) => ({
  jobs: nearTo(state, rng.below(state.model.activities.length), size, rng),
  bias: null,
});

/** A job that has no place, those tied to it, and what is on when these are: room is made where it can be used. */
export const besideUnplaced: Destroy = (state, size, rng) => {
  const { model } = state;
  const out = model.jobs.map((job) => job.id).filter((job) => !state.jobIsPlaced(job));
  if (out.length === 0) return nearInTime(state, size, rng);
  const tied = withTied(model, [out[rng.below(out.length)]!]);
  const placed = tied.flatMap((job) => model.jobs[job]!.activities).filter((a) => state.isPlaced(a));
  if (placed.length === 0) return { jobs: [...tied, ...nearInTime(state, size, rng).jobs], bias: null };
  const near = nearTo(state, placed[rng.below(placed.length)]!, size + 2, rng);
  return { jobs: [...new Set([...tied, ...near])], bias: null };
};

/** The jobs nearest in time to an activity, with some chance. */
function nearTo(state: State, seed: number, size: number, rng: Rng): number[] {
  const { model } = state;
  const at = Math.max(0, state.start[seed]!);
  const distance = model.jobs.map((job) => {
    let least = Number.POSITIVE_INFINITY;
    for (const a of job.activities) {
      if (state.start[a]! < 0) continue;
      least = Math.min(least, Math.max(0, state.start[a]! - at, at - state.end(a)));
    }
    return least + rng.real() * 20;
  });
  const order = model.jobs.map((job) => job.id).sort((x, y) => distance[x]! - distance[y]! || x - y);
  return order.slice(0, size);
}

/** All jobs on a machine in one to three neighbouring runs, to be put back at levels near those that they had. */
export const runTogether: Destroy = (state, size, rng) => {
  const { model } = state;
  if (model.machines.length === 0) return anyJobs(state, size, rng);
  const machine = rng.below(model.machines.length);
  const runs = runsOf(model.machines[machine]!, blocksOf(state, machine));
  if (runs.length === 0) return anyJobs(state, size, rng);
  const first = rng.below(runs.length);
  const last = Math.min(runs.length - 1, first + rng.below(3));
  const from = runs[first]!.from;
  const { to } = runs[last]!;
  const jobs = new Set<number>();
  for (const a of state.onMachine[machine]!) {
    if (state.start[a]! >= from && state.end(a) <= to) jobs.add(model.activities[a]!.job);
  }
  const list = rng.shuffle([...jobs].sort((x, y) => x - y));
  if (rng.below(3) === 0) list.length = Math.min(list.length, size + 2);
  return {
    jobs: list,
    bias: rng.below(4) === 0 ? null : nearbyLevels(model.machines[machine]!, machine, runs.slice(first, last + 1), rng),
  };
};

/** The jobs of two neighbouring runs of a machine, to be put back at one level between theirs: two runs may become one. */
export const twoRuns: Destroy = (state, size, rng) => {
  const { model } = state;
  const pairs = model.machines.flatMap((machine, m) => {
    const runs = runsOf(machine, blocksOf(state, m));
    return runs.slice(1).map((run, k) => ({ m, machine, one: runs[k]!, two: run }));
  });
  if (pairs.length === 0) return runTogether(state, size, rng);
  const { m, machine, one, two } = pairs[rng.below(pairs.length)]!;
  const jobs = new Set<number>();
  for (const a of state.onMachine[m]!) {
    if (state.start[a]! >= one.from && state.end(a) <= two.to) jobs.add(model.activities[a]!.job);
  }
  const { states } = machine;
  const { program } = states[one.state]!;
  const [low, high] = [one, two].map((run) => states[run.state]!.level).sort((x, y) => x - y) as [number, number];
  const between = states
    .map((_, s) => s)
    .filter((s) => states[s]!.program === program && states[s]!.level >= low - 1e-6 && states[s]!.level <= high + 1e-6);
  const wanted = states.reduce<number[]>((list, each) => {
    list[each.program] = -1;
    return list;
  }, []);
  wanted[program] = between[rng.below(between.length)] ?? one.state;
  const list = [...jobs].sort((x, y) => x - y);
  return { jobs: list, bias: { machine: m, wanted, cost: 3 + rng.real() * 20 } };
};

/** For each program among the runs a level a few steps from the one it had, or any level. */
function nearbyLevels(machine: Machine, index: number, runs: readonly Run[], rng: Rng): Bias {
  const wanted: number[] = [];
  for (const run of runs) {
    const { program } = machine.states[run.state]!;
    const same = machine.states.map((_, s) => s).filter((s) => machine.states[s]!.program === program);
    const at = same.indexOf(run.state);
    const to = rng.below(4) === 0 ? rng.below(same.length) : at + rng.below(7) - 3;
    wanted[program] = same[Math.max(0, Math.min(same.length - 1, to))]!;
  }
  return { machine: index, wanted: Array.from(wanted, (s) => s ?? -1), cost: 1 + rng.real() * 12 };
}

/** The jobs that cost most in waiting, with some chance. */
export const dearest: Destroy = (state, size, rng) => {
  const { model } = state;
  const cost = model.jobs.map((job) => {
    let sum = 0;
    for (const a of job.activities) {
      if (state.start[a]! < 0) return Number.POSITIVE_INFINITY;
      for (const lag of model.activities[a]!.ins) {
        if (state.start[lag.from]! >= 0) sum += lag.rate * (state.start[a]! - state.end(lag.from) - lag.low);
      }
      const mode = state.modeOf(a);
      sum += mode.settings[state.setting[a]!]!.cost;
      if (model.activities[a]!.sink && job.group >= 0) sum += job.rate * (state.landing(job.group) - state.end(a));
    }
    return sum * (0.3 + rng.real()) + rng.real();
  });
  const order = model.jobs.map((job) => job.id).sort((x, y) => cost[y]! - cost[x]! || x - y);
  return { jobs: order.slice(0, size), bias: null };
};

/** Jobs whose activities can use what a job chosen by chance uses: machines, vessels, units. */
export const sameNeeds: Destroy = (state, size, rng) => {
  const { model } = state;
  const needs = needsOf(model);
  const seed = rng.below(model.jobs.length);
  const shared = model.jobs.map((job) => {
    let sum = 0;
    for (const need of needs[job.id]!) if (needs[seed]!.has(need)) sum++;
    return job.id === seed ? Number.POSITIVE_INFINITY : sum + rng.real() * 2;
  });
  const order = model.jobs.map((job) => job.id).sort((x, y) => shared[y]! - shared[x]! || x - y);
  return { jobs: order.slice(0, size), bias: null };
};

const needsCache = new WeakMap<Model, ReadonlySet<string>[]>();

function needsOf(model: Model): ReadonlySet<string>[] {
  let needs = needsCache.get(model);
  if (needs === undefined) {
    needs = model.jobs.map((job) => {
      const set = new Set<string>();
      for (const a of job.activities) {
        for (const mode of model.activities[a]!.modes) {
          if (mode.machine >= 0) set.add(`machine ${mode.machine}`);
          if (mode.vessel >= 0) set.add(`vessel ${mode.vessel}`);
          for (const unit of mode.units) set.add(`unit ${unit}`);
        }
      }
      return set;
    });
    needsCache.set(model, needs);
  }
  return needs;
}

/** Adds the jobs tied to these by lags across jobs, since one can seldom move without the other. */
export function withTied(model: Model, jobs: readonly number[]): number[] {
  const all = new Set(jobs);
  for (const lag of model.lags) {
    const from = model.activities[lag.from]!.job;
    const to = model.activities[lag.to]!.job;
    if (from === to) continue;
    if (jobs.includes(from)) all.add(to);
    if (jobs.includes(to)) all.add(from);
  }
  return [...all].sort((x, y) => x - y);
}
