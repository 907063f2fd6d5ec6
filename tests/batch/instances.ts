/** Little problems of batching machines, by chance, and all their schedules. */
import fc from 'fast-check';
import { evaluate } from '../../src/batch/evaluate.js';
import type { BatchProblem } from '../../src/batch/problem.js';

/** Sizes and times are small, so that jobs meet, wait and are tardy; some have no schedule. */
export function problems(most: { readonly jobs: number; readonly machines: number }): fc.Arbitrary<BatchProblem> {
  return fc
    .record({ attributes: fc.integer({ min: 1, max: 3 }), machines: fc.integer({ min: 1, max: most.machines }) })
    .chain(({ attributes, machines }) => {
      const attribute = fc.nat(attributes - 1);
      const matrix = fc.array(fc.array(fc.nat(4), { minLength: attributes, maxLength: attributes }), {
        minLength: attributes,
        maxLength: attributes,
      });
      const job = fc
        .record({
          attribute,
          size: fc.integer({ min: 1, max: 6 }),
          release: fc.nat(15),
          slack: fc.nat(12),
          shortest: fc.integer({ min: 1, max: 6 }),
          longer: fc.nat(5),
          machines: fc.subarray(
            Array.from({ length: machines }, (_, m) => m),
            { minLength: 1 },
          ),
        })
        .map(({ slack, longer, ...rest }) => ({
          ...rest,
          due: rest.release + slack,
          longest: rest.shortest + longer,
        }));
      const machine = fc
        .record({
          capacity: fc.integer({ min: 5, max: 10 }),
          initial: attribute,
          spans: fc.array(fc.tuple(fc.nat(5), fc.integer({ min: 1, max: 25 })), { minLength: 1, maxLength: 3 }),
        })
        .map(({ spans, ...rest }) => ({ ...rest, intervals: intervalsOf(spans) }));
      const weight = fc.nat(20);
      return fc.record({
        attributes: fc.constant(attributes),
        setupTime: matrix,
        setupCost: matrix,
        machines: fc.array(machine, { minLength: machines, maxLength: machines }),
        jobs: fc.array(job, { minLength: 1, maxLength: most.jobs }),
        weights: fc.record({ run: weight, tardy: weight, setupTime: weight, setupCost: weight }),
      });
    });
}

/** From gaps and lengths. */
function intervalsOf(spans: readonly (readonly [number, number])[]): { from: number; to: number }[] {
  let at = 0;
  return spans.map(([gap, length]) => {
    const from = at + gap;
    at = from + length;
    return { from, to: at };
  });
}

/** The least cost of all schedules, by trying each; Infinity where there is none. */
export function optimum(problem: BatchProblem): number {
  const rows: number[][][] = problem.machines.map(() => []);
  let best = Number.POSITIVE_INFINITY;
  const put = (j: number): void => {
    const job = problem.jobs[j];
    if (job === undefined) {
      const { cost, undone } = evaluate(problem, rows);
      if (undone.length === 0) best = Math.min(best, cost);
      return;
    }
    for (const m of job.machines) {
      const row = rows[m]!;
      for (const batch of row) {
        batch.push(j);
        if (holdsTogether(problem, m, batch)) put(j + 1);
        batch.pop();
      }
      for (let at = 0; at <= row.length; at++) {
        row.splice(at, 0, [j]);
        if (holdsTogether(problem, m, [j])) put(j + 1);
        row.splice(at, 1);
      }
    }
  };
  put(0);
  return best;
}

export function holdsTogether({ jobs, machines }: BatchProblem, machine: number, batch: readonly number[]): boolean {
  const own = batch.map((j) => jobs[j]!);
  const run = Math.max(...own.map(({ shortest }) => shortest));
  return (
    own.every((job) => job.attribute === own[0]!.attribute && job.longest >= run && job.machines.includes(machine)) &&
    own.reduce((sum, { size }) => sum + size, 0) <= machines[machine]!.capacity
  );
}
