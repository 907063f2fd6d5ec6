import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LinearProgram } from '../../src/solve/lp.js';
import { Program, Sum } from '../referee/program.js';

const FREE = Number.POSITIVE_INFINITY;

interface Column {
  readonly cost: number;
  readonly low: number;
  readonly high: number;
  readonly at: number;
}

interface Row {
  readonly terms: readonly number[];
  readonly low: number;
  readonly high: number;
}

function solve(columns: readonly Column[], rows: readonly Row[]): Float64Array | null {
  const lp = new LinearProgram();
  for (const { cost, low, high, at } of columns) lp.variable(cost, low, high, at);
  for (const { terms, low, high } of rows) lp.row(terms, low, high);
  return lp.minimise();
}

const costOf = (columns: readonly Column[], x: Float64Array): number =>
  columns.reduce((sum, column, v) => sum + column.cost * x[v]!, 0);

/** The least cost by a general solver; null where there is no point at all. */
async function general(columns: readonly Column[], rows: readonly Row[]): Promise<number | null> {
  const program = new Program();
  const x = columns.map(({ cost, low, high }) => {
    const variable = program.number(low, high);
    program.pay(new Sum().add(variable), cost);
    return variable;
  });
  for (const { terms, low, high } of rows) {
    const sum = new Sum();
    for (let k = 0; k < terms.length; k += 2) sum.add(x[terms[k]!]!, terms[k + 1]!);
    program.row(low, sum, high);
  }
  return (await program.solve())?.objective ?? null;
}

const TOLERANCE = 1e-6;

function expectFeasible(columns: readonly Column[], rows: readonly Row[], x: Float64Array): void {
  columns.forEach(({ low, high }, v) => {
    expect(x[v]).toBeGreaterThanOrEqual(low - TOLERANCE);
    expect(x[v]).toBeLessThanOrEqual(high + TOLERANCE);
  });
  for (const { terms, low, high } of rows) {
    let sum = 0;
    for (let k = 0; k < terms.length; k += 2) sum += x[terms[k]!]! * terms[k + 1]!;
    expect(sum).toBeGreaterThanOrEqual(low - TOLERANCE);
    expect(sum).toBeLessThanOrEqual(high + TOLERANCE);
  }
}

