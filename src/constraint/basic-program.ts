/** Rows, clauses, intervals and costs written into the engine. */

import { Disjunctive } from './disjunctive.js';
import type { Atom, Engine } from './engine.js';
import { Atoms } from './explainer.js';
import { FAR, type Literal, not, of, Sum } from './program.js';
import type { Moment, Task } from './task.js';
import { Timetable } from './timetable.js';

interface Interval {
  readonly start: Sum;
  readonly size: Sum;
  readonly end: Sum;
  readonly when: readonly Literal[];
}

export const atomOf = (literal: Literal): Atom =>
  literal >= 0 ? { half: 2 * literal, value: 1 } : { half: 2 * not(literal) + 1, value: 0 };

export const negated = ({ half, value }: Atom): Atom => ({ half: half ^ 1, value: 1 - value });

export class BasicProgram {
  readonly costs = new Sum();
  protected one: Literal | null = null;
  private readonly intervals: Interval[] = [];

  constructor(readonly engine: Engine) {}

  int(low: number, high: number): number {
    return this.engine.addVariable(low, high);
  }

  bool(): Literal {
    return this.engine.addVariable(0, 1, 1e-3);
  }

  get yes(): Literal {
    this.one ??= this.int(1, 1);
    return this.one;
  }

  get no(): Literal {
    return not(this.yes);
  }

  row(low: number, sum: Sum, high: number, when: readonly Literal[] = []): void {
    if (high < FAR) this.atMost(sum, high, when);
    if (low > -FAR) this.atMost(new Sum().plus(sum, -1), -low, when);
  }

  atLeast(sum: Sum, low: number, when: readonly Literal[] = []): void {
    this.row(low, sum, FAR, when);
  }

  private atMost(sum: Sum, most: number, when: readonly Literal[]): void {
    this.atMostWhen(new Sum(-most).plus(sum), when.filter((literal) => literal !== this.one).map(atomOf));
  }

  /** The sum is at most 0 where all these atoms hold. */
  protected atMostWhen(sum: Sum, when: readonly Atom[]): void {
    const atoms = new Atoms();
    for (const { half, value } of when) atoms.add(half, value);
    const most = 0;
    const halves: number[] = [];
    const factors: number[] = [];
    for (const [v, factor] of sum.terms) {
      halves.push(factor > 0 ? 2 * v : 2 * v + 1);
      factors.push(Math.abs(factor));
    }
    if (halves.length === 2 && factors[0] === 1 && factors[1] === 1 && atoms.length <= 1) {
      const when = atoms.length === 0 ? null : { half: atoms.halves[0]!, value: atoms.values[0]! };
      this.engine.addDifference(halves[0]!, halves[1]!, most - sum.constant, when);
      return;
    }
    this.engine.addRow({ halves, factors, most: most - sum.constant, when: atoms });
  }

  within(sum: Sum, domain: readonly number[], when: readonly Literal[] = []): void {
    this.row(domain[0]!, sum, domain.at(-1)!, when);
    for (let i = 1; i + 1 < domain.length; i += 2) {
      const above = this.bool();
      this.row(-FAR, sum, domain[i]!, [...when, not(above)]);
      this.atLeast(sum, domain[i + 1]!, [...when, above]);
    }
  }

  exactlyOne(literals: readonly Literal[]): void {
    this.some(literals);
    this.atMostOne(literals);
  }

  private atMostOne(literals: readonly Literal[]): void {
    const sum = new Sum();
    for (const literal of literals) sum.add(literal);
    this.row(-FAR, sum, 1);
  }

  some(literals: readonly Literal[], when: readonly Literal[] = []): void {
    this.engine.addClause([...literals, ...when.map(not)].map(atomOf));
  }

  imply(one: Literal, two: Literal): void {
    this.some([two], [one]);
  }

  anyOf(literals: readonly Literal[]): Literal {
    const needed = [...new Set(literals)].filter((literal) => this.one === null || literal !== not(this.one));
    if (needed.length === 0) return this.no;
    if (this.one !== null && needed.includes(this.one)) return this.one;
    if (needed.length === 1) return needed[0]!;
    const any = this.bool();
    for (const literal of needed) this.imply(literal, any);
    this.some(needed, [any]);
    return any;
  }

  interval(start: Sum, size: Sum, end: Sum, when: readonly Literal[] = []): number {
    return this.intervals.push({ start, size, end, when: when.filter((literal) => literal !== this.one) }) - 1;
  }

  noOverlap(intervals: readonly number[]): void {
    if (intervals.length < 2) return;
    const tasks = intervals.map((i) => this.taskOf(this.intervals[i]!));
    this.engine.addPropagator((number) => new Disjunctive(this.engine.store, number, tasks));
  }

  cumulative(intervals: readonly number[], demands: readonly number[], capacity: number): void {
    const tasks = intervals.map((i) => this.taskOf(this.intervals[i]!));
    this.engine.addPropagator((number) => new Timetable(this.engine.store, number, tasks, demands, capacity));
  }

  private taskOf({ start, end, when }: Interval): Task {
    return { start: this.momentOf(start), end: this.momentOf(end), when: when.map(atomOf) };
  }

  protected momentOf(sum: Sum): Moment {
    const entries = [...sum.terms];
    if (entries.length === 0) return { variable: this.yes, plus: sum.constant - 1 };
    const [[variable, factor]] = entries as [[number, number]];
    if (entries.length > 1 || factor !== 1) throw new Error('a task begins and ends with one variable each');
    return { variable, plus: sum.constant };
  }

  /** What is paid for is a variable of its own, so that a bound on the cost can be put together from its parts. */
  pay(sum: Sum, points: number): void {
    if (points === 0) return;
    if (sum.terms.size <= 1) {
      this.costs.plus(sum, points);
      return;
    }
    let high = sum.constant;
    for (const [v, factor] of sum.terms) high += factor * this.domainOf(v)[factor > 0 ? 1 : 0]!;
    const paid = this.int(0, Math.max(0, high));
    this.row(0, of(paid).plus(sum, -1), 0);
    this.costs.add(paid, points);
  }

  above(sums: readonly Sum[], high: number, when: readonly Literal[] = []): number {
    const variable = this.int(0, high);
    for (const sum of sums) this.atLeast(of(variable).plus(sum, -1), 0, when);
    return variable;
  }

  domainOf(variable: number): readonly number[] {
    return [this.engine.store.lowOf(variable), this.engine.store.highOf(variable)];
  }
}
