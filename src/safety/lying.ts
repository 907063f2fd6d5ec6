/** Cautions about food that is neither cold nor hot: minutes that add up, and holds that are not hot enough. */
import { showHeat, showHeatSpan } from '../problem/degrees.js';
import type { Dish } from '../problem/problem.js';
import { showMinutes } from '../units/show.js';
import type { Caution } from './caution.js';
import type { DishCurve } from './curve.js';
import { comeUpOf, exposureOf, longestOut } from './exposure.js';
import type { Food } from './foods.js';
import { isHeat, type Meal, type Timetable } from './meal.js';
import {
  COME_UP,
  DANGER_ZONE,
  LOCAL_RULES,
  LONGEST_IN_TRADE,
  LONGEST_OUT,
  meets,
  PUBLICATIONS,
  showPrinted,
  sourceOf,
  TRADE_ZONE,
} from './published.js';

export function lyingCautions(meal: Meal): Caution[] {
  const slow = meal.problem.dishes.flatMap((dish, at) => slowCautions(meal, dish, at));
  return [...slow, ...(meal.timetable === null ? [] : warmCautions(meal, meal.timetable))];
}

/** What is out of the cold and not hot for longer than published. */
function warmCautions(meal: Meal, timetable: Timetable): Caution[] {
  const { room } = meal.problem.kitchen;
  const longest = longestOut(room);
  const { low, high } = DANGER_ZONE;
  return meal.problem.dishes.flatMap((dish, at): Caution[] => {
    const { before, after } = exposureOf(meal, timetable, at);
    if (before + after <= longest) return [];
    const inTrade = exposureOf(meal, timetable, at, TRADE_ZONE);
    const tooLongInTrade = inTrade.before + inTrade.after > LONGEST_IN_TRADE;
    const parts =
      before > 0 && after > 0 ? ` (${showMinutes(before)} before and ${showMinutes(after)} after the heat)` : '';
    const heated = dish.steps.some((id) => isHeat(meal.problem.steps[id]!.work));
    const remedy = heated
      ? `Chill it meanwhile, or hold it at ${showPrinted(high)} or more.`
      : 'Keep it in the cold meanwhile.';
    const hot = longest < LONGEST_OUT.minutes ? ` in a room of ${showHeat(meal.problem, room)}` : '';
    const waste = tooLongInTrade ? ` Past ${showMinutes(LONGEST_IN_TRADE)} food businesses throw it away.` : '';
    const say = `Handling, resting and waiting add up to ${showMinutes(before + after)}${parts}, more than ${showMinutes(longest)} between ${low.celsius} and ${high.celsius} °C${hot}. ${remedy}${waste}`;
    const source = sourceOf(
      [PUBLICATIONS.dangerZone, ...(tooLongInTrade ? [PUBLICATIONS.timeLimit] : [])],
      `${TRADE_ZONE.low.celsius} and ${TRADE_ZONE.high.celsius} °C in the FDA Food Code; ${LOCAL_RULES}`,
    );
    return [{ rule: 'warm-too-long', source, dish: dish.name, say }];
  });
}

/** What is predicted to come up to heat too slowly. */
function slowCautions(meal: Meal, dish: Dish, at: number): Caution[] {
  const curve = meal.curves.get(at);
  return curve === undefined ? [] : slowCautionsOf(curve, meal.foods[at]!, dish.name);
}

/** The same of one food and its curve. */
export function slowCautionsOf(curve: DishCurve, { perishable, intact }: Food, dish: string | null): Caution[] {
  if (perishable !== 'always' && perishable !== 'raw') return [];
  const minutes = comeUpOf(curve, intact);
  if (minutes <= COME_UP.minutes) return [];
  const say = `Predicted to need ${showMinutes(minutes)} from ${COME_UP.low.celsius} to ${COME_UP.high.celsius} °C; published: ${showMinutes(COME_UP.minutes)} at most, for poison that germs leave is not cooked away. More heat, or smaller pieces.`;
  const source = sourceOf([PUBLICATIONS.cookingGuideline], LOCAL_RULES);
  return [{ rule: 'warm-too-long', source, dish, say }];
}

/** With a plan: what it holds too low. Without: what the file would let it hold too low. */
export function holdCautions(meal: Meal): Caution[] {
  return meal.problem.dishes.flatMap((dish, at): Caution[] => {
    if (dish.hold === null || meal.foods[at]!.dry) return [];
    const held = meal.timetable === null ? dish.hold.heat.low : heldAt(meal.timetable, at);
    if (held === null || meets(held, DANGER_ZONE.high)) return [];
    return [{ rule: 'hold-low', source: HOLD_SOURCE, dish: dish.name, say: holdWords(meal, dish, held) }];
  });
}

const HOLD_SOURCE = sourceOf([PUBLICATIONS.dangerZone, PUBLICATIONS.hotHolding], LOCAL_RULES);

const heldAt = ({ ofDish }: Timetable, at: number): number | null =>
  ofDish[at]!.find((row) => row.step === null)?.celsius ?? null;

function holdWords({ problem, timetable }: Meal, dish: Dish, held: number): string {
  const { low, high } = dish.hold!.heat;
  const now =
    timetable === null
      ? `Its hold of ${showHeatSpan(problem, low, high)} begins too low`
      : `It is held at ${showHeat(problem, held)}`;
  return `${now}: hot food is held at ${showPrinted(DANGER_ZONE.high)} or more, by food businesses at ${showPrinted(TRADE_ZONE.high)}. Begin the hold's range there.`;
}
