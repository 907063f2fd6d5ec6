/**
 * Rule 2: each step starts within its `gap` after each predecessor ends, in its own dish and in others; a step's `keeps`
 * bounds the wait for the next. A hold lies between its dish's ready and its landing.
 */
import type { Reading } from '../reading.js';
import { inMinutes, type Violation } from '../violation.js';

export function checkGaps(reading: Reading): Violation[] {
  const found: Violation[] = [];
  const tell = (code: string, say: string, steps: string[]): number => found.push({ rule: 2, code, say, steps });

  for (const step of reading.problem.steps) {
    const row = reading.byStep[step.id];
    if (row === null || row === undefined || reading.past.has(row)) continue;
    const admitted = reading.facts?.overrun?.includes(reading.origin[step.id]!) ?? false;
    for (const link of step.after) {
      const earlier = reading.byStep[link.step];
      if (earlier === null || earlier === undefined) continue;
      const gap = row.start - earlier.end;
      const pair = [earlier.label, row.label];
      if (admitted && reading.past.has(earlier) && gap > link.gap.low) continue;
      const keeps = reading.problem.steps[link.step]?.keeps ?? Number.POSITIVE_INFINITY;
      if (gap < 0) {
        tell('order', `${row.label} starts ${inMinutes(-gap)} before ${earlier.label} ends.`, pair);
      } else if (gap < link.gap.low) {
        const least = inMinutes(link.gap.low);
        tell(
          'soon',
          `${row.label} starts ${inMinutes(gap)} after ${earlier.label}; at least ${least} belong between.`,
          pair,
        );
      } else if (gap > link.gap.high) {
        const most = inMinutes(link.gap.high);
        tell('long', `${row.label} starts ${inMinutes(gap)} after ${earlier.label}; it may be ${most} at most.`, pair);
      } else if (gap > keeps) {
        tell(
          'keeps',
          `${earlier.label} keeps ${inMinutes(keeps)}, but ${row.label} starts ${inMinutes(gap)} after.`,
          pair,
        );
      }
    }
  }

  for (const row of reading.rows) {
    if (!row.isHold || row.dish === null || (reading.past.has(row) && row.end <= reading.facts!.now)) continue;
    const index = reading.problem.dishes.indexOf(row.dish);
    const ready = reading.ready[index] ?? Number.NaN;
    const lands = reading.lands[index];
    if (row.start < ready) tell('hold', `${row.dish.name} is held before it is ready.`, [row.label]);
    if (lands !== null && lands !== undefined && row.end > lands) {
      tell('hold', `${row.dish.name} is still held when its course lands.`, [row.label]);
    }
  }
  return found;
}
