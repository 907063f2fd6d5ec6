/** A plan with one step at another time, as another plan of the same meal would have it. */
import type { PlanDocument } from '../../src/plan/document.js';

export function movedPlan(plan: PlanDocument, name: string, minutes: number): PlanDocument {
  // The offset that is written stays; only the clock moves.
  const later = (iso: string): string => {
    const moved = new Date(Date.parse(`${iso.slice(0, 19)}Z`) + minutes * 60_000);
    return moved.toISOString().slice(0, 19) + iso.slice(19);
  };
  const steps = plan.steps.map((row) =>
    `${row.dish}/${row.step}` === name
      ? {
          ...row,
          start: later(row.start),
          end: later(row.end),
          hands: row.hands.map((hand) => ({ ...hand, start: later(hand.start), end: later(hand.end) })),
        }
      : row,
  );
  return { ...plan, steps };
}
