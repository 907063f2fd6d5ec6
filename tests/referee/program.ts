/** A mixed-integer linear program, put together row by row and solved by HiGHS. Knows nothing of cooking. */
import highs, { type Highs, type ModelData } from 'highs';

/** A column of the program. */
export type Variable = number;

/** A linear expression: a constant and coefficients by variable. */
export class Sum {
  constant = 0;
  readonly terms = new Map<Variable, number>();

  /** Adds `factor` times a variable. */
  add(variable: Variable, factor = 1): this {
    this.terms.set(variable, (this.terms.get(variable) ?? 0) + factor);
    return this;
  }

  addConstant(value: number): this {
    this.constant += value;
    return this;
  }

  /** Adds `factor` times another expression. */
  addSum(other: Sum, factor = 1): this {
    this.constant += factor * other.constant;
    for (const [variable, coefficient] of other.terms) this.add(variable, factor * coefficient);
    return this;
  }
}

export interface Solution {
  readonly objective: number;
  value(variable: Variable): number;
}

export class Program {
  private readonly costs: number[] = [];
  private readonly lows: number[] = [];
  private readonly highs: number[] = [];
  private readonly whole: boolean[] = [];
  private readonly rowLows: number[] = [];
  private readonly rowHighs: number[] = [];
  private readonly starts: number[] = [0];
  private readonly indices: number[] = [];
  private readonly values: number[] = [];
  private offset = 0;

  /** A variable that is 0 or 1. */
  binary(): Variable {
    return this.variable(0, 1, true);
  }

  number(low: number, high: number): Variable {
    return this.variable(low, high, false);
  }

  private variable(low: number, high: number, whole: boolean): Variable {
    this.costs.push(0);
    this.lows.push(low);
    this.highs.push(high);
    this.whole.push(whole);
    return this.costs.length - 1;
  }

  /** Adds `rate` times the expression to what is minimised. */
  pay(sum: Sum, rate: number): void {
    this.offset += rate * sum.constant;
    for (const [variable, factor] of sum.terms) this.costs[variable]! += rate * factor;
  }

  /** low <= sum <= high. A row that no variable takes part in is kept when it cannot hold: then nothing can. */
  row(low: number, sum: Sum, high: number): void {
    for (const [variable, factor] of sum.terms) {
      if (factor === 0) continue;
      this.indices.push(variable);
      this.values.push(factor);
    }
    if (this.indices.length === this.starts.at(-1) && low <= sum.constant && sum.constant <= high) return;
    this.starts.push(this.indices.length);
    this.rowLows.push(low - sum.constant);
    this.rowHighs.push(high - sum.constant);
  }

  /** smaller <= larger. */
  order(smaller: Sum, larger: Sum): void {
    this.row(-Infinity, new Sum().addSum(smaller).addSum(larger, -1), 0);
  }

  get size(): { variables: number; rows: number } {
    return { variables: this.costs.length, rows: this.rowLows.length };
  }

  /** The best solution, or null where there is none. Every objective here is a multiple of 0.01, so 0.004 proves it. */
  async solve(): Promise<Solution | null> {
    const solver = await highsOnce();
    const columns = this.costs.length;
    const rows = this.rowLows.length;
    const data: ModelData = {
      numCols: columns,
      numRows: rows,
      offset: this.offset,
      colCost: this.costs,
      colLower: this.lows,
      colUpper: this.highs,
      rowLower: this.rowLows,
      rowUpper: this.rowHighs,
      matrix: {
        format: 'csr',
        numRows: rows,
        numCols: columns,
        starts: this.starts,
        indices: this.indices,
        values: this.values,
      },
      integrality: Int32Array.from(this.whole, (each) => (each ? 1 : 0)),
    };
    return solver.withModel(data, (model): Solution | null => {
      model.options.set(OPTIONS);
      model.run();
      const status = model.getModelStatus();
      if (status === solver.constants.modelStatus.infeasible) return null;
      if (status !== solver.constants.modelStatus.optimal) throw new Error(`the program ended with status ${status}`);
      const found = model.getSolution().colValue;
      return { objective: model.getObjectiveValue(), value: (variable) => found[variable]! };
    });
  }
}

// The package declares its types as those of a CommonJS module, but an import gets its loader itself.
const load = highs as unknown as () => Promise<Highs>;
/** The relaxation is tight and the programs small: presolve and heuristics would take longer than the search itself. */
const OPTIONS = {
  output_flag: false,
  mip_rel_gap: 0,
  mip_abs_gap: 0.004,
  presolve: 'off',
  mip_max_start_nodes: 0,
  mip_heuristic_run_feasibility_jump: false,
  mip_heuristic_run_root_reduced_cost: false,
  mip_heuristic_run_rins: false,
  mip_heuristic_run_rens: false,
};

let loaded: Promise<Highs> | null = null;

function highsOnce(): Promise<Highs> {
  loaded ??= load();
  return loaded;
}
