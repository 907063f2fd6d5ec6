/** What is refused unless the file accepts it: food that makes people ill below its published core temperature. */
import type { CautionRule } from '../problem/caution-rules.js';
import { showHeat } from '../problem/degrees.js';
import type { Problem } from '../problem/problem.js';
import { quote } from '../units/measure.js';
import { sourceFor, told } from './core.js';
import type { Curves } from './curve.js';
import { mealOf } from './meal.js';
import { isLow, verdictsOf } from './verdict.js';

export interface Refusal {
  /** The name that `accept` of the dish would have to give. */
  readonly rule: CautionRule;
  /** Index of the dish. */
  readonly dish: number;
  /** Id of the step whose target it is, and the entry of `on` that asks for it. */
  readonly step: number;
  readonly entry: number;
  /** With the published figure and its source. */
  readonly say: string;
  /** What would do. */
  readonly hint: string;
}

/**
 * Poultry, ground meat, stuffing, game and food heated again with a target below the published figure, in dishes that do not
 * accept it. With a curve of the dish's core, one that is predicted to satisfy the figure, by its peak or by the published
 * times at lower temperatures, is let pass; without, the target alone decides. In the order of the file.
 *
 * @throws RangeError where a curve is none.
 */
export function refusals(problem: Problem, curves?: Curves): Refusal[] {
  const meal = mealOf(problem, null, curves);
  return problem.dishes.flatMap((dish, at) =>
    verdictsOf(meal, at).flatMap((verdict): Refusal[] => {
      const { target, figure, strict } = verdict;
      if (figure === null || !strict || !isLow(verdict) || dish.accept.includes('core-unsafe')) return [];
      const say = `The core of ${quote(dish.name)} is set to ${showHeat(problem, target.celsius)}; published for ${figure.food}: ${told(figure)} (${sourceFor(figure)}).`;
      const hint = `a core of ${figure.celsius}C or ${figure.fahrenheit}F; \`accept: core-unsafe\` in the dish lets it pass, with the caution`;
      return [{ rule: 'core-unsafe', dish: at, step: target.step.id, entry: target.entry, say, hint }];
    }),
  );
}
