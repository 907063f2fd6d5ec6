/** Literals of which one holds where two things are apart in time. */
import type { Literal, Program } from '../../constraint/program.js';
import type { Doing } from './times.js';

export class Apartness {
  private readonly known = new Map<string, Literal>();
  /** All of them so far: where the literal holds, the first comes before the second. */
  readonly orders: { readonly literal: Literal; readonly first: Doing; readonly second: Doing }[] = [];
  private readonly ids = new Map<Doing, number>();

  constructor(private readonly program: Program) {}

  apart(one: Doing, two: Doing): Literal[] {
    return [this.before(one, two), this.before(two, one)];
  }

  private before(one: Doing, two: Doing): Literal {
    const key = `${this.id(one)} ${this.id(two)}`;
    let literal = this.known.get(key);
    if (literal === undefined) {
      literal = this.program.bool();
      this.program.atLeast(two.start.copy().plus(one.end, -1), 0, [literal]);
      this.known.set(key, literal);
      this.orders.push({ literal, first: one, second: two });
    }
    return literal;
  }

  private id(doing: Doing): number {
    const id = this.ids.get(doing) ?? this.ids.size;
    this.ids.set(doing, id);
    return id;
  }
}
