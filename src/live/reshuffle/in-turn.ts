/**
 * Activities each as soon as somebody has hands for it: for when so many hands are missing that no few changes put the plan in force right. A serial
 * schedule in the order of time; where something then waits longer than it may, what comes before it is held back as well, and all is done again.
 */
import type { Model } from '../../kernel/model.js';
import type { Span } from './free-hands.js';
import { Taken } from './taken.js';

export interface Turn extends Span {
  readonly id: number;
  readonly mode: number;
  readonly setting: number;
  /** Those who were to do it, for each stretch in turn, and the burners it was to have; null where that is not known. */
  readonly hands: readonly number[] | null;
  readonly units: readonly number[] | null;
}

/** So often at most is something held back. */
const PASSES = 80;

/** The same, none before its start in `planned`, with hands and burners for all of it; null where one finds none. */
export function inTurn(model: Model, planned: readonly Turn[]): Turn[] | null {
  const release = new Map(planned.map(({ id, start }) => [id, start]));
  let turns = serial(model, planned, release);
  for (let pass = 0; pass < PASSES && turns !== null && heldBack(model, turns, release); pass++) {
    turns = serial(model, planned, release);
  }
  return turns;
}

/** Whether something has to begin later, because what comes after it does and cannot wait. */
function heldBack(model: Model, turns: readonly Turn[], release: Map<number, number>): boolean {
  const by = new Map(turns.map((turn) => [turn.id, turn]));
  let held = false;
  for (const { from, to, high } of model.lags) {
    const [one, two] = [by.get(from), by.get(to)];
    if (one === undefined || two === undefined || high === Number.POSITIVE_INFINITY) continue;
    const { range } = model.activities[from]!.modes[one.mode]!;
    const soonest = two.start - high - (range?.high ?? one.minutes);
    if (soonest <= one.start) continue;
    release.set(from, soonest);
    held = true;
  }
  return held;
}

function serial(model: Model, planned: readonly Turn[], release: ReadonlyMap<number, number>): Turn[] | null {
  const taken = new Taken(model);
  const ends = new Map<number, number>();
  for (const [id, as] of model.progress!.settled.entries()) if (as !== null) ends.set(id, as.start + as.minutes);
  const left = new Set(planned);
  const soonest = ({ id }: Turn): number =>
    model.activities[id]!.ins.reduce(
      (at, { from, low }) => Math.max(at, (ends.get(from) ?? Infinity) + low),
      release.get(id)!,
    );
  const out: Turn[] = [];
  while (left.size > 0) {
    let next: { readonly turn: Turn; readonly at: number } | null = null;
    for (const turn of left) {
      const at = soonest(turn);
      if (next === null || at < next.at || (at === next.at && turn.start < next.turn.start)) next = { turn, at };
    }
    left.delete(next!.turn);
    const turn = placed(model, taken, next!.turn, next!.at);
    if (turn === null) return null;
    ends.set(turn.id, turn.start + turn.minutes);
    out.push(turn);
  }
  return out;
}

/** At the first minute from `at` on at which there is all that it needs. */
function placed(model: Model, taken: Taken, turn: Turn, at: number): Turn | null {
  const { id, mode, setting, minutes } = turn;
  const way = model.activities[id]!.modes[mode]!;
  for (let start = at; start + minutes <= model.horizon; start++) {
    const taking = { id, way, setting, start, minutes };
    const units = taken.unitsFor(taking, turn.units);
    const hands = units === null ? null : taken.handsFor(taking, turn.hands);
    if (units === null || hands === null || !taken.hasPlace(taking)) continue;
    taken.take(taking, hands, units);
    return { ...turn, start, hands, units };
  }
  return null;
}
