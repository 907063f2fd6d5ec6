/** The open problems as their files state them. Times are whole numbers from 0; activities, resources and machines count from 0. */

/** One way to do an activity. */
export interface ModeData {
  readonly duration: number;
  /** Units of each renewable resource while it is under way. */
  readonly uses: readonly number[];
  /** Units of each nonrenewable resource, once. */
  readonly consumes: readonly number[];
}

/** start(to) >= start(from) + lag; a negative lag is a maximum lag the other way round. */
export interface LagData {
  readonly from: number;
  readonly to: number;
  readonly lag: number;
}

/** Project scheduling, all kinds. The first activity is the source, the last the sink, whose start is the makespan. */
export interface ProjectData {
  readonly activities: readonly (readonly ModeData[])[];
  /** `to` begins at or after the end of `from`, in whichever mode. */
  readonly precedences: readonly { readonly from: number; readonly to: number }[];
  readonly lags: readonly LagData[];
  readonly renewables: readonly number[];
  readonly nonrenewables: readonly number[];
}

export interface ProjectSchedule {
  readonly starts: readonly number[];
  /** Index of each activity's mode. */
  readonly modes: readonly number[];
}

/** Job shop, flexible or not: jobs are chains of operations, each with its alternatives. */
export interface ShopData {
  readonly machines: number;
  readonly jobs: readonly (readonly (readonly { readonly machine: number; readonly duration: number }[])[])[];
}

/** Of each job and operation: when it begins, and on which machine. */
export type ShopSchedule = readonly (readonly { readonly start: number; readonly machine: number }[])[];

/** Jobs that share ovens. Attributes (programmes of an oven) count from 0. */
export interface OvenData {
  readonly horizon: number;
  readonly ovens: readonly {
    readonly capacity: number;
    /** The attribute that it is set to at 0. */
    readonly initial: number;
    readonly intervals: readonly { readonly from: number; readonly to: number }[];
  }[];
  readonly jobs: readonly {
    readonly attribute: number;
    readonly size: number;
    readonly release: number;
    readonly due: number;
    readonly shortest: number;
    readonly longest: number;
    readonly ovens: readonly number[];
  }[];
  /** `[before][after]`. */
  readonly setupTimes: readonly (readonly number[])[];
  readonly setupCosts: readonly (readonly number[])[];
  readonly weights: {
    readonly run: number;
    readonly tardy: number;
    readonly setupTime: number;
    readonly setupCost: number;
  };
}

/** Batches in any order. */
export type OvenSchedule = readonly {
  readonly machine: number;
  readonly jobs: readonly number[];
  readonly start: number;
  readonly end: number;
}[];
