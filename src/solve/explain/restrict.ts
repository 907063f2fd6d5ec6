/** Smaller meals made of a meal: some of its dishes, with the components that they use. */
import type { Dish, Problem, Step } from '../../problem/problem.js';

export interface Part {
  readonly problem: Problem;
  /** Dishes of the whole meal, by the part's own indices. */
  readonly dishes: readonly number[];
  /** Steps of the whole meal, by the part's own ids. */
  readonly steps: readonly number[];
}

/** These dishes and all components that their steps follow, directly or through other components; indices, rising. */
export function withComponents(problem: Problem, dishes: readonly number[]): number[] {
  const kept = new Set<number>();
  const open = [...dishes];
  for (let d = open.pop(); d !== undefined; d = open.pop()) {
    if (kept.has(d)) continue;
    kept.add(d);
    for (const id of problem.dishes[d]!.steps) {
      for (const link of problem.steps[id]!.after) {
        const { dish } = problem.steps[link.step]!;
        if (!problem.dishes[dish]!.served) open.push(dish);
      }
    }
  }
  return [...kept].sort((a, b) => a - b);
}

/** The meal with these dishes only; links to steps of others fall away. */
export function onlyDishes(problem: Problem, dishes: readonly number[]): Part {
  const stepIds = dishes.flatMap((d) => problem.dishes[d]!.steps);
  const dishAt = new Map(dishes.map((d, at) => [d, at]));
  const stepAt = new Map(stepIds.map((id, at) => [id, at]));
  const steps = stepIds.map((id, at): Step => {
    const step = problem.steps[id]!;
    const after = step.after
      .filter((link) => stepAt.has(link.step))
      .map((link) => ({ ...link, step: stepAt.get(link.step)! }));
    return { ...step, id: at, dish: dishAt.get(step.dish)!, after };
  });
  const kept = dishes.map((d): Dish => {
    const dish = problem.dishes[d]!;
    return { ...dish, steps: dish.steps.map((id) => stepAt.get(id)!) };
  });
  return { problem: { ...problem, dishes: kept, steps }, dishes, steps: stepIds };
}

/** Without one dish, and without the components that nothing else uses. */
export function withoutDish(problem: Problem, dish: number): Part {
  const served = [...problem.dishes.keys()].filter((d) => d !== dish && problem.dishes[d]!.served);
  const rest = onlyDishes(
    problem,
    [...problem.dishes.keys()].filter((d) => d !== dish),
  );
  const needed = withComponents(
    rest.problem,
    served.map((d) => rest.dishes.indexOf(d)),
  );
  return onlyDishes(
    problem,
    needed.map((d) => rest.dishes[d]!),
  );
}
