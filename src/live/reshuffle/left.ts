/** The problem of what is left: what has happened as it happened, what cannot be used any more taken away, what is not wanted left out. */

import { isAble } from '../../problem/able.js';
import type { Dish, Kitchen, Option, Problem, Step } from '../../problem/problem.js';
import type { Happened } from '../happened.js';
import type { Doing, PlanAsRead } from './doing.js';
import { type Fact, hasHands } from './facts.js';
import { asDone, restOf } from './parts.js';

export interface StepLeft {
  /** Step of the problem that was asked. */
  readonly origin: number;
  readonly fact: Fact | null;
  /** How it was to be done by the plan in force; null where that does not know it. */
  readonly usual: Doing | null;
  /** What is left of a step whose place was lost. */
  readonly isRest: boolean;
}

export interface Left {
  readonly problem: Problem;
  /** By step of `problem`. */
  readonly steps: readonly StepLeft[];
  /** By dish of `problem`: the dish of the problem that was asked. */
  readonly dishes: readonly number[];
  /** Dishes that cannot be finished any more, and the step for which there is no place. */
  readonly unfit: ReadonlyMap<number, number>;
  /** Facts that ended because their place was lost, by step of the problem that was asked. */
  readonly cut: ReadonlySet<number>;
}

interface Part extends StepLeft {
  readonly options: readonly Option[];
}

export function leftOf(
  asked: Problem,
  plan: PlanAsRead,
  facts: readonly (readonly Fact[])[],
  happened: Happened,
): Left {
  const kitchen = kitchenLeft(asked.kitchen, happened);
  const usable = (step: Step): Option[] =>
    step.options.flatMap((option) => {
      const own = optionLeft(option, kitchen, happened);
      return own !== null && isStaffed(asked, step, own, happened) ? [own] : [];
    });
  const cut = new Set<number>();
  const parts = asked.steps.map((step): Part[] => {
    const own = facts[step.id]!;
    const usual = plan.steps[step.id]!.at(-1) ?? null;
    const last = own.at(-1);
    if (last === undefined) return [{ origin: step.id, fact: null, usual, isRest: false, options: usable(step) }];
    const lost = last.ended ? null : lostSince(last.doing, happened, asked);
    const rows = plan.steps[step.id]!.length;
    const goesOn = lost !== null || (last.ended && own.length < rows);
    const done = own.map((fact, k): Part => {
      const isLast = k === own.length - 1;
      const moves = !isLast || lost !== null;
      const ended = moves ? { ...fact, ended: true, free: false } : fact;
      const end = isLast && moves ? Math.max(fact.doing.start, Math.min(fact.doing.end, lost!)) : fact.doing.end;
      const doing = { ...fact.doing, end };
      const before = own.slice(0, k).map((each) => each.doing);
      const next = isLast ? (goesOn ? 'left' : 'nothing') : 'done';
      const option = asDone(doing, ended, happened.now, before, next);
      return {
        origin: step.id,
        fact: { ...ended, doing: { ...doing, option } },
        usual: doing,
        isRest: k > 0,
        options: [option],
      };
    });
    if (!goesOn) return done;
    if (lost !== null) cut.add(step.id);
    const spent = own.map((fact, k) => ({ ...fact.doing, end: done[k]!.fact!.doing.end }));
    const rest = usable(step).map((option) => restOf(option, spent));
    const known = rows > own.length ? plan.steps[step.id]!.at(-1)! : null;
    return [...done, { origin: step.id, fact: null, usual: known, isRest: true, options: rest }];
  });
  const unfit = unfitDishes(asked, parts, happened);
  const out = new Set([...happened.dropped, ...unfit.keys()]);
  const needed = neededDishes(asked, out);
  const kept = parts.map((own, id) => {
    const { dish } = asked.steps[id]!;
    const begun = needed.has(dish) ? own : own.filter(({ fact }) => fact !== null);
    return out.has(dish) ? begun.map((part) => givenUp(part, happened.now)) : begun;
  });
  return { ...assembled(asked, kitchen, kept, out, happened), unfit, cut };
}

/** Boards and pans that are left. */
function kitchenLeft(kitchen: Kitchen, { losses }: Happened): Kitchen {
  const pans = kitchen.pans.map((pan, p) => {
    const lost = losses.reduce((sum, { what }) => sum + (what.kind === 'pan' && what.pan === p ? what.count : 0), 0);
    return lost === 0 ? pan : { ...pan, count: Math.max(0, pan.count - lost) };
  });
  const boards = losses.reduce((left, { what }) => left - (what.kind === 'board' ? what.count : 0), kitchen.boards);
  return { ...kitchen, pans, boards: Math.max(0, boards) };
}

