/**
 * A plan read against its problem: rows matched to steps, times to minutes, runs to appliances. Reading judges nothing;
 * what does not fit is left null for the rules to speak of.
 */
import type { DishRow, PlanDocument, RunRow, SpotRow, StepRow } from '../plan/document.js';
import type { Appliance, Cook, Dish, Mode, Option, Problem, Step } from '../problem/problem.js';
import { leastChangeover } from './changeover.js';
import { type Clock, zoneClock } from './clock.js';
import type { Facts } from './facts.js';
import { asList, optionOf } from './option.js';
import { type Order, orderOf } from './order.js';
import type { Stretch } from './stretches.js';

export interface HandsEntry extends Stretch {
  readonly cook: string;
  /** Null where the problem has no such cook. */
  readonly who: Cook | null;
}

export interface Row {
  readonly raw: StepRow;
  /** `Dish/step`. */
  readonly label: string;
  /** Minutes after `start`. */
  readonly start: number;
  readonly end: number;
  readonly dish: Dish | null;
  /** Null for a hold, and where the dish has no such step. */
  readonly step: Step | null;
  readonly isHold: boolean;
  readonly appliance: Appliance | null;
  readonly mode: Mode | null;
  /** The alternative that the row is; null where it is none. */
  readonly option: Option | null;
  readonly places: readonly string[];
  readonly spots: readonly SpotRow[];
  readonly levels: readonly number[];
  readonly hands: readonly HandsEntry[];
}

export interface Run {
  readonly raw: RunRow;
  readonly start: number;
  readonly end: number;
  readonly appliance: Appliance | null;
  readonly mode: Mode | null;
  /** The least changeover, from the run before in the same appliance or from room temperature. */
  readonly least: number;
  /** The run before in the same appliance. */
  readonly before: Run | null;
}

export interface Landing {
  readonly name: string;
  readonly asked: number;
  /** The asked minute, or the last ready of the course's dishes if that is later. */
  readonly lands: number;
}

export interface Reading {
  readonly problem: Problem;
  readonly plan: PlanDocument;
  readonly clock: Clock;
  readonly order: Order;
  readonly rows: readonly Row[];
  /** By step id: its first row, or null. */
  readonly byStep: readonly (Row | null)[];
  /** By dish: its first hold row, or null. */
  readonly holds: readonly (Row | null)[];
  readonly runs: readonly Run[];
  /** By dish: the last end of its steps, a hold left out; NaN without any. */
  readonly ready: readonly number[];
  /** By course; null where no dish belongs to it. */
  readonly landings: readonly (Landing | null)[];
  /** By dish: when its course lands; null for a component. */
  readonly lands: readonly (number | null)[];
  /** By dish: the first row of the plan's list of dishes. */
  readonly dishRows: readonly (DishRow | null)[];
  /** What had happened; null where nothing had. */
  readonly facts: Facts | null;
  /** By step: the step of which it is a part; itself but where one has moved. */
  readonly origin: readonly number[];
  /** Rows that are facts, between which nothing is judged; empty until `pastRows` says which. */
  readonly past: ReadonlySet<Row>;
}

/** @param origin by step of a problem that was amended for the facts. */
export function readPlan(
  problem: Problem,
  plan: PlanDocument,
  facts: Facts | null = null,
  origin: readonly number[] = problem.steps.map((step) => step.id),
): Reading {
  const clock = zoneClock(problem.zone, problem.origin);
  const seen = new Map<string, number>();
  const rows = plan.steps.map((raw) => {
    const label = `${raw.dish}/${raw.step}`;
    const count = seen.get(label) ?? 0;
    seen.set(label, count + 1);
    return readRow(problem, clock, raw, count);
  });
  const byStep = problem.steps.map((step) => rows.find((row) => row.step === step) ?? null);
  const ready = problem.dishes.map((dish) => {
    const ends = dish.steps.flatMap((id) => byStep[id]?.end ?? []);
    return ends.length === 0 ? Number.NaN : Math.max(...ends);
  });
  const landings = problem.courses.map((course, index): Landing | null => {
    const members = problem.dishes.flatMap((dish, at) => (dish.course === index ? [at] : []));
    if (members.length === 0) return null;
    const asked = problem.serve + course.at;
    const readies = members.map((at) => ready[at] ?? Number.NaN).filter((minute) => !Number.isNaN(minute));
    return { name: course.name, asked, lands: Math.max(asked, ...readies) };
  });
  return {
    problem,
    plan,
    clock,
    order: orderOf(problem),
    rows,
    byStep,
    holds: problem.dishes.map((dish) => rows.find((row) => row.isHold && row.dish === dish) ?? null),
    runs: readRuns(problem, clock, plan.runs),
    ready,
    landings,
    lands: problem.dishes.map((dish) => (dish.course === null ? null : (landings[dish.course]?.lands ?? null))),
    dishRows: problem.dishes.map((dish) => plan.dishes.find((each) => each.dish === dish.name) ?? null),
    facts,
    origin,
    past: new Set<Row>(),
  };
}

/** @param count how many rows of the same step come before it. */
function readRow(problem: Problem, clock: Clock, raw: StepRow, count: number): Row {
  const start = clock.minute(raw.start);
  const end = clock.minute(raw.end);
  const hands = raw.hands.map((entry) => ({
    cook: entry.cook,
    who: problem.cooks.find((cook) => cook.name === entry.cook) ?? null,
    start: clock.minute(entry.start),
    end: clock.minute(entry.end),
  }));
  const dish = problem.dishes.find((each) => each.name === raw.dish) ?? null;
  const ids = dish?.steps.filter((each) => problem.steps[each]?.name === raw.step) ?? [];
  const id = ids[Math.min(count, ids.length - 1)];
  const step = id === undefined ? null : (problem.steps[id] ?? null);
  const appliance = problem.kitchen.appliances.find((each) => each.name === raw.appliance) ?? null;
  return {
    raw,
    label: `${raw.dish}/${raw.step}`,
    start,
    end,
    dish,
    step,
    isHold: step === null && raw.step === 'hold',
    appliance,
    mode: appliance?.modes.find((each) => each.name === raw.mode) ?? null,
    option: step === null ? null : optionOf(step, { raw, start, end, hands }, problem),
    places: asList(raw.place),
    spots: asList(raw.spot),
    levels: asList(raw.level),
    hands,
  };
}

function readRuns(problem: Problem, clock: Clock, list: readonly RunRow[]): Run[] {
  const latest = new Map<string, Run>();
  return list
    .map((raw) => ({ raw, start: clock.minute(raw.start), end: clock.minute(raw.end) }))
    .sort((one, two) => one.start - two.start || one.end - two.end)
    .map(({ raw, start, end }) => {
      const appliance = problem.kitchen.appliances.find((each) => each.name === raw.appliance) ?? null;
      const before = latest.get(raw.appliance) ?? null;
      const from = before?.raw.celsius ?? problem.kitchen.room;
      const run: Run = {
        raw,
        start,
        end,
        appliance,
        mode: appliance?.modes.find((each) => each.name === raw.mode) ?? null,
        least: appliance === null ? 0 : leastChangeover(appliance, from, raw.celsius),
        before,
      };
      latest.set(raw.appliance, run);
      return run;
    });
}

/** Whether two half-open stretches of time share a minute. */
export function meet(one: Stretch, two: Stretch): boolean {
  return one.start < two.end && two.start < one.end;
}
