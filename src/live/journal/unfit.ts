/** Whether a plan speaks of the dishes, steps, appliances and cooks of a problem. */
import type { PlanDocument } from '../../plan/document.js';
import { stepKey } from '../../problem/hours.js';
import type { Problem } from '../../problem/problem.js';
import { quote } from '../../units/measure.js';

/** The first thing that a plan has and its problem has not, in words; null where there is none. */
export function unfit(problem: Problem, plan: PlanDocument): string | null {
  const steps = new Set(problem.steps.map(({ id }) => stepKey(problem, id)));
  const dishes = new Set(problem.dishes.map(({ name }) => name));
  const appliances = new Set(problem.kitchen.appliances.map(({ name }) => name));
  const cooks = new Set(problem.cooks.map(({ name }) => name));
  const lacks = (what: string, name: string): string =>
    `The plan has the ${what} ${quote(name)}, which the meal has not.`;
  for (const { dish, step, appliance, hands } of plan.steps) {
    if (!dishes.has(dish)) return lacks('dish', dish);
    if (step !== 'hold' && !steps.has(`${dish}/${step}`)) return lacks('step', `${dish}/${step}`);
    if (appliance !== null && !appliances.has(appliance)) return lacks('appliance', appliance);
    for (const { cook } of hands) if (!cooks.has(cook)) return lacks('cook', cook);
  }
  for (const { appliance } of plan.runs) if (!appliances.has(appliance)) return lacks('appliance', appliance);
  return null;
}
