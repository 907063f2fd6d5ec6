/** The plain way from rows of batches to a schedule and its cost, afresh. */
import type { Batch, BatchProblem } from './problem.js';

/** For each machine its batches in order, each a list of jobs. */
export type Rows = readonly (readonly (readonly number[])[])[];

export interface Evaluation {
  /** Machine by machine, in time order. */
  readonly batches: readonly Batch[];
  readonly cost: number;
  /** Jobs of batches that find no place in any interval any more. */
  readonly undone: readonly number[];
}

/**
 * Every batch as early as it can be, which with rows given is best: nothing costs less by ending later. A batch without a place
 * takes no time, but its setup and run are paid.
 */
export function evaluate(problem: BatchProblem, rows: Rows): Evaluation {
  const { jobs, machines, weights } = problem;
  const batches: Batch[] = [];
  const undone: number[] = [];
  let cost = 0;
  rows.forEach((row, machine) => {
    let before = machines[machine]!.initial;
    let free = 0;
    for (const batch of row) {
      const own = batch.map((j) => jobs[j]!);
      const after = own[0]!.attribute;
      const setup = problem.setupTime[before]![after]!;
      const run = Math.max(...own.map(({ shortest }) => shortest));
      const release = Math.max(...own.map((job) => job.release));
      const begin = ({ from }: { readonly from: number }): number => Math.max(from + setup, free + setup, release);
      const interval = machines[machine]!.intervals.find((one) => one.from < one.to && begin(one) + run <= one.to);
      cost += run * weights.run + setup * weights.setupTime + problem.setupCost[before]![after]! * weights.setupCost;
      if (interval === undefined) undone.push(...batch);
      else {
        const start = begin(interval);
        free = start + run;
        cost += weights.tardy * own.filter(({ due }) => due < free).length;
        batches.push({ machine, jobs: [...batch].sort((x, y) => x - y), start, end: free });
      }
      before = after;
    }
  });
  return { batches, cost, undone };
}
