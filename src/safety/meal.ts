/** A meal as cautions see it: what each dish is, how food flows from step to step, and when things happen in the plan. */
import { minuteAt, stepKey } from '../problem/hours.js';
import { HEAT_WORKS, type Problem, type Step, type Work } from '../problem/problem.js';
import type { PlanRows } from './caution.js';
import { type Curves, checkCurve, curveUntil, type DishCurve } from './curve.js';
import { type Food, foodOf } from './foods.js';

/** A row of the plan; minutes after `start`. */
export interface Row {
  readonly dish: number;
  /** Null for a hold. */
  readonly step: Step | null;
  readonly start: number;
  readonly end: number;
  readonly appliance: string | null;
  readonly mode: string | null;
  /** Null outside heat runs. */
  readonly celsius: number | null;
  readonly places: readonly string[];
  readonly pan: string | null;
}

/** By step id. */
export interface Flow {
  /** Its food has been on the heat, in its own dish or as another dish's meat. */
  readonly heated: readonly boolean[];
  /** It, or something that its food goes into, is yet to go on the heat. */
  readonly toHeat: readonly boolean[];
  /** It was chilled after it had been on the heat. */
  readonly cooled: readonly boolean[];
}

export interface Timetable {
  /** By dish, its rows in the order of their starts, holds included. */
  readonly ofDish: readonly (readonly Row[])[];
  /** All rows in the order of their starts. */
  readonly rows: readonly Row[];
  /** By dish: when it is served, or when the last step that uses a component begins. */
  readonly lands: readonly number[];
}

export interface Meal {
  readonly problem: Problem;
  readonly foods: readonly Food[];
  readonly flow: Flow;
  /** Null where there is no plan yet. */
  readonly timetable: Timetable | null;
  /** Each until its dish lands, as far as that is known. */
  readonly curves: Curves;
}

/** @throws RangeError where a curve is none. */
export function mealOf(problem: Problem, plan: PlanRows | null, curves: Curves = new Map()): Meal {
  const foods = problem.dishes.map(foodOf);
  const timetable = plan === null ? null : timetableOf(problem, plan);
  return { problem, foods, flow: flowOf(problem, foods), timetable, curves: untilEaten(timetable, curves) };
}

export const isHeat = (work: Work): boolean => HEAT_WORKS.has(work);

/** When the dish's first step on the heat begins in the plan; null where none does. */
export const heatBegins = ({ ofDish }: Timetable, at: number): number | null =>
  ofDish[at]!.find((row) => row.step !== null && isHeat(row.step.work))?.start ?? null;

function untilEaten(timetable: Timetable | null, curves: Curves): Curves {
  const kept = new Map<number, DishCurve>();
  for (const [at, curve] of curves) {
    checkCurve(curve);
    const begins = timetable === null ? null : heatBegins(timetable, at);
    const eaten =
      timetable === null ? curve : begins === null ? null : curveUntil(curve, timetable.lands[at]! - begins);
    if (eaten !== null) kept.set(at, eaten);
  }
  return kept;
}

function flowOf(problem: Problem, foods: readonly Food[]): Flow {
  const { steps } = problem;
  const users: number[][] = steps.map(() => []);
  for (const step of steps) for (const link of step.after) users[link.step]!.push(step.id);
  // The heat of a sauce does not cook the meat that it is poured over; a stewed meat in a pie has been cooked.
  const before = (id: number): number[] =>
    steps[id]!.after.map((link) => link.step).filter(
      (from) => steps[from]!.dish === steps[id]!.dish || foods[steps[from]!.dish]!.raw,
    );
  const onHeat = (id: number): boolean => isHeat(steps[id]!.work);
  const heated = reaches(steps.length, before, onHeat);
  const later = reaches(steps.length, (id) => users[id]!, onHeat);
  return {
    heated,
    toHeat: steps.map((step) => onHeat(step.id) || later[step.id]!),
    cooled: reaches(steps.length, before, (id) => steps[id]!.work === 'chill' && heated[id]!),
  };
}

/** By step: whether one that is reached from it, itself left out, passes the test. The ways have no loops. */
function reaches(count: number, next: (id: number) => readonly number[], test: (id: number) => boolean): boolean[] {
  const known = new Map<number, boolean>();
  const visit = (id: number): boolean => {
    const found = known.get(id) ?? next(id).some((other) => test(other) || visit(other));
    known.set(id, found);
    return found;
  };
  return Array.from({ length: count }, (_, id) => visit(id));
}

function timetableOf(problem: Problem, plan: PlanRows): Timetable {
  const stepOf = new Map(problem.steps.map((step) => [stepKey(problem, step.id), step]));
  const dishOf = new Map(problem.dishes.map((dish, at) => [dish.name, at]));
  const rows = plan.steps
    .flatMap((row): Row[] => {
      const dish = dishOf.get(row.dish);
      if (dish === undefined) return [];
      return [
        {
          dish,
          step: stepOf.get(`${row.dish}/${row.step}`) ?? null,
          start: minuteAt(problem, row.start),
          end: minuteAt(problem, row.end),
          appliance: row.appliance,
          mode: row.mode,
          celsius: row.celsius,
          places: row.place === null ? [] : [row.place].flat(),
          pan: row.pan,
        },
      ];
    })
    .sort((a, b) => a.start - b.start || a.end - b.end);
  const served = new Map(plan.dishes.map((row) => [row.dish, row.serve]));
  const lands = problem.dishes.map((dish, at) => {
    const serve = served.get(dish.name) ?? null;
    if (serve !== null) return minuteAt(problem, serve);
    const uses = rows.filter(({ step }) => step?.after.some((link) => problem.steps[link.step]!.dish === at));
    return Math.max(...rows.filter((row) => row.dish === at).map((row) => row.end), ...uses.map((row) => row.start));
  });
  return { rows, lands, ofDish: problem.dishes.map((_, at) => rows.filter((row) => row.dish === at)) };
}
