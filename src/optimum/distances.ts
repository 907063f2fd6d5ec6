/**
 * Longest paths between all activities, and the orders that follow from them: of two that cannot run at once, one comes first where the
 * other cannot (immediate selection; P. Brucker, B. Jurisch, B. Sievers, Discrete Applied Mathematics 49, 1994).
 */
import { horizonOf, type Problem, shortest } from './problem.js';

export interface Pair {
  readonly one: number;
  readonly other: number;
}

export class Distances {
  /** One more than there are activities: the last node is the origin of time. */
  private readonly size: number;
  /** [from * size + to]: to begins at least so long after from. */
  private readonly least: Float64Array;
  private readonly minutes: readonly number[];
  /** An activity would have to begin after itself. */
  impossible = false;

  /** Of schedules in which the last activity begins at `latest` or before. */
  constructor(problem: Problem, latest: number) {
    const { activities, lags } = problem;
    const horizon = horizonOf(problem);
    const origin = activities.length;
    this.size = origin + 1;
    this.least = new Float64Array(this.size * this.size).fill(Number.NEGATIVE_INFINITY);
    this.minutes = activities.map(shortest);
    for (let j = 0; j < this.size; j++) {
      this.raise(j, j, 0);
      this.raise(origin, j, 0);
      if (j < origin) this.raise(j, origin, -horizon);
    }
    this.raise(origin - 1, origin, -latest);
    for (const { from, to, least, after } of lags) {
      this.raise(from, to, least + (after === 'end' ? this.minutes[from]! : 0));
    }
    this.close();
  }

  private raise(from: number, to: number, least: number): void {
    const at = from * this.size + to;
    if (this.least[at]! < least) this.least[at] = least;
  }

  private close(): void {
    const { size } = this;
    for (let via = 0; via < size; via++) this.goVia(via);
    for (let j = 0; j < size; j++) this.impossible ||= this.between(j, j) > 0;
  }

  private goVia(via: number): void {
    const { size, least } = this;
    for (let i = 0; i < size; i++) {
      const first = least[i * size + via]!;
      if (first === Number.NEGATIVE_INFINITY) continue;
      for (let j = 0; j < size; j++) {
        const whole = first + least[via * size + j]!;
        if (least[i * size + j]! < whole) least[i * size + j] = whole;
      }
    }
  }

  between(from: number, to: number): number {
    return this.least[from * this.size + to]!;
  }

  earliest(j: number): number {
    return this.between(this.size - 1, j);
  }

  latest(j: number): number {
    return -this.between(j, this.size - 1);
  }

  /** Whether one ends before the other begins, in any case. */
  isBefore(one: number, other: number): boolean {
    return this.between(one, other) >= this.minutes[one]!;
  }

  private cannotBeBefore(one: number, other: number): boolean {
    return this.between(other, one) > -this.minutes[one]!;
  }

  /** One ends before the other begins, from now on. */
  private order(one: number, other: number): void {
    const { size, least } = this;
    const minutes = this.minutes[one]!;
    for (let i = 0; i < size; i++) {
      const first = least[i * size + one]! + minutes;
      if (first === Number.NEGATIVE_INFINITY) continue;
      for (let j = 0; j < size; j++) {
        const whole = first + least[other * size + j]!;
        if (least[i * size + j]! < whole) least[i * size + j] = whole;
      }
    }
    this.impossible ||= this.between(one, one) > 0 || this.between(other, other) > 0;
  }

  /** Orders what can be ordered in one way only. Returns those orders and the pairs that are open. */
  select(pairs: readonly Pair[]): { ordered: Pair[]; open: Pair[] } {
    const ordered: Pair[] = [];
    let open = pairs;
    for (let changed = true; changed && !this.impossible; ) {
      changed = false;
      open = open.filter(({ one, other }) => {
        if (this.impossible || this.isBefore(one, other) || this.isBefore(other, one)) return false;
        const [no, neither] = [this.cannotBeBefore(one, other), this.cannotBeBefore(other, one)];
        if (!no && !neither) return true;
        const [first, second] = no ? [other, one] : [one, other];
        this.order(first, second);
        ordered.push({ one: first, other: second });
        changed = true;
        return false;
      });
    }
    return { ordered, open: [...open] };
  }
}
