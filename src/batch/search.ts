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
const COLD = 0.2;
/** The last anneals are the longest: parts of the effort. Below the least of changes an anneal is not worth its while. */
const SHARES: readonly number[] = [0.125, 0.125, 0.25, 0.5];
const WORTH = 1_000_000;

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
    const shares = effort * SHARES[0]! < WORTH ? [1] : SHARES;
    for (const share of shares) tried += anneal(state, rng, { hot, cold, changes: effort * share }, best, bound);
  }
  if (best.rows === null) return { ...none, tried };
  const { batches, cost } = evaluate(problem, best.rows);
  return { batches, cost, bound, tried };
}

/** Orders in which jobs are put in place. */
function ordersOf(tables: Tables): number[][] {
  const by = (key: (job: number) => number): number[] =>
    Array.from({ length: tables.jobs }, (_, j) => j).sort((x, y) => key(x) - key(y));
  return [by((j) => tables.due[j]!), by((j) => tables.release[j]!), by((j) => -tables.shortest[j]!)];
}
