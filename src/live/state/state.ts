/** Where things stand at a minute: from the day and nothing else. Minutes after `start`, °C. */
import type { PlanDocument } from '../../plan/document.js';
import { minuteAt } from '../../problem/hours.js';
import { type Day, plannedSteps } from '../journal/day.js';
import { type CoreNow, coresNow } from '../readings/core-now.js';
import { type Call, openCalls } from './calls.js';
import { type ApplianceHeat, heatsAt } from './heat-now.js';

/** `ready`: all that comes before it is done. */
export type Standing = 'done' | 'under way' | 'ready' | 'later' | 'dropped';

export interface StepState {
  readonly id: number;
  readonly standing: Standing;
  /** As it was or is planned. */
  readonly start: number | null;
  /** As it was, or is expected at the plan's pace; of one under way and late the present minute. */
  readonly end: number | null;
  /** Minutes by which it is behind the plan, 0 or more: it should have begun, or ended. */
  readonly late: number;
  /** Its row in the plan in force. */
  readonly row: PlanDocument['steps'][number] | null;
}

export interface State {
  readonly now: number;
  readonly serve: number;
  /** By step id. */
  readonly steps: readonly StepState[];
  readonly calls: readonly Call[];
  readonly heats: readonly ApplianceHeat[];
  readonly cores: readonly CoreNow[];
}

export const stateAt = (day: Day, now: number): State => ({
  ...standingAt(day, now),
  serve: day.serve,
  heats: heatsAt(day, now),
  cores: coresNow(day, now),
});

/** The steps and calls alone, which takes no model of heat. */
export function standingAt(day: Day, now: number): Pick<State, 'now' | 'steps' | 'calls'> {
  const rows = plannedSteps(day);
  const steps = day.problem.steps.map(({ id }) => stepState(day, id, rows.get(id) ?? null, now));
  return { now, steps, calls: openCalls(day, now) };
}

function stepState(day: Day, id: number, row: StepState['row'], now: number): StepState {
  const { problem } = day;
  const { dish, after } = problem.steps[id]!;
  const planned = row ? { start: minuteAt(problem, row.start), end: minuteAt(problem, row.end) } : null;
  const fact = day.steps.get(id);
  if (fact && fact.end !== null && fact.end <= now)
    return { id, standing: 'done', start: fact.start, end: fact.end, late: 0, row };
  if (fact && fact.start <= now) {
    const length = planned ? planned.end - planned.start : 0;
    // Begun late it ends late, by its planned minutes.
    const due = fact.end ?? Math.max(planned?.end ?? now, fact.start + length);
    return { id, standing: 'under way', start: fact.start, end: Math.max(due, now), late: Math.max(0, now - due), row };
  }
  if (day.dropped.has(dish)) return { id, standing: 'dropped', start: null, end: null, late: 0, row };
  const isDone = (step: number): boolean => (day.steps.get(step)?.end ?? Number.POSITIVE_INFINITY) <= now;
  const standing = after.every(({ step }) => isDone(step)) ? 'ready' : 'later';
  const late = planned ? Math.max(0, now - planned.start) : 0;
  return { id, standing, start: planned?.start ?? null, end: planned?.end ?? null, late, row };
}
