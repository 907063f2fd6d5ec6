/**
 * What both timing solvers offer to the rows that describe a schedule of fixed structure: moments, and what may be said of two
 * of them. `M` is how the solver writes a moment down.
 */
import { blocksOf, runsOf } from '../kernel/blocks.js';
import type { State } from '../kernel/state.js';
import type { Compiled } from './compile.js';

export interface SkeletonRun {
  readonly machine: number;
  readonly state: number;
  readonly members: readonly number[];
  /** Jobs that are stored in it. */
  readonly stores: readonly number[];
  readonly from: number;
  readonly to: number;
}

export interface Timetable<M> {
  readonly compiled: Compiled;
  /** Gives the order of everything. */
  readonly state: State;
  /** Minutes of each activity: what they are to be, or the starting point where they are free. */
  readonly lengths: Int32Array;
  /** Workers, `crew` for each stretch in turn, that go with `lengths`. */
  readonly hands: readonly (readonly number[])[];
  readonly runs: readonly SkeletonRun[];
  /** Minute 0. */
  readonly zero: M;
  /** The first step or changeover of the day. */
  readonly first: M;
  start(activity: number, offset?: number): M;
  end(activity: number, offset?: number): M;
  landing(group: number): M;
  storeStart(job: number): M;
  storeEnd(job: number): M;
  begin(run: number): M;
  finish(run: number): M;
  /** later - earlier in [low, high]. */
  apart(earlier: M, later: M, low: number, high?: number): void;
  /** `later` is not before `earlier`, only because occupant `one` is on a machine before occupant `two`. */
  inTurn(one: number, two: number, earlier: M, later: M): void;
  /** Adds `rate` points a minute of later - earlier. */
  charge(rate: number, earlier: M, later: M): void;
  /** Adds `rate` points a minute by which later - earlier exceeds `free`. */
  hinge(rate: number, earlier: M, later: M, free: number): void;
  /** `to` may begin no sooner after `from` than the changeover from one run to the next (-1: from the machine's first state). */
  change(before: number, from: M, run: number, to: M): void;
}

/** The runs of a state with their members in order of start, machine by machine. */
export function timingRuns(state: State): SkeletonRun[] {
  return state.model.machines.flatMap((machine, m) =>
    runsOf(machine, blocksOf(state, m)).map((run) => ({
      machine: m,
      state: run.state,
      from: run.from,
      to: run.to,
      members: state.onMachine[m]!.filter(
        (a) => state.start[a]! >= run.from && state.end(a) <= run.to && state.stateOf(a) === run.state,
      ).sort((a, b) => state.start[a]! - state.start[b]! || a - b),
      stores: storesIn(state, m, run),
    })),
  );
}

function storesIn(state: State, machine: number, run: { state: number; from: number; to: number }): number[] {
  const { store, model } = state;
  return model.jobs
    .map((job) => job.id)
    .filter((j) => {
      const mode = store.mode[j]! < 0 ? undefined : model.jobs[j]!.storage?.modes[store.mode[j]!];
      if (mode === undefined || mode.machine !== machine) return false;
      const from = store.start[j]!;
      return (
        mode.settings[store.setting[j]!]!.state === run.state && from >= run.from && from + store.minutes[j]! <= run.to
      );
    });
}
