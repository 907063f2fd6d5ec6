/** Cautions about the core: targets below the published figures, no target at all, too little rest. */
import { degreeFor } from '../problem/degrees.js';
import type { Dish, Step } from '../problem/problem.js';
import { showMinutes, showTemperature } from '../units/show.js';
import type { Degree } from '../units/temperature.js';
import { isHeatedAgain } from './again.js';
import type { Caution } from './caution.js';
import type { Food } from './foods.js';
import { holdAt } from './lethality.js';
import type { LethalityTable } from './lethality-tables.js';
import { isHeat, type Meal } from './meal.js';
import {
  CORE_FIGURES,
  type CoreFigure,
  type CoreKind,
  HIGHEST_CORE,
  LOCAL_RULES,
  meets,
  PUBLICATIONS,
  type Publication,
  showPrinted,
  sourceOf,
} from './published.js';
import { isLow, type Judgement, type Predicted, verdictsOf } from './verdict.js';

/** The chart takes a look for these in place of a thermometer. */
const SHOWN_BY_LOOKS: ReadonlySet<CoreKind> = new Set<CoreKind>(['fish', 'shellfish', 'eggs']);
const NO_TARGET = 'No core target is set: use a thermometer, in the thickest part and clear of bone';

export function coreCautions(meal: Meal): Caution[] {
  const degree = degreeFor(meal.problem);
  return meal.problem.dishes.flatMap((dish, at): Caution[] => {
    const verdicts = verdictsOf(meal, at);
    const cooked = verdicts.some(({ target }) => !isHeatedAgain(meal, target.step));
    const rests = dish.steps.some((id) => meal.problem.steps[id]!.work === 'rest' && meal.flow.heated[id]);
    const said = verdicts.flatMap((verdict) => {
      const { figure, target, met } = verdict;
      if (figure === null) return unknownCautions(meal.foods[at]!, target.celsius, dish.name, degree);
      if (!met) return [lowCaution(verdict, figure, rests, dish.name, degree)];
      return [...shortRise(verdict, figure, dish.name, degree), ...shortRest(meal, dish, at, target.step, figure)];
    });
    return cooked ? said : [...untold(meal, dish, at), ...said];
  });
}

/**
 * A target below its figure: what is published, what the core is predicted to do, and what would satisfy. `degree`: in which the
 * target and the prediction are told.
 */
export function lowCaution(
  judgement: Judgement,
  figure: CoreFigure,
  rests: boolean,
  dish: string | null,
  degree: Degree = 'C',
): Caution {
  const { celsius, strict, predicted } = judgement;
  const set = `Set to ${showTemperature(celsius, degree)}; published for ${figure.food}: ${told(figure)}.`;
  const forecast = predicted === null ? '' : ` ${forecastWords(predicted, celsius, degree)}`;
  const used = predicted?.held?.times.publication;
  const source = sourceFor(figure, used === undefined ? [] : [used]);
  if (strict && !isLow(judgement)) {
    const say = `${set}${forecast} Safe only if it goes so: a thermometer must show it, or raise the target.`;
    return { rule: 'core-predicted', source, dish, say };
  }
  const remedy = rests
    ? 'It counts for the highest core reached: a thermometer must show it before serving.'
    : 'Raise the target, or see a thermometer show it before serving.';
  return { rule: strict ? 'core-unsafe' : 'core-low', source, dish, say: `${set}${forecast} ${remedy}` };
}

/**
 * It is to rise to a published figure at rest, and does not if it is bigger, colder or less heated than was said: by how much it misses, which
 * is by how much later it must leave the heat.
 */
export function shortRise(
  { celsius, predicted }: Judgement,
  figure: CoreFigure,
  dish: string | null,
  degree: Degree = 'C',
): Caution[] {
  if (predicted === null || predicted.satisfies !== null) return [];
  const missing = figure.celsius - predicted.peak;
  const less = degree === 'F' ? `${Math.ceil(1.8 * missing)} °F` : `${Math.ceil(missing)} °C`;
  const say = `Set to ${showTemperature(celsius, degree)}; if it heats slowly it may rise to ${less} less. Published for ${figure.food}: ${told(figure)}. Pull it ${less} later, or see a thermometer show the figure at rest before it is cut.`;
  return [{ rule: 'core-short', source: sourceFor(figure), dish, say }];
}

