/** The way from a problem to a schedule: first schedules, then annealing, several times. */
import { Rng } from '../kernel/rng.js';
import { anneal, type Best, pricesOf } from './anneal.js';
import { lowerBound } from './bound.js';
import { construct } from './construct.js';
import { evaluate } from './evaluate.js';
import type { Batch, BatchProblem } from './problem.js';
import { State } from './state.js';
import { type Tables, tablesOf } from './tables.js';

export interface SearchOptions {
  /** Changes of schedules to be tried. */
  readonly effort: number;
  readonly seed: number;
}

export interface Found {
  /** By machine, in time order. Null where no schedule with all jobs was found. */
  readonly batches: readonly Batch[] | null;
  /** Infinity without a schedule. */
  readonly cost: number;
  /** No schedule costs less; Infinity: there is none, as some job can be on no machine. The best is proven where it meets the cost. */
  readonly bound: number;
  /** Changes that were tried. */
  readonly tried: number;
}

/** Changes for the worse that are priced to find the temperatures, which of these is the hottest, and how cold it gets in the end. */
const SAMPLES = 2000;
const HOT = 0.75;
const COLD = 0.5;
/** Many short anneals find what one long misses, and the other way round: of each length how many, and their part of the effort together. */
const TIERS: readonly (readonly [number, number])[] = [
  [16, 0.25],
  [4, 0.25],
  [1, 0.5],
];
/** An anneal of fewer changes a job is not worth its while, where there is a longer one. */
const WORTH = 2000;

/** The same problem, effort and seed give the same schedule. */
export function search(problem: BatchProblem, { effort, seed }: SearchOptions): Found {
  const tables = tablesOf(problem);
  const bound = lowerBound(tables);
  const none: Found = { batches: null, cost: Number.POSITIVE_INFINITY, bound, tried: 0 };
  if (bound === Number.POSITIVE_INFINITY) return none;
  const rng = new Rng(seed);
  const state = new State(tables);
  const best: Best = { cost: Number.POSITIVE_INFINITY, rows: null };
  for (const order of ordersOf(tables)) {
    construct(state, order);
    if (state.undone === 0 && state.cost < best.cost) {
      best.cost = state.cost;
      best.rows = state.toRows();
    }
  }
  const prices = tables.jobs > 0 ? pricesOf(state, rng, SAMPLES) : [];
  let tried = 0;
  if (prices.length > 0) {
    const [hot, cold] = [prices[Math.floor(prices.length * HOT)]!, prices[0]! * COLD];
    for (const changes of lengthsOf(effort, WORTH * tables.jobs)) {
      tried += anneal(state, rng, { hot, cold, changes }, best, bound);
    }
  }
  if (best.rows === null) return { ...none, tried };
  const { batches, cost } = evaluate(problem, best.rows);
  return { batches, cost, bound, tried };
}

/** Changes of each anneal; the last tier takes what those before leave. */
function lengthsOf(effort: number, worth: number): number[] {
  let left = effort;
  return TIERS.flatMap(([count, part], tier) => {
    const length = (tier === TIERS.length - 1 ? left : effort * part) / count;
    if (tier < TIERS.length - 1 && length < worth) return [];
    left -= length * count;
    return Array.from({ length: count }, () => length);
  });
}

/** Orders in which jobs are put in place. */
function ordersOf(tables: Tables): number[][] {
  const by = (key: (job: number) => number): number[] =>
    Array.from({ length: tables.jobs }, (_, j) => j).sort((x, y) => key(x) - key(y));
  return [by((j) => tables.due[j]!), by((j) => tables.release[j]!), by((j) => -tables.shortest[j]!)];
}
