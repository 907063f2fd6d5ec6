/** The way from a problem to its plan: compile, bound, construct, improve, polish, write. */
import { costOf, totalOf } from '../kernel/cost.js';
import { holds } from '../kernel/holds.js';
import type { State } from '../kernel/state.js';
import type { PlanDocument } from '../plan/document.js';
import type { Problem } from '../problem/problem.js';
import { lowerBound } from './bound.js';
import { type Compiled, compile } from './compile.js';
import { predictionsOf } from './cores.js';
import { Exact } from './exact/exact.js';
import { firstSchedule } from './exact/first.js';
import { explainNone } from './explain/explain.js';
import { cannotBeDone, secondLook } from './explain/judge.js';
import type { Reason } from './explain/reason.js';
import { earliestStarts, pathsOf } from './paths.js';
import { Reorder } from './reorder.js';
import type { Schedule } from './schedule.js';
import { type SearchResult, search } from './search.js';
import { timedBy } from './timed.js';
import { polish } from './timing.js';
import { type Outcome, writePlan } from './write-plan.js';

export type Effort = PlanDocument['effort']['level'];

/** Minutes of rows filled for up to `FEW_JOBS` dishes. */
const WORK: Record<Effort, number> = { quick: 8e5, normal: 3e6, deep: 1e8 };

const FEW_JOBS = 8;

/** More dishes have more ways to be arranged, each of which takes longer to try; beyond this factor patience ends. */
const MOST_WORK = 65;

function workFor(effort: Effort, jobs: number): number {
  return WORK[effort] * Math.min(MOST_WORK, Math.max(1, jobs / FEW_JOBS) ** 2);
}

/** Up to so many dishes a meal is written as a program, solved and proven; of larger ones the program is too large for its worth. */
const EXACT_JOBS = 30;
/** What the first schedules of up to `FEW_JOBS` dishes may take, in minutes of rows; of more with the fourth power of their number. */
const TO_BEGIN_WITH = 1e5;
/** Entries of the trail for the program of up to `FEW_EXACT` dishes; of up to `MANY_EXACT` with the square of their number. */
const EXACT_WORK: Record<Effort, number> = { quick: 1e5, normal: 6e6, deep: 1e8 };
const FEW_EXACT = 12;
const MANY_EXACT = 20;
/** The same for a first schedule of all dishes, where building leaves some out. */
const FIRST_WORK = 1e6;

/** A handful of steps is tried until it is almost surely solved: this many rounds at normal effort, divided by the steps cubed. */
const SMALL_ROUNDS = 400_000;
/** Fewer steps than this need no more rounds: what few ways they have is soon tried. */
const FEW_STEPS = 6;

function roundsFor(effort: Effort, activities: number): number {
  return Math.floor(((SMALL_ROUNDS / Math.max(FEW_STEPS, activities) ** 3) * WORK[effort]) / WORK.normal);
}

/** Beyond this many dishes proofs and ways out take longer than a cook would wait for them. */
const MANY_JOBS = 60;

function notFound(problem: Problem, jobs: readonly number[]): Reason {
  const names = jobs.map((job) => problem.dishes[job]!.name).join(', ');
  return {
    kind: 'why',
    say: `No time was found for ${names} beside everything else with this much search; it is not proven that there is none.`,
  };
}

export interface SolveOptions {
  readonly effort: Effort;
  readonly seed: number;
  /** Overrides the effort's amount of work (minutes of rows filled). */
  readonly work?: number;
  readonly onProgress?: (progress: { points: number; bound: number }) => void;
  /** False: where nothing fits, nobody asks why. */
  readonly explain?: boolean;
  /** Asked now and then; true ends the search with the best plan so far. */
  readonly shouldStop?: () => boolean;
}

export interface Solved {
  /** Null where no plan was found: `reasons` then say why. */
  readonly plan: PlanDocument | null;
  /** What the plan was written from. */
  readonly schedule: Schedule | null;
  readonly reasons: readonly Reason[];
}

/** By the constraint engine, for as long as the effort says. */
function exactlyBetter(compiled: Compiled, start: State, bound: number, options: SolveOptions): Exact {
  const exact = new Exact(compiled, {
    start,
    bound,
    seed: options.seed,
    polish: (state) => better(state, new Reorder(compiled, state).state),
    ...(options.onProgress && { onProgress: options.onProgress }),
    ...(options.shouldStop && { shouldStop: options.shouldStop }),
  });
  const size = (Math.min(MANY_EXACT, Math.max(FEW_EXACT, compiled.model.jobs.length)) / FEW_EXACT) ** 2;
  if (totalOf(costOf(start)) > bound + 0.005) exact.run(EXACT_WORK[options.effort] * size);
  return exact;
}

