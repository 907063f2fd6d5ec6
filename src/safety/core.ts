/** Cautions about the core: targets below the published figures, no target at all, too little rest. */
import type { Dish, Step } from '../problem/problem.js';
import { showMinutes, showTemperature } from '../units/show.js';
import { isHeatedAgain } from './again.js';
import type { Caution } from './caution.js';
import { isHeat, type Meal } from './meal.js';
import {
  CORE_FIGURES,
  type CoreFigure,
  type CoreKind,
  HIGHEST_CORE,
  LOCAL_RULES,
  meets,
  PUBLICATIONS,
  showPrinted,
  sourceOf,
} from './published.js';

/** Below their figure these have made many people ill; the others are eaten pink or soft by choice. */
const UNSAFE_BELOW: ReadonlySet<CoreKind> = new Set<CoreKind>([
  'poultry',
  'ground poultry',
  'ground meat',
  'stuffing',
  'leftovers',
  'casserole',
  'cooked ham',
  'game',
]);

/** The chart takes a look for these in place of a thermometer. */
const SHOWN_BY_LOOKS: ReadonlySet<CoreKind> = new Set<CoreKind>(['fish', 'shellfish', 'eggs']);
const NO_TARGET = 'No core target is set: use a thermometer, in the thickest part and clear of bone';

export function coreCautions(meal: Meal): Caution[] {
  return meal.problem.dishes.flatMap((dish, at): Caution[] => {
    const steps = dish.steps.map((id) => meal.problem.steps[id]!);
    const targets = steps.filter((step) => step.core !== null);
    const hottest = targets.reduce<Step | null>((most, step) => (most && most.core! > step.core! ? most : step), null);
    if (hottest === null) return untold(meal, dish, at, steps);
    const food = meal.foods[at]!;
    const kind = isHeatedAgain(meal, hottest) ? food.again : food.core;
    if (kind === null) return unknown(meal, dish, at, hottest.core!);
    const figure = CORE_FIGURES[kind];
    if (meets(hottest.core!, figure)) return shortRest(meal, dish, at, hottest, figure);
    const rests = steps.some((step) => step.work === 'rest' && meal.flow.heated[step.id]);
    const remedy = rests
      ? 'It counts for the highest core reached: a thermometer must show it before serving.'
      : 'Raise the target, or see a thermometer show it before serving.';
    const say = `Set to ${showTemperature(hottest.core!)}; published for ${figure.food}: ${told(figure)}. ${remedy}`;
    return [
      { rule: UNSAFE_BELOW.has(kind) ? 'core-unsafe' : 'core-low', source: source(figure), dish: dish.name, say },
    ];
  });
}

/** `63 °C (145 °F), then 3 min of rest`. */
function told(figure: CoreFigure): string {
  const rest = figure.rest > 0 ? `, then ${showMinutes(figure.rest)} of rest` : '';
  const or = figure.or === null ? '' : `, or ${figure.or}`;
  return `${showPrinted(figure)}${rest}${or}`;
}

const source = (figure: CoreFigure): string =>
  sourceOf([figure.publication], figure.stricter === null ? LOCAL_RULES : `${figure.stricter}; ${LOCAL_RULES}`);

/** Meat, fish or eggs go on the heat, and no step says to which core. */
function untold(meal: Meal, dish: Dish, at: number, steps: readonly Step[]): Caution[] {
  const { core } = meal.foods[at]!;
  const cooks = steps.some((step) => isHeat(step.work) && step.work !== 'warm' && !isHeatedAgain(meal, step));
  if (core === null || !cooks) return [];
  const figure = CORE_FIGURES[core];
  const how = SHOWN_BY_LOOKS.has(core) ? 'No core target is set' : NO_TARGET;
  const say = `${how}; published for ${figure.food}: ${told(figure)}.`;
  return [{ rule: 'thermometer', source: source(figure), dish: dish.name, say }];
}

function unknown(meal: Meal, dish: Dish, at: number, target: number): Caution[] {
  const { dry, perishable } = meal.foods[at]!;
  if (dry || perishable === 'cooked' || meets(target, HIGHEST_CORE)) return [];
  const say = `Set to ${showTemperature(target)}, and no published figure goes with this name. If meat, fish or egg is in it, look its figure up; ${showPrinted(HIGHEST_CORE)} is the highest in the chart.`;
  return [{ rule: 'core-unknown', source: sourceOf([PUBLICATIONS.coreChart], LOCAL_RULES), dish: dish.name, say }];
}

/** The target is high enough, but the rest that belongs to it is not there. */
function shortRest(meal: Meal, dish: Dish, at: number, target: Step, figure: CoreFigure): Caution[] {
  const rest = meal.timetable === null ? surestRest(meal, dish, target) : plannedRest(meal, at);
  if (rest >= figure.rest) return [];
  const has = meal.timetable === null ? `${showMinutes(rest)} of rest is certain` : `It rests ${showMinutes(rest)}`;
  const say = `${has}; ${showPrinted(figure)} for ${figure.food} is published with ${showMinutes(figure.rest)} of rest before it is cut. Let it rest that long.`;
  return [{ rule: 'rest-short', source: source(figure), dish: dish.name, say }];
}

/** Minutes from the dish's last heat to the first knife or hand on it, or to its landing. */
function plannedRest(meal: Meal, at: number): number {
  const { ofDish, lands } = meal.timetable!;
  const rows = ofDish[at]!;
  const off = Math.max(...rows.filter((row) => row.step && isHeat(row.step.work)).map((row) => row.end));
  const touched = rows.filter((row) => row.start >= off && row.step && row.step.work !== 'rest');
  return Math.min(lands[at]!, ...touched.map((row) => row.start)) - off;
}

/** The shortest minutes that the dish's rests after that step may take. */
function surestRest(meal: Meal, dish: Dish, target: Step): number {
  const rests = dish.steps
    .map((id) => meal.problem.steps[id]!)
    .filter((step) => step.work === 'rest' && meal.flow.heated[step.id] && step.id > target.id);
  const shortest = (step: Step): number =>
    Math.min(
      ...step.options.map(({ duration }) =>
        duration.kind === 'table' ? Math.min(...duration.columns.map((column) => column.minutes)) : duration.low,
      ),
    );
  return rests.reduce((sum, step) => sum + shortest(step), 0);
}
