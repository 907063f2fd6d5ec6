/** A program written into the engine. */

import { Disjunctive } from './disjunctive.js';
import type { Atom, Engine } from './engine.js';
import { Atoms } from './explainer.js';
import { FAR, type Literal, not, of, type Program, type Span, Sum, type Way } from './program.js';
import type { Moment, Task } from './task.js';
import { Timetable } from './timetable.js';

interface Interval {
  readonly start: Sum;
  readonly size: Sum;
  readonly end: Sum;
  readonly when: readonly Literal[];
}

const atomOf = (literal: Literal): Atom =>
  literal >= 0 ? { half: 2 * literal, value: 1 } : { half: 2 * not(literal) + 1, value: 0 };

const EPSILON = 1e-9;

const negated = ({ half, value }: Atom): Atom => ({ half: half ^ 1, value: 1 - value });

/** The least of all values up to each. */
function running(values: readonly number[]): number[] {
  let least = Number.POSITIVE_INFINITY;
  return values.map((value) => {
    least = Math.min(least, value);
    return least;
  });
}

export class EngineProgram implements Program {
  readonly costs = new Sum();
  private one: Literal | null = null;
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
  private atMostWhen(sum: Sum, when: readonly Atom[]): void {
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

  private momentOf(sum: Sum): Moment {
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

  index(count: number, when: Literal): Sum {
    if (count === 1) return new Sum();
    const at = of(this.int(0, count - 1));
    if (when !== this.one) this.row(0, at, 0, [not(when)]);
    return at;
  }

  inOneOf(spans: readonly Span[], start: Sum, end: Sum, literals: readonly Literal[], when: Literal): void {
    const at = this.int(0, spans.length - 1);
    const last = spans.length - 1;
    const there = when === this.one ? [] : [atomOf(when)];
    const away = there.map(negated);
    const from = (r: number): Atom => ({ half: 2 * at, value: r });
    const upTo = (r: number): Atom => ({ half: 2 * at + 1, value: -r });
    literals.forEach((literal, r) => {
      const [yes, no] = [atomOf(literal), negated(atomOf(literal))];
      for (const one of there) this.engine.addClause([no, one]);
      if (r > 0) this.engine.addClause([no, from(r)]);
      if (r < last) this.engine.addClause([no, upTo(r)]);
      const others = [...(r > 0 ? [upTo(r - 1)] : []), ...(r < last ? [from(r + 1)] : [])];
      this.engine.addClause([yes, ...others, ...away]);
      const after = new Sum().plus(spans[r]!.start).plus(start, -1);
      this.atMostWhen(after, [...there, ...(r > 0 ? [from(r)] : [])]);
      const before = new Sum().plus(end).plus(spans[r]!.end, -1);
      this.atMostWhen(before, [...there, ...(r < last ? [upTo(r)] : [])]);
    });
    for (const one of away) this.engine.addClause([negated(one), upTo(0)]);
  }

  lookUp(sum: Sum, ways: readonly Way[], when: readonly Literal[] = []): void {
    for (const { at, when: own, values } of ways) {
      const all = [...new Set([...when, own])];
      const step = values.length > 1 ? values[1]! - values[0]! : 0;
      if (values.every((value, i) => value === values[0]! + i * step)) {
        this.row(values[0]!, sum.copy().plus(at, -step), values[0]!, all);
        continue;
      }
      const not = all.filter((literal) => literal !== this.one).map((literal) => negated(atomOf(literal)));
      this.atLeastBy(this.momentOf(sum), 0, values, at, not);
      this.atLeastBy(
        this.momentOf(sum),
        1,
        values.map((value) => -value),
        at,
        not,
      );
    }
  }

  /** Half 0 (the value) or 1 (its negative) of a moment is at least what the values say, or one of the other atoms holds. */
  private atLeastBy(
    { variable, plus }: Moment,
    side: 0 | 1,
    values: readonly number[],
    index: Sum,
    others: readonly Atom[],
  ): void {
    const { variable: at } = this.momentOf(index);
    const last = values.length - 1;
    const reaches = (value: number): Atom => ({
      half: 2 * variable + side,
      value: side === 0 ? value - plus : value + plus,
    });
    const above = (i: number): Atom[] => (i < last ? [{ half: 2 * at, value: i + 1 }] : []);
    const below = (i: number): Atom[] => (i > 0 ? [{ half: 2 * at + 1, value: 1 - i }] : []);
    const upTo = running(values);
    const from = running([...values].reverse()).reverse();
    values.forEach((value, i) => {
      // Of those that say the same, the one with the weakest condition.
      if (upTo[i] !== upTo[i + 1]) this.engine.addClause([...others, ...above(i), reaches(upTo[i]!)]);
      if (from[i] !== from[i - 1]) this.engine.addClause([...others, ...below(i), reaches(from[i]!)]);
      if (value > Math.max(upTo[i]!, from[i]!)) {
        this.engine.addClause([...others, ...above(i), ...below(i), reaches(value)]);
      }
    });
  }

  /** Throws a `RangeError` where the points do not rise ever more. */
  payFor(ways: readonly Way[], when: Literal): void {
    const least = Math.min(...ways.flatMap(({ values }) => values));
    this.pay(when === this.one ? new Sum(1) : new Sum().add(when), least);
    for (const way of ways) this.payBeyond(way, least);
  }

  /** What a way costs more than the least of all. */
  private payBeyond({ at, when, values }: Way, base: number): void {
    const least = values.indexOf(Math.min(...values));
    this.pay(new Sum().add(when), values[least]! - base);
    for (const side of [1, -1]) {
      let slope = 0;
      for (let i = least; values[i + side] !== undefined; i += side) {
        const more = values[i + side]! - values[i]! - slope;
        if (more < -EPSILON) throw new RangeError('points that do not rise ever more cannot be paid for');
        slope += more;
        if (more <= EPSILON) continue;
        const beyond = new Sum(-side * i).plus(at, side);
        this.pay(of(this.above([beyond], side > 0 ? values.length - 1 - i : i, [when])), more);
      }
    }
  }

  domainOf(variable: number): readonly number[] {
    return [this.engine.store.lowOf(variable), this.engine.store.highOf(variable)];
  }
}
