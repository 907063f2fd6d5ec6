/** Cautions about food that is neither cold nor hot: minutes that add up, and holds that are not hot enough. */
import type { Dish } from '../problem/problem.js';
import { showMinutes, showTemperature, showTemperatureSpan } from '../units/show.js';
import type { Caution } from './caution.js';
import { isHeat, type Meal, type Row, type Timetable } from './meal.js';
import {
  DANGER_ZONE,
  LOCAL_RULES,
  LONGEST_OUT,
  meets,
  PUBLICATIONS,
  showPrinted,
  sourceOf,
  TRADE_ZONE,
} from './published.js';

/** Minutes that a dish is out of the cold and not hot. */
export interface Lying {
  /** Until it has last been on the heat. */
  readonly before: number;
  /** From then on. */
  readonly after: number;
}

export function lyingCautions(meal: Meal): Caution[] {
  if (meal.timetable === null) return [];
  const hotRoom = meal.problem.kitchen.room >= LONGEST_OUT.hotRoom.celsius;
  const longest = hotRoom ? LONGEST_OUT.inHotRoom : LONGEST_OUT.minutes;
  const { low, high } = DANGER_ZONE;
  const source = sourceOf(
    [PUBLICATIONS.dangerZone],
    `${TRADE_ZONE.low.celsius} and ${TRADE_ZONE.high.celsius} °C in the FDA Food Code; ${LOCAL_RULES}`,
  );
  return meal.problem.dishes.flatMap((dish, at): Caution[] => {
    const { before, after } = lyingOf(meal, meal.timetable!, at);
    if (before + after <= longest) return [];
    const parts =
      before > 0 && after > 0 ? ` (${showMinutes(before)} before and ${showMinutes(after)} after the heat)` : '';
    const heated = dish.steps.some((id) => isHeat(meal.problem.steps[id]!.work));
    const remedy = heated
      ? `Chill it meanwhile, or hold it at ${showPrinted(high)} or more.`
      : 'Keep it in the cold meanwhile.';
    const room = hotRoom ? ` in a room of ${showTemperature(meal.problem.kitchen.room)}` : '';
    const say = `Handling, resting and waiting add up to ${showMinutes(before + after)}${parts}, more than ${showMinutes(longest)} between ${low.celsius} and ${high.celsius} °C${room}. ${remedy}`;
    return [{ rule: 'warm-too-long', source, dish: dish.name, say }];
  });
}

/**
 * Minutes from the first step of a perishable dish to its landing, without those in the cold and those on the heat. A dish
 * counts as cold before its first step and from a chill step until its next. Coming up to heat is not counted, and a rest
 * is counted from its first minute, however hot the food comes to it.
 */
export function lyingOf(meal: Meal, { ofDish, lands }: Timetable, at: number): Lying {
  const rows = ofDish[at]!;
  const { perishable } = meal.foods[at]!;
  const heats = rows.filter((row) => row.step !== null && isHeat(row.step.work));
  if (rows.length === 0 || perishable === null || (perishable === 'cooked' && heats.length === 0))
    return { before: 0, after: 0 };
  const done = heats.length === 0 ? Number.POSITIVE_INFINITY : Math.max(...heats.map((row) => row.end));
  const from = perishable === 'cooked' ? heats[0]!.end : rows[0]!.start;
  const to = perishable === 'raw' && heats.length > 0 ? heats.at(-1)!.start : lands[at]!;
  const safe = rows.flatMap((row): [number, number][] => {
    if (isHot(row)) return [[row.start, row.end]];
    if (row.step?.work !== 'chill') return [];
    const next = rows.find((other) => other !== row && other.start >= row.end);
    return [[row.start, next?.start ?? lands[at]!]];
  });
  let before = 0;
  let after = 0;
  let reached = from;
  const count = (start: number, end: number): void => {
    before += Math.max(0, Math.min(end, done) - start);
    after += Math.max(0, end - Math.max(start, done));
  };
  for (const [start, end] of safe.sort((a, b) => a[0] - b[0])) {
    count(reached, Math.max(reached, Math.min(start, to)));
    reached = Math.max(reached, end);
  }
  count(reached, Math.max(reached, to));
  return { before, after };
}

/** On a burner, or in an appliance that is warm enough to hold hot food. */
function isHot({ step, celsius }: Row): boolean {
  if (celsius !== null) return meets(celsius, DANGER_ZONE.high);
  return step !== null && isHeat(step.work);
}

/** With a plan: what it holds too low. Without: what the file would let it hold too low. */
export function holdCautions(meal: Meal): Caution[] {
  return meal.problem.dishes.flatMap((dish, at): Caution[] => {
    if (dish.hold === null || meal.foods[at]!.dry) return [];
    const held = meal.timetable === null ? dish.hold.heat.low : heldAt(meal.timetable, at);
    if (held === null || meets(held, DANGER_ZONE.high)) return [];
    return [{ rule: 'hold-low', source: HOLD_SOURCE, dish: dish.name, say: holdWords(dish, held, meal.timetable) }];
  });
}

const HOLD_SOURCE = sourceOf([PUBLICATIONS.dangerZone, PUBLICATIONS.hotHolding], LOCAL_RULES);

const heldAt = ({ ofDish }: Timetable, at: number): number | null =>
  ofDish[at]!.find((row) => row.step === null)?.celsius ?? null;

function holdWords(dish: Dish, held: number, timetable: Timetable | null): string {
  const { low, high } = dish.hold!.heat;
  const now =
    timetable === null
      ? `Its hold of ${showTemperatureSpan(low, high)} begins too low`
      : `It is held at ${showTemperature(held)}`;
  return `${now}: hot food is held at ${showPrinted(DANGER_ZONE.high)} or more, by food businesses at ${showPrinted(TRADE_ZONE.high)}. Begin the hold's range there.`;
}
