/**
 * The heaviest load of each appliance that a meal may ask for at once, and whether it fits. A rule of thumb for `check`;
 * the plan itself decides what really stands together.
 */
import type { Dish, Option, Problem, Step } from '../problem/problem.js';
import { arrange, type Placed } from './arrange.js';
import { areaOf } from './footprint.js';
import { explainMisfit, type NamedLoad } from './misfit.js';
import type { Standing } from './surface.js';
import { type Shelves, shelvesOf } from './surface-of.js';

export interface HeaviestLoad {
  /** Indices of the appliance, its mode and the course. */
  readonly appliance: number;
  readonly mode: number;
  readonly course: number;
  /** The temperature that they share, °C. */
  readonly celsius: number;
  readonly loads: readonly WantedLoad[];
  /** Why they do not all fit, in a cook's words; null where they do. */
  readonly misfit: string | null;
}

export interface WantedLoad extends NamedLoad {
  /** Index of the dish, and id of its step. */
  readonly dish: number;
  readonly step: number;
  /** Where it stands; null where it found no room beside the others. */
  readonly placed: Placed | null;
}

/** One step of a dish that wants to be in an appliance, in one mode at one temperature. */
interface Wish {
  readonly dish: Dish;
  readonly number: number;
  readonly step: Step;
  readonly option: Option;
  /** Whether the step may be done elsewhere. */
  readonly elsewhere: boolean;
}

/**
 * For every appliance with a rack or grate (and something to stand there) its heaviest load. The rule: of one course, each
 * dish's last step that can be done there, in the mode and at the temperature that most of them share (then the larger
 * area, then nearer to what is ideal); no more of a pan than there is. What finds no room but can be done elsewhere
 * is left to the other place, and a dish counts in one appliance only, the first in the kitchen's order.
 */
export function heaviestLoads(problem: Problem): HeaviestLoad[] {
  const dealt = new Set<number>();
  return problem.kitchen.appliances.flatMap((appliance, index) => {
    if (appliance.surface.kind === 'burners') return [];
    const choice = mostShared(problem, index, dealt);
    if (choice === null) return [];
    const load = fill(problem, index, choice);
    for (const { dish } of load.loads) dealt.add(dish);
    return [load];
  });
}

interface Choice {
  readonly course: number;
  readonly mode: number;
  readonly celsius: number;
  readonly wishes: readonly Wish[];
}

function mostShared(problem: Problem, appliance: number, dealt: ReadonlySet<number>): Choice | null {
  let best: Choice | null = null;
  let worth: readonly number[] = [];
  for (const course of problem.courses.keys()) {
    for (const { mode, celsius } of states(problem, appliance)) {
      const wishes = wishesAt(problem, appliance, course, mode, celsius).filter((wish) => !dealt.has(wish.number));
      const area = wishes.reduce((sum, { option }) => sum + areaOf(option.load!.footprint) * option.pans, 0);
      const off = wishes.reduce((sum, { option }) => sum + Math.abs(celsius - (option.ideal ?? celsius)), 0);
      const own = [wishes.length, area, -off];
      if (wishes.length > 0 && isMore(own, worth)) {
        best = { course, mode, celsius, wishes };
        worth = own;
      }
    }
  }
  return best;
}

function isMore(own: readonly number[], other: readonly number[]): boolean {
  for (const [k, value] of own.entries()) {
    const against = other[k];
    if (against === undefined || value > against + 1e-9) return true;
    if (value < against - 1e-9) return false;
  }
  return false;
}

/** Every mode and temperature that some step may use, by mode, then rising. */
function states(problem: Problem, appliance: number): { mode: number; celsius: number }[] {
  const found = new Map<string, { mode: number; celsius: number }>();
  for (const { options } of problem.steps) {
    for (const { place, settings } of options) {
      if (place.kind !== 'heated' || place.appliance !== appliance) continue;
      for (const celsius of settings) found.set(`${place.mode} ${celsius}`, { mode: place.mode, celsius });
    }
  }
  return [...found.values()].sort((a, b) => a.mode - b.mode || a.celsius - b.celsius);
}

