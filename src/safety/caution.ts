/** One caution, its place among others, and how it is told. */
import type { PlanDocument } from '../plan/document.js';
import type { Problem } from '../problem/problem.js';

export type CautionRow = PlanDocument['cautions'][number];

/** The parts of a plan that cautions are read from. */
export type PlanRows = Pick<PlanDocument, 'steps' | 'runs' | 'dishes'>;

/** By what is at stake, worst first; a caution's `rule` is one of these. */
export const RULES = [
  /** Poultry, ground meat, stuffing, game or food heated again is set below its published core temperature. */
  'core-unsafe',
  /** Fire on a grill: carbon monoxide, walls, nobody there. */
  'grill-outdoors',
  /** A whole cut, fish or eggs are set below their published core temperature. */
  'core-low',
  /** A core target of a food that we have no figure for. */
  'core-unknown',
  /** Perishable food is neither cold nor hot for too long. */
  'warm-too-long',
  'hold-low',
  /** Raw meat and then ready-to-eat food on one board or in one pan. */
  'raw-then-ready',
  /** Heat while no cook is there. */
  'heat-alone',
  'reheat',
  'cooling',
  /** Meat, fish or eggs that no thermometer is asked for. */
  'thermometer',
  'rest-short',
  'hot-fat',
  'hot-iron',
] as const;
export type Rule = (typeof RULES)[number];

export interface Caution extends CautionRow {
  readonly rule: Rule;
}

/** Most serious first; then in the order of the file's dishes, those of no dish last; then as they came. */
export function mostSeriousFirst(problem: Problem, cautions: readonly Caution[]): CautionRow[] {
  const place = new Map(problem.dishes.map((dish, at) => [dish.name, at]));
  const rank = (caution: Caution): number => RULES.indexOf(caution.rule);
  const dishOf = ({ dish }: Caution): number =>
    dish === null ? problem.dishes.length : (place.get(dish) ?? problem.dishes.length);
  return cautions
    .map((caution, at) => ({ caution, at }))
    .sort((a, b) => rank(a.caution) - rank(b.caution) || dishOf(a.caution) - dishOf(b.caution) || a.at - b.at)
    .map(({ caution }) => caution);
}
