/**
 * A program of whole-number variables: rows that may depend on literals, clauses, intervals that must not overlap, and points to be as few as
 * possible. What is said here can be handed to the engine of this folder or, through the same interface, to another solver.
 */

/** Index of a 0-1 variable; its negation is -1 - index. */
export type Literal = number;

export const not = (literal: Literal): Literal => -1 - literal;

/** A linear expression. */
export class Sum {
  readonly terms = new Map<number, number>();

  constructor(public constant = 0) {}

  /** `factor` times a variable or a literal. */
  add(variable: number, factor = 1): this {
    if (variable < 0) {
      this.constant += factor;
      return this.add(not(variable), -factor);
    }
    const sum = (this.terms.get(variable) ?? 0) + factor;
    if (sum === 0) this.terms.delete(variable);
    else this.terms.set(variable, sum);
    return this;
  }

  plus(other: Sum | number, factor = 1): this {
    if (typeof other === 'number') this.constant += factor * other;
    else {
      this.constant += factor * other.constant;
      for (const [variable, value] of other.terms) this.add(variable, factor * value);
    }
    return this;
  }

  copy(): Sum {
    return new Sum().plus(this);
  }
}

/** One variable with a factor of 1, plus a constant. */
export const of = (variable: number): Sum => new Sum().add(variable);

/** So far beyond any time or count that it means no limit. */
export const FAR = 2 ** 40;

/** A choice of one of several settings, where a literal holds. */
export interface Way {
  /** Of the setting, from 0; 0 where the literal does not hold. Made by `index`. */
  readonly at: Sum;
  readonly when: Literal;
  /** By setting. */
  readonly values: readonly number[];
}

export interface Span {
  readonly start: Sum;
  readonly end: Sum;
}

export interface Program {
  int(low: number, high: number, name?: string): number;
  bool(name?: string): Literal;
  /** A literal that is true, and one that is false. */
  readonly yes: Literal;
  readonly no: Literal;
  /** low <= sum <= high, where all the literals hold. */
  row(low: number, sum: Sum, high: number, when?: readonly Literal[]): void;
  atLeast(sum: Sum, low: number, when?: readonly Literal[]): void;
  /** The sum lies in a union of ranges [low, high, low, high, ...]. */
  within(sum: Sum, domain: readonly number[], when?: readonly Literal[]): void;
  exactlyOne(literals: readonly Literal[]): void;
  /** One of these holds, where all of `when` do. */
  some(literals: readonly Literal[], when?: readonly Literal[]): void;
  imply(one: Literal, two: Literal): void;
  /** True exactly where one of these is. */
  anyOf(literals: readonly Literal[], name?: string): Literal;
  /** Something from start to end, where all the literals hold; its number. */
  interval(start: Sum, size: Sum, end: Sum, when?: readonly Literal[]): number;
  noOverlap(intervals: readonly number[]): void;
  /** At no instant more than the capacity is demanded. */
  cumulative(intervals: readonly number[], demands: readonly number[], capacity: number): void;
  /** Adds points to what is minimised: so many times a sum that no solution makes negative. */
  pay(sum: Sum, points: number): void;
  /** A new variable of at least each of these sums and 0, and at most `high`. */
  above(sums: readonly Sum[], high: number, when?: readonly Literal[]): number;
  /** Which of so many, from 0; 0 where `when` does not hold. */
  index(count: number, when: Literal): Sum;
  /** Something from start to end lies in that one of several spans, which follow one another, of which the literal holds; in none where `when` does not. */
  inOneOf(spans: readonly Span[], start: Sum, end: Sum, literals: readonly Literal[], when: Literal): void;
  /** The sum has the value of the one way that holds, where all of `when` do. */
  lookUp(sum: Sum, ways: readonly Way[], when?: readonly Literal[]): void;
  /** Adds the points of what is chosen, of the one way that holds where `when` does. */
  payFor(ways: readonly Way[], when: Literal): void;
  domainOf(variable: number): readonly number[];
}

/** Literals of which one holds where `when` does, and none where it does not: of two where it always does, the second is the opposite of the first. */
export function choiceOf(program: Program, count: number, when: Literal): Literal[] {
  if (count === 1) return [when];
  if (count === 2 && when === program.yes) {
    const first = program.bool();
    return [first, not(first)];
  }
  const literals = Array.from({ length: count }, () => program.bool());
  if (when === program.yes) {
    program.exactlyOne(literals);
    return literals;
  }
  const chosen = new Sum();
  for (const literal of literals) chosen.add(literal);
  program.row(0, chosen.add(when, -1), 0);
  return literals;
}
