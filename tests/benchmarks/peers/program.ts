/**
 * A constraint program in the form that CP-SAT reads: whole-number variables, rows that may depend on literals, intervals.
 * Costs are collected as points and put on a whole-number scale when the program is finished.
 */
import {
  choiceOf,
  FAR,
  type Literal,
  not,
  of,
  type Program,
  type Span,
  Sum,
  type Way,
} from '../../../src/constraint/program.js';

interface Expression {
  readonly vars: number[];
  readonly coeffs: number[];
  readonly offset: number;
}

/** As in the solver's protocol. */
type Constraint = Record<string, unknown> & { enforcementLiteral?: Literal[] };

export interface ProgramDocument {
  readonly variables: readonly { domain: number[]; name: string }[];
  readonly constraints: readonly Constraint[];
  readonly objective: { vars: number[]; coeffs: number[]; offset: number; scalingFactor: number; domain: number[] };
}

/** Scales tried, the coarsest first: hundredths, the °F in which dials are marked, then finer. */
const SCALES = [100, 900, 3600, 36_000, 180_000, 1_000_000];

export class CpSatProgram implements Program {
  private readonly variables: { domain: number[]; name: string }[] = [];
  private readonly constraints: Constraint[] = [];
  private readonly costs = new Sum();
  private one: Literal | null = null;
  /** By index: a literal for each value. */
  private readonly settings = new Map<Sum, readonly Literal[]>();

  int(low: number, high: number, name = ''): number {
    return this.variables.push({ domain: [low, high], name }) - 1;
  }

  bool(name = ''): Literal {
    return this.int(0, 1, name);
  }

  /** A literal that is true. */
  get yes(): Literal {
    this.one ??= this.int(1, 1, 'yes');
    return this.one;
  }

  get no(): Literal {
    return not(this.yes);
  }

  /** low <= sum <= high, where all the literals hold. */
  row(low: number, sum: Sum, high: number, when: readonly Literal[] = []): void {
    this.within(sum, [Math.max(low, -FAR), Math.min(high, FAR)], when);
  }

  atLeast(sum: Sum, low: number, when: readonly Literal[] = []): void {
    this.row(low, sum, FAR, when);
  }

  /** The sum lies in a union of ranges [low, high, low, high, ...]. */
  within(sum: Sum, domain: readonly number[], when: readonly Literal[] = []): void {
    const vars: number[] = [];
    const coeffs: number[] = [];
    for (const [variable, factor] of sum.terms) {
      if (factor === 0) continue;
      vars.push(variable);
      coeffs.push(factor);
    }
    this.put({ linear: { vars, coeffs, domain: domain.map((d) => d - sum.constant) } }, when);
  }

  private put(constraint: Constraint, when: readonly Literal[] = []): number {
    const needed = when.filter((literal) => literal !== this.one);
    if (needed.length > 0) constraint.enforcementLiteral = needed;
    return this.constraints.push(constraint) - 1;
  }

  exactlyOne(literals: readonly Literal[]): void {
    this.put({ exactlyOne: { literals: [...literals] } });
  }

  atMostOne(literals: readonly Literal[]): void {
    if (literals.length > 1) this.put({ atMostOne: { literals: [...literals] } });
  }

  /** One of these holds, where all of `when` do. */
  some(literals: readonly Literal[], when: readonly Literal[] = []): void {
    this.put({ boolOr: { literals: [...literals, ...when.map(not)] } });
  }

  imply(one: Literal, two: Literal): void {
    this.some([two], [one]);
  }

  /** True exactly where one of these is. */
  anyOf(literals: readonly Literal[], name = ''): Literal {
    const needed = [...new Set(literals)];
    if (needed.length === 0) return this.no;
    if (needed.includes(this.yes)) return this.yes;
    if (needed.length === 1) return needed[0]!;
    const any = this.bool(name);
    for (const literal of needed) this.imply(literal, any);
    this.some(needed, [any]);
    return any;
  }

