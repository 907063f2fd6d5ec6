/** The calls of the plan in force as the day has gone: what each asks for, and which still matter. */
import type { CallRow } from '../../plan/document.js';
import { minuteAt } from '../../problem/hours.js';
import { type Day, plannedSteps } from '../journal/day.js';

/** `start`, `look`, `end` and `off` are about a step; `heat` and `out` about a dial; `serve` about a course. */
export type CallKind = 'start' | 'look' | 'end' | 'off' | 'heat' | 'out' | 'serve';

export interface Call {
  readonly row: CallRow;
  readonly at: number;
  readonly kind: CallKind;
  /** Id of the step that it is about, or that stands for its run or course; null for a hold. */
  readonly step: number | null;
}

/** What a call says, without the times that a new plan moves: by this it is known again. */
export const callKey = ({ dish, step, say }: CallRow): string =>
  `${dish}/${step}: ${say.replace(/[^.;:]*\d{1,2}:\d{2}[^.;]*/g, '')}`;

export function callsOfPlan(day: Day): Call[] {
  const { problem, plan } = day;
  const rows = plannedSteps(day);
  const ids = new Map([...rows].map(([id, row]) => [`${row.dish}/${row.step}`, id]));
  return (plan?.calls ?? []).map((row): Call => {
    const step = ids.get(`${row.dish}/${row.step}`) ?? null;
    return {
      row,
      at: minuteAt(problem, row.at),
      kind: kindOf(row, step === null ? null : rows.get(step)!.start),
      step,
    };
  });
}

function kindOf({ at, dish, step, say }: CallRow, start: string | null): CallKind {
  if (!say.startsWith(`${dish}: `))
    return say.startsWith('Serve ') ? 'serve' : say.endsWith('turn it off.') ? 'out' : 'heat';
  const said = say.slice(dish.length + 2);
  if (said.startsWith('take it off the heat')) return 'off';
  if (said.startsWith(`${step} ends `)) return 'end';
  return start === null || at === start ? 'start' : 'look';
}

/** Minutes after which a call that nobody can tick off (a look, a dial) is taken for heeded, where nothing else shows it. */
const STALE = 10;

/** Calls that still ask for something at a minute, in the plan's order: the past is what the facts say, not the clock. */
export const openCalls = (day: Day, now: number): Call[] => callsOfPlan(day).filter((call) => isOpen(day, call, now));

function isOpen({ problem, steps, heeded, dropped }: Day, { row, at, kind, step }: Call, now: number): boolean {
  if (heeded.has(callKey(row))) return false;
  if (kind === 'out' || kind === 'serve') return true;
  const isRecent = at >= now - STALE;
  if (step === null) return isRecent;
  if (dropped.has(problem.steps[step]!.dish)) return false;
  const about = steps.get(step);
  if (kind === 'start' || kind === 'heat') return about === undefined;
  const goesOn = about === undefined || about.end === null;
  return goesOn && (kind !== 'look' || isRecent);
}
