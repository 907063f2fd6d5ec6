/** Where things stand, as data for other programs. Times are ISO 8601 with offset, temperatures °C, minutes whole. */
import * as z from 'zod';
import type { Range } from '../../heat/refit.js';
import { isoAt } from '../../problem/hours.js';
import type { Day } from '../journal/day.js';
import { showLoss } from '../journal/names.js';
import type { State } from './state.js';

const time = z.iso.datetime({ offset: true });

const range = z.strictObject({ low: z.number(), likely: z.number(), high: z.number() });

export const stateDocument = z.strictObject({
  format: z.literal('hearthtable-state/1'),
  problem: z.strictObject({ title: z.string(), digest: z.string() }),
  now: time,
  serve: time,
  zone: z.string(),
  steps: z.array(
    z.strictObject({
      dish: z.string(),
      step: z.string(),
      standing: z.enum(['done', 'under way', 'ready', 'later', 'dropped']),
      start: time.nullable(),
      end: time.nullable(),
      /** Minutes by which it is behind the plan. */
      late: z.number().int(),
    }),
  ),
  /** Those that still ask for something. */
  calls: z.array(
    z.strictObject({ at: time, cook: z.string().nullable(), dish: z.string(), step: z.string(), say: z.string() }),
  ),
  appliances: z.array(
    z.strictObject({
      appliance: z.string(),
      celsius: z.number(),
      /** What its dial says; null: it is off. */
      set: z.number().nullable(),
      mode: z.string().nullable(),
      /** When it is as hot as that. */
      there: time.nullable(),
      lost: z.boolean(),
    }),
  ),
  /** Of each piece on its way; ranges: one day in ten lies below `low`, one above `high`. */
  cores: z.array(
    z.strictObject({
      dish: z.string(),
      step: z.string(),
      readings: z.number().int(),
      now: range,
      /** Factor on its heat transfer, by what was read. */
      transfer: range,
      /** How many times as fast as was thought, size and heat transfer together. */
      pace: range.nullable(),
      /** Where it is to be pulled, and when; times that are null may never come. */
      pull: z
        .strictObject({
          celsius: z.number(),
          peak: z.number(),
          low: time.nullable(),
          likely: time.nullable(),
          high: time.nullable(),
        })
        .nullable(),
      atServe: range.nullable(),
    }),
  ),
  lost: z.array(z.strictObject({ thing: z.string(), count: z.number().int(), since: time })),
  gone: z.array(z.strictObject({ cook: z.string(), since: time })),
  dropped: z.array(z.string()),
  remarks: z.array(z.strictObject({ at: time, who: z.string().nullable(), text: z.string() })),
});

export type StateDocument = z.infer<typeof stateDocument>;

export function documentOf(day: Day, state: State): StateDocument {
  const { problem } = day;
  const iso = (minute: number): string => isoAt(problem, Math.round(minute));
  const isoOrNull = (minute: number | null): string | null => (minute === null ? null : iso(minute));
  const { title, digest, zone } = problem;
  return {
    format: 'hearthtable-state/1',
    problem: { title, digest },
    now: iso(state.now),
    serve: iso(state.serve),
    zone,
    steps: state.steps.map(({ id, standing, start, end, late }) => ({
      dish: problem.dishes[problem.steps[id]!.dish]!.name,
      step: problem.steps[id]!.name,
      standing,
      start: isoOrNull(start),
      end: isoOrNull(end),
      late: Math.round(late),
    })),
    calls: state.calls.map(({ row }) => row),
    appliances: state.heats.map(({ appliance, celsius, set, mode, there, lost }) => ({
      appliance: problem.kitchen.appliances[appliance]!.name,
      celsius: Math.round(celsius),
      set,
      mode,
      there: isoOrNull(there),
      lost,
    })),
    cores: state.cores.map(({ dish, step, readings, now, transfer, pace, pull, atServe }) => ({
      dish: problem.dishes[dish]!.name,
      step: problem.steps[step]!.name,
      readings,
      now: rounded(now, 10),
      transfer: rounded(transfer, 100),
      pace: pace && rounded(pace, 100),
      pull: pull && {
        celsius: Math.round(pull.celsius * 10) / 10,
        peak: Math.round(pull.peak * 10) / 10,
        low: isoOrNull(finite(pull.at.low)),
        likely: isoOrNull(finite(pull.at.likely)),
        high: isoOrNull(finite(pull.at.high)),
      },
      atServe: atServe && rounded(atServe, 10),
    })),
    lost: day.losses.map(({ at, what }) => ({
      thing: showLoss(problem, what),
      count: 'count' in what ? what.count : 1,
      since: iso(at),
    })),
    gone: [...day.gone].map(([cook, since]) => ({ cook: problem.cooks[cook]!.name, since: iso(since) })),
    dropped: [...day.dropped].map((dish) => problem.dishes[dish]!.name),
    remarks: day.remarks.map(({ at, who, text }) => ({ at: iso(at), who, text })),
  };
}

const finite = (minute: number): number | null => (Number.isFinite(minute) ? minute : null);

const rounded = ({ low, likely, high }: Range, to: number): Range => ({
  low: Math.round(low * to) / to,
  likely: Math.round(likely * to) / to,
  high: Math.round(high * to) / to,
});
