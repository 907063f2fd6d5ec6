/** The variables of the timing program and how moments are written in them; rows are added by the files beside this one. */
import { type Block, blocksOf, runsOf } from '../kernel/blocks.js';
import type { State } from '../kernel/state.js';
import type { Compiled } from './compile.js';
import { LinearProgram } from './lp.js';

/** A time as a variable plus minutes: `start + offset` or `end - offset` of an activity. */
export interface Moment {
  /** Flat pairs of variables and coefficients. */
  readonly terms: readonly number[];
  readonly offset: number;
}

export interface SkeletonRun {
  readonly machine: number;
  readonly state: number;
  readonly members: readonly number[];
  readonly from: number;
  readonly to: number;
}

export interface TimingRun extends SkeletonRun {
  /** Variables; -1 where the temperature is fixed. */
  readonly level: number;
  readonly begin: number;
  readonly finish: number;
}

/** A free temperature's limits for one program. */
export interface Segment {
  readonly low: number;
  readonly high: number;
}

export class TimingProgram {
  readonly lp = new LinearProgram();
  readonly starts: Int32Array;
  /** Length: a variable (range), or linear in a run's level, or a constant. */
  readonly lengths: { variable: number; slope: number; constant: number }[] = [];
  readonly runs: TimingRun[] = [];
  readonly late: Int32Array;

  /**
   * `state` gives the order. `segments`: limits of each run's level, in the order of `timingRuns`; null for a fixed level,
   * which is that of the machine state in `fixed`.
   */
  constructor(
    readonly compiled: Compiled,
    readonly state: State,
    skeleton: readonly SkeletonRun[],
    segments: readonly (Segment | null)[],
    fixed: readonly number[],
  ) {
    const { model } = compiled;
    const { lp } = this;
    const runOf = new Map<number, number>();
    skeleton.forEach((run, r) => {
      for (const a of run.members) runOf.set(a, r);
      const level = segments[r] ?? null;
      const at = model.machines[run.machine]!.states[fixed[r]!]!.level;
      this.runs.push({
        ...run,
        state: fixed[r]!,
        level: level === null ? -1 : lp.variable(0, level.low, level.high, at),
        begin: lp.variable(0, 0, model.horizon, run.from),
        finish: lp.variable(0, 0, model.horizon, run.to),
      });
    });
    this.starts = Int32Array.from(model.activities, (activity) =>
      lp.variable(0, 0, model.horizon, state.start[activity.id]!),
    );
    for (const activity of model.activities) this.lengths.push(this.length(activity.id, runOf.get(activity.id)));
    this.late = Int32Array.from(model.groups, (group, g) =>
      lp.variable(model.rates.late, 0, model.horizon, state.landing(g) - group.due),
    );
  }

  private length(a: number, run: number | undefined): { variable: number; slope: number; constant: number } {
    const { lp, state, compiled } = this;
    const mode = state.modeOf(a);
    const at = state.minutes[a]!;
    if (mode.range !== null) {
      const { low, high, bestLow, bestHigh, rate } = mode.range;
      const variable = lp.variable(0, low, high, at);
      const off = lp.variable(rate, 0, Number.POSITIVE_INFINITY, Math.max(0, bestLow - at, at - bestHigh));
      lp.row([off, 1, variable, 1], bestLow, Number.POSITIVE_INFINITY);
      lp.row([off, 1, variable, -1], -bestHigh, Number.POSITIVE_INFINITY);
      return { variable, slope: 0, constant: 0 };
    }
    const level = run === undefined ? -1 : this.runs[run]!.level;
    const option = compiled.problem.steps[a]!.options[state.mode[a]!]!;
    if (level >= 0 && option.ideal !== null) {
      const off = lp.variable(
        compiled.problem.rates.heat,
        0,
        Number.POSITIVE_INFINITY,
        Math.abs(lp.at[level]! - option.ideal),
      );
      lp.row([off, 1, level, 1], option.ideal, Number.POSITIVE_INFINITY);
      lp.row([off, 1, level, -1], -option.ideal, Number.POSITIVE_INFINITY);
    }
    if (level >= 0 && option.duration.kind === 'table') {
      const { columns } = option.duration;
      const from = (lp.low[level]! + lp.high[level]!) / 2;
      const i = Math.max(
        1,
        columns.findIndex((c) => c.celsius >= from),
      );
      const [left, right] = [columns[i - 1]!, columns[i]!];
      const slope = (right.minutes - left.minutes) / (right.celsius - left.celsius);
      return { variable: level, slope, constant: left.minutes - slope * left.celsius };
    }
    const setting = run === undefined ? undefined : mode.settings.find((s) => s.state === this.runs[run]!.state);
    return { variable: -1, slope: 0, constant: setting?.minutes ?? at };
  }

  start(a: number, offset = 0): Moment {
    return { terms: [this.starts[a]!, 1], offset };
  }

  end(a: number, offset = 0): Moment {
    const { variable, slope, constant } = this.lengths[a]!;
    const terms = [this.starts[a]!, 1];
    if (variable >= 0) terms.push(variable, slope === 0 ? 1 : slope);
    return { terms, offset: constant + offset };
  }

  landing(group: number): Moment {
    return { terms: [this.late[group]!, 1], offset: this.compiled.model.groups[group]!.due };
  }

  valueOf(moment: Moment, values: Float64Array): number {
    let sum = moment.offset;
    for (let k = 0; k < moment.terms.length; k += 2) sum += values[moment.terms[k]!]! * moment.terms[k + 1]!;
    return sum;
  }

  variable(v: number): Moment {
    return { terms: [v, 1], offset: 0 };
  }

  /** later - earlier in [low, high]. */
  apart(earlier: Moment, later: Moment, low: number, high = Number.POSITIVE_INFINITY): void {
    const terms = [...later.terms];
    for (let k = 0; k < earlier.terms.length; k += 2) terms.push(earlier.terms[k]!, -earlier.terms[k + 1]!);
    const shift = earlier.offset - later.offset;
    this.lp.row(terms, low + shift, high + shift);
  }

  /** Adds `rate` points a minute of later - earlier. */
  charge(rate: number, earlier: Moment, later: Moment): void {
    for (let k = 0; k < later.terms.length; k += 2) this.lp.addCost(later.terms[k]!, rate * later.terms[k + 1]!);
    for (let k = 0; k < earlier.terms.length; k += 2) this.lp.addCost(earlier.terms[k]!, -rate * earlier.terms[k + 1]!);
  }
}

/** The runs of a state with their members in order of start, machine by machine. */
export function timingRuns(state: State): SkeletonRun[] {
  return state.model.machines.flatMap((machine, m) => {
    const blocks: Block[] = blocksOf(state, m);
    return runsOf(machine, blocks).map((run) => ({
      machine: m,
      state: run.state,
      from: run.from,
      to: run.to,
      members: state.onMachine[m]!.filter(
        (a) => state.start[a]! >= run.from && state.end(a) <= run.to && state.stateOf(a) === run.state,
      ).sort((a, b) => state.start[a]! - state.start[b]! || a - b),
    }));
  });
}
