/** The fewest dishes that cannot be planned together. */
import type { Problem } from '../../problem/problem.js';
import type { Judge } from './judge.js';
import { onlyDishes, type Part, withComponents } from './restrict.js';

export interface Clash {
  readonly part: Part;
  /** False: no plan was found for these dishes, and none was proven not to be. */
  readonly certain: boolean;
}

/** Work of the last attempt at a plan for dishes of which it is not proven that there is none. */
const SECOND_LOOK = 600_000;

/**
 * Leaving out any of the dishes found, the others are no longer proven not to go together, or a plan was found for them.
 * `suspects`: dishes for which a search for the whole meal found no place. Null where the work is used up, or where a longer
 * look shows that the dishes do go together.
 */
export function smallestClash(problem: Problem, judge: Judge, suspects: readonly number[]): Clash | null {
  const served = [...problem.dishes.keys()].filter((d) => problem.dishes[d]!.served);
  const suspect = served.filter((d) => withComponents(problem, [d]).some((one) => suspects.includes(one)));
  const ordered = [...suspect, ...served.filter((d) => !suspect.includes(d))];
  const part = (dishes: readonly number[]): Part => onlyDishes(problem, withComponents(problem, dishes));

  const proven = (dishes: readonly number[]): boolean => judge.proves(part(dishes).problem);
  const unplanned = (dishes: readonly number[]): boolean => judge.ofProblem(part(dishes).problem).kind !== 'fits';
  const found = proven(ordered)
    ? fewest([], false, ordered, proven)
    : (few(suspect, ordered).find(proven) ?? fewestWith(suspect, ordered, unplanned));
  if (judge.over) return null;
  return settled(withoutIdle(problem, judge, withComponents(problem, found)), judge);
}

/** Single dishes, then pairs with a suspect: of those a proof is cheap even where the whole meal is too large for one. */
function few(suspect: readonly number[], all: readonly number[]): number[][] {
  const firsts = suspect.length > 0 ? suspect : all.slice(0, 1);
  const pairs = firsts.flatMap((one) => all.filter((other) => other !== one).map((other) => [one, other]));
  return [...all.map((dish) => [dish]), ...pairs];
}

/** Whether the clash is certain, after a longer look where no proof was found. */
function settled(part: Part, judge: Judge): Clash | null {
  const verdict = judge.ofProblem(part.problem, { work: SECOND_LOOK });
  if (verdict.kind === 'fits') return null;
  return { part, certain: verdict.kind === 'never' || judge.hopeless(part.problem) };
}

/** Components that have no part in the clash are left out, as if they were there already. */
function withoutIdle(problem: Problem, judge: Judge, dishes: readonly number[]): Part {
  let kept = dishes;
  for (const dish of dishes) {
    if (problem.dishes[dish]!.served) continue;
    const others = kept.filter((d) => d !== dish);
    if (judge.ofProblem(onlyDishes(problem, others).problem).kind !== 'fits') kept = others;
  }
  return onlyDishes(problem, kept);
}

/** Without the suspects the others go together, so first those of the others are found that do not go with the suspects. */
function fewestWith(
  suspect: readonly number[],
  all: readonly number[],
  clash: (dishes: readonly number[]) => boolean,
): readonly number[] {
  const others = fewest(suspect, suspect.length > 0, all.slice(suspect.length), clash);
  return [...fewest(others, others.length > 0, suspect, clash), ...others];
}

/**
 * The part of `dishes` that is needed for a clash besides `base`, of which `dishes` and `base` together are one (QuickXplain: U. Junker,
 * AAAI 2004). Earlier dishes are kept rather than later ones.
 */
function fewest(
  base: readonly number[],
  grown: boolean,
  dishes: readonly number[],
  clash: (dishes: readonly number[]) => boolean,
): readonly number[] {
  if (grown && clash(base)) return [];
  if (dishes.length <= 1) return dishes;
  const half = dishes.length >> 1;
  const [first, second] = [dishes.slice(0, half), dishes.slice(half)];
  const late = fewest([...base, ...first], true, second, clash);
  const early = fewest([...base, ...late], late.length > 0, first, clash);
  return [...early, ...late];
}
