/**
 * The scheduling model that the solver works on. It knows no food: activities with modes, time lags with a least and a
 * most, renewable resources, state resources with transition times, surfaces, workers, and costs that are convex and
 * piecewise linear in the times. Times are whole minutes, half-open intervals, between 0 and `horizon`.
 */

import type { Progress } from './progress.js';

/** Minimum and maximum time lag from an end to a start: low <= start(to) - end(from) <= high, `rate` points a minute above low. */
export interface Lag {
  readonly from: number;
  readonly to: number;
  readonly low: number;
  readonly high: number;
  readonly rate: number;
  /** What its points are reported as. */
  readonly part: 'wait' | 'gap';
}

/** One value of a machine's state that an activity can be done in. */
export interface Setting {
  /** Index into the machine's `states`; -1 where the mode needs no machine. */
  readonly state: number;
  /** Processing time in this state. */
  readonly minutes: number;
  /** Points for using it. */
  readonly cost: number;
}

/** A processing time that may be chosen; outside [bestLow, bestHigh] it costs `rate` a minute. */
export interface Range {
  readonly low: number;
  readonly high: number;
  readonly bestLow: number;
  readonly bestHigh: number;
  readonly rate: number;
}

/** When workers are needed: all the time, or stretches at the start, the end and every so often. `crew` workers at once; 0: never. */
export interface Attention {
  readonly all: boolean;
  readonly start: number;
  readonly end: number;
  readonly every: number;
  readonly look: number;
  readonly crew: number;
}

/** Workers are bits of a number; those beyond get nothing to do. */
export const MOST_WORKERS = 31;

export interface ActivityMode {
  /** -1: no machine. */
  readonly machine: number;
  readonly settings: readonly Setting[];
  /** Set where the processing time is the planner's choice; `settings[].minutes` is then its low end. */
  readonly range: Range | null;
  /** What stands on the machine's surface: a kind of load (index into `loads`) and how many; -1: nothing. */
  readonly load: number;
  readonly loads: number;
  /** Unary resources of which `unitCount` are needed for the whole activity. */
  readonly units: readonly number[];
  readonly unitCount: number;
  /** A renewable resource of which one is needed for the activity itself (-1: none). */
  readonly bench: number;
  /** A renewable resource taken at the start and kept beyond the end: see `custody.ts` (-1: none). */
  readonly vessel: number;
  readonly vessels: number;
  /** Neither takes nor ends a custody: what its predecessor carries stays. */
  readonly transparent: boolean;
  readonly attention: Attention;
  /** Bit w set: worker w may do it. */
  readonly able: number;
}

export interface Activity {
  readonly id: number;
  readonly job: number;
  readonly modes: readonly ActivityMode[];
  readonly ins: readonly Lag[];
  readonly outs: readonly Lag[];
  /** Last of its job: it waits until the job's group lands. */
  readonly sink: boolean;
  /** A custody that starts here ends with the activity. */
  readonly empties: boolean;
  /** Activities of the same job that follow it directly. */
  readonly nexts: readonly number[];
  /** Over all modes and settings. */
  readonly shortest: number;
  readonly longest: number;
}

/** Optional storage of a finished job on a machine until its group lands. */
export interface Storage {
  readonly modes: readonly ActivityMode[];
  /** Points a minute in storage, and the longest that costs no `over`. */
  readonly rate: number;
  readonly keeps: number;
}

export interface Job {
  readonly id: number;
  readonly activities: readonly number[];
  /** The group it lands with; -1: none, its custodies last until the last activity of `users` starts. */
  readonly group: number;
  readonly users: readonly number[];
  /** Points a minute between its sinks' ends and the landing; `over` more beyond `keeps`. */
  readonly rate: number;
  readonly keeps: number;
  readonly storage: Storage | null;
}

/** Jobs that land together at `due` or, at `lateRate` points a minute, later. */
export interface Group {
  readonly due: number;
  readonly jobs: readonly number[];
}

/** A state resource: activities in it at once share one state; between states lies a transition time. */
export interface Machine {
  readonly states: readonly { readonly program: number; readonly level: number }[];
  /** transition[a * (n + 1) + b], n = states.length; row n: from the initial state at time 0. */
  readonly transition: Int32Array;
  /** Points for each run beyond the first, and for each minute of a run with nothing in it. */
  readonly runCost: number;
  readonly idleCost: number;
  /**
   * Whether these stand together. `program`: of the state they share at any instant; intervals say which are on at once.
   * Loads keep their spot for the whole interval.
   */
  readonly fits: (loads: readonly StandingLoad[]) => boolean;
}

export interface StandingLoad {
  readonly program: number;
  readonly load: number;
  readonly count: number;
  readonly start: number;
  readonly end: number;
  /** Index of the spots that its loads have already; absent: none. */
  readonly spot?: number;
}

export interface Renewable {
  readonly capacity: number;
  /** Minutes a unit is away after a custody. */
  readonly tail: number;
}

export interface Worker {
  /** Half-open windows, rising, in which it can work. */
  readonly stays: readonly { readonly from: number; readonly to: number }[];
}

export interface Model {
  readonly horizon: number;
  /** The moment from which the length of the day is counted back. */
  readonly serve: number;
  readonly groups: readonly Group[];
  readonly jobs: readonly Job[];
  readonly activities: readonly Activity[];
  readonly lags: readonly Lag[];
  readonly machines: readonly Machine[];
  /** Number of unary resources. */
  readonly units: number;
  readonly renewables: readonly Renewable[];
  readonly workers: readonly Worker[];
  readonly rates: { readonly late: number; readonly over: number; readonly swap: number; readonly day: number };
  /** Where the schedule is under way already. */
  readonly progress?: Progress;
}

/** Whole minutes from one state to the next. `from` = -1: the initial state. */
export function transitionTime(machine: Machine, from: number, to: number): number {
  const n = machine.states.length;
  return machine.transition[(from < 0 ? n : from) * (n + 1) + to]!;
}

/** Stretches of attention within an activity of `minutes`, as flat pairs [offset, length, ...]. */
export function stretchesOf(attention: Attention, minutes: number): number[] {
  if (attention.crew === 0 || minutes <= 0) return [];
  if (attention.all) return [0, minutes];
  const out: number[] = [];
  const start = Math.min(attention.start, minutes);
  const end = Math.min(attention.end, minutes - start);
  if (start > 0) out.push(0, start);
  if (attention.every > 0 && attention.look > 0) {
    for (let at = attention.every; at + attention.look <= minutes - end; at += attention.every) {
      if (at >= start) out.push(at, attention.look);
    }
  }
  if (end > 0) out.push(minutes - end, end);
  return out;
}

/** It is as it is, and stays so. */
export const isSettled = (model: Model, activity: number): boolean =>
  model.progress !== undefined && model.progress.settled[activity]! !== null;

/** Nothing of the job can be moved any more. */
export const isOver = (model: Model, job: number): boolean =>
  model.progress !== undefined && model.jobs[job]!.activities.every((a) => model.progress!.settled[a]! !== null);
