/** What stands on a rack, grate or burner for a row: which pans, how many, how big. */
import type { Dish, Load, Pan } from '../problem/problem.js';
import type { Reading, Row } from './reading.js';

export interface Standing {
  readonly pan: Pan | null;
  readonly pans: number;
  readonly load: Load | null;
}

/** A rest or a finish without pan and place is passed over: the food stays in the pan in which it was. */
export function isPassedOver(row: Row): boolean {
  return row.raw.pan === null && row.raw.appliance === null && row.places.length === 0;
}

/** The pan of a row by its name; null without one. */
export function panOf(reading: Reading, row: Row): Pan | null {
  return reading.problem.kitchen.pans.find((pan) => pan.name === row.raw.pan) ?? null;
}

/** How many pans a row fills. */
export function pansOf(row: Row): number {
  return row.option?.pans ?? Math.max(1, row.places.length);
}

/**
 * Where the food of a dish is when its last step has ended: in pans that were not emptied, or (a piece straight on a
 * rack) in none. Several entries where several pans meet in the last step; none when the food is in nothing that can
 * be held.
 */
export function standingAtEnd(reading: Reading, dish: Dish): Standing[] {
  const lasts = reading.order.lasts[reading.problem.dishes.indexOf(dish)] ?? [];
  const last = lasts.length === 1 ? lasts[0] : undefined;
  return last === undefined ? [] : standingAfter(reading, dish, last);
}

function standingAfter(reading: Reading, dish: Dish, id: number): Standing[] {
  const row = reading.byStep[id];
  const step = reading.problem.steps[id];
  if (row === null || row === undefined || step === undefined || step.empties) return [];
  if (isPassedOver(row)) {
    return step.after.flatMap((link) =>
      dish.steps.includes(link.step) ? standingAfter(reading, dish, link.step) : [],
    );
  }
  const load = row.option?.load ?? null;
  const pan = panOf(reading, row);
  if (pan === null) return load === null ? [] : [{ pan, pans: pansOf(row), load }];
  return [{ pan, pans: pansOf(row), load: load ?? loadOf(dish, pan) }];
}

/** A load's height is the taller of its pan and its piece. */
function loadOf(dish: Dish, pan: Pan): Load {
  return { footprint: pan.footprint, height: Math.max(pan.height, dish.piece?.thickness ?? 0) };
}

/**
 * What a hold row holds: the pan that the hold names, else what the dish's food stands in. Null where the row shows
 * something else. A named pan of another kind may be taken as often as the row has places: the design leaves the number
 * open.
 */
export function standingInHold(reading: Reading, row: Row): Standing | null {
  const { dish } = row;
  if (dish === null || dish.hold === null) return null;
  const own = standingAtEnd(reading, dish).find((each) => (each.pan?.name ?? null) === row.raw.pan) ?? null;
  if (dish.hold.pan === null) return own;
  const named = reading.problem.kitchen.pans[dish.hold.pan];
  if (named === undefined || row.raw.pan !== named.name) return null;
  return own ?? { pan: named, pans: row.places.length, load: loadOf(dish, named) };
}

/** What stands on the place of any row; null where it takes no footprint or is not known. */
export function standingOf(reading: Reading, row: Row): Standing | null {
  if (row.isHold) return standingInHold(reading, row);
  if (row.option === null || row.option.load === null) return null;
  return { pan: panOf(reading, row), pans: row.option.pans, load: row.option.load };
}
