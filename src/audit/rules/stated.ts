/** What a plan says about itself beside the ten rules: whose problem it is, its points, its dishes' waits, its calls. */
import { PART_NAMES } from '../../plan/document.js';
import type { Points } from '../points.js';
import type { Reading, Row } from '../reading.js';
import { inMinutes, type Violation } from '../violation.js';

/** Points are given to 0.01, and both sides round. */
const POINTS_SLACK = 0.01 + 1e-9;

export function checkStated(reading: Reading, points: Points): Violation[] {
  const found: Violation[] = [];
  const tell = (code: string, say: string, steps: string[] = []): number => found.push({ rule: 0, code, say, steps });
  const { clock, plan, problem } = reading;

  if (plan.problem.digest !== problem.digest) tell('problem', 'The plan was made for another file.');
  if (plan.zone !== problem.zone) tell('problem', `The plan is for ${plan.zone}, the meal is in ${problem.zone}.`);
  if (clock.minute(plan.serve) !== problem.serve) tell('problem', 'The plan is for another serving time.');

  const stated = plan.points;
  const far = (one: number, two: number): boolean => !(Math.abs(one - two) <= POINTS_SLACK);
  for (const name of PART_NAMES) {
    const own = points.parts[name];
    if (far(stated.parts[name], own))
      tell('points', `The plan gives ${stated.parts[name]} points for ${name}; it is ${own}.`);
  }
  if (far(stated.total, points.total))
    tell('points', `The plan gives ${stated.total} points in all; it is ${points.total}.`);
  if (!(stated.bound <= stated.total + POINTS_SLACK))
    tell('points', 'The plan has fewer points than any plan can have.');

  const isLate = reading.landings.some((landing) => landing !== null && landing.lands > landing.asked);
  if (isLate !== (plan.status === 'late')) {
    tell(
      'status',
      isLate ? 'A course lands late, and the plan does not say so.' : 'The plan says late, but nothing is.',
    );
  }
  if (plan.status === 'none') tell('status', 'The plan says that nothing fits, but it is a plan.');
  if (plan.status === 'best' && !(stated.bound >= stated.total - POINTS_SLACK)) {
    tell('status', 'The plan says that no plan is better, but its bound leaves room for one.');
  }

  for (const [index, row] of reading.dishRows.entries()) {
    const ready = reading.ready[index];
    const lands = reading.lands[index];
    if (row === null || ready === undefined || Number.isNaN(ready)) continue;
    if (clock.minute(row.ready) !== ready)
      tell('dishes', `${row.dish} is ready at ${clock.show(ready)}, not as the plan says.`);
    // `wait` is landing − ready, with or without a hold between.
    const wait = lands === null || lands === undefined ? null : lands - ready;
    if (row.wait !== wait) {
      tell('dishes', `${row.dish} waits ${wait === null ? 'for no landing' : inMinutes(wait)}, not as the plan says.`);
    }
  }

  for (const call of plan.calls) {
    const label = `${call.dish}/${call.step}`;
    const rows = reading.rows.filter((each) => each.label === label);
    const at = clock.minute(call.at);
    if (rows.length === 0) tell('calls', `A call is for ${label}, which is not in the plan.`, [label]);
    else if (!rows.some((row) => isMomentOf(reading, row, at))) {
      tell('calls', `A call for ${label} comes at ${clock.show(at)}, outside the step.`, [label]);
    }
    if (call.cook !== null && !problem.cooks.some((cook) => cook.name === call.cook)) {
      tell('calls', `A call is for ${call.cook}, whom this kitchen does not have.`, [label]);
    }
  }
  return found;
}

/**
 * A call comes within its step. Every call names a step, so those that are about no step lean on one: setting an appliance
 * (where a changeover begins), turning it off (where a run ends), and serving (where the step's dish lands).
 */
function isMomentOf(reading: Reading, row: Row, at: number): boolean {
  if (at >= row.start && at <= row.end) return true;
  if (reading.runs.some((run) => at === run.start - run.least || at === run.end)) return true;
  return row.dish !== null && at === reading.lands[reading.problem.dishes.indexOf(row.dish)];
}
