/** How much of what a kitchen knows by heart a new plan changes, and whether that is good for anything. */
import type { Happened } from '../../src/live/happened.js';
import { RESTLESS, STEADY, type Stability } from '../../src/live/reshuffle/progress.js';
import { reshuffle } from '../../src/live/reshuffle/reshuffle.js';
import type { PlanDocument, StepRow } from '../../src/plan/document.js';
import { minuteAt } from '../../src/problem/hours.js';
import type { Problem } from '../../src/problem/problem.js';

export interface Moves {
  /** Calls that were ahead in the plan before and still are. */
  calls: number;
  moved: number;
  /** In plans that are no better than the one before with what is held up moved along: by how many more move than in that. */
  idle: number;
}

export const noMoves = (): Moves => ({ calls: 0, moved: 0, idle: 0 });

/** Minutes by which a call may move before it counts. */
const STILL = 2;
/** Points from which on a plan is better. */
const GAIN = 0.5;

/** The same new plan made with points for leaving the plan in force, and without them; null where one of them is none. */
export function movesOf(
  problem: Problem,
  before: PlanDocument,
  happened: Happened,
  expected: ReadonlyMap<number, number>,
): { steady: Moves; restless: Moves } | null {
  const made = (stability: Stability, work?: number) =>
    reshuffle(problem, before, happened, { seed: 1, expected, stability, work });
  const least = made(STEADY, 0);
  const counted = (stability: Stability): Moves | null => {
    const { plan, expected: points, leftOut } = made(stability);
    if (plan === null || least.plan === null || points === null || least.expected === null) return null;
    if (leftOut.join() !== least.leftOut.join()) return null;
    const isBetter = points < least.expected - GAIN;
    const [old, held] = [callsOf(before), callsOf(least.plan)];
    const ahead = [...callsOf(plan)].filter(
      ([key, row]) => old.has(key) && Math.min(start(problem, row), start(problem, old.get(key)!)) > happened.now,
    );
    const moved = ahead.filter(([key, row]) => isMoved(problem, row, old.get(key)!));
    const forced = [...held].filter(([key, row]) => old.has(key) && isMoved(problem, row, old.get(key)!));
    const idle = isBetter ? 0 : Math.max(0, moved.length - forced.length);
    return { calls: ahead.length, moved: moved.length, idle };
  };
  const [steady, restless] = [counted(STEADY), counted(RESTLESS)];
  return steady === null || restless === null ? null : { steady, restless };
}

const start = (problem: Problem, row: StepRow): number => Math.round(minuteAt(problem, row.start));

/** By dish and step, of what has moved its last part. */
const callsOf = (plan: PlanDocument): Map<string, StepRow> =>
  new Map(plan.steps.flatMap((row) => (row.hands.length > 0 ? [[`${row.dish}/${row.step}`, row] as const] : [])));

function isMoved(problem: Problem, one: StepRow, two: StepRow): boolean {
  const cooks = ({ start: at, hands }: StepRow): string =>
    hands
      .flatMap((hand) => (hand.start === at ? [hand.cook] : []))
      .sort()
      .join();
  const place = ({ appliance, mode, place: at }: StepRow): string => `${appliance} ${mode ?? [at].flat().join()}`;
  return (
    Math.abs(start(problem, one) - start(problem, two)) > STILL ||
    cooks(one) !== cooks(two) ||
    place(one) !== place(two)
  );
}
