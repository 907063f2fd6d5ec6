/** How a step is, or was to be, done: a row of the plan read against the problem. Minutes after `start`, °C. */
import type { Placed } from '../../kitchen/arrange.js';
import type { PlanDocument, StepRow } from '../../plan/document.js';
import { minuteAt } from '../../problem/hours.js';
import type { Option, Problem, Step } from '../../problem/problem.js';
import { minutesAt } from '../../solve/compile.js';
import { elsewhere } from './elsewhere.js';

export interface HandsOn {
  /** Index of the cook; -1: one whom the problem does not have. */
  readonly cook: number;
  readonly start: number;
  readonly end: number;
}

export interface Doing {
  readonly start: number;
  readonly end: number;
  readonly option: Option;
  /** Null outside heat runs. */
  readonly celsius: number | null;
  /** Names of burners; empty elsewhere. */
  readonly burners: readonly string[];
  /** Where its pans stand in an appliance with runs; empty elsewhere. */
  readonly spots: readonly Placed[];
  /** Counted from 0; -1 elsewhere. */
  readonly board: number;
  readonly hands: readonly HandsOn[];
}

/** A dish that waits in a warm place. */
export interface Holding {
  readonly row: StepRow;
  readonly start: number;
  readonly end: number;
}

export interface PlanAsRead {
  /** By step of the problem: its rows in order of time, several where it had to move; empty where the plan has none. */
  readonly steps: readonly (readonly Doing[])[];
  /** By dish. */
  readonly holds: ReadonlyMap<number, Holding>;
  /** Runs of each appliance, by index, in order of time. */
  readonly runs: readonly (readonly RunAsRead[])[];
}

export interface RunAsRead {
  readonly celsius: number;
  readonly start: number;
  readonly end: number;
  readonly changeover: number;
}

/** A value that is a list with several pans, as a list. */
export const asList = <T>(each: T | T[] | null): T[] => (each === null ? [] : Array.isArray(each) ? each : [each]);

export function readPlan(problem: Problem, plan: PlanDocument): PlanAsRead {
  const rowsOf = new Map<string, StepRow[]>();
  for (const row of plan.steps) {
    const key = `${row.dish}/${row.step}`;
    rowsOf.set(key, [...(rowsOf.get(key) ?? []), row]);
  }
  const minute = (iso: string): number => Math.round(minuteAt(problem, iso));
  const holds = new Map<number, Holding>();
  problem.dishes.forEach((dish, d) => {
    const row = rowsOf.get(`${dish.name}/hold`)?.[0];
    if (row !== undefined) holds.set(d, { row, start: minute(row.start), end: minute(row.end) });
  });
  const runs = problem.kitchen.appliances.map(({ name }) =>
    plan.runs
      .filter((run) => run.appliance === name)
      .map((run) => ({
        celsius: run.celsius,
        start: minute(run.start),
        end: minute(run.end),
        changeover: run.changeover,
      }))
      .sort((a, b) => a.start - b.start),
  );
  const steps = problem.steps.map((step) => {
    const rows = rowsOf.get(`${problem.dishes[step.dish]!.name}/${step.name}`) ?? [];
    return rows.map((row) => doingOf(problem, step, row)).sort((a, b) => a.start - b.start);
  });
  return { steps, holds, runs };
}

function doingOf(problem: Problem, step: Step, row: StepRow): Doing {
  const minute = (iso: string): number => Math.round(minuteAt(problem, iso));
  const [start, end] = [minute(row.start), minute(row.end)];
  const option = optionOf(problem, step, row, end - start);
  const places = asList(row.place);
  const levels = asList(row.level);
  const board = /^board (\d+)$/.exec(places[0] ?? '')?.[1];
  return {
    start,
    end,
    option,
    celsius: row.celsius,
    burners: option.place.kind === 'burner' ? places : [],
    spots: asList(row.spot).map((spot, k) => ({ level: levels[k] ?? 1, spot })),
    board: board === undefined ? -1 : Number(board) - 1,
    hands: row.hands.map((hand) => ({
      cook: problem.cooks.findIndex((cook) => cook.name === hand.cook),
      start: minute(hand.start),
      end: minute(hand.end),
    })),
  };
}

/** The way of doing the step that a row shows; where it is none of them, the first way put in the row's place. */
function optionOf(problem: Problem, step: Step, row: StepRow, minutes: number): Option {
  const { kitchen } = problem;
  const places = asList(row.place);
  const alike = step.options.filter(({ place, pan, pans }) => {
    if ((pan === null ? null : kitchen.pans[pan]!.name) !== row.pan) return false;
    if (place.kind === 'none') return row.appliance === null && places.length === 0;
    if (place.kind === 'board') return row.appliance === null && places.length > 0;
    const { name, modes, surface } = kitchen.appliances[place.appliance]!;
    if (name !== row.appliance || places.length !== pans) return false;
    if (place.kind === 'heated') return modes[place.mode]!.name === row.mode;
    return (
      surface.kind === 'burners' && places.every((each) => place.burners.some((b) => surface.burners[b]!.name === each))
    );
  });
  const best = alike.find((option) => lasts(option, row.celsius, minutes)) ?? alike[0];
  if (best !== undefined) return best;
  const place = places[0] ?? row.appliance;
  return elsewhere(problem, step, step.options[0]!, row.appliance ?? place ?? '') ?? step.options[0]!;
}

function lasts(option: Option, celsius: number | null, minutes: number): boolean {
  const { duration, settings } = option;
  if (celsius !== null && !settings.some((s) => Math.abs(s - celsius) < 1e-6)) return false;
  if (duration.kind === 'range') return duration.low <= minutes && minutes <= duration.high;
  return minutesOf(option, celsius) === minutes;
}

/** Minutes that a way takes at a temperature; of a range the least. */
export function minutesOf({ duration }: Option, celsius: number | null): number {
  if (duration.kind === 'fixed') return duration.minutes;
  if (duration.kind === 'range') return duration.low;
  const { columns } = duration;
  const within = Math.min(Math.max(celsius ?? columns[0]!.celsius, columns[0]!.celsius), columns.at(-1)!.celsius);
  return minutesAt(columns, within);
}