/** A way of doing a step with what is left; null where it needs what is lost. */
function optionLeft(option: Option, kitchen: Kitchen, { losses }: Happened): Option | null {
  const { place, pan, pans } = option;
  if (pan !== null && kitchen.pans[pan]!.count < pans) return null;
  if (place.kind === 'none') return option;
  if (place.kind === 'board') return kitchen.boards > 0 ? option : null;
  const own = losses
    .map(({ what }) => what)
    .filter((what) => 'appliance' in what && what.appliance === place.appliance);
  if (own.some(({ kind }) => kind === 'appliance')) return null;
  if (place.kind !== 'burner' || own.length === 0) return option;
  const burners = place.burners.filter((b) => !own.some((what) => what.kind === 'burner' && what.burner === b));
  return burners.length < pans ? null : { ...option, place: { ...place, burners } };
}

/** Whether those who are left can do it. */
function isStaffed({ kitchen, cooks }: Problem, { work }: Step, option: Option, { gone }: Happened): boolean {
  if (!hasHands(option)) return true;
  const able = cooks.filter((cook, c) => !gone.has(c) && isAble(kitchen, cook, work, option.place));
  return able.length >= option.hands.cooks;
}

/** Since when the place of something under way is lost; null where it is not. */
function lostSince({ option, burners }: Doing, { losses }: Happened, { kitchen }: Problem): number | null {
  const { place } = option;
  if (place.kind !== 'heated' && place.kind !== 'burner') return null;
  const { surface } = kitchen.appliances[place.appliance]!;
  const own = losses.filter(({ what }) => {
    if (what.kind === 'appliance') return what.appliance === place.appliance;
    if (what.kind !== 'burner' || what.appliance !== place.appliance || surface.kind !== 'burners') return false;
    return burners.includes(surface.burners[what.burner]!.name);
  });
  return own.length === 0 ? null : Math.min(...own.map(({ at }) => at));
}

/** What was begun of a dish that nobody will eat ends as it was to, and what has no fixed end ends now. */
function givenUp(part: Part, now: number): Part {
  const { fact, options } = part;
  if (fact === null || !fact.free) return part;
  const settled = { ...fact, free: false, doing: { ...fact.doing, end: Math.max(fact.doing.start, now) } };
  const option = asDone({ ...settled.doing, option: options[0]! }, settled, now, [], 'nothing');
  return { ...part, fact: { ...settled, doing: { ...settled.doing, option } }, options: [option] };
}

/** Dishes with a step that no way is left for. */
function unfitDishes(
  { steps }: Problem,
  parts: readonly (readonly Part[])[],
  { dropped }: Happened,
): Map<number, number> {
  const unfit = new Map<number, number>();
  for (const [id, own] of parts.entries()) {
    const { dish } = steps[id]!;
    if (dropped.has(dish) || unfit.has(dish)) continue;
    if (own.some(({ options }) => options.length === 0)) unfit.set(dish, id);
  }
  return unfit;
}

/** Dishes that are still to be served, and components that one of them uses. */
function neededDishes({ dishes, steps }: Problem, out: ReadonlySet<number>): Set<number> {
  const needed = new Set(dishes.flatMap((dish, d) => (dish.served && !out.has(d) ? [d] : [])));
  for (const dish of needed) {
    for (const id of dishes[dish]!.steps) {
      for (const link of steps[id]!.after) {
        const other = steps[link.step]!.dish;
        if (!out.has(other) && !needed.has(other)) needed.add(other);
      }
    }
  }
  return needed;
}

function assembled(
  asked: Problem,
  kitchen: Kitchen,
  kept: readonly (readonly Part[])[],
  out: ReadonlySet<number>,
  { serve }: Happened,
): Pick<Left, 'problem' | 'steps' | 'dishes'> {
  const dishes = asked.dishes.flatMap((dish, d) => (dish.steps.some((id) => kept[id]!.length > 0) ? [d] : []));
  const order = dishes.flatMap((d) => asked.dishes[d]!.steps.flatMap((id) => kept[id]!));
  const lastOf = new Map(order.map((part, id) => [part.origin, id]));
  const steps = order.map((part, id): Step => {
    const step = asked.steps[part.origin]!;
    const after = part.isRest
      ? [{ step: id - 1, gap: { low: 0, high: Number.POSITIVE_INFINITY } }]
      : step.after.flatMap((link) => {
          const before = lastOf.get(link.step);
          return before === undefined ? [] : [{ step: before, gap: link.gap }];
        });
    const goesOn = order[id + 1]?.isRest === true;
    return {
      ...step,
      id,
      dish: dishes.indexOf(step.dish),
      after,
      keeps: goesOn ? null : step.keeps,
      empties: goesOn ? false : step.empties,
      options: part.options,
    };
  });
  const dishesLeft = dishes.map((d): Dish => {
    const dish = asked.dishes[d]!;
    const own = steps.filter((step) => dishes[step.dish] === d).map((step) => step.id);
    return out.has(d) ? { ...dish, steps: own, served: false, course: null, hold: null } : { ...dish, steps: own };
  });
  const meal = { ...asked, serve, kitchen, dishes: dishesLeft, steps };
  return { problem: meal, steps: order, dishes };
}
