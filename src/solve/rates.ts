/** What waiting between two steps costs, and as what it counts (the objective of a meal, per pair of steps). */
import { HEAT_WORKS, type Link, type Problem, type Step } from '../problem/problem.js';

export interface PairRate {
  readonly rate: number;
  readonly part: 'wait' | 'gap';
}

export interface Followers {
  /** Steps of the same dish that come after, through any dishes. */
  readonly later: readonly ReadonlySet<number>[];
  /** The next of them: those tied directly, else the first to which other dishes lead back. */
  readonly next: readonly (readonly number[])[];
}

export function followers(problem: Problem): Followers {
  const { steps } = problem;
  const users: number[][] = steps.map(() => []);
  for (const step of steps) for (const link of step.after) users[link.step]!.push(step.id);
  const sameDish = (a: number, b: number): boolean => steps[a]!.dish === steps[b]!.dish;
  const later = steps.map((step) => {
    const seen = new Set<number>();
    const open = [...users[step.id]!];
    for (let id = open.pop(); id !== undefined; id = open.pop()) {
      if (seen.has(id)) continue;
      seen.add(id);
      open.push(...users[id]!);
    }
    return new Set([...seen].filter((id) => sameDish(id, step.id)).sort((a, b) => a - b));
  });
  const next = steps.map((step) => {
    const direct = users[step.id]!.filter((id) => sameDish(id, step.id));
    if (direct.length > 0) return direct;
    const all = [...later[step.id]!];
    return all.filter((id) => !all.some((other) => later[other]!.has(id)));
  });
  return { later, next };
}

/** For every step: whether it is its dish's last work on the heat, or comes after one. */
export function cookedSteps(problem: Problem): boolean[] {
  const { steps } = problem;
  const { later } = followers(problem);
  const onHeat = (id: number): boolean => HEAT_WORKS.has(steps[id]!.work);
  const cooked = steps.map(() => false);
  for (const { id } of steps) {
    if (!onHeat(id) || [...later[id]!].some(onHeat)) continue;
    for (const after of [id, ...later[id]!]) cooked[after] = true;
  }
  return cooked;
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
