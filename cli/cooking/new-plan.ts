/** A new plan for what is left, looked at by the audit before anybody sees it. Plain data in and out: threads hand each other copies. */
import { audit } from '../../src/audit/audit.js';
import type { Happened } from '../../src/live/happened.js';
import type { Change } from '../../src/live/reshuffle/changes.js';
import { reshuffle } from '../../src/live/reshuffle/reshuffle.js';
import type { PlanDocument } from '../../src/plan/document.js';
import type { Problem } from '../../src/problem/problem.js';

export interface Question {
  readonly problem: Problem;
  readonly plan: PlanDocument;
  readonly happened: Happened;
  /** By step under way, when it is expected to end by what was read. */
  readonly expected: ReadonlyMap<number, number>;
  /** There is time: nothing has begun. */
  readonly thorough: boolean;
}

export interface Answer {
  /** Null where nothing that is left finds a time, or where what was found is not right. */
  readonly plan: PlanDocument | null;
  readonly changes: readonly Change[];
  readonly say: readonly string[];
  /** Names of dishes that are still wanted and have no place in the plan any more. */
  readonly leftOut: readonly string[];
}

/** Questions have numbers, so that an answer is known to be of the latest. */
export interface Asked {
  readonly number: number;
  readonly question: Question;
}

export type Told = { readonly number: number } & ({ readonly answer: Answer } | { readonly fault: string });

const SEED = 1;
/** Rules told of a plan that is not right. */
const TOLD = 2;

export function answerTo({ problem, plan, happened, expected, thorough }: Question): Answer {
  const found = reshuffle(problem, plan, happened, { seed: SEED, expected, thorough });
  const { changes, say, leftOut, overrun, stay, twice } = found;
  const names = leftOut.map((dish) => problem.dishes[dish]!.name);
  if (found.plan === null) return { plan: null, changes, say, leftOut: names };
  const dropped = new Set([...happened.dropped, ...leftOut]);
  const { violations } = audit(problem, found.plan, { ...happened, dropped, expected, overrun, stay, twice });
  if (violations.length === 0) return { plan: found.plan, changes, say, leftOut: names };
  const rules = violations.slice(0, TOLD).map((violation) => violation.say);
  const wrong = ['The new plan that was found is not right, so it is not shown.', ...rules];
  return { plan: null, changes: [], say: wrong, leftOut: [] };
}

/** The answer, or the fault of ours that kept it. */
export function told({ number, question }: Asked): Told {
  try {
    return { number, answer: answerTo(question) };
  } catch (error) {
    return { number, fault: error instanceof Error ? error.message : String(error) };
  }
}
