/**
 * How sure a plan is: many evenings on which each step takes as long as it happens to, with the plan's order, places and hands kept, and
 * how many of them land in time. Shares are of all evenings, 0 to 1.
 */
import type { PlanDocument } from '../plan/document.js';
import type { Found, Schedule } from '../solve/schedule.js';
import { deviates, minutesAt } from './draws.js';
import { Evening } from './evening.js';
import { BLOCK, Evenings } from './evenings.js';
import { type Risk, risksOf } from './risks.js';

export type Chances = NonNullable<PlanDocument['chances']>;

export interface Asking {
  readonly draws: number;
  readonly seed: number;
}

export const DRAWS = 10_000;

/** Minutes after its time at which a course still counts as landed in time. */
export const ON_TIME = 5;
const WITHIN = [ON_TIME, 10] as const;
/** Whole minutes are planned: food waits too long when it is more than this beyond what it may. */
const LEEWAY = 1;
/** As many of the worst are named, and none that matters less. */
const NAMED = 3;
const WORTH_NAMING = 0.005;
/** So many are tried. */
const SUSPECTS = 12;

/** Null where no step of the schedule has a spread. */
export function chancesOf(schedule: Schedule, { draws, seed }: Asking): Chances | null {
  const risks = risksOf(schedule);
  if (risks.length === 0) return null;
  const rows = rowsOf(risks, { draws, seed });
  const evenings = eveningsOf(schedule, [...rows.keys()]);
  const tally = tallied(evenings, rows, draws);
  const likely = without(evenings, rows, suspects(risks, rows, tally.late), draws);
  const { steps, dishes } = schedule.compiled.problem;
  const named = (activity: number) => {
    const { dish, name } = steps[activity]!;
    return { dish: dishes[dish]!.name, step: name };
  };
  const share = (count: number): number => count / draws;
  const worst = <T>(list: readonly T[], of: (one: T) => number): T[] =>
    list
      .filter((one) => of(one) >= WORTH_NAMING)
      .sort((one, two) => of(two) - of(one))
      .slice(0, NAMED);
  const [five, ten] = tally.landed;
  const threats = [...likely].map(([activity, count]) => ({ ...named(activity), by: share(count - five!) }));
  const waits = [...tally.waits].map(([activity, count]) => ({ ...named(activity), share: share(count) }));
  return {
    draws,
    within5: share(five!),
    within10: share(ten!),
    unspoilt: share(tally.unspoilt),
    threats: worst(threats, ({ by }) => by),
    waits: worst(waits, (one) => one.share),
  };
}

/** The share of days on which all lands within ON_TIME. */
export function shareInTime(schedule: Schedule, asking: Asking): number {
  const risks = risksOf(schedule);
  return within(latenessOn(schedule, rowsOf(risks, asking), asking.draws), asking.draws, ON_TIME) / asking.draws;
}

/** Minutes after its time at which the latest course lands, 0 at least, on each of so many days. */
export function latenessOn(schedule: Found, rows: Rows, days: number): Float64Array {
  const evenings = eveningsOf(schedule, [...rows.keys()]);
  const late = new Float64Array(days);
  for (let from = 0; from < days; from += BLOCK) {
    const count = Math.min(BLOCK, days - from);
    evenings.reckon(count, blockOf(rows, from, count));
    evenings.lateness(count, late.subarray(from));
  }
  return late;
}

interface Tally {
  /** Days that land within each of WITHIN. */
  readonly landed: readonly number[];
  /** Days on which nothing waits too long, and by step those on which it does. */
  readonly unspoilt: number;
  readonly waits: ReadonlyMap<number, number>;
  readonly late: Float64Array;
}

type Rows = ReadonlyMap<number, Float64Array>;

function tallied(evenings: Evenings, rows: Rows, draws: number): Tally {
  const { waits } = evenings.evening;
  const late = new Float64Array(draws);
  const over = new Float64Array(BLOCK);
  const spoilt = new Uint8Array(draws);
  const ofStep = new Map<number, Uint8Array>(waits.map(({ activity }) => [activity, new Uint8Array(draws)]));
  for (let from = 0; from < draws; from += BLOCK) {
    const count = Math.min(BLOCK, draws - from);
    evenings.reckon(count, blockOf(rows, from, count));
    evenings.lateness(count, late.subarray(from));
    for (const [w, { activity }] of waits.entries()) {
      evenings.overstay(count, w, over);
      const flags = ofStep.get(activity)!;
      for (let i = 0; i < count; i++) {
        if (over[i]! <= LEEWAY) continue;
        flags[from + i] = 1;
        spoilt[from + i] = 1;
      }
    }
  }
  const sum = (flags: Uint8Array): number => flags.reduce((all, one) => all + one, 0);
  return {
    landed: WITHIN.map((limit) => within(late, draws, limit)),
    unspoilt: draws - sum(spoilt),
    waits: new Map([...ofStep].map(([activity, flags]) => [activity, sum(flags)])),
    late,
  };
}

/** How many of the days would land within ON_TIME, did a step always take its likely minutes: of those suspected, by activity. */
function without(evenings: Evenings, rows: Rows, risks: readonly Risk[], draws: number): Map<number, number> {
  const likely = risks.map((risk) => new Float64Array(BLOCK).fill(risk.likely));
  const landed = new Map<number, number>();
  const late = new Float64Array(BLOCK);
  for (let from = 0; from < draws; from += BLOCK) {
    const count = Math.min(BLOCK, draws - from);
    const block = blockOf(rows, from, count);
    evenings.reckon(count, block);
    for (const [k, { activity }] of risks.entries()) {
      evenings.instead(count, activity, likely[k]!, block.get(activity)!);
      evenings.lateness(count, late, activity);
      landed.set(activity, (landed.get(activity) ?? 0) + within(late, count, ON_TIME));
    }
  }
  return landed;
}

/** Those whose minutes on days that land too late are farthest above their usual ones, for their spread. */
function suspects(risks: readonly Risk[], rows: Rows, late: Float64Array): Risk[] {
  if (risks.length <= SUSPECTS) return [...risks];
  const excess = ({ activity, low, high }: Risk): number => {
    const row = rows.get(activity)!;
    const days = row.filter((_, day) => late[day]! > ON_TIME);
    return days.length === 0 ? 0 : (mean(days) - mean(row)) / (high - low);
  };
  const found = new Map(risks.map((risk) => [risk, excess(risk)]));
  return [...risks].sort((one, two) => found.get(two)! - found.get(one)!).slice(0, SUSPECTS);
}

const mean = (row: Float64Array): number => row.reduce((sum, one) => sum + one, 0) / row.length;

const eveningsOf = ({ compiled, state }: Found, activities: readonly number[]): Evenings =>
  new Evenings(new Evening(compiled, state), state.minutes, new Set(activities));

/** By activity: its minutes on every evening. */
export function rowsOf(risks: readonly Risk[], { draws, seed }: Asking): Map<number, Float64Array> {
  return new Map(
    risks.map((risk) => [risk.activity, deviates(draws, seed, risk.activity).map((z) => minutesAt(risk, z))]),
  );
}

const blockOf = (rows: Rows, from: number, count: number): Map<number, Float64Array> =>
  new Map([...rows].map(([activity, row]) => [activity, row.subarray(from, from + count)]));

function within(late: Float64Array, count: number, limit: number): number {
  let some = 0;
  // Sums of minutes are a little off in their last digits.
  for (let i = 0; i < count; i++) if (late[i]! <= limit + 1e-9) some++;
  return some;
}
