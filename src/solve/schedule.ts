/** A finished schedule with all that is known of it: what plan documents, and what is reckoned of plans, are made from. */
import type { State } from '../kernel/state.js';
import type { Compiled } from './compile.js';
import type { Predictions } from './cores.js';

export interface Schedule {
  readonly compiled: Compiled;
  readonly state: State;
  readonly predictions: Predictions;
  /** No schedule of this problem costs fewer points. */
  readonly bound: number;
}

/** What questions about its times need of it. */
export type Found = Pick<Schedule, 'compiled' | 'state'>;
