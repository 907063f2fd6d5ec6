/**
 * The schedule whose last activity begins earliest, or the proof that there is none. Until there is one, activities are decided in the order of
 * their earliest starts, in turn with those that had most part in failures (A. Schutt, T. Feydy, P. J. Stuckey, M. G. Wallace, Solving
 * RCPSP/max by lazy clause generation, Journal of Scheduling 16, 2013). Then turns that look for anything better, near the best, follow turns
 * that try to refute short makespans (destructive lower bounds; R. Klein, A. Scholl, EJOR 112, 1999), in steps that grow while they succeed.
 */
import { Model } from './model.js';
import { horizonOf, type Problem, type Schedule } from './problem.js';

/** Failures of the first turn of each kind, and by how much the turns grow. */
const SLICE = 100;
const LONGER = 1.2;

export interface Minimum {
  /** Null where none was found (that is better than the known one). */
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
  /** Only better ones than this are looked for, near it. */
  readonly known?: Schedule;
}

class Descent {
  best: readonly number[] | null = null;
  lower: number;
  /** Minutes by which the next makespan to refute lies above the bound. */
  private step = 1;
  private readonly goal: number;

  constructor(
    private readonly model: Model,
    private readonly most: number,
    public below: number,
    private readonly known: Schedule | undefined,
  ) {
    this.goal = model.starts.at(-1)!;
    this.lower = model.engine.store.lowOf(this.goal);
  }

  get goesOn(): boolean {
    return this.lower < this.below && this.model.engine.failures < this.most;
  }

  run(): void {
    const { branching } = this.model.engine;
    if (this.known === undefined) branching.first = this.model.starts;
    else branching.guide(this.model.valuesOf(this.known));
    for (let slice = SLICE; this.goesOn; slice *= LONGER) {
      this.improve(slice);
      this.lift(slice);
      const isBlind = this.best === null && this.known === undefined;
      branching.first = isBlind && branching.first.length === 0 ? this.model.starts : [];
    }
  }

  /** Looks for a schedule that ends at `latest` or before; true where one was found or refuted. */
  private decide(latest: number, failures: number): boolean {
    const { engine } = this.model;
    engine.mostFailures = Math.min(this.most, engine.failures + failures);
    const { half, value } = { half: 2 * this.goal + 1, value: -latest };
    const outcome = engine.solve(latest < this.below - 1 ? [{ half, value }] : [], Number.POSITIVE_INFINITY);
    if (outcome.kind === 'stopped') return false;
    if (outcome.kind === 'solved') {
      this.best = engine.values();
      this.below = engine.valueOf(this.goal);
      engine.branching.guide(this.best);
      if (engine.toRoot() && engine.fix(half, 1 - this.below)) return true;
      this.lower = this.below;
      return true;
    }
    this.lower = outcome.core.length === 0 ? this.below : latest + 1;
    engine.toRoot();
    engine.fix(2 * this.goal, this.lower);
    return true;
  }

  private improve(slice: number): void {
    const until = this.model.engine.failures + slice;
    while (this.goesOn && this.decide(this.below - 1, until - this.model.engine.failures));
  }

  private lift(slice: number): void {
    const { engine } = this.model;
    const until = engine.failures + slice;
    while (this.goesOn && engine.failures < until) {
      const latest = Math.min(this.below - 1, this.lower + this.step - 1);
      const { lower } = this;
      this.decide(latest, this.step > 1 ? slice / 4 : until - engine.failures);
      if (this.lower > lower) this.step *= 2;
      else if (this.step === 1) return;
      else this.step = 1;
    }
  }
}

export function minimise(problem: Problem, { failures, known }: Limit): Minimum {
  const below = known?.starts.at(-1) ?? Number.POSITIVE_INFINITY;
  const latest = Math.min(below - 1, horizonOf(problem));
  const model = new Model(problem, latest);
  if (model.impossible) return { best: null, lower: below, failures: 0, work: 0 };
  const descent = new Descent(model, failures, latest + 1, known);
  descent.run();
  const { best, lower } = descent;
  return {
    best: best === null ? null : model.scheduleOf(best),
    lower: best === null && lower === descent.below ? below : lower,
    failures: model.engine.failures,
    work: model.engine.work,
  };
}
