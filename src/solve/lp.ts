/**
 * Linear programs, and the one place that knows the LP library. Variables are measured from a point that the caller
 * believes feasible, so that the simplex method starts at that point instead of looking for one.
 */
import library from 'javascript-lp-solver';

/** The library's types describe a namespace, but what it exports by default is the solver itself. */
const solver = library as unknown as { Solve(model: object): Record<string, unknown> };

export interface LpRow {
  /** Flat pairs [variable, coefficient, ...]. */
  readonly terms: readonly number[];
  readonly low: number;
  readonly high: number;
}

export class LinearProgram {
  readonly cost: number[] = [];
  readonly low: number[] = [];
  readonly high: number[] = [];
  /** The starting point. */
  readonly at: number[] = [];
  readonly rows: LpRow[] = [];
  /** Points that are there whatever the values. */
  constant = 0;

  /** Adds a variable with its points a unit, its bounds and its value at the starting point; returns its index. */
  variable(cost: number, low: number, high: number, at: number): number {
    this.low.push(low);
    this.high.push(high);
    this.at.push(at);
    return this.cost.push(cost) - 1;
  }

  /** low <= sum of coefficient x variable <= high; equal coefficients of one variable add up. */
  row(terms: readonly number[], low: number, high: number): void {
    this.rows.push({ terms, low, high });
  }

  addCost(variable: number, cost: number): void {
    this.cost[variable] = this.cost[variable]! + cost;
  }

  /** Points of these values, one for each variable. */
  costAt(values: ArrayLike<number>): number {
    return this.cost.reduce((sum, cost, v) => (cost === 0 ? sum : sum + cost * values[v]!), this.constant);
  }

  /**
   * The values of a least-cost point, or null where there is none (or the least cost is unbounded).
   * Equality rows are written as low = high.
   */
  minimise(): Float64Array | null {
    const constraints: Record<string, { min?: number; max?: number; equal?: number }> = {};
    const variables: Record<string, Record<string, number>> = {};
    this.cost.forEach((cost, v) => {
      variables[`u${v}`] = { cost };
      // At its low end a variable can only rise: one column and no row for the bound.
      if (this.at[v]! > this.low[v]!) variables[`d${v}`] = { cost: -cost };
    });
    const add = (v: number, row: string, coefficient: number): void => {
      const up = variables[`u${v}`]!;
      const down = variables[`d${v}`];
      up[row] = (up[row] ?? 0) + coefficient;
      if (down !== undefined) down[row] = (down[row] ?? 0) - coefficient;
    };
    const bound = (name: string, low: number, high: number): boolean => {
      const entry: { min?: number; max?: number; equal?: number } = {};
      if (low === high) entry.equal = low;
      else {
        if (low > Number.NEGATIVE_INFINITY) entry.min = low;
        if (high < Number.POSITIVE_INFINITY) entry.max = high;
        if (entry.min === undefined && entry.max === undefined) return false;
      }
      constraints[name] = entry;
      return true;
    };
    for (const [r, row] of this.rows.entries()) {
      const coefficients = new Map<number, number>();
      let base = 0;
      for (let k = 0; k < row.terms.length; k += 2) {
        const [v, coefficient] = [row.terms[k]!, row.terms[k + 1]!];
        coefficients.set(v, (coefficients.get(v) ?? 0) + coefficient);
        base += this.at[v]! * coefficient;
      }
      const kept = [...coefficients].filter(([, coefficient]) => Math.abs(coefficient) > 1e-12);
      // The library calls a program with an equality and a row of zeros infeasible.
      if (kept.length === 0) {
        if (row.low > 1e-9 || row.high < -1e-9) return null;
      } else if (bound(`r${r}`, row.low - base, row.high - base)) {
        for (const [v, coefficient] of kept) add(v, `r${r}`, coefficient);
      }
    }
    this.cost.forEach((_, v) => {
      const low = this.at[v]! > this.low[v]! ? this.low[v]! - this.at[v]! : Number.NEGATIVE_INFINITY;
      if (bound(`b${v}`, low, this.high[v]! - this.at[v]!)) add(v, `b${v}`, 1);
    });
    const answer = solver.Solve({ optimize: 'cost', opType: 'min', constraints, variables });
    const value = (name: string): number => (answer[name] as number | undefined) ?? 0;
    if (answer.feasible !== true || answer.bounded === false) return null;
    return Float64Array.from(this.cost, (_, v) => this.at[v]! + value(`u${v}`) - value(`d${v}`));
  }
}
