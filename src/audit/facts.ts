/**
 * Plans that were made anew while the meal is under way: what has happened, in terms of the problem, and what that leaves to be judged.
 * Facts must stand in the plan as they happened, and rules between facts are not judged; the rest is, by all ten.
 */
import type { PlanDocument } from '../plan/document.js';
import type { Dish, Kitchen, Link, Problem, Step } from '../problem/problem.js';

/** Minutes after `start`; steps, dishes, cooks and things of the kitchen are indices of the problem. */
export interface Facts {
  readonly now: number;
  /** By step that has begun; `end` null while it is under way. */
  readonly steps: ReadonlyMap<number, { readonly start: number; readonly end: number | null }>;
  /** The serving time that is asked for now. */
  readonly serve: number;
  readonly losses: readonly {
    readonly at: number;
    readonly what:
      | { readonly kind: 'appliance'; readonly appliance: number }
      | { readonly kind: 'burner'; readonly appliance: number; readonly burner: number }
      | { readonly kind: 'pan'; readonly pan: number; readonly count: number }
      | { readonly kind: 'board'; readonly count: number };
  }[];
  /** Cooks who have left, and since when. */
  readonly gone: ReadonlyMap<number, number>;
  /** Dishes that are not finished: given up, or found impossible. */
  readonly dropped: ReadonlySet<number>;
  /** By step under way: when it is expected to end, where that is known better than by its minutes. */
  readonly expected?: ReadonlyMap<number, number>;
  /** Steps of which the plan admits that they come later, after what has happened, than their gap allows. */
  readonly overrun?: readonly number[];
  /** Minutes that the plan admits to ask of cooks after their hours. */
  readonly stay?: number;
  /** Steps that have begun, two by two, at both of which the plan admits that a cook is wanted at once. */
  readonly twice?: readonly { readonly steps: readonly [number, number] }[];
}

/** The problem as the facts leave it; `origin`: by step, the step of the problem that was asked of which it is a part. */
export interface Amended {
  readonly problem: Problem;
  readonly origin: readonly number[];
}

/** Serving time, boards and pans, dishes given up; and a step that had to move is two, the second after the first. */
export function amend(problem: Problem, plan: PlanDocument, facts: Facts): Amended {
  const origin = problem.steps.map((step) => step.id);
  const begun = begunBy(problem, facts.steps.keys());
  const wanted = wantedDishes(problem, facts);
  const isOut = (id: number): boolean => !wanted.has(problem.steps[id]!.dish) && !begun.has(id);
  const steps: Step[] = [...problem.steps];
  const dishes = problem.dishes.map((dish, d): Dish => {
    const given = facts.dropped.has(d) ? { ...dish, served: false, course: null, hold: null } : dish;
    const ids = dish.steps.flatMap((id) => {
      if (isOut(id)) return [];
      const rows = plan.steps.filter((row) => row.dish === dish.name && row.step === problem.steps[id]!.name).length;
      const more: number[] = [];
      for (let k = 1; k < rows && facts.steps.has(id); k++) {
        const link: Link = { step: more.at(-1) ?? id, gap: { low: 0, high: Number.POSITIVE_INFINITY } };
        more.push(steps.length);
        origin.push(id);
        steps.push({ ...problem.steps[id]!, id: steps.length, after: [link] });
      }
      return [id, ...more];
    });
    return { ...given, steps: ids };
  });
  const lastOf = (id: number): number => origin.lastIndexOf(id);
  const linked = steps.map((step): Step => {
    const goesOn = lastOf(origin[step.id]!) !== step.id;
    const own = goesOn ? { keeps: null, empties: false } : {};
    if (step.id >= problem.steps.length) return { ...step, ...own };
    if (isOut(step.id)) return { ...step, after: [] };
    return {
      ...step,
      ...own,
      after: step.after.flatMap((link) => (isOut(link.step) ? [] : [{ ...link, step: lastOf(link.step) }])),
    };
  });
  return {
    problem: { ...problem, serve: facts.serve, kitchen: leftOf(problem.kitchen, facts), dishes, steps: linked },
    origin,
  };
}

/** What has begun, and what must have, since something after it has. */
export function begunBy(problem: Problem, said: Iterable<number>): Set<number> {
  const begun = new Set(said);
  for (const id of begun) for (const link of problem.steps[id]!.after) begun.add(link.step);
  return begun;
}

/** Dishes that are still to be served, and components that one of them uses. */
function wantedDishes({ dishes, steps }: Problem, { dropped }: Facts): Set<number> {
  const wanted = new Set(dishes.flatMap((dish, d) => (dish.served && !dropped.has(d) ? [d] : [])));
  for (const d of wanted) {
    for (const id of dishes[d]!.steps) {
      for (const link of steps[id]!.after) if (!dropped.has(steps[link.step]!.dish)) wanted.add(steps[link.step]!.dish);
    }
  }
  return wanted;
}

function leftOf(kitchen: Kitchen, { losses }: Facts): Kitchen {
  let { boards } = kitchen;
  const counts = kitchen.pans.map((pan) => pan.count);
  for (const { what } of losses) {
    if (what.kind === 'board') boards -= what.count;
    if (what.kind === 'pan') counts[what.pan] = (counts[what.pan] ?? 0) - what.count;
  }
  const pans = kitchen.pans.map((pan, p) => ({ ...pan, count: Math.max(0, counts[p] ?? 0) }));
  return { ...kitchen, boards: Math.max(0, boards), pans };
}
