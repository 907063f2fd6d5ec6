/**
 * How sure a plan is: many evenings on which each step takes as long as it happens to, with the plan's order, places and hands kept, and
 * how many of them land in time. Shares are of all evenings, 0 to 1.
 */
import type { PlanDocument } from '../plan/document.js';
import type { Schedule } from '../solve/schedule.js';
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
const WITHIN = [5, 10] as const;
/** Whole minutes are planned: food waits too long when it is more than this beyond what it may. */
const LEEWAY = 1;
/** As many of the worst are named, and none that matters less. */
const NAMED = 3;
const WORTH_NAMING = 0.005;

/** Null where no step of the schedule has a spread. */
export function chancesOf(schedule: Schedule, { draws, seed }: Asking): Chances | null {
  const risks = risksOf(schedule);
  if (risks.length === 0) return null;
  const tally = tallied(schedule, risks, { draws, seed });
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
  const threats = risks.map(({ activity }, k) => ({ ...named(activity), by: share(tally.without[k]! - five!) }));
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

/** The share of evenings that land within 5 minutes of their time, and no more: for comparing schedules. */
export function shareInTime(schedule: Schedule, { draws, seed }: Asking): number {
  const risks = risksOf(schedule);
  const rows = rowsOf(risks, { draws, seed });
  const evenings = eveningsOf(schedule, risks);
  const late = new Float64Array(BLOCK);
  let landed = 0;
  for (let from = 0; from < draws; from += BLOCK) {
    const count = Math.min(BLOCK, draws - from);
    evenings.reckon(count, blockOf(rows, from, count));
    evenings.lateness(count, late);
    landed += within(late, count, WITHIN[0]);
  }
  return landed / draws;
}

interface Tally {
  /** Evenings that land within each of WITHIN. */
  readonly landed: readonly number[];
  /** The first of these, did each risk take its likely minutes. */
  readonly without: readonly number[];
  /** Evenings on which nothing waits too long, and by step those on which it does. */
  readonly unspoilt: number;
  readonly waits: ReadonlyMap<number, number>;
}

function tallied(schedule: Schedule, risks: readonly Risk[], asking: Asking): Tally {
  const { draws } = asking;
  const rows = rowsOf(risks, asking);
  const evenings = eveningsOf(schedule, risks);
  const { waits } = evenings.evening;
  const likely = risks.map((risk) => new Float64Array(BLOCK).fill(risk.likely));
  const landed = WITHIN.map(() => 0);
  const without = risks.map(() => 0);
  const tooLong = new Map<number, number>();
  let unspoilt = 0;
  const late = new Float64Array(BLOCK);
  const spoilt = new Uint8Array(BLOCK);
  const ofStep = new Map<number, Uint8Array>(waits.map(({ activity }) => [activity, new Uint8Array(BLOCK)]));
  for (let from = 0; from < draws; from += BLOCK) {
    const count = Math.min(BLOCK, draws - from);
    const block = blockOf(rows, from, count);
    evenings.reckon(count, block);
    evenings.lateness(count, late);
    for (const [k, limit] of WITHIN.entries()) landed[k]! += within(late, count, limit);
    for (const flags of ofStep.values()) flags.fill(0);
    for (const [w, { activity }] of waits.entries()) {
      evenings.overstay(count, w, late);
      const flags = ofStep.get(activity)!;
      for (let i = 0; i < count; i++) if (late[i]! > LEEWAY) flags[i] = 1;
    }
    spoilt.fill(0);
    for (const [activity, flags] of ofStep) {
      let some = 0;
      for (let i = 0; i < count; i++) {
        some += flags[i]!;
        spoilt[i]! |= flags[i]!;
      }
      if (some > 0) tooLong.set(activity, (tooLong.get(activity) ?? 0) + some);
    }
    for (let i = 0; i < count; i++) unspoilt += 1 - spoilt[i]!;
    for (const [k, { activity }] of risks.entries()) {
      evenings.instead(count, activity, likely[k]!, block.get(activity)!);
      evenings.lateness(count, late, activity);
      without[k]! += within(late, count, WITHIN[0]);
    }
  }
  return { landed, without, unspoilt, waits: tooLong };
}

function eveningsOf({ compiled, state }: Schedule, risks: readonly Risk[]): Evenings {
  return new Evenings(new Evening(compiled, state), state.minutes, new Set(risks.map(({ activity }) => activity)));
}

/** By activity: its minutes on every evening. */
export function rowsOf(risks: readonly Risk[], { draws, seed }: Asking): Map<number, Float64Array> {
  return new Map(
    risks.map((risk) => [risk.activity, deviates(draws, seed, risk.activity).map((z) => minutesAt(risk, z))]),
  );
}

const blockOf = (rows: ReadonlyMap<number, Float64Array>, from: number, count: number): Map<number, Float64Array> =>
  new Map([...rows].map(([activity, row]) => [activity, row.subarray(from, from + count)]));

function within(late: Float64Array, count: number, limit: number): number {
  let some = 0;
  // Sums of minutes are a little off in their last digits.
  for (let i = 0; i < count; i++) if (late[i]! <= limit + 1e-9) some++;
  return some;
}
