/** Whether a problem, or a loosened model of it, has a schedule: proven not to, shown to, or not found with a bounded amount of work. */
import { holds } from '../../kernel/holds.js';
import type { Model } from '../../kernel/model.js';
import { Rng } from '../../kernel/rng.js';
import { State } from '../../kernel/state.js';
import type { Problem } from '../../problem/problem.js';
import { lowerBound } from '../bound.js';
import { compile } from '../compile.js';
import { earliestStarts, pathsOf } from '../paths.js';
import { AS_IT_IS, search } from '../search.js';
import { latenessOf } from './plan-again.js';
import { refute } from './refute.js';
import { choicesFor, type Manner, settle } from './settle.js';
import { tilted } from './tilt.js';

interface Found {
  readonly state: State;
  /** Minutes by which the latest course lands late. */
  readonly late: number;
}

/** `never`: proven; `open`: none was found. */
export type Verdict = ({ readonly kind: 'fits' } & Found) | { readonly kind: 'never' } | { readonly kind: 'open' };

/** Minutes of rows filled in one search, as in `solve`. */
const USUAL = 40_000;

/** The same for a whole meal of ten dishes. */
const WHOLE_MEAL = 60_000;

/** Searches with other costs. */
const TILTS = 6;

/** Activities up to which schedules are looked for by order, and with how many choices of modes and settings. */
const SMALL = 60;
const ORDERS = 6;
const MANNERS: readonly Manner[] = ['cheap', 'shared'];

/** Distances followed in one attempt at a proof, or at a schedule by order; about as dear as a third as many minutes of rows. */
const PROOF = 400_000;
const PROOF_PRICE = 0.3;

/** What a first construction costs at most, in minutes of rows for each activity and minute of the horizon. */
const CONSTRUCTION = 8;

export interface Wish {
  /** Goes on looking for a schedule in which no course is late. */
  readonly onTime?: boolean;
  readonly work?: number;
}

export class Judge {
  private spent = 0;

  constructor(
    readonly seed: number,
    /** Work in all; beyond it every question is answered `open`. */
    private readonly budget: number,
    private readonly shouldStop: () => boolean = () => false,
  ) {}

  /** Work is used up, or somebody asked to stop. */
  get over(): boolean {
    return this.spent >= this.budget || this.shouldStop();
  }

  ofProblem(problem: Problem, wish: Wish = {}): Verdict {
    return this.ofModel(problem, compile(problem).model, wish);
  }

  /** Whether it is proven that a problem has no schedule; much cheaper than looking for one. */
  proves(problem: Problem, model: Model = compile(problem).model): boolean {
    if (this.over) return false;
    const refutation = refute(problem, model, PROOF);
    this.spent += refutation.work * PROOF_PRICE;
    return refutation.proven;
  }

  ofModel(problem: Problem, model: Model, wish: Wish = {}): Verdict {
    if (this.proves(problem, model)) return { kind: 'never' };
    return this.over ? { kind: 'open' } : this.searched(problem, model, wish);
  }

  /** Whether some dish cannot be done even with the kitchen to itself. */
  hopeless(problem: Problem): boolean {
    const { model } = compile(problem);
    const earliest = earliestStarts(model);
    if (earliest === null) return true;
    this.spent += model.activities.length * model.horizon;
    return lowerBound(model, pathsOf(model), earliest).hopeless.length > 0;
  }

  /** Insertion with the model's own costs, then orders, where there are few, then insertion with other costs. */
  private searched(problem: Problem, model: Model, wish: Wish): Verdict {
    const earliest = earliestStarts(model);
    if (earliest === null) return { kind: 'never' };
    const rng = new Rng(this.seed);
    // Storage only makes waiting cheaper.
    const plain: Model = { ...model, jobs: model.jobs.map((job) => ({ ...job, storage: null })) };
    const small = model.activities.length <= SMALL;
    const attempts = [
      () => this.search(plain, earliest, wish),
      ...Array.from(
        { length: small ? ORDERS : 0 },
        (_, i) => () => this.settled(problem, plain, rng, MANNERS[i] ?? 'chance'),
      ),
      ...Array.from({ length: TILTS }, () => () => this.search(tilted(plain, rng), earliest, wish)),
    ];
    let best: Found | null = null;
    for (const attempt of attempts) {
      const found = attempt();
      if (found !== null && (best === null || found.late < best.late)) best = found;
      if (this.over || (best !== null && (!wish.onTime || best.late === 0))) break;
    }
    return best === null ? { kind: 'open' } : { kind: 'fits', ...best };
  }

  private settled(problem: Problem, model: Model, rng: Rng, manner: Manner): Found | null {
    const { state, work } = settle(problem, model, choicesFor(model, rng, manner), PROOF);
    this.spent += work * PROOF_PRICE;
    return state === null ? null : { state, late: latenessOf(state) };
  }

  private search(model: Model, earliest: Int32Array, { onTime = false, work = USUAL }: Wish): Found | null {
    let found: Found | null = null;
    const { rounds } = search(model, {
      seed: this.seed,
      work,
      earliest,
      paths: pathsOf(model),
      polish: (state) => state,
      reorder: AS_IT_IS,
      bound: Number.NEGATIVE_INFINITY,
      onBest: (_, state) => {
        if (!model.jobs.every((job) => state.jobIsPlaced(job.id))) return;
        const late = latenessOf(state);
        if (found === null || late < found.late) found = { state, late };
      },
      shouldStop: () => (found !== null && (!onTime || found.late === 0)) || this.shouldStop(),
    });
    this.spent += CONSTRUCTION * model.activities.length * model.horizon + (rounds > 0 ? work : 0);
    // Assigned in a callback, which the compiler does not see.
    const best = found as Found | null;
    return best !== null && holds(best.state) ? best : null;
  }
}

/** Whether there is a proof that a meal has no schedule, so that none need be looked for. */
export const cannotBeDone = (problem: Problem, model: Model): boolean => refute(problem, model, PROOF).proven;

/**
 * A schedule of a whole meal for which a usual search found none: with a bounded amount of work and other costs. Null where
 * this finds none either.
 */
export function secondLook(problem: Problem, model: Model, seed: number, shouldStop?: () => boolean): State | null {
  const verdict = new Judge(seed, Number.POSITIVE_INFINITY, shouldStop).ofModel(problem, model, wholeMeal(problem));
  return verdict.kind === 'fits' ? new State(model, verdict.state) : null;
}

/** How long a whole meal is looked at. */
export const wholeMeal = (problem: Problem): Wish => ({
  onTime: true,
  work: WHOLE_MEAL * Math.max(1, problem.dishes.length / 10),
});
