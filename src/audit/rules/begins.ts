/** Rule 8: nothing before `start`. (What has happened is `facts.ts`'s; changeovers before `start` are rule 5's.) */
import { isPastRun } from '../past.js';
import type { Reading } from '../reading.js';
import type { Violation } from '../violation.js';

export function checkBegins(reading: Reading): Violation[] {
  const { clock } = reading;
  const start = clock.show(0);
  const rows = reading.rows
    .filter((row) => row.start < 0 && !reading.past.has(row))
    .map((row): Violation => {
      const say = `${row.label} begins at ${clock.show(row.start)}, before the start at ${start}.`;
      return { rule: 8, code: 'step', say, steps: [row.label] };
    });
  const runs = reading.runs
    .filter((run) => run.start < 0 && !isPastRun(reading, run))
    .map((run): Violation => {
      const say = `${run.raw.appliance} runs at ${clock.show(run.start)}, before the start at ${start}.`;
      return { rule: 8, code: 'run', say, steps: [] };
    });
  return [...rows, ...runs];
}
