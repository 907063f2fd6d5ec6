/** A timeline as data, for programs: what `share --json` prints. Versioned and stable. Times are ISO 8601 with offset, temperatures °C. */
import * as z from 'zod';
import { CALL_KINDS } from '../plan/calls.js';
import { isoAt } from '../problem/hours.js';
import type { CardStep, Shared } from './content.js';

const time = z.iso.datetime({ offset: true });

const inside = z.strictObject({
  dish: z.string(),
  step: z.string(),
  start: time,
  end: time,
  place: z.string(),
  pan: z.string().nullable(),
  /** A burner's flame; null in a run. */
  flame: z.string().nullable(),
});

export const shareDocument = z.strictObject({
  format: z.literal('hearthtable-share/1'),
  problem: z.strictObject({ title: z.string(), digest: z.string() }),
  serve: time,
  zone: z.string(),
  lists: z.array(
    z.strictObject({
      /** Null: calls that are nobody's in particular. */
      cook: z.string().nullable(),
      calls: z.array(
        z.strictObject({
          /** The same in every plan of the meal. */
          id: z.string(),
          kind: z.enum(CALL_KINDS),
          at: time,
          /** Until when it takes its cook; `at` where it is done at once. */
          until: time,
          say: z.string(),
          place: z.string().nullable(),
          heat: z.string().nullable(),
          pan: z.string().nullable(),
        }),
      ),
    }),
  ),
  appliances: z.array(
    z.strictObject({
      appliance: z.string(),
      runs: z.array(
        z.strictObject({
          mode: z.string(),
          celsius: z.number(),
          /** When it is to be set, so that it is there at `start`. */
          set: time,
          start: time,
          end: time,
          /** Zones under which the fire is lit. */
          lit: z.array(z.string()),
          inside: z.array(inside),
        }),
      ),
      burners: z.array(inside),
    }),
  ),
  cautions: z.array(
    z.strictObject({ rule: z.string(), source: z.string(), dish: z.string().nullable(), say: z.string() }),
  ),
});

export type ShareDocument = z.infer<typeof shareDocument>;

export function documentOf({ view, lists, cards, cautions }: Shared): ShareDocument {
  const { problem, plan } = view;
  const iso = (minute: number) => isoAt(problem, minute);
  const within = ({ step, place, pan, flame }: CardStep) => ({
    dish: step.row.dish,
    step: step.row.step,
    start: iso(step.from),
    end: iso(step.to),
    place,
    pan,
    flame,
  });
  return {
    format: 'hearthtable-share/1',
    problem: plan.problem,
    serve: iso(problem.serve),
    zone: problem.zone,
    lists: lists.map(({ cook, entries }) => ({
      cook,
      calls: entries.map(({ id, told, say, place, heat, pan }) => ({
        id,
        kind: told.kind,
        at: told.call.at,
        until: iso(told.until),
        say,
        place,
        heat,
        pan,
      })),
    })),
    appliances: cards.map(({ name, runs, burners }) => ({
      appliance: name,
      runs: runs.map(({ run, lit, inside: steps }) => ({
        mode: run.row.mode,
        celsius: run.row.celsius,
        set: iso(run.ready),
        start: iso(run.from),
        end: iso(run.to),
        lit: [...lit],
        inside: steps.map(within),
      })),
      burners: burners.map(within),
    })),
    cautions,
  };
}