describe('LinearProgram', () => {
  it('goes to the corner that costs least', () => {
    // x + y >= 4, x - y <= 1, y <= 3; 2x + 3y is least at (2.5, 1.5).
    const columns = [
      { cost: 2, low: 0, high: FREE, at: 1 },
      { cost: 3, low: 0, high: 3, at: 3 },
    ];
    const rows = [
      { terms: [0, 1, 1, 1], low: 4, high: FREE },
      { terms: [0, 1, 1, -1], low: -FREE, high: 1 },
    ];
    const x = solve(columns, rows)!;
    expect(x[0]).toBeCloseTo(2.5, 6);
    expect(x[1]).toBeCloseTo(1.5, 6);
  });

  it('keeps equalities, and rows bounded on both sides', () => {
    const columns = [
      { cost: -1, low: 0, high: 50, at: 5 },
      { cost: 1, low: 0, high: 50, at: 5 },
    ];
    const x = solve(columns, [
      { terms: [0, 1, 1, 1], low: 10, high: 10 },
      { terms: [0, 1, 1, -1], low: -3, high: 4 },
    ])!;
    expect(x[0]).toBeCloseTo(7, 6);
    expect(x[1]).toBeCloseTo(3, 6);
  });

  it('adds up the coefficients of a variable that a row names twice', () => {
    const x = solve([{ cost: 1, low: 0, high: 50, at: 20 }], [{ terms: [0, 1, 0, 2], low: 12, high: FREE }])!;
    expect(x[0]).toBeCloseTo(4, 6);
  });

  it('judges a row in which everything cancels by its bounds alone', () => {
    const columns = [{ cost: 1, low: 0, high: 9, at: 0 }];
    const rows = (low: number): Row[] => [
      { terms: [0, 1, 0, -1], low, high: 1 },
      { terms: [0, 1], low: 4, high: 4 },
    ];
    expect(solve(columns, rows(-2))?.[0]).toBeCloseTo(4, 6);
    expect(solve(columns, rows(0.5))).toBeNull();
  });

  it('adds costs to a variable', () => {
    const lp = new LinearProgram();
    const v = lp.variable(1, 0, 9, 4);
    lp.addCost(v, -3);
    expect(lp.minimise()![v]).toBeCloseTo(9, 6);
  });

  it('finds no point where rows contradict each other', () => {
    const columns = [{ cost: 1, low: 0, high: 9, at: 0 }];
    expect(solve(columns, [{ terms: [0, 1], low: 10, high: FREE }])).toBeNull();
    expect(
      solve(columns, [
        { terms: [0, 1], low: 5, high: FREE },
        { terms: [0, 1], low: -FREE, high: 4 },
      ]),
    ).toBeNull();
  });

  it('finds no point where the cost has no least', () => {
    expect(solve([{ cost: -1, low: 0, high: FREE, at: 0 }], [{ terms: [0, 1], low: 0, high: FREE }])).toBeNull();
  });

  it('starts from a point below, above or within the bounds alike', () => {
    for (const at of [0, 3, 10]) {
      const x = solve([{ cost: 1, low: 0, high: 10, at }], [{ terms: [0, 1], low: 2, high: FREE }]);
      expect(x?.[0]).toBeCloseTo(2, 6);
    }
  });

  it('ends on a degenerate program', () => {
    // E. M. L. Beale's example of a tableau that cycles under the plain rule (Naval Research Logistics Quarterly 2, 1955).
    const columns = [-0.75, 150, -0.02, 6].map((cost) => ({ cost, low: 0, high: FREE, at: 0 }));
    const rows = [
      { terms: [0, 0.25, 1, -60, 2, -0.04, 3, 9], low: -FREE, high: 0 },
      { terms: [0, 0.5, 1, -90, 2, -0.02, 3, 3], low: -FREE, high: 0 },
      { terms: [2, 1], low: -FREE, high: 1 },
    ];
    const x = solve(columns, rows)!;
    expectFeasible(columns, rows, x);
    expect(costOf(columns, x)).toBeCloseTo(-0.05, 8);
  });

  it('agrees with a general solver, whether there is a point or not', async () => {
    const column = fc
      .record({
        cost: fc.integer({ min: -6, max: 6 }),
        low: fc.integer({ min: -10, max: 10 }),
        width: fc.nat(25),
        share: fc.nat(4),
      })
      .map(({ cost, low, width, share }) => ({ cost, low, high: low + width, at: low + (width * share) / 4 }));
    const problems = fc.array(column, { minLength: 1, maxLength: 8 }).chain((columns) => {
      const coefficient = fc.integer({ min: -4, max: 4 }).filter((c) => c !== 0);
      const term = fc.tuple(fc.nat(columns.length - 1), coefficient);
      const row = fc
        .record({
          terms: fc.array(term, { minLength: 1, maxLength: 4 }).map((terms) => terms.flat()),
          low: fc.oneof(fc.constant(-FREE), fc.integer({ min: -30, max: 10 })),
          width: fc.oneof(fc.constant(FREE), fc.nat(30)),
        })
        .map(({ terms, low, width }) => ({
          terms,
          low,
          high: low === -FREE ? (width === FREE ? 20 : width) : low + width,
        }));
      return fc.record({ columns: fc.constant(columns), rows: fc.array(row, { maxLength: 8 }) });
    });
    let none = 0;
    await fc.assert(
      fc.asyncProperty(problems, async ({ columns, rows }) => {
        const x = solve(columns, rows);
        const objective = await general(columns, rows);
        if (objective === null) none++;
        if (x === null || objective === null) expect([x, objective]).toEqual([null, null]);
        else {
          expectFeasible(columns, rows, x);
          expect(Math.abs(costOf(columns, x) - objective)).toBeLessThanOrEqual(1e-6 * Math.max(1, Math.abs(objective)));
        }
      }),
      { seed: 3, numRuns: 400 },
    );
    expect(none).toBeGreaterThan(20);
    expect(none).toBeLessThan(300);
  });
});
