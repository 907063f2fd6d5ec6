/** Times and run temperatures as one linear program; the rows are added through `Timetable`. */
import type { State } from '../kernel/state.js';
import type { Compiled } from './compile.js';
import { LinearProgram } from './lp.js';
import type { SkeletonRun, Timetable } from './timetable.js';

/** A time as a variable plus minutes: `start + offset` or `end - offset` of an activity. */
export interface Moment {
  /** Flat pairs of variables and coefficients. */
  readonly terms: readonly number[];
  readonly offset: number;
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

export class TimingProgram implements Timetable<Moment> {
  readonly lp = new LinearProgram();
  readonly lengths: Int32Array;
  readonly hands: readonly (readonly number[])[];
  readonly starts: Int32Array;
  /** Length: a variable (range), or linear in a run's level, or a constant. */
  private readonly spans: { variable: number; slope: number; constant: number }[] = [];
  readonly runs: TimingRun[] = [];
  readonly zero: Moment = { terms: [], offset: 0 };
  readonly first: Moment;
  private readonly landings: Int32Array;
  private readonly stores: number[][];

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
    this.lengths = state.minutes;
    this.hands = state.hands;
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
    for (const activity of model.activities) this.spans.push(this.length(activity.id, runOf.get(activity.id)));
    this.landings = Int32Array.from(model.groups, (_, g) => lp.variable(0, 0, model.horizon, state.landing(g)));
    this.stores = model.jobs.map(({ id }) => {
      if (state.store.mode[id]! < 0) return [];
      const from = state.store.start[id]!;
      return [
        lp.variable(0, 0, model.horizon, from),
        lp.variable(0, 0, model.horizon, from + state.store.minutes[id]!),
      ];
    });
    this.first = this.moment(lp.variable(0, 0, model.serve, firstMinute(state, this.runs)));
  }

  private length(a: number, run: number | undefined): { variable: number; slope: number; constant: number } {
    const { lp, state, compiled } = this;
    const mode = state.modeOf(a);
    const at = state.minutes[a]!;
    if (mode.range !== null) {
      return { variable: lp.variable(0, mode.range.low, mode.range.high, at), slope: 0, constant: 0 };
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
    const { variable, slope, constant } = this.spans[a]!;
    const terms = [this.starts[a]!, 1];
    if (variable >= 0) terms.push(variable, slope === 0 ? 1 : slope);
    return { terms, offset: constant + offset };
  }

  landing(group: number): Moment {
    return this.moment(this.landings[group]!);
  }

  valueOf(moment: Moment, values: Float64Array): number {
    let sum = moment.offset;
    for (let k = 0; k < moment.terms.length; k += 2) sum += values[moment.terms[k]!]! * moment.terms[k + 1]!;
    return sum;
  }

  storeStart(job: number): Moment {
    return this.moment(this.stores[job]![0]!);
  }

  storeEnd(job: number): Moment {
    return this.moment(this.stores[job]![1]!);
  }

  begin(run: number): Moment {
    return this.moment(this.runs[run]!.begin);
  }

  finish(run: number): Moment {
    return this.moment(this.runs[run]!.finish);
  }

  private moment(variable: number): Moment {
    return { terms: [variable, 1], offset: 0 };
  }

  inTurn(_one: number, _two: number, earlier: Moment, later: Moment): void {
    this.apart(earlier, later, 0);
  }

  apart(earlier: Moment, later: Moment, low: number, high = Number.POSITIVE_INFINITY): void {
    const { terms, offset } = difference(earlier, later);
    if (terms.length > 0) this.lp.row(terms, low - offset, high - offset);
  }

  charge(rate: number, earlier: Moment, later: Moment): void {
    const { terms, offset } = difference(earlier, later);
    for (let k = 0; k < terms.length; k += 2) this.lp.addCost(terms[k]!, rate * terms[k + 1]!);
    this.lp.constant += rate * offset;
  }

  hinge(rate: number, earlier: Moment, later: Moment, free: number): void {
    const { terms, offset } = difference(earlier, later);
    let now = offset - free;
    for (let k = 0; k < terms.length; k += 2) now += this.lp.at[terms[k]!]! * terms[k + 1]!;
    const over = this.lp.variable(rate, 0, Number.POSITIVE_INFINITY, Math.max(0, now));
    const flipped = terms.map((x, k) => (k % 2 === 1 ? -x : x));
    this.lp.row([over, 1, ...flipped], offset - free, Number.POSITIVE_INFINITY);
  }

  /** Two rows, heating and cooling, where a level is free; else the whole minutes of the changeover. */
  change(before: number, from: Moment, r: number, to: Moment): void {
    const { problem, kit, model } = this.compiled;
    const run = this.runs[r]!;
    const machine = model.machines[run.machine]!;
    const n = machine.states.length;
    const level = before < 0 ? -1 : this.runs[before]!.level;
    if (run.level < 0 && level < 0) {
      const state = before < 0 ? n : this.runs[before]!.state;
      this.apart(from, to, machine.transition[state * (n + 1) + run.state]!);
      return;
    }
    this.apart(from, to, 0);
    const { heats, cools } = problem.kitchen.appliances[kit.applianceOf[run.machine]!]!;
    for (const rate of [heats, -cools]) {
      const { terms, offset } = difference(from, to);
      let least = -offset;
      if (run.level >= 0) terms.push(run.level, -1 / rate);
      else least += machine.states[run.state]!.level / rate;
      if (level >= 0) terms.push(level, 1 / rate);
      else least -= (before < 0 ? problem.kitchen.room : machine.states[this.runs[before]!.state]!.level) / rate;
      this.lp.row(terms, least, Number.POSITIVE_INFINITY);
    }
  }
}

/** later - earlier, as terms and a constant. */
function difference(earlier: Moment, later: Moment): { terms: number[]; offset: number } {
  const terms = [...later.terms];
  for (let k = 0; k < earlier.terms.length; k += 2) terms.push(earlier.terms[k]!, -earlier.terms[k + 1]!);
  return { terms, offset: later.offset - earlier.offset };
}

function firstMinute(state: State, runs: readonly TimingRun[]): number {
  const { model } = state;
  let first = model.serve;
  for (const { id } of model.activities) first = Math.min(first, state.start[id]!);
  for (const run of runs) {
    const machine = model.machines[run.machine]!;
    const n = machine.states.length;
    first = Math.min(first, run.from - machine.transition[n * (n + 1) + run.state]!);
  }
  return Math.max(0, first);
}
