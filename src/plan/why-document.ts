/**
 * Why a plan is as it is, and what would make it better: parts of the plan document that are there when they were asked for. All of it keeps
 * the plan's order, places, hands and heats, and times everything else anew, exactly; only the ways out are planned anew.
 */
import * as z from 'zod';

const time = z.iso.datetime({ offset: true });

const link = z.strictObject({
  /** A clause without a full stop: `the oven is at 220 °C for Roots/roast until 17:00 and takes 2 min to 180 °C`. */
  say: z.string(),
  /** The row of the plan that it speaks of; null for a course, a cook or the start. */
  dish: z.string().nullable(),
  step: z.string().nullable(),
  at: time,
  /** True: otherwise a rule would be broken. False: otherwise something would wait that need not. */
  rule: z.boolean(),
});

const side = z.strictObject({
  /** Minutes by which it could move this way at no cost. */
  free: z.number().int(),
  /** Points that a minute beyond costs; null where this order cannot. */
  points: z.number().nullable(),
  /** What is in the way, from the step to the serving time, the start or a cook's hours, each tied to the next without a minute to spare. */
  chain: z.array(link),
});

const stepWhy = z.strictObject({ dish: z.string(), step: z.string(), at: time, sooner: side, later: side });

const worth = z.strictObject({
  /** `oven`, `Ines`, `half sheet`, `serve`, `start`. */
  of: z.string(),
  kind: z.enum(['appliance', 'cook', 'hours', 'burner', 'board', 'pan', 'serve', 'start']),
  /** Minutes more, or pieces more. */
  more: z.number(),
  unit: z.enum(['minutes', 'pieces']),
  /** Points that it saves, with everything else as it is. */
  points: z.number(),
  /** A sentence with its full stop. */
  say: z.string(),
});

export const whyDocument = z.strictObject({
  /** False: the plan's times are not the best of its order, so nothing is told of single steps. */
  exact: z.boolean(),
  steps: z.array(stepWhy),
  /** The most worth first. */
  worth: z.array(worth),
});

export const wayRow = z.strictObject({
  kind: z.string(),
  /** A sentence with its full stop. */
  say: z.string(),
  /** How much of a change it is to the cook; `src/solve/explain/proposals.ts` has the scale. */
  trouble: z.number(),
  /** Of the plan that was found for the meal so changed. */
  points: z.number(),
  late: z.number().int(),
  /** Points less than this plan's; null where there is no plan. */
  saves: z.number().nullable(),
});

export type WhyDocument = z.infer<typeof whyDocument>;
export type WhyStep = z.infer<typeof stepWhy>;
export type WhySide = z.infer<typeof side>;
export type WhyLink = z.infer<typeof link>;
export type Worth = z.infer<typeof worth>;
export type WayRow = z.infer<typeof wayRow>;
