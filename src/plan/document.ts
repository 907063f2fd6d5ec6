/**
 * The plan document: what `--json` prints and every view reads. Versioned and stable.
 * Times are ISO 8601 with offset, temperatures °C, lengths metres, durations minutes.
 */
import * as z from 'zod';
import { wayRow, whyDocument } from './why-document.js';

const time = z.iso.datetime({ offset: true });

/** Low corner of the bounding box, x left to right, y front to back, metres; `turned`: width and depth changed places. */
const spot = z.strictObject({ x: z.number(), y: z.number(), turned: z.boolean() });

/** With several pans these are lists with one entry for each pan. */
const each = <T extends z.ZodType>(one: T) => z.union([one, z.array(one)]).nullable();

const stepRow = z.strictObject({
  dish: z.string(),
  /** `hold` for a hold; no step of the file may have that name. */
  step: z.string(),
  work: z.string(),
  start: time,
  end: time,
  appliance: z.string().nullable(),
  mode: z.string().nullable(),
  /** A rack (`rack 1`), grate zones from left to right (`left + middle`), a burner's name, `board N`, or null. */
  place: each(z.string()),
  /** The heat run's temperature; null outside heat runs. */
  celsius: z.number().nullable(),
  /** For `until` and `target`: the minutes by temperature that were used (one number on a burner). */
  minutes: z.union([z.number(), z.record(z.string(), z.number())]).optional(),
  /** The core temperature at which it is pulled, where it is done to one. */
  pull: z.number().optional(),
  /**
   * Where the minutes come from the heat model: between which times its core may be there, and by how many minutes its dish lands late
   * if it is there last, though the rest and all that waits gives way.
   */
  window: z.strictObject({ from: time, to: time, late: z.number().int() }).optional(),
  pan: z.string().nullable(),
  spot: each(spot),
  /** Rack level, counted from 1 at the bottom. */
  level: each(z.number().int()),
  hands: z.array(z.strictObject({ cook: z.string(), start: time, end: time })),
});

const runRow = z.strictObject({
  appliance: z.string(),
  mode: z.string(),
  celsius: z.number(),
  start: time,
  end: time,
  /** The least minutes needed before `start`, from the run before or from room temperature. */
  changeover: z.number().int(),
});

const dishRow = z.strictObject({
  dish: z.string(),
  /** When its course lands; null for a component. */
  serve: time.nullable(),
  /** The last end of its steps (a hold left out). */
  ready: time,
  wait: z.number().int().nullable(),
  /** Its course's minutes of lateness. */
  late: z.number().int().nullable(),
  /** As the heat model predicts it in this plan, pulled at `pull`: its highest until it is cut or lands, when that is, and where it is then. */
  core: z
    .strictObject({
      pull: z.number(),
      peak: z.number().nullable(),
      peakAt: time.nullable(),
      atServe: z.number().nullable(),
    })
    .optional(),
});

const share = z.number().min(0).max(1);
const stepName = z.strictObject({ dish: z.string(), step: z.string() });

/** Of all evenings on which each step takes as long as it happens to, as shares; only where some step has a spread. */
const chances = z.strictObject({
  /** Evenings tried. */
  draws: z.number().int(),
  /** On which every course lands within 5 and within 10 minutes of its asked time. */
  within5: share,
  within10: share,
  /** On which nothing waits longer than its gap, its rest or what it keeps allows. */
  unspoilt: share,
  /** By how much `within5` would rise if the step always took its likely minutes; the worst first, three at most. */
  threats: z.array(stepName.extend({ by: share })),
  /** What waits too long after a step, and on which share of evenings; the worst first, three at most. */
  waits: z.array(stepName.extend({ share })),
});

/** What was done for an asked chance. */
const sure = z.strictObject({
  /** The share of days on which all was to land within 5 minutes of its time, and whether it does on as many. */
  asked: share,
  reached: z.boolean(),
  /** What the best that was found runs into, where it does not: it is late as planned, the day's start, or how long food may wait. */
  limit: z.enum(['late', 'start', 'waits']).optional(),
  /** Points more than the plan without cushions has. */
  cost: z.number(),
  /** Steps that may take longer than planned by more minutes than there, before anything lands later; the most first. */
  cushions: z.array(stepName.extend({ minutes: z.number().int(), more: z.number().int() })),
});

export const PART_NAMES = ['late', 'wait', 'over', 'gap', 'heat', 'runs', 'idle', 'rest', 'swap', 'day'] as const;
export type PartName = (typeof PART_NAMES)[number];

export const planDocument = z.strictObject({
  format: z.literal('hearthtable-plan/1'),
  problem: z.strictObject({ title: z.string(), digest: z.string() }),
  serve: time,
  zone: z.string(),
  /** best: proven; good: found by search; late: a course lands after its time; none: nothing fits. */
  status: z.enum(['best', 'good', 'late', 'none']),
  points: z.strictObject({
    total: z.number(),
    /** No plan can have fewer. */
    bound: z.number(),
    parts: z.strictObject(
      Object.fromEntries(PART_NAMES.map((name) => [name, z.number()])) as Record<PartName, z.ZodNumber>,
    ),
  }),
  steps: z.array(stepRow),
  runs: z.array(runRow),
  dishes: z.array(dishRow),
  calls: z.array(
    z.strictObject({ at: time, cook: z.string().nullable(), dish: z.string(), step: z.string(), say: z.string() }),
  ),
  cautions: z.array(
    z.strictObject({ rule: z.string(), source: z.string(), dish: z.string().nullable(), say: z.string() }),
  ),
  chances: chances.optional(),
  sure: sure.optional(),
  effort: z.strictObject({
    level: z.enum(['quick', 'normal', 'deep']),
    seed: z.number().int(),
    /** Plans tried. */
    rounds: z.number().int(),
    /** True where a wall-clock cap ended the search early. */
    stopped: z.boolean(),
  }),
  /** Where it was asked for. */
  why: whyDocument.optional(),
  /** What makes the plan late, or why there is none, in sentences. */
  because: z.array(z.string()).optional(),
  /** Changes that were planned, the best first; without a plan and for a late one always, else where they were asked for. */
  waysOut: z.array(wayRow).optional(),
});

export type PlanDocument = z.infer<typeof planDocument>;
export type StepRow = PlanDocument['steps'][number];
export type RunRow = PlanDocument['runs'][number];
export type DishRow = PlanDocument['dishes'][number];
export type CallRow = PlanDocument['calls'][number];
export type SpotRow = z.infer<typeof spot>;
