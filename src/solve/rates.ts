/** What waiting between two steps costs, and as what it counts (the objective of a meal, per pair of steps). */
import { HEAT_WORKS, type Link, type Problem, type Step } from '../problem/problem.js';

export interface PairRate {
  readonly rate: number;
  readonly part: 'wait' | 'gap';
}

/** For every step: whether it is its dish's last work on the heat, or comes after one. */
export function cookedSteps(problem: Problem): boolean[] {
  const { steps } = problem;
  const before = ancestors(problem);
  const onHeat = (s: Step) => HEAT_WORKS.has(s.work);
  const isLast = steps.map(
    (s) => onHeat(s) && !steps.some((later) => later.dish === s.dish && onHeat(later) && before[later.id]!.has(s.id)),
  );
  return steps.map((s) => isLast[s.id]! || [...before[s.id]!].some((id) => steps[id]!.dish === s.dish && isLast[id]!));
}

/** For every step the ids of all that must come before it. */
function ancestors(problem: Problem): ReadonlySet<number>[] {
  const known: (Set<number> | undefined)[] = [];
  const find = (id: number): Set<number> => {
    const found = known[id];
    if (found !== undefined) return found;
    const all = new Set<number>();
    known[id] = all;
    for (const link of problem.steps[id]!.after) {
      all.add(link.step);
      for (const far of find(link.step)) all.add(far);
    }
    return all;
  };
  return problem.steps.map((s) => find(s.id));
}

export function pairRate(problem: Problem, cooked: readonly boolean[], link: Link, to: Step): PairRate {
  const from = problem.steps[link.step]!;
  const dish = problem.dishes[from.dish]!;
  const { wait, gap } = problem.rates;
  if (from.keeps !== null) return { rate: 0, part: 'gap' };
  if (from.dish === to.dish) {
    return cooked[from.id]! ? { rate: wait[dish.fades], part: 'wait' } : { rate: gap, part: 'gap' };
  }
  const heated = dish.steps.some((id) => HEAT_WORKS.has(problem.steps[id]!.work));
  return dish.served || !heated ? { rate: gap, part: 'gap' } : { rate: wait[dish.fades], part: 'wait' };
}
