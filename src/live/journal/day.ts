/** The day so far: a meal as it has become, what has happened to it, and the plan in force. Minutes after `start`, °C. */
import type { PlanDocument } from '../../plan/document.js';
import { stepKey } from '../../problem/hours.js';
import type { Message } from '../../problem/message.js';
import type { Problem } from '../../problem/problem.js';
import type { Begun, Happened, Loss, Reading } from '../happened.js';
import { forGuests } from './guests.js';

/** A meal, and the same with more dishes, each a text in the problem file's own form. */
export interface Meal {
  readonly problem: Problem;
  readonly withDishes: (texts: readonly string[]) => Grown;
}

export type Grown =
  | { readonly ok: true; readonly problem: Problem }
  | { readonly ok: false; readonly messages: readonly Message[] };

export interface Remark {
  readonly at: number;
  readonly who: string | null;
  readonly text: string;
}

export interface Day {
  readonly meal: Meal;
  /** With the dishes that were added at its end, and for as many guests as there are now. */
  readonly problem: Problem;
  /** Null before one was taken. */
  readonly plan: PlanDocument | null;
  /** What the plan in force changed, and why. */
  readonly planSay: readonly string[];
  readonly steps: ReadonlyMap<number, Begun>;
  readonly readings: readonly Reading[];
  readonly serve: number;
  readonly losses: readonly Loss[];
  readonly gone: ReadonlyMap<number, number>;
  readonly dropped: ReadonlySet<number>;
  readonly added: readonly string[];
  /** By dish: how many times as much as the file says. */
  readonly guests: ReadonlyMap<number, number>;
  readonly remarks: readonly Remark[];
  /** Calls that were heeded and leave no other trace (a look, a dial), by their keys. */
  readonly heeded: ReadonlySet<string>;
}

export const morningOf = (meal: Meal): Day => ({
  meal,
  problem: meal.problem,
  plan: null,
  planSay: [],
  steps: new Map(),
  readings: [],
  serve: meal.problem.serve,
  losses: [],
  gone: new Map(),
  dropped: new Set(),
  added: [],
  guests: new Map(),
  remarks: [],
  heeded: new Set(),
});

/** What the reshuffle is told, at a minute. */
export const happenedOf = ({ steps, readings, serve, losses, gone, dropped }: Day, now: number): Happened => ({
  now,
  steps,
  readings,
  serve,
  losses,
  gone,
  dropped,
});

/** The day's problem after dishes were added or the number of guests has changed; messages where it is none. */
export function grown(day: Day, added: readonly string[], guests: Day['guests']): Day | readonly Message[] {
  const read: Grown = added.length === 0 ? { ok: true, problem: day.meal.problem } : day.meal.withDishes(added);
  if (!read.ok) return read.messages;
  return { ...day, added, guests, problem: forGuests(read.problem, guests) };
}

/** What was told of a plan before: a plan and its problem never change. */
export function told<T>(
  make: (problem: Problem, plan: PlanDocument) => T,
): (problem: Problem, plan: PlanDocument) => T {
  const known = new WeakMap<PlanDocument, { readonly problem: Problem; readonly value: T }>();
  return (problem, plan) => {
    const before = known.get(plan);
    if (before?.problem === problem) return before.value;
    const value = make(problem, plan);
    known.set(plan, { problem, value });
    return value;
  };
}

type Rows = ReadonlyMap<number, PlanDocument['steps'][number]>;

const NO_ROWS: Rows = new Map();

const rowsOf = told((problem, plan): Rows => {
  const ids = new Map(problem.steps.map(({ id }) => [stepKey(problem, id), id]));
  const rows = new Map<number, PlanDocument['steps'][number]>();
  for (const row of plan.steps) {
    const id = ids.get(`${row.dish}/${row.step}`);
    if (id !== undefined) rows.set(id, row);
  }
  return rows;
});

/** The planned times of steps, by id; what the plan leaves out is absent. */
export const plannedSteps = ({ problem, plan }: Pick<Day, 'problem' | 'plan'>): Rows =>
  plan === null ? NO_ROWS : rowsOf(problem, plan);
