/** A problem as typed arrays, for the search and the bound. */
import type { BatchProblem } from './problem.js';

export interface Tables {
  readonly jobs: number;
  readonly machines: number;
  readonly attributes: number;
  readonly attribute: Int32Array;
  readonly size: Float64Array;
  readonly release: Int32Array;
  readonly due: Int32Array;
  readonly shortest: Int32Array;
  readonly longest: Int32Array;
  /** The earliest end of a job alone on a machine after its shortest setup, `[job * machines + machine]`; -1: it can never be there. */
  readonly earliestEnd: Int32Array;
  /** The machines that a job can be on. */
  readonly machinesOf: readonly Int32Array[];
  /** Jobs of each attribute. */
  readonly jobsOf: readonly Int32Array[];
  readonly capacity: Float64Array;
  readonly initial: Int32Array;
  /** The intervals of machine m are those from `firstInterval[m]` up to, without, `firstInterval[m + 1]`. */
  readonly firstInterval: Int32Array;
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** `[before * attributes + after]`. */
  readonly setupTime: Int32Array;
  /** Setup time and cost at their weights. */
  readonly setupPrice: Float64Array;
  readonly runPrice: number;
  readonly tardyPrice: number;
  /** For a job in a batch that finds no place any more: dearer than whatever one job can cost, so that all are done in the end. */
  readonly undonePrice: number;
}

export function tablesOf(problem: BatchProblem): Tables {
  const { jobs, machines, attributes, weights } = problem;
  const whole = (list: readonly number[]): Int32Array => Int32Array.from(list);
  const intervals = machines.map((machine) => machine.intervals.filter(({ from, to }) => from < to));
  const firstInterval = new Int32Array(machines.length + 1);
  intervals.forEach((list, m) => {
    firstInterval[m + 1] = firstInterval[m]! + list.length;
  });
  const setupPrice = problem.setupTime.flatMap((row, before) =>
    row.map((time, after) => time * weights.setupTime + problem.setupCost[before]![after]! * weights.setupCost),
  );
  const longestRun = Math.max(0, ...jobs.map(({ shortest }) => shortest));
  const earliestEnd = whole(jobs.flatMap((_, j) => machines.map((_, m) => earliestAlone(problem, j, m))));
  const can = (j: number, m: number): boolean => earliestEnd[j * machines.length + m]! >= 0;
  return {
    jobs: jobs.length,
    machines: machines.length,
    attributes,
    attribute: whole(jobs.map((job) => job.attribute)),
    size: Float64Array.from(jobs.map((job) => job.size)),
    release: whole(jobs.map((job) => job.release)),
    due: whole(jobs.map((job) => job.due)),
    shortest: whole(jobs.map((job) => job.shortest)),
    longest: whole(jobs.map((job) => job.longest)),
    earliestEnd,
    machinesOf: jobs.map((_, j) => whole(machines.map((_, m) => m).filter((m) => can(j, m)))),
    jobsOf: Array.from({ length: attributes }, (_, a) =>
      whole(jobs.map((_, j) => j).filter((j) => jobs[j]!.attribute === a)),
    ),
    capacity: Float64Array.from(machines.map((machine) => machine.capacity)),
    initial: whole(machines.map((machine) => machine.initial)),
    firstInterval,
    from: whole(intervals.flatMap((list) => list.map(({ from }) => from))),
    to: whole(intervals.flatMap((list) => list.map(({ to }) => to))),
    setupTime: whole(problem.setupTime.flat()),
    setupPrice: Float64Array.from(setupPrice),
    runPrice: weights.run,
    tardyPrice: weights.tardy,
    undonePrice: 2 * (weights.run * longestRun + weights.tardy + 2 * Math.max(0, ...setupPrice)) + 1,
  };
}

function earliestAlone(problem: BatchProblem, j: number, m: number): number {
  const job = problem.jobs[j]!;
  const machine = problem.machines[m]!;
  if (!job.machines.includes(m) || job.size > machine.capacity || job.shortest > job.longest) return -1;
  const setup = Math.min(...problem.setupTime.map((row) => row[job.attribute]!));
  for (const { from, to } of machine.intervals) {
    const end = Math.max(from + setup, job.release) + job.shortest;
    if (from < to && end <= to) return end;
  }
  return -1;
}
