/**
 * From when to when the pans of each row are in use, and how many. Read from DESIGN 3 and 5:
 * - A pan stays with its food until the dish's next step in another pan or place begins, or until it is served; `empties`
 *   frees it at the step's end. Steps without pan and place are passed over.
 * - A next step in the same kind of pan goes on in the same pan, unwashed. "The dish's" next step: another dish that uses a
 *   component takes a pan of its own.
 * - At a branch the pan is free when the last branch has moved on; a component's when the last step that uses it begins.
 * - A hold keeps the dish's pan, or moves the food to the pan that it names; either is then in use until the landing.
 */
import type { Reading, Row } from './reading.js';
import { isPassedOver, pansOf } from './standing.js';
import type { Stretch } from './stretches.js';

export interface Use extends Stretch {
  readonly row: Row;
  readonly pans: number;
  /** The rows that go on in the same pans. */
  readonly goesOn: readonly Row[];
}

/** The uses of one kind of pan, from the row's start until it lets go. */
export function usesOf(reading: Reading, panName: string): Use[] {
  return reading.rows
    .filter((row) => row.raw.pan === panName && (row.isHold || row.step !== null))
    .map((row) => useOf(reading, row, panName));
}

function useOf(reading: Reading, row: Row, panName: string): Use {
  const moves =
    row.isHold || row.step === null ? untilLanding(reading, row) : movesAfter(reading, row.step.id, panName);
  const times = moves.map((move) => move.at).filter((at) => !Number.isNaN(at));
  return {
    row,
    pans: row.isHold ? Math.max(1, row.places.length) : pansOf(row),
    start: row.start,
    end: Math.max(row.end, ...times),
    goesOn: moves.flatMap((move) => move.into ?? []),
  };
}

interface Move {
  readonly at: number;
  /** Set where the food goes on in the same kind of pan. */
  readonly into: Row | null;
}

function untilLanding(reading: Reading, row: Row): Move[] {
  const lands = row.dish === null ? null : reading.lands[reading.problem.dishes.indexOf(row.dish)];
  return lands === null || lands === undefined ? [] : [{ at: lands, into: null }];
}

/** What happens, branch by branch, to the food that is in a pan when a step ends. */
function movesAfter(reading: Reading, id: number, panName: string): Move[] {
  const step = reading.problem.steps[id]!;
  const dish = reading.problem.dishes[step.dish]!;
  const row = reading.byStep[id];
  if (step.empties) return row === null || row === undefined ? [] : [{ at: row.end, into: null }];

  const enter = (next: Row): Move => ({ at: next.start, into: next.raw.pan === panName ? next : null });
  const moves = (reading.order.next[id] ?? []).flatMap((nextId): Move[] => {
    const next = reading.byStep[nextId];
    if (next === null || next === undefined) return [];
    return isPassedOver(next) ? movesAfter(reading, nextId, panName) : [enter(next)];
  });
  if (!dish.served) return [...moves, ...usersOf(reading, id)];
  if (!(reading.order.lasts[step.dish] ?? []).includes(id)) return moves;
  const hold = reading.holds[step.dish];
  return hold === null || hold === undefined ? moves.concat(landingOf(reading, step.dish)) : [...moves, enter(hold)];
}

function landingOf(reading: Reading, dish: number): Move[] {
  const lands = reading.lands[dish];
  return lands === null || lands === undefined ? [] : [{ at: lands, into: null }];
}

/** The starts of the steps of other dishes that use a component's step, or, of a last one unused, the whole component. */
function usersOf(reading: Reading, id: number): Move[] {
  const { problem, order } = reading;
  const dish = problem.steps[id]!.dish;
  const startsOf = (ids: readonly number[]): Move[] =>
    ids
      .flatMap((each) => order.users[each] ?? [])
      .filter((user) => problem.steps[user]?.dish !== dish)
      .map((user) => ({ at: reading.byStep[user]?.start ?? Number.NaN, into: null }));
  const own = startsOf([id]);
  if (own.length > 0 || !order.lasts[dish]?.includes(id)) return own;
  return startsOf(problem.dishes[dish]?.steps ?? []);
}
