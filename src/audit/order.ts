/** Who comes before whom, through `after`; which steps end a dish, and when its food counts as cooked. */
import { HEAT_WORKS, type Problem } from '../problem/problem.js';

export interface Order {
  /** Ids of the steps that name this one in `after`, in all dishes. */
  readonly users: readonly (readonly number[])[];
  /** The next steps of its own dish; where all of `users` are in other dishes, those that these lead back to. */
  readonly next: readonly (readonly number[])[];
  /** By dish: its steps that no other step of the dish comes after. */
  readonly lasts: readonly (readonly number[])[];
  /** The step is a last work on the heat of its dish, or comes after one. */
  readonly cooked: readonly boolean[];
}

export function orderOf(problem: Problem): Order {
  const users: number[][] = problem.steps.map(() => []);
  for (const step of problem.steps) for (const link of step.after) users[link.step]?.push(step.id);
  const dishOf = (id: number): number | undefined => problem.steps[id]?.dish;

  // "Through `after`" leads through other dishes too: a roast whose juices come back in a sauce is before that sauce.
  const later = problem.steps.map((step) => {
    const seen = new Set<number>();
    const open = [...(users[step.id] ?? [])];
    for (let id = open.pop(); id !== undefined; id = open.pop()) {
      if (seen.has(id)) continue;
      seen.add(id);
      open.push(...(users[id] ?? []));
    }
    return [...seen].filter((id) => dishOf(id) === step.dish);
  });

  const firstOf = (ids: readonly number[]): number[] =>
    ids.filter((id) => !ids.some((other) => later[other]?.includes(id)));

  const cooked = problem.steps.map(() => false);
  for (const step of problem.steps) {
    const after = later[step.id] ?? [];
    if (!HEAT_WORKS.has(step.work) || after.some((id) => HEAT_WORKS.has(problem.steps[id]!.work))) continue;
    for (const id of [step.id, ...after]) cooked[id] = true;
  }
  return {
    users,
    next: users.map((list, id) => {
      const own = list.filter((user) => dishOf(user) === dishOf(id));
      return own.length > 0 ? own : firstOf(later[id] ?? []);
    }),
    lasts: problem.dishes.map((dish) => dish.steps.filter((id) => later[id]?.length === 0)),
    cooked,
  };
}