  interval(start: Sum, size: Sum, end: Sum, when: readonly Literal[] = []): number {
    return this.put({ interval: { start: affine(start), size: affine(size), end: affine(end) } }, when);
  }

  noOverlap(intervals: readonly number[]): void {
    if (intervals.length > 1) this.put({ noOverlap: { intervals: [...intervals] } });
  }

  cumulative(intervals: readonly number[], demands: readonly number[], capacity: number): void {
    this.put({
      cumulative: {
        capacity: affine(new Sum(capacity)),
        intervals: [...intervals],
        demands: demands.map((d) => affine(new Sum(d))),
      },
    });
  }

  /** Adds points to what is minimised. */
  pay(sum: Sum, points: number): void {
    this.costs.plus(sum, points);
  }

  /** A new variable of at least each of these sums and 0, and at most `high`. */
  above(sums: readonly Sum[], high: number, when: readonly Literal[] = []): number {
    const variable = this.int(0, high);
    for (const sum of sums) this.atLeast(of(variable).plus(sum, -1), 0, when);
    return variable;
  }

  /** One literal for each setting: the relaxation is made of them. */
  index(count: number, when: Literal): Sum {
    const literals = choiceOf(this, count, when);
    const at = new Sum();
    literals.forEach((literal, i) => void at.add(literal, i));
    this.settings.set(at, literals);
    return at;
  }

  inOneOf(spans: readonly Span[], start: Sum, end: Sum, literals: readonly Literal[], when: Literal): void {
    const chosen = new Sum().add(when, -1);
    literals.forEach((literal, r) => {
      chosen.add(literal);
      this.atLeast(start.copy().plus(spans[r]!.start, -1), 0, [literal]);
      this.atLeast(spans[r]!.end.copy().plus(end, -1), 0, [literal]);
    });
    this.row(0, chosen, 0);
  }

  /** The sum of what the ways say: 0 for those that do not hold. */
  lookUp(sum: Sum, ways: readonly Way[], when: readonly Literal[] = []): void {
    const difference = new Sum().plus(sum, -1);
    for (const { at, values } of ways) {
      this.settings.get(at)!.forEach((literal, i) => void difference.add(literal, values[i]!));
    }
    this.row(0, difference, 0, when);
  }

  payFor(ways: readonly Way[]): void {
    for (const { at, values } of ways) {
      this.settings.get(at)!.forEach((literal, i) => void this.pay(new Sum().add(literal), values[i]!));
    }
  }

  get size(): { variables: number; constraints: number } {
    return { variables: this.variables.length, constraints: this.constraints.length };
  }

  domainOf(variable: number): readonly number[] {
    return this.variables[variable]!.domain;
  }

  /**
   * The program as the solver reads it, with only what costs less than so many points; `exact` is false where a cost had
   * to be rounded.
   */
  finish(below: number): { document: ProgramDocument; scale: number; exact: boolean } {
    const entries = [...this.costs.terms].filter(([, value]) => value !== 0);
    const whole = (scale: number): boolean =>
      entries.every(([, value]) => Math.abs(value * scale - Math.round(value * scale)) < 1e-6);
    const found = SCALES.find(whole);
    const scale = found ?? SCALES.at(-1)!;
    const document: ProgramDocument = {
      variables: this.variables,
      constraints: this.constraints,
      objective: {
        vars: entries.map(([variable]) => variable),
        coeffs: entries.map(([, value]) => Math.round(value * scale)),
        offset: this.costs.constant * scale,
        scalingFactor: 1,
        domain: below < FAR ? [-FAR, Math.ceil((below - this.costs.constant) * scale - 0.5) - 1] : [],
      },
    };
    return { document, scale, exact: found !== undefined };
  }
}

function affine(sum: Sum): Expression {
  const entries = [...sum.terms].filter(([, factor]) => factor !== 0);
  if (entries.length > 1) throw new Error('an interval takes one variable for each of its times');
  return { vars: entries.map(([v]) => v), coeffs: entries.map(([, f]) => f), offset: sum.constant };
}
