/**
 * Parallel batching machines. Jobs of one attribute may share a batch; a machine passes from attribute to attribute by setups whose
 * times and costs depend on both, and works only within its intervals. All times are whole units from 0.
 *
 * The problem, in its words: M.-L. Lackner, C. Mrkvicka, N. Musliu, D. Walkiewicz, F. Winter, Exact methods for the oven scheduling
 * problem, Constraints 28(2), 2023.
 */

export interface Job {
  readonly attribute: number;
  /** Part of a machine's capacity that it takes up. */
  readonly size: number;
  readonly release: number;
  /** Ending later makes it tardy, by however much. */
  readonly due: number;
  /** Least and most time in a batch. */
  readonly shortest: number;
  readonly longest: number;
  /** Machines that may take it. */
  readonly machines: readonly number[];
}

export interface Interval {
  readonly from: number;
  readonly to: number;
}

export interface Machine {
  readonly capacity: number;
  /** The attribute that it is set to at 0. */
  readonly initial: number;
  /** In time order, apart from each other: each setup lies with its run in one of them. */
  readonly intervals: readonly Interval[];
}

/** Prices of a unit of run time, a tardy job, a unit of setup time and a unit of setup cost. None is negative. */
export interface Weights {
  readonly run: number;
  readonly tardy: number;
  readonly setupTime: number;
  readonly setupCost: number;
}

export interface BatchProblem {
  readonly jobs: readonly Job[];
  readonly machines: readonly Machine[];
  readonly attributes: number;
  /** `[before][after]`, both attributes; one that is repeated may need a setup too. */
  readonly setupTime: readonly (readonly number[])[];
  readonly setupCost: readonly (readonly number[])[];
  readonly weights: Weights;
}

/** A batch runs from `start` for the longest of its jobs' shortest times. */
export interface Batch {
  readonly machine: number;
  readonly jobs: readonly number[];
  readonly start: number;
  readonly end: number;
}
