/**
 * A plan document with its names resolved against its problem, once: minutes for times, indices for names, letters for
 * dishes. Everything that draws or tells a plan reads this.
 */
import type { DishRow, PlanDocument, RunRow, StepRow } from '../plan/document.js';
import { minuteAt } from '../problem/hours.js';
import type { Problem, Work } from '../problem/problem.js';
import { letterOf } from './letters.js';
import { clean } from './text.js';

export interface Stretch {
  /** Index of the cook. */
  readonly cook: number;
  readonly from: number;
  readonly to: number;
}

export interface ViewStep {
  /** Its place in the document, and in `View.steps`. */
  readonly index: number;
  readonly row: StepRow;
  readonly dish: number;
  /** The step's id in the problem; null for a hold. */
  readonly id: number | null;
  readonly name: string;
  readonly work: Work | 'hold';
  readonly from: number;
  readonly to: number;
  /** Index of its appliance, or null. */
  readonly appliance: number | null;
  /** The places it fills: racks, zones, burners or boards; several for a pan that straddles or for several pans. */
  readonly places: readonly string[];
  readonly hands: readonly Stretch[];
}

export interface ViewRun {
  readonly row: RunRow;
  readonly appliance: number;
  readonly from: number;
  readonly to: number;
  /** When the changeover before it must begin at the latest. */
  readonly ready: number;
}

export interface ViewDish {
  readonly index: number;
  readonly name: string;
  readonly letter: string;
  readonly row: DishRow | null;
  /** When it is served; null for a component. */
  readonly serve: number | null;
  readonly ready: number | null;
}

export interface Landing {
  /** Index of the course. */
  readonly course: number;
  readonly name: string;
  readonly at: number;
  readonly late: number;
}

export interface View {
  readonly problem: Problem;
  readonly plan: PlanDocument;
  readonly dishes: readonly ViewDish[];
  /** In the document's order. */
  readonly steps: readonly ViewStep[];
  /** Indices of the steps by their start, then by dish. */
  readonly byClock: readonly number[];
  readonly runs: readonly ViewRun[];
  /** Courses that land, by time. */
  readonly landings: readonly Landing[];
  readonly cookNames: readonly string[];
  readonly applianceNames: readonly string[];
  /** First and last minute in which anything happens. */
  readonly first: number;
  readonly last: number;
}

/** Throws a RangeError when the plan names what the problem does not have: they do not belong together. */
export function viewOf(problem: Problem, plan: PlanDocument): View {
  const dishIndex = indexOf(problem.dishes.map((dish) => dish.name));
  const applianceIndex = indexOf(problem.kitchen.appliances.map((appliance) => appliance.name));
  const cookIndex = indexOf(problem.cooks.map((cook) => cook.name));
  const minute = (iso: string) => minuteAt(problem, iso);

  const steps = plan.steps.map((row, index): ViewStep => {
    const dish = dishIndex(row.dish);
    const id = problem.dishes[dish]?.steps.find((step) => problem.steps[step]?.name === row.step) ?? null;
    const appliance = row.appliance === null ? null : applianceIndex(row.appliance);
    return {
      index,
      row,
      dish,
      id,
      name: clean(row.step),
      work: row.work as Work | 'hold',
      from: minute(row.start),
      to: minute(row.end),
      appliance,
      places: placesOf(problem, row, appliance),
      hands: row.hands.map((hand) => ({ cook: cookIndex(hand.cook), from: minute(hand.start), to: minute(hand.end) })),
    };
  });

  const runs = plan.runs.map((row): ViewRun => {
    const from = minute(row.start);
    return { row, appliance: applianceIndex(row.appliance), from, to: minute(row.end), ready: from - row.changeover };
  });

  const rows = new Map(plan.dishes.map((row) => [row.dish, row]));
  const dishes = problem.dishes.map((dish, index): ViewDish => {
    const row = rows.get(dish.name) ?? null;
    return {
      index,
      name: clean(dish.name),
      letter: letterOf(index),
      row,
      serve: row === null || row.serve === null ? null : minute(row.serve),
      ready: row === null ? null : minute(row.ready),
    };
  });

  const landings = landingsOf(problem, dishes);
  const starts = [...steps.map((step) => step.from), ...runs.map((run) => run.ready)];
  const ends = [
    ...steps.map((step) => step.to),
    ...runs.map((run) => run.to),
    ...landings.map((landing) => landing.at),
  ];
  return {
    problem,
    plan,
    dishes,
    steps,
    byClock: steps.map((step) => step.index).sort((a, b) => byStart(steps[a]!, steps[b]!)),
    runs,
    landings,
    cookNames: problem.cooks.map((cook) => clean(cook.name)),
    applianceNames: problem.kitchen.appliances.map((appliance) => clean(appliance.name)),
    first: starts.length === 0 ? problem.serve : Math.min(...starts),
    last: Math.max(problem.serve, ...ends),
  };
}

const byStart = (a: ViewStep, b: ViewStep) => a.from - b.from || a.dish - b.dish || a.index - b.index;

function indexOf(names: readonly string[]): (name: string) => number {
  const places = new Map(names.map((name, index) => [name, index]));
  return (name) => {
    const place = places.get(name);
    if (place === undefined) throw new RangeError(`the plan names "${clean(name)}", which its problem does not have`);
    return place;
  };
}

/** Zones that a pan straddles are written `left + middle`; they are told apart by the grate's own names. */
function placesOf(problem: Problem, row: StepRow, appliance: number | null): string[] {
  const written = row.place === null ? [] : [row.place].flat();
  const surface = appliance === null ? undefined : problem.kitchen.appliances[appliance]?.surface;
  const places = written.flatMap((place) => {
    if (surface?.kind !== 'grate' || surface.zones.some((zone) => zone.name === place)) return [place];
    const parts = place.split(' + ');
    return parts.every((part) => surface.zones.some((zone) => zone.name === part)) ? parts : [place];
  });
  return [...new Set(places)];
}

function landingsOf(problem: Problem, dishes: readonly ViewDish[]): Landing[] {
  const landings = problem.courses.flatMap((course, index): Landing[] => {
    const served = dishes.find((dish) => problem.dishes[dish.index]?.course === index && dish.serve !== null);
    if (!served || served.serve === null) return [];
    return [{ course: index, name: clean(course.name), at: served.serve, late: served.row?.late ?? 0 }];
  });
  return landings.sort((a, b) => a.at - b.at || a.course - b.course);
}
