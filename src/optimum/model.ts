/**
 * A problem written into the constraint engine: a start of each activity, differences for lags, a literal for each mode, a time-table for each
 * renewable, and for two that cannot run at once a literal that says which comes first, which learned clauses can speak of.
 */
import { Energy } from '../constraint/energy.js';
import { Engine } from '../constraint/engine.js';
import { EngineProgram } from '../constraint/engine-program.js';
import { type Literal, not, of, Sum } from '../constraint/program.js';
import { Distances, type Pair } from './distances.js';
import { leastUse, longest, type Problem, type Schedule, shortest } from './problem.js';

/** Level of decisions at which only the makespan is assumed. */
const ASSUMED = 1;

export class Model {
  readonly engine = new Engine();
  /** Variables, by activity. */
  readonly starts: readonly number[];
  /** Nothing can be made of it: known before any search. */
  readonly impossible: boolean;
  private readonly program = new EngineProgram(this.engine);
  private readonly ends: readonly Sum[];
  /** By activity and mode; empty where there is one mode only. */
  private readonly modes: readonly (readonly Literal[])[];
  private readonly distances: Distances;
  /** Where the literal is true, one comes before the other. */
  private readonly orders: (Pair & { readonly literal: Literal })[] = [];

  /** Of schedules whose last activity begins at `latest` or before. */
  constructor(
    private readonly problem: Problem,
    latest: number,
  ) {
    const { activities } = problem;
    this.distances = new Distances(problem, latest);
    const { ordered, open } = this.distances.select(this.exclusive());
    this.impossible = this.distances.impossible;
    if (this.impossible) {
      [this.starts, this.ends, this.modes] = [[], [], []];
      return;
    }
    const { program, distances } = this;
    this.starts = activities.map((_, j) => program.int(distances.earliest(j), distances.latest(j)));
    this.modes = activities.map((modes) => (modes.length === 1 ? [] : modes.map(() => program.bool())));
    this.ends = activities.map((modes, j) => this.endOf(modes, j));
    this.writeLags();
    for (const pair of ordered) this.order(pair, []);
    for (const { one, other } of open) {
      const first = program.bool();
      this.orders.push({ one, other, literal: first });
      this.order({ one, other }, [first]);
      this.order({ one: other, other: one }, [not(first)]);
    }
    this.writeRenewables();
    this.writeNonrenewables();
  }

  private endOf(modes: Problem['activities'][number], j: number): Sum {
    const { program } = this;
    const start = this.starts[j]!;
    if (modes.length === 1) return of(start).plus(modes[0]!.minutes);
    const [low, high] = program.domainOf(start) as [number, number];
    const end = program.int(low + shortest(modes), high + longest(modes));
    const minutes = of(end).add(start, -1);
    program.exactlyOne(this.modes[j]!);
    program.row(shortest(modes), minutes, longest(modes));
    modes.forEach((mode, m) => {
      program.row(mode.minutes, minutes, mode.minutes, [this.modes[j]![m]!]);
    });
    return of(end);
  }

  private writeLags(): void {
    for (const { from, to, least, after } of this.problem.lags) {
      const begin = after === 'end' ? this.ends[from]! : of(this.starts[from]!);
      this.program.atLeast(of(this.starts[to]!).plus(begin, -1), least);
    }
  }

  private order({ one, other }: Pair, when: readonly Literal[]): void {
    this.program.atLeast(of(this.starts[other]!).plus(this.ends[one]!, -1), 0, when);
  }

  /** Those of which no two can run at once. */
  private exclusive(): Pair[] {
    const { activities, renewables } = this.problem;
    const pairs: Pair[] = [];
    activities.forEach((modes, other) => {
      for (let one = 0; one < other; one++) {
        const before = activities[one]!;
        if (shortest(modes) === 0 || shortest(before) === 0) continue;
        if (renewables.some((capacity, k) => leastUse(before, k) + leastUse(modes, k) > capacity)) {
          pairs.push({ one, other });
        }
      }
    });
    return pairs;
  }

  /** An activity asks for its least use in any case, and for the rest of it in each mode. */
  private writeRenewables(): void {
    const { program } = this;
    this.problem.renewables.forEach((capacity, k) => {
      const intervals: number[] = [];
      const demands: number[] = [];
      const ask = (j: number, minutes: Sum, end: Sum, demand: number, when: readonly Literal[]): void => {
        if (demand === 0) return;
        intervals.push(program.interval(of(this.starts[j]!), minutes, end, when));
        demands.push(demand);
      };
      this.problem.activities.forEach((modes, j) => {
        if (longest(modes) === 0) return;
        const least = leastUse(modes, k);
        const start = of(this.starts[j]!);
        ask(j, this.ends[j]!.copy().plus(start, -1), this.ends[j]!, least, []);
        modes.forEach(({ minutes, uses }, m) => {
          if (minutes > 0)
            ask(j, new Sum(minutes), start.copy().plus(minutes), uses[k]! - least, this.modes[j]!.slice(m, m + 1));
        });
      });
      if (demands.reduce((sum, demand) => sum + demand, 0) <= capacity) return;
      program.cumulative(intervals, demands, capacity);
      this.boundEnergy(k);
    });
  }

  /** Beside the time-table; where activities run one at a time throughout the search, else where little is decided. */
  private boundEnergy(k: number): void {
    const { activities, renewables } = this.problem;
    const { store } = this.engine;
    const tasks = activities.map((modes, j) => {
      return { variable: this.starts[j]!, plus: 0, size: shortest(modes), demand: leastUse(modes, k) };
    });
    const demands = tasks.filter(({ size, demand }) => size > 0 && demand > 0).map(({ demand }) => demand);
    const [first, second] = demands.sort((a, b) => a - b);
    if (first === undefined || second === undefined) return;
    const capacity = renewables[k]!;
    const highest = first + second > capacity ? Number.POSITIVE_INFINITY : ASSUMED;
    this.engine.addPropagator((number) => new Energy(store, number, tasks, capacity, highest));
  }

  private writeNonrenewables(): void {
    const { activities, nonrenewables } = this.problem;
    nonrenewables.forEach((stock, k) => {
      const sum = new Sum();
      activities.forEach((modes, j) => {
        const least = Math.min(...modes.map(({ consumes }) => consumes[k]!));
        sum.plus(least);
        modes.forEach(({ consumes }, m) => {
          if (consumes[k]! > least) sum.add(this.modes[j]![m]!, consumes[k]! - least);
        });
      });
      this.program.row(0, sum, stock);
    });
  }

  /** Values of the engine that say a schedule, by variable; where it says nothing, none. */
  valuesOf({ starts, modes }: Schedule): number[] {
    const values: number[] = Array.from({ length: this.engine.store.variables }, () => Number.NaN);
    this.starts.forEach((v, j) => {
      values[v] = starts[j]!;
      for (const end of this.modes[j]!.length > 0 ? this.ends[j]!.terms.keys() : []) {
        values[end] = starts[j]! + this.problem.activities[j]![modes[j]!]!.minutes;
      }
      this.modes[j]!.forEach((literal, m) => {
        values[literal] = m === modes[j] ? 1 : 0;
      });
    });
    for (const { one, other, literal } of this.orders) values[literal] = starts[one]! < starts[other]! ? 1 : 0;
    return values;
  }

  /** What values of the engine say. */
  scheduleOf(values: readonly number[]): Schedule {
    return {
      starts: this.starts.map((v) => values[v]!),
      modes: this.modes.map((literals) =>
        Math.max(
          0,
          literals.findIndex((literal) => values[literal] === 1),
        ),
      ),
    };
  }
}