function better(one: State, other: State | null): State {
  return other !== null && holds(other) && totalOf(costOf(other)) < totalOf(costOf(one)) ? other : one;
}

export function solve(problem: Problem, options: SolveOptions): Solved {
  const compiled = compile(problem);
  const { model } = compiled;
  const est = earliestStarts(model);
  const none = (suspects: readonly number[], proven = true): Solved => {
    const { seed, shouldStop, explain } = options;
    if (explain === false) return { plan: null, schedule: null, reasons: [] };
    return {
      plan: null,
      schedule: null,
      reasons: explainNone(problem, { seed, suspects, proven, ...(shouldStop && { shouldStop }) }),
    };
  };
  if (est === null) return none([]);
  const paths = pathsOf(model);
  let bound = lowerBound(model, paths, est);
  if (bound.hopeless.length > 0) return none(bound.hopeless);
  const many = model.jobs.length > MANY_JOBS;
  const improve = (work: number, rounds: number, start?: State): SearchResult =>
    search(model, {
      seed: options.seed,
      work,
      rounds,
      earliest: est,
      paths,
      polish: (state, tune) => polish(compiled, state, tune),
      reorder: (state) => new Reorder(compiled, state),
      bound: bound.points,
      ...(start && { start }),
      ...(options.onProgress && { onBest: (points: number) => options.onProgress!({ points, bound: bound.points }) }),
      ...(options.shouldStop && { shouldStop: options.shouldStop }),
    });
  const work = options.work ?? workFor(options.effort, model.jobs.length);
  const rounds = options.work === undefined ? roundsFor(options.effort, model.activities.length) : 0;
  const first = improve(0, 0);
  // A proof that nothing fits takes long, and is worth looking for only where the first schedules leave something out.
  if (first.unplaced.length > 0 && !many && cannotBeDone(problem, model)) return none([]);
  const exactly = options.work === undefined && model.jobs.length <= EXACT_JOBS;
  let found = first;
  const little = TO_BEGIN_WITH * Math.max(1, model.jobs.length / FEW_JOBS) ** 4;
  if (exactly) found = improve(Math.min(work, little), 0, first.state);
  // Whoever asks for much is never given less than what comes of the usual search.
  if (options.effort === 'deep' && options.work === undefined && !exactly) {
    const usual = [workFor('normal', model.jobs.length), roundsFor('normal', model.activities.length)] as const;
    found = improve(...usual, first.state);
  }
  if (exactly && found.unplaced.length > 0 && !found.stopped) {
    const { state, never } = firstSchedule(compiled, FIRST_WORK, options.shouldStop);
    if (never) return none(found.unplaced);
    if (state !== null) found = improve(0, 0, polish(compiled, state, true));
  }
  if (!exactly || found.unplaced.length > 0) found = improve(work, rounds, found.state);
  if (found.unplaced.length > 0) {
    if (many) return { plan: null, schedule: null, reasons: [notFound(problem, found.unplaced)] };
    const second = found.stopped ? null : secondLook(problem, model, options.seed, options.shouldStop);
    if (second === null) return none(found.unplaced, false);
    found = improve(work, rounds, polish(compiled, second, false));
  }
  let { state } = found;
  if (exactly && !found.stopped) {
    const exact = exactlyBetter(compiled, state, bound.points, options);
    state = better(exact.best, polish(compiled, exact.best, true));
    bound = { ...bound, points: exact.bound };
    found = { ...found, stopped: options.shouldStop?.() ?? false };
  }
  const predictions = predictionsOf(problem, timedBy(compiled, state));
  const total = totalOf(costOf(state));
  const late = model.groups.some((group, g) => state.landing(g) > group.due);
  const proven = total <= bound.points + 0.005;
  const outcome: Outcome = {
    status: late ? 'late' : proven ? 'best' : 'good',
    bound: bound.points,
    effort: { level: options.effort, seed: options.seed, rounds: found.rounds, stopped: found.stopped },
  };
  const plan = writePlan(compiled, state, outcome, predictions);
  return { plan, schedule: { compiled, state, predictions, bound: bound.points }, reasons: [] };
}
