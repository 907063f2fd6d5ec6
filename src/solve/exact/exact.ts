/**
 * Better schedules than the best so far, and a proof that there are none, by the constraint engine. The program leaves out what costs
 * more than the best schedule in any case: so much lateness, so many runs.
 */
import { costOf, totalOf } from '../../kernel/cost.js';
import { Rng } from '../../kernel/rng.js';
import type { State } from '../../kernel/state.js';
import type { Compiled } from '../compile.js';
import { Attempt, type Judge } from './attempt.js';
import type { Cut } from './build.js';
import { Unwritable } from './heat.js';
import { Rooms } from './rooms.js';
import { misfit } from './schedule.js';
import { type Limits, limitsFor } from './times.js';

const EPSILON = 1e-6;

export interface ExactOptions {
  /** The best schedule so far, with a place for every job. */
  readonly start: State;
  /** What no schedule costs less than, as far as is known. */
  readonly bound: number;
  readonly seed: number;
  /** A better schedule of the same structure, or the same. */
  readonly polish: (state: State) => State;
  readonly onProgress?: (progress: { readonly points: number; readonly bound: number; readonly state: State }) => void;
  readonly shouldStop?: () => boolean;
}

export class Exact implements Judge {
  best: State;
  points: number;
  /** No schedule costs less. */
  bound: number;
  isProven = false;
  /** So far, in entries of the trail. */
  work = 0;
  readonly shouldStop: (() => boolean) | undefined;
  private readonly rooms: Rooms;
  private readonly cuts: Cut[] = [];
  private readonly rng: Rng;
  /** An overlap is forbidden for which only no spots were found: nothing is proven any more. */
  private restricted = false;
  private idle: Limits['idle'] = 'least';
  /** Something was dearer in truth than in the program, which looks for nothing between the two any more: the end of its search proves nothing. */
  private lenient = false;

  constructor(
    private readonly compiled: Compiled,
    private readonly options: ExactOptions,
  ) {
    this.rooms = new Rooms(compiled);
    this.rng = new Rng(options.seed);
    this.best = options.start;
    this.points = totalOf(costOf(this.best));
    this.bound = options.bound;
    this.shouldStop = options.shouldStop;
  }

  run(work: number): void {
    for (;;) {
      const attempt = this.write();
      if (attempt === null) return;
      this.lenient = false;
      const ended = attempt.run(work - this.work);
      this.work += attempt.work;
      if (!ended && this.work < work) continue;
      if (attempt.isProven && this.lenient && this.idle === 'least' && this.work < work) {
        this.idle = 'exact';
        continue;
      }
      this.isProven = attempt.isProven && !this.restricted && !this.lenient;
      if (this.isProven) this.bound = this.points;
      return;
    }
  }

  /** Null where the meal cannot be said in rows. */
  private write(): Attempt | null {
    const { compiled, rooms, cuts, rng } = this;
    try {
      return new Attempt(
        compiled,
        rooms,
        limitsFor(compiled.model, this.points, { idle: this.idle, sums: true }),
        cuts,
        this,
        rng,
      );
    } catch (error) {
      if (error instanceof Unwritable) return null;
      throw error;
    }
  }

  take(state: State, cost: number): boolean {
    const wrong = misfit(this.compiled.model, state, this.rooms);
    if (wrong !== null) {
      this.cuts.push(wrong.cut);
      this.restricted ||= !wrong.proven;
      return false;
    }
    const polished = this.options.polish(state);
    const points = totalOf(costOf(polished));
    this.lenient ||= points > cost + EPSILON;
    if (points < this.points - EPSILON) {
      this.best = polished;
      this.points = points;
      this.tell();
      return true;
    }
    // It cost less in the program than in truth: the rows were too lenient.
    if (cost > this.points - EPSILON || this.idle === 'exact') return true;
    this.idle = 'exact';
    return false;
  }

  raise(bound: number): void {
    if (this.restricted || bound <= this.bound + EPSILON) return;
    this.bound = Math.min(bound, this.points);
    this.tell();
  }

  private tell(): void {
    this.options.onProgress?.({ points: this.points, bound: this.bound, state: this.best });
  }
}
