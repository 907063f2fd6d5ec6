/** What of a plan that was made anew has happened, and is not judged. */
import type { Step } from '../problem/problem.js';
import { begunBy, type Facts } from './facts.js';
import type { Reading, Row, Run } from './reading.js';

/** Rows that are facts: of what has begun, and of what must have, since something after it has; holds that have begun. */
export function pastRows(reading: Reading, facts: Facts): Set<Row> {
  const { origin } = reading;
  const said = [...origin.entries()].filter(([id, root]) => {
    const row = reading.byStep[id];
    return facts.steps.has(root) && (origin.indexOf(root) === id || (row && row.start <= facts.now));
  });
  const begun = begunBy(
    reading.problem,
    said.map(([id]) => id),
  );
  return new Set(
    reading.rows.filter((row) => {
      if (row.step !== null) return begun.has(row.step.id);
      return row.isHold && row.start < facts.now && row.dish?.steps.every((id) => begun.has(id));
    }),
  );
}

/** A run that had begun by now. */
export const isPastRun = ({ facts }: Reading, run: Run): boolean => facts !== null && run.start < facts.now;

/** Whether a step need not be in the plan: it has not begun, and nobody will eat what comes of it. */
export const isGivenUp = ({ problem }: Reading, step: Step): boolean =>
  problem.dishes[step.dish]?.steps.includes(step.id) === false;
