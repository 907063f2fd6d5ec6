/** A program written into the engine: choices are whole numbers there, whose bounds say which of them are left. */
import { atomOf, BasicProgram, negated } from './basic-program.js';
import type { Atom } from './engine.js';
import { type Literal, not, of, type Program, type Span, Sum, type Way } from './program.js';
import type { Moment } from './task.js';

const EPSILON = 1e-9;

interface Bend {
  readonly from: number;
  readonly side: 1 | -1;
  readonly more: number;
}

/** Where values rise by more from one to the next than before, to either side of the least of them. */
function bendsOf(values: readonly number[], least: number): Bend[] {
  const bends: Bend[] = [];
  for (const side of [1, -1] as const) {
    let slope = 0;
    for (let from = least; values[from + side] !== undefined; from += side) {
      const more = values[from + side]! - values[from]! - slope;
      slope += more;
      if (Math.abs(more) > EPSILON) bends.push({ from, side, more });
    }
  }
  return bends;
}

/** The least of all values up to each. */
function running(values: readonly number[]): number[] {
  let least = Number.POSITIVE_INFINITY;
  return values.map((value) => {
    least = Math.min(least, value);
    return least;
  });
}

export class EngineProgram extends BasicProgram implements Program {
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
    // Both follow from the rest, but not before it is known whether it is there.
    this.some(literals, [when]);
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

  payFor(ways: readonly Way[], when: Literal): void {
    const least = Math.min(...ways.flatMap(({ values }) => values));
    this.pay(when === this.one ? new Sum(1) : new Sum().add(when), least);
    for (const way of ways) this.payBeyond(way, least);
  }

  /** What a way costs more than the least of all. */
  private payBeyond({ at, when, values }: Way, base: number): void {
    const least = values.indexOf(Math.min(...values));
    this.pay(new Sum().add(when), values[least]! - base);
    const bends = bendsOf(values, least);
    if (bends.some(({ more }) => more < 0)) {
      values.forEach((value, i) => {
        if (value > values[least]! + EPSILON) this.pay(of(this.isAt(at, i, when)), value - values[least]!);
      });
      return;
    }
    for (const { from, side, more } of bends) {
      const beyond = new Sum(-side * from).plus(at, side);
      this.pay(of(this.above([beyond], side > 0 ? values.length - 1 - from : from, [when])), more);
    }
  }

  /** At least 1 where the index has this value and the literal holds. */
  private isAt(index: Sum, value: number, when: Literal): Literal {
    const less = this.bool();
    const more = this.bool();
    this.atLeast(new Sum(value - 1).plus(index, -1), 0, [less]);
    this.atLeast(new Sum(-value - 1).plus(index), 0, [more]);
    return this.above([new Sum(1).add(less, -1).add(more, -1)], 1, [when]);
  }
}
