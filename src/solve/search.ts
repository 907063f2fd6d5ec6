/**
 * Large neighbourhood search (P. Shaw, CP 1998; adaptive choice after S. Ropke and D. Pisinger, Transportation Science 40(4),
 * 2006): take a few jobs out, put them back one by one by exact insertion, keep what is good enough, polish every new best.
 */
import { priceOf } from '../kernel/cost.js';
import type { Model } from '../kernel/model.js';
import { isOver } from '../kernel/model.js';
import { Rng } from '../kernel/rng.js';
import { State } from '../kernel/state.js';
import { AdaptiveChoice } from './adaptive-choice.js';
import {
  anyJobs,
  besideUnplaced,
  type Destroy,
  dearest,
  nearInTime,
  runTogether,
  sameNeeds,
  twoRuns,
  withTied,
} from './destroy.js';
import { Inserter } from './insert.js';
import { priorityOrders } from './priority.js';
import type { Move } from './reorder.js';
import { Repairer } from './repair.js';

/** Points for a job that has no place: more than any delay can cost. */
const UNPLACED = 1e7;

/** What trying one change of order counts as for each activity, in minutes of rows. */
const MOVE_WORK = 10;

/** What one timing of a schedule counts as for each activity, in minutes of rows. */
const TIMING_WORK = 200;

/** Rounds between two tunings of temperatures, each of which takes as long as several rounds. */
const TUNE_EVERY = 25;

/** How much dearer than the present schedule one may be, before it is timed, to be worth timing; less where timing takes long. */
const WORTH_TIMING = 40;
const USUAL_ACTIVITIES = 20;

const NEIGHBOURHOODS: readonly Destroy[] = [anyJobs, nearInTime, runTogether, twoRuns, dearest, sameNeeds];

export interface Reordering {
  /** Null where the order has no times. */
  readonly state: State | null;
  moves(): Move[];
  saving(move: Move): number;
  taken(move: Move): State | null;
}

/** Where schedules stay as they were made. */
export const AS_IT_IS = (state: State): Reordering => ({ state, moves: () => [], saving: () => 0, taken: () => null });

export interface SearchOptions {
  readonly seed: number;
  /** Minutes of rows that may be filled: the measure of effort, the same on every machine. */
  readonly work: number;
  /** Rounds that are made in any case. */
  readonly rounds?: number;
  readonly earliest: Int32Array;
  readonly paths: readonly (readonly number[])[][];
  /** A schedule to begin with, in place of those made by rule. */
  readonly start?: State;
  /** A better schedule with the same structure, or the same. */
  readonly polish: (state: State, tune: boolean) => State;
  /** A schedule in time, and what changes of its order would save. */
  readonly reorder: (state: State) => Reordering;
  /** Stops when the cost is down to this. */
  readonly bound: number;
  readonly onBest?: (cost: number, state: State) => void;
  /** Asked now and then; true ends the search early. */
  readonly shouldStop?: () => boolean;
}

export interface SearchResult {
  readonly state: State;
  readonly cost: number;
  readonly rounds: number;
  readonly stopped: boolean;
  readonly unplaced: readonly number[];
}

/** Those of some jobs in which something can still be moved; where there are none, all such jobs. */
function movable(model: Model, jobs: readonly number[]): number[] {
  const some = jobs.filter((job) => !isOver(model, job));
  return some.length > 0 ? some : model.jobs.map((job) => job.id).filter((job) => !isOver(model, job));
}

export function search(model: Model, options: SearchOptions): SearchResult {
  return new Search(model, options).run();
}

class Search {
  private readonly rng: Rng;
  private readonly inserter: Inserter;
  private best: State;
  private bestCost = Number.POSITIVE_INFINITY;
  private rounds = 0;
  private readonly repairer: Repairer;

  constructor(
    private readonly model: Model,
    private readonly options: SearchOptions,
  ) {
    this.rng = new Rng(options.seed);
    this.best = new State(model);
    this.inserter = new Inserter(model, options.paths, options.earliest, this.best);
    this.repairer = new Repairer(model, this.inserter, this.rng);
  }

