/**
 * Rule 5: between runs lies at least the changeover, (T2−T1)/heats when it rises and (T1−T2)/cools when it falls, in whole
 * minutes, rounded up; from room temperature at first, and that too after `start`. The stated `changeover` is that least.
 */
import { isPastRun } from '../past.js';
import type { Reading } from '../reading.js';
import { inDegrees, inMinutes, type Violation } from '../violation.js';

export function checkChangeovers(reading: Reading): Violation[] {
  const found: Violation[] = [];
  for (const run of reading.runs) {
    if (run.appliance === null) continue;
    const tell = (code: string, say: string): number => found.push({ rule: 5, code, say, steps: [] });
    const { appliance, celsius } = run.raw;
    const since = run.before === null ? 0 : run.before.end;
    const from = inDegrees(run.before === null ? reading.problem.kitchen.room : run.before.raw.celsius);
    const needs = `${appliance} needs ${inMinutes(run.least)} from ${from} to ${inDegrees(celsius)}`;
    const given = run.start - since;
    // Runs one within the other are rule 4's.
    if (given >= 0 && given < run.least && !isPastRun(reading, run))
      tell('short', `${needs}, but has ${inMinutes(given)}.`);
    if (run.raw.changeover !== run.least) tell('stated', `${needs}; the plan says ${inMinutes(run.raw.changeover)}.`);
  }
  return found;
}
