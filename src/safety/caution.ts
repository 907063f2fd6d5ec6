/** One caution, its place among others, and how it is told. */
import type { PlanDocument } from '../plan/document.js';
import { CAUTION_RULES, type CautionRule } from '../problem/caution-rules.js';
import type { Problem } from '../problem/problem.js';

export type CautionRow = PlanDocument['cautions'][number];

/** The parts of a plan that cautions are read from. */
export type PlanRows = Pick<PlanDocument, 'steps' | 'runs' | 'dishes'>;

export interface Caution extends CautionRow {
  readonly rule: CautionRule;
}

/** By what is at stake: the lower, the more. */
export const rankOf = ({ rule }: Caution): number => CAUTION_RULES.indexOf(rule);

/** Most serious first; then in the order of the file's dishes, those of no dish last; then as they came. */
export function mostSeriousFirst(problem: Problem, cautions: readonly Caution[]): CautionRow[] {
  const place = new Map(problem.dishes.map((dish, at) => [dish.name, at]));
  const dishOf = ({ dish }: Caution): number =>
    dish === null ? problem.dishes.length : (place.get(dish) ?? problem.dishes.length);
  return cautions
    .map((caution, at) => ({ caution, at }))
    .sort((a, b) => rankOf(a.caution) - rankOf(b.caution) || dishOf(a.caution) - dishOf(b.caution) || a.at - b.at)
    .map(({ caution }) => caution);
}