/** `Predicted: 61 °C at most, and 40 % of the published 12 min at 60 °C.` */
function forecastWords({ peak, held, satisfies }: Predicted, target: number, degree: Degree): string {
  const most = `Predicted: ${showTemperature(peak, degree)} at most`;
  if (held === null || satisfies === 'peak') return `${most}.`;
  const { share, reached } = held.lethality;
  const part = reached !== null ? 'all' : `${Math.floor(share * 100)} %`;
  const late = reached !== null && satisfies === null ? ', but too slowly heated for it to count' : '';
  return `${most}, and ${part} of the published ${timesAt(held.times, target, degree)}${late}.`;
}

/** The published minutes at the temperature asked for in °C, where the table has a time for it; else at its own reference. */
export function timeAt(times: LethalityTable, celsius: number): { celsius: number; minutes: number } {
  const minutes = holdAt(times, celsius);
  if (minutes > 0 && minutes < Number.POSITIVE_INFINITY) return { celsius, minutes };
  return { celsius: times.reference, minutes: holdAt(times, times.reference) };
}

/** `12 min at 60 °C`: at the temperature asked for, where the table has a time for it. */
export const timesAt = (times: LethalityTable, celsius: number, degree: Degree = 'C'): string =>
  showTimeAt(timeAt(times, celsius), degree);

export function showTimeAt({ celsius, minutes }: { celsius: number; minutes: number }, degree: Degree = 'C'): string {
  // Rounded up, but not for what a floating point adds.
  const hold = minutes - 1e-6;
  const told = hold < 2 ? `${Math.ceil(hold * 60)} s` : showMinutes(Math.ceil(hold));
  return `${told} at ${showTemperature(celsius, degree)}`;
}

/** `63 °C (145 °F), then 3 min of rest`. */
export function told(figure: CoreFigure): string {
  const rest = figure.rest > 0 ? `, then ${showMinutes(figure.rest)} of rest` : '';
  const or = figure.or === null ? '' : `, or ${figure.or}`;
  return `${showPrinted(figure)}${rest}${or}`;
}

export const sourceFor = (figure: CoreFigure, more: readonly Publication[] = []): string =>
  sourceOf(
    [figure.publication, ...more],
    figure.stricter === null ? LOCAL_RULES : `${figure.stricter}; ${LOCAL_RULES}`,
  );

/** Meat, fish or eggs go on the heat, and no step says to which core. */
function untold(meal: Meal, dish: Dish, at: number): Caution[] {
  const { core } = meal.foods[at]!;
  const steps = dish.steps.map((id) => meal.problem.steps[id]!);
  const cooks = steps.some((step) => isHeat(step.work) && step.work !== 'warm' && !isHeatedAgain(meal, step));
  if (core === null || !cooks) return [];
  const figure = CORE_FIGURES[core];
  const how = SHOWN_BY_LOOKS.has(core) ? 'No core target is set' : NO_TARGET;
  const say = `${how}; published for ${figure.food}: ${told(figure)}.`;
  return [{ rule: 'thermometer', source: sourceFor(figure), dish: dish.name, say }];
}

/** A target of a food that no figure goes with; none where the highest figure is met, or the food cannot need one. */
export function unknownCautions(
  { dry, perishable }: Food,
  target: number,
  dish: string | null,
  degree: Degree = 'C',
): Caution[] {
  if (dry || perishable === 'cooked' || meets(target, HIGHEST_CORE)) return [];
  const say = `Set to ${showTemperature(target, degree)}, and no published figure goes with this name. If meat, fish or egg is in it, look its figure up; ${showPrinted(HIGHEST_CORE)} is the highest in the chart.`;
  return [{ rule: 'core-unknown', source: sourceOf([PUBLICATIONS.coreChart], LOCAL_RULES), dish, say }];
}

/** The target is high enough, but the rest that belongs to it is not there. */
function shortRest(meal: Meal, dish: Dish, at: number, target: Step, figure: CoreFigure): Caution[] {
  const rest = meal.timetable === null ? surestRest(meal, dish, target) : plannedRest(meal, at);
  if (rest >= figure.rest) return [];
  const has = meal.timetable === null ? `${showMinutes(rest)} of rest is certain` : `It rests ${showMinutes(rest)}`;
  return [restCaution(has, figure, dish.name)];
}

/** `has`: how long it rests, in words. */
export function restCaution(has: string, figure: CoreFigure, dish: string | null): Caution {
  const say = `${has}; ${showPrinted(figure)} for ${figure.food} is published with ${showMinutes(figure.rest)} of rest before it is cut. Let it rest that long.`;
  return { rule: 'rest-short', source: sourceFor(figure), dish, say };
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
