/**
 * The schedule whose last activity begins earliest, or the proof that there is none. First activities are decided in the order of their
 * earliest starts, in turn with those that had most part in failures (A. Schutt, T. Feydy, P. J. Stuckey, M. G. Wallace, Solving RCPSP/max
 * by lazy clause generation, Journal of Scheduling 16, 2013); then slices that look for a better one near the best take turns with
 * slices that refute the least makespan that is not yet refuted.
 */
import { Optimiser } from '../constraint/optimiser.js';
import { Model } from './model.js';
import { horizonOf, type Problem, type Schedule } from './problem.js';

/** Failures of the first turn of each kind, and by how much the turns grow. */
const SLICE = 100;
const LONGER = 1.2;

export interface Minimum {
  /** Null where none was found (that begins its last activity before `below`). */
  readonly best: Schedule | null;
  /** No schedule begins its last activity earlier; Infinity where there is none at all. */
  readonly lower: number;
  readonly failures: number;
  /** Entries of the engine's trail. */
  readonly work: number;
}

export interface Limit {
  /** Most failures of the search. */
  readonly failures: number;
  /** Only schedules whose last activity begins before this are looked for, for one at this is known. */
  readonly below?: number;
}

export function minimise(problem: Problem, { failures, below = Number.POSITIVE_INFINITY }: Limit): Minimum {
  const model = new Model(problem, Math.min(below - 1, horizonOf(problem)));
  if (model.impossible) return { best: null, lower: below, failures: 0, work: 0 };
  const { engine, starts } = model;
  engine.branching.first = starts;
  const optimiser = new Optimiser(engine, [{ half: 2 * starts.at(-1)!, weight: 1 }], 0, below);
  const goesOn = (): boolean => !optimiser.isProven && engine.failures < failures;
  for (let slice = SLICE; goesOn(); slice *= LONGER) {
    const until = (): void => {
      engine.mostFailures = Math.min(failures, engine.failures + slice);
    };
    until();
    while (goesOn() && optimiser.improve(Number.POSITIVE_INFINITY));
    if (optimiser.best !== null) {
      until();
      while (goesOn() && optimiser.lift(Number.POSITIVE_INFINITY));
    }
    engine.branching.first = optimiser.best === null && engine.branching.first.length === 0 ? starts : [];
  }
  const { best } = optimiser;
  return {
    best: best === null ? null : model.scheduleOf(best.values),
    lower: optimiser.isProven ? (best?.cost ?? below) : optimiser.bound,
    failures: engine.failures,
    work: engine.work,
  };
}
