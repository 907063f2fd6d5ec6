/** Where things stand, as data for other programs. Times are ISO 8601 with offset, temperatures °C, minutes whole. */
import * as z from 'zod';
import { isoAt } from '../../problem/hours.js';
import type { Day } from '../journal/day.js';
import { showLoss } from '../journal/names.js';
import type { State } from './state.js';

const time = z.iso.datetime({ offset: true });

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
