/** Cautions about cooked food that is cooled or heated again. */
import type { Step } from '../problem/problem.js';
import type { Caution } from './caution.js';
import { isHeat, type Meal } from './meal.js';
import { COOLING, CORE_FIGURES, LOCAL_RULES, PUBLICATIONS, showPrinted, sourceOf } from './published.js';
import { speaksOf, tokensOf } from './words.js';

/** Food that was cooked before goes on the heat: its name or the step's says so, or it is warmed after it was cooled. */
export function isHeatedAgain({ foods, flow }: Meal, step: Step): boolean {
  const { leftover, perishable } = foods[step.dish]!;
  if (!isHeat(step.work)) return false;
  if (leftover || speaksOf(tokensOf(step.name), 'leftover')) return true;
  return step.work === 'warm' && perishable !== null && flow.cooled[step.id]!;
}

export function againCautions(meal: Meal): Caution[] {
  const { problem, foods, flow } = meal;
  return problem.dishes.flatMap((dish, at): Caution[] => {
    const steps = dish.steps.map((id) => problem.steps[id]!);
    const food = foods[at]!;
    const cautions: Caution[] = [];
    const heatedAgain = steps.filter((step) => isHeatedAgain(meal, step));
    const [again] = heatedAgain;
    if (again && heatedAgain.every((step) => step.core === null)) {
      const figure = CORE_FIGURES[food.again];
      const or = figure.or === null ? '' : `, or ${figure.or}`;
      const say = `Heat it all through (${again.name}): ${showPrinted(figure)} is published for ${figure.food}${or}. Stir, and measure at the centre.`;
      cautions.push({ rule: 'reheat', source: sourceOf([figure.publication], LOCAL_RULES), dish: dish.name, say });
    }
    const cools = steps.some((step) => step.work === 'chill' && flow.heated[step.id]);
    if (cools && (food.perishable === 'always' || food.perishable === 'cooked')) {
      const { from, first, cold } = COOLING;
      const say = `Cool it fast, shallow and open: from ${from.celsius} to ${first.celsius} °C within ${first.minutes / 60} h and to ${cold.celsius} °C within ${cold.minutes / 60} h in all. A deep pot does not; part it or stand it in ice water.`;
      cautions.push({
        rule: 'cooling',
        source: sourceOf([PUBLICATIONS.cooling], LOCAL_RULES),
        dish: dish.name,
        say,
      });
    }
    return cautions;
  });
}
