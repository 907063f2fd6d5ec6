/** The calls of the plan in force as the day has gone: which still matter. */
import { type CallKind, toldCalls } from '../../plan/calls.js';
import type { CallRow } from '../../plan/document.js';
import { type Day, plannedSteps, told } from '../journal/day.js';

export interface Call {
  readonly row: CallRow;
  readonly at: number;
  readonly kind: CallKind;
  /** What it is about, whatever the plan's times: by this it is known again in another plan. */
  readonly key: string;
  /** Id of the step that it is about, or that stands for its run or course; null for a hold. */
  readonly step: number | null;
}

export const callsOfPlan = ({ problem, plan }: Day): readonly Call[] => (plan === null ? [] : callsOf(problem, plan));

const callsOf = told((problem, plan): Call[] => {
  const ids = new Map([...plannedSteps({ problem, plan })].map(([id, row]) => [`${row.dish}/${row.step}`, id]));
  const seen = new Map<string, number>();
  return toldCalls(problem, plan).map(({ call: row, kind, subject, minute: at }): Call => {
    const about = [kind, subject.join('/'), ...(kind === 'start' || kind === 'end' ? [row.cook ?? ''] : [])]
      .join(' ')
      .trim();
    const turn = (seen.get(about) ?? 0) + 1;
    seen.set(about, turn);
    const key = turn === 1 ? about : `${about} (${turn})`;
    return { row, at, kind, key, step: ids.get(`${row.dish}/${row.step}`) ?? null };
  });
});

/** Minutes after which a call that nobody can tick off (a look, a dial) is taken for heeded, where nothing else shows it. */
const STALE = 10;

/** Calls that still ask for something at a minute, in the plan's order: the past is what the facts say, not the clock. */
export const openCalls = (day: Day, now: number): Call[] => callsOfPlan(day).filter((call) => isOpen(day, call, now));

function isOpen({ problem, steps, heeded, dropped }: Day, { key, at, kind, step }: Call, now: number): boolean {
  if (heeded.has(key)) return false;
  if (kind === 'out' || kind === 'serve') return true;
  const isRecent = at >= now - STALE;
  if (step === null) return isRecent;
  if (dropped.has(problem.steps[step]!.dish)) return false;
  const about = steps.get(step);
  if (kind === 'start' || kind === 'heat') return about === undefined;
  const goesOn = about === undefined || about.end === null;
  return goesOn && (kind !== 'look' || isRecent);
}