  run(): SearchResult {
    const { model, rng, options } = this;
    let current = options.start === undefined ? this.construct() : this.completed(options.start);
    let currentCost = this.cost(current);
    this.offer(current, currentCost);
    const choice = new AdaptiveChoice(NEIGHBOURHOODS.length);
    const jobs = model.jobs.length;
    const begun = this.inserter.work;
    const budget = Math.max(1, options.work - begun);
    const timing = TIMING_WORK * model.activities.length;
    const worth = WORTH_TIMING * Math.min(1, USUAL_ACTIVITIES / model.activities.length);
    let stopped = false;
    let stale = 0;
    let returns = 0;
    let tunedAt = -TUNE_EVERY;
    let untuned = false;
    const goesOn = (): boolean => this.inserter.work < options.work || this.rounds < (options.rounds ?? 0);
    if (model.jobs.every((job) => isOver(model, job.id))) return this.result(false);
    while (goesOn() && this.bestCost > options.bound + 1e-6) {
      if (options.shouldStop?.()) {
        stopped = true;
        break;
      }
      this.rounds++;
      const share = (this.inserter.work - begun) / budget;
      const left = Math.max(0, 1 - Math.min(share, options.rounds ? this.rounds / options.rounds : share));
      const chosen = choice.next(rng);
      const size = 1 + rng.below(Math.min(jobs, rng.below(3) === 0 ? 10 : 4));
      const stuck = currentCost >= UNPLACED && rng.below(2) === 0;
      const removal = (stuck ? besideUnplaced : NEIGHBOURHOODS[chosen]!)(current, size, rng);
      let out = removal.jobs;
      if (rng.below(3) > 0) out = withTied(model, out);
      if (model.progress !== undefined) out = movable(model, out);
      const next = current.copy();
      for (const job of out) next.removeJob(job);
      for (const job of model.jobs) if (!next.jobIsPlaced(job.id)) next.removeJob(job.id);
      next.clipStores();
      const limits =
        this.bestCost < UNPLACED
          ? model.groups.map((_, g) => Math.max(this.best.landing(g), current.landing(g)))
          : null;
      if (!this.repairer.repair(next, removal.bias, limits)) {
        stale++;
        continue;
      }
      const threshold = Math.max(6, 0.03 * this.bestCost) * left * left + 0.02;
      stale++;
      let found = next;
      let order: Reordering | null = null;
      let cost = this.cost(found);
      if (cost < UNPLACED && cost < currentCost + worth) {
        this.inserter.charge(timing);
        order = options.reorder(found);
        found = order.state ?? found;
        cost = this.cost(found);
        if (cost < this.bestCost - 1e-9) {
          untuned = true;
          if (this.rounds - tunedAt >= TUNE_EVERY) {
            this.inserter.charge(timing * 20);
            const tuned = options.polish(found, true);
            if (this.cost(tuned) < cost) order = null;
            found = tuned;
            cost = this.cost(found);
            tunedAt = this.rounds;
            untuned = false;
          }
        }
      }
      if (cost < UNPLACED && cost < this.bestCost + threshold) {
        found = this.reordered(found, order);
        cost = this.cost(found);
      }
      choice.tried(chosen, cost < currentCost - 1e-9);
      if (cost < this.bestCost - 1e-9) stale = 0;
      if (cost < Math.max(this.bestCost + threshold, currentCost - 1e-9)) {
        current = found;
        currentCost = cost;
      }
      this.offer(found, cost);
      if (stale > 60 + 4 * jobs) {
        stale = 0;
        returns++;
        if (returns % 2 === 1) {
          current = this.best;
          currentCost = this.bestCost;
        } else {
          current = this.afresh();
          currentCost = this.cost(current);
        }
      }
    }
    if (untuned && this.bestCost < UNPLACED) {
      const last = options.polish(this.best, true);
      this.offer(last, this.cost(last));
    }
    return this.result(stopped);
  }

  private result(stopped: boolean): SearchResult {
    const unplaced = this.model.jobs.filter((job) => !this.best.jobIsPlaced(job.id)).map((job) => job.id);
    return { state: this.best, cost: this.bestCost, rounds: this.rounds, stopped, unplaced };
  }

  /** Puts a schedule in time and changes its order for as long as that helps. */
  private reordered(state: State, begun: Reordering | null): State {
    const { inserter, options } = this;
    const each = this.model.activities.length;
    let best = state;
    for (let next = begun; ; next = null) {
      if (next === null) inserter.charge(TIMING_WORK * each);
      const reordering = next ?? options.reorder(best);
      if (reordering.state === null) return best;
      best = reordering.state;
      const least = this.cost(best);
      const savings = reordering.moves().map((move) => ({ move, saved: reordering.saving(move) }));
      inserter.charge(MOVE_WORK * each * savings.length);
      const worth = savings.filter(({ saved }) => saved > 1e-6).sort((x, y) => y.saved - x.saved);
      let helped = false;
      for (const { move } of worth.slice(0, 3)) {
        const changed = reordering.taken(move);
        if (changed === null || this.cost(changed) > least - 1e-9) continue;
        best = changed;
        helped = true;
        break;
      }
      if (!helped) return best;
    }
  }

  private offer(state: State, cost: number): void {
    if (cost >= this.bestCost) return;
    this.best = state;
    this.bestCost = cost;
    this.options.onBest?.(cost, state);
  }

  private cost(state: State): number {
    let unplaced = 0;
    for (const job of this.model.jobs) if (!state.jobIsPlaced(job.id)) unplaced++;
    return priceOf(state) + UNPLACED * unplaced;
  }

  /** First schedules by several priority rules, backward from the landing; the best of them. */
  private construct(): State {
    const { model } = this;
    let best: State | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const order of priorityOrders(model, this.repairer.urgency)) {
      const state = new State(model);
      this.repairer.insertAll(state, order, null, null);
      const cost = this.cost(state);
      if (cost < least) {
        least = cost;
        best = state;
      }
    }
    return this.finished(best!);
  }

  /** A schedule that was given, with what it leaves out put in. */
  private completed(state: State): State {
    const out = this.model.jobs.map((job) => job.id).filter((job) => !state.jobIsPlaced(job));
    if (out.length === 0) return state;
    const next = state.copy();
    this.repairer.insertAll(next, out, null, null);
    return this.finished(next);
  }

  /** In time, and with its neighbours exchanged where that helps; as it is where something has no place. */
  private finished(state: State): State {
    if (this.cost(state) >= UNPLACED) return state;
    return this.reordered(state, null);
  }

  /** A schedule from nothing, in an order chosen by chance. */
  private afresh(): State {
    const state = new State(this.model);
    this.repairer.insertAll(state, this.rng.shuffle(this.model.jobs.map((job) => job.id)), null, null);
    return this.finished(state);
  }
}