function wishesAt(problem: Problem, appliance: number, course: number, mode: number, celsius: number): Wish[] {
  const there = ({ place, settings, load }: Option) =>
    place.kind === 'heated' &&
    place.appliance === appliance &&
    place.mode === mode &&
    load !== null &&
    settings.includes(celsius);
  const taken = new Map<number, number>();
  return problem.dishes.flatMap((dish, number): Wish[] => {
    if (dish.course !== course) return [];
    const step = dish.steps.map((id) => problem.steps[id]!).findLast(({ options }) => options.some(there));
    const option = step?.options.find(there);
    if (step === undefined || option === undefined) return [];
    if (option.pan !== null) {
      const used = (taken.get(option.pan) ?? 0) + option.pans;
      if (used > problem.kitchen.pans[option.pan]!.count) return [];
      taken.set(option.pan, used);
    }
    const elsewhere = step.options.some(
      ({ place }) => place.kind === 'burner' || (place.kind === 'heated' && place.appliance !== appliance),
    );
    return [{ dish, number, step, option, elsewhere }];
  });
}

/** First what must be there, then what may be elsewhere as far as it fits; in the order that leaves fewer out. */
function fill(problem: Problem, index: number, { course, mode, celsius, wishes }: Choice): HeaviestLoad {
  const appliance = problem.kitchen.appliances[index]!;
  const used = appliance.modes[mode]!;
  const shelves = shelvesOf(appliance, used);
  const size = ({ option }: Wish) => areaOf(option.load!.footprint) * option.pans;
  const byNeed = (a: Wish, b: Wish) => Number(a.elsewhere) - Number(b.elsewhere);
  const largest = placeInTurn(
    shelves,
    [...wishes].sort((a, b) => byNeed(a, b) || size(b) - size(a)),
  );
  const smallest = placeInTurn(
    shelves,
    [...wishes].sort((a, b) => byNeed(a, b) || size(a) - size(b)),
  );
  const { put, placed, left } = smallest.put.length > largest.put.length ? smallest : largest;
  let at = 0;
  const loads = [
    ...put.flatMap((wish) => loadsOf(problem, wish).map((load) => ({ ...load, placed: placed[at++]! }))),
    ...left.flatMap((wish) => loadsOf(problem, wish).map((load) => ({ ...load, placed: null }))),
  ];
  const misfit = left.length === 0 ? null : explainMisfit(appliance, used, loads, spare(problem, wishes));
  return { appliance: index, mode, course, celsius, loads: loads.sort((a, b) => a.dish - b.dish), misfit };
}

/** What finds room beside those before it; `left`: what does not and can be done nowhere else. */
function placeInTurn(shelves: Shelves, order: readonly Wish[]) {
  const put: Wish[] = [];
  const left: Wish[] = [];
  let placed: readonly Placed[] = [];
  for (const wish of order) {
    const found = arrange(shelves, [...put, wish].flatMap(standingsOf));
    if (found !== null) {
      put.push(wish);
      placed = found;
    } else if (!wish.elsewhere) left.push(wish);
  }
  return { put, placed, left };
}

function standingsOf({ option }: Wish): Standing[] {
  const { footprint, height } = option.load!;
  return Array.from({ length: option.pans }, () => ({ footprint, height, start: 0, end: 1, fixed: null }));
}

function loadsOf(problem: Problem, { dish, number, step, option }: Wish): Omit<WantedLoad, 'placed'>[] {
  const name = option.pan === null ? dish.name : problem.kitchen.pans[option.pan]!.name;
  const load = { ...option.load!, name, dish: number, step: step.id };
  return Array.from({ length: option.pans }, () => load);
}

/** Pans that none of them uses. */
function spare({ kitchen }: Problem, wishes: readonly Wish[]): NamedLoad[] {
  return kitchen.pans.flatMap(({ name, footprint, height, count }, pan) => {
    const used = wishes.reduce((sum, { option }) => sum + (option.pan === pan ? option.pans : 0), 0);
    return used < count ? [{ name, footprint, height }] : [];
  });
}
