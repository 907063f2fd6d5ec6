/**
 * Rule 8: nothing before `start`. (What has happened before a reshuffle is no part of the problem or the plan document, so
 * it cannot be judged from these two; changeovers before `start` are rule 5's.)
 */
import type { Reading } from '../reading.js';
import type { Violation } from '../violation.js';

export function checkBegins(reading: Reading): Violation[] {
  const { clock } = reading;
  const start = clock.show(0);
  const rows = reading.rows
    .filter((row) => row.start < 0)
    .map((row): Violation => {
      const say = `${row.label} begins at ${clock.show(row.start)}, before the start at ${start}.`;
      return { rule: 8, code: 'step', say, steps: [row.label] };
    });
  const runs = reading.runs
    .filter((run) => run.start < 0)
    .map((run): Violation => {
      const say = `${run.raw.appliance} runs at ${clock.show(run.start)}, before the start at ${start}.`;
      return { rule: 8, code: 'run', say, steps: [] };
    });
  return [...rows, ...runs];
}
