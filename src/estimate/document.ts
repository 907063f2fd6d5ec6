/**
 * The estimate document: what `estimate --json` prints and what is shown. Versioned and stable. °C, minutes, metres, kilograms;
 * shares are parts of 1.
 */
import * as z from 'zod';

const size = z.number().positive().nullable();

/** A core or a surface over time: equal rows, minutes since the first heat. */
const course = z.strictObject({
  minutes: z.array(z.number()),
  core: z.array(z.number()),
  /** Of the side that is coldest at the time, and of the one that is hottest. */
  surface: z.array(z.number()),
  hottest: z.array(z.number()),
});

/** How far germs are killed in the core, by the times that are published for the food. */
const lethality = z.strictObject({
  /** log10 reduction of Salmonella, and what the table asks for. */
  logs: z.number(),
  required: z.number(),
  /** The first in the second. */
  share: z.number(),
  /** Minutes at one temperature that do the same. */
  equivalent: z.strictObject({ celsius: z.number(), minutes: z.number() }),
  /** The published time at the goal, or where there is none, at another temperature. */
  published: z.strictObject({ celsius: z.number(), minutes: z.number() }),
  source: z.string(),
  /** Reckoned along the likeliest core or along the slowest; the one that kills less. */
  along: z.enum(['likely', 'slow']),
});

const cause = z.strictObject({
  /** By what share, or at the start by how many K. */
  by: z.number(),
  /** Minutes by which this alone makes it later and sooner; null: it may never get there. */
  later: z.number().nullable(),
  sooner: z.number(),
});

const answer = z.strictObject({
  /** Of the air. */
  celsius: z.number(),
  /** On the heat, after any sear. A high end of null: at the slow end it may never get there. */
  minutes: z.strictObject({ low: z.number(), likely: z.number(), high: z.number().nullable() }),
  pull: z.number(),
  /** From the pull to the peak, K. */
  rise: z.number(),
  peak: z.number(),
  /** Minutes from the pull to the peak. */
  peakAfter: z.number(),
  /** Minutes of rest, and what there is at its end; `rising`: the core would go on to rise. */
  rest: z.number().int(),
  atEnd: z.strictObject({ core: z.number(), surface: z.number(), rising: z.boolean() }),
  /** By what it meets the published figure: the goal itself, its peak, or the published times; null: by nothing, or there is none. */
  meets: z.enum(['goal', 'peak', 'times']).nullable(),
  /** Null where no times are published for the food. */
  lethality: lethality.nullable(),
  /** Minute at which each part begins, and the end. */
  parts: z.array(
    z.strictObject({ part: z.enum(['sear', 'heat', 'moving', 'rest']), from: z.number(), to: z.number() }),
  ),
  course,
});

export const estimate = z.strictObject({
  format: z.literal('hearthtable-estimate/1'),
  /** As it was asked for, and the record of the model that it is reckoned as. */
  food: z.strictObject({ asked: z.string(), reckonedAs: z.string() }),
  piece: z.strictObject({
    shape: z.enum(['cylinder', 'sphere', 'slab', 'brick']),
    thickness: size,
    width: size,
    length: size,
    weight: size,
    from: z.number(),
    bone: z.boolean(),
    crust: z.number(),
  }),
  heat: z.strictObject({
    inside: z.enum(['oven', 'grill']),
    moving: z.enum(['still', 'fan']),
    on: z.enum(['rack', 'pan', 'grate']),
    /** It is wrapped. */
    foil: z.boolean(),
  }),
  sear: z.strictObject({ minutes: z.number(), celsius: z.number(), on: z.enum(['grate', 'pan']) }).nullable(),
  room: z.number(),
  goal: z.strictObject({ kind: z.enum(['target', 'pull']), celsius: z.number() }),
  accept: z.array(z.string()),
  /** By rising °C of the air, those at which the core gets there. */
  answers: z.array(answer),
  /** °C of the air at which it never does, and the lowest at which it would; null: none that we know. */
  never: z.strictObject({ celsius: z.array(z.number()), would: z.number().nullable() }).nullable(),
  /** From what the range of the minutes comes, at the first answer; null without one. */
  spread: z.strictObject({ size: cause, transfer: cause, start: cause }).nullable(),
  /** The published figure for the food; null where none is known. */
  published: z
    .strictObject({
      food: z.string(),
      celsius: z.number(),
      fahrenheit: z.number(),
      /** Minutes of rest that belong to it. */
      rest: z.number(),
      or: z.string().nullable(),
      source: z.string(),
    })
    .nullable(),
  /** Most serious first. */
  cautions: z.array(z.strictObject({ rule: z.string(), source: z.string(), say: z.string() })),
});

export type Estimate = z.infer<typeof estimate>;
export type EstimateAnswer = Estimate['answers'][number];
