/** What can be ticked off on the wall: the calls of the plan in force and the steps that are under way. */
import { viewOf } from '../chart/view.js';
import type { Day } from '../live/journal/day.js';
import type { Entry } from '../live/journal/entries.js';
import { type Call, callsOfPlan } from '../live/state/calls.js';
import type { State, StepState } from '../live/state/state.js';
import { stepKey } from '../problem/hours.js';
import { sharedOf, type Entry as Told } from '../share/content.js';
import { entryWords } from '../share/words.js';

export interface CallItem {
  readonly kind: 'call';
  /** Outlasts a new plan. */
  readonly key: string;
  readonly call: Call;
  readonly at: number;
  /** When the plan before had it; null where there was none, or at the same minute. */
  readonly was: number | null;
  /** Empty: anyone's. */
  readonly cooks: readonly string[];
  readonly words: string;
  readonly open: boolean;
}

export interface StepItem {
  readonly kind: 'step';
  readonly key: string;
  readonly step: StepState;
  /** When it is expected to end. */
  readonly at: number;
  readonly cooks: readonly string[];
  /** `Roast roots, roast`. */
  readonly words: string;
}

export type Item = CallItem | StepItem;

export interface Items {
  readonly underWay: readonly StepItem[];
  /** All of the plan, in its order. */
  readonly calls: readonly CallItem[];
  /** Of the meal; empty before there is a plan. */
  readonly cautions: ReturnType<typeof sharedOf>['cautions'];
}

export function itemsOf(day: Day, state: Pick<State, 'now' | 'steps' | 'calls'>, inForce: readonly Entry[]): Items {
  const { problem, plan } = day;
  if (plan === null) return { underWay: [], calls: [], cautions: [] };
  const shared = sharedOf(viewOf(problem, plan));
  const told = new Map(
    shared.lists.flatMap(({ entries }) => entries.map((entry) => [sameCall(entry.told.call), entry])),
  );
  const open = new Set(state.calls.map(({ key }) => key));
  const before = callTimes(day, planBefore(inForce));
  const calls = callsOfPlan(day).map((call): CallItem => {
    const { key, at, row } = call;
    const was = before?.get(key) ?? null;
    return {
      kind: 'call',
      key: `call ${key}`,
      call,
      at,
      was: was === at ? null : was,
      cooks: row.cook === null ? [] : [row.cook],
      words: wordsOf(told.get(sameCall(row)), row.say),
      open: open.has(key),
    };
  });
  const underWay = state.steps
    .filter(({ standing }) => standing === 'under way')
    .map((step): StepItem => {
      const { dish, name } = problem.steps[step.id]!;
      const planned = (step.row?.hands ?? []).map(({ cook }) => cook);
      return {
        kind: 'step',
        key: `step ${stepKey(problem, step.id)}`,
        step,
        at: step.end ?? state.now,
        cooks: [...new Set(day.steps.get(step.id)?.cooks ?? planned)],
        words: `${problem.dishes[dish]!.name}, ${name}`,
      };
    });
  return { underWay, calls, cautions: shared.cautions };
}

const sameCall = ({ at, cook, say }: Call['row']): string => JSON.stringify([at, cook, say]);

const wordsOf = (entry: Told | undefined, say: string): string => (entry === undefined ? say : entryWords(entry));

/** The plan that the one in force took the place of. */
function planBefore(inForce: readonly Entry[]): Day['plan'] {
  const plans = inForce.flatMap((entry) => (entry.kind === 'plan' ? [entry.plan] : []));
  return plans.at(-2) ?? null;
}

function callTimes(day: Day, plan: Day['plan']): Map<string, number> | null {
  return plan === null ? null : new Map(callsOfPlan({ ...day, plan }).map(({ key, at }) => [key, at]));
}
