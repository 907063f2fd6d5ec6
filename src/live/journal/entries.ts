/**
 * The entries of a journal: what was said to have happened, one JSON object a line. Times are ISO 8601 with offset, temperatures °C;
 * steps are `Dish/step`, everything else has the problem file's own names.
 */
import * as z from 'zod';
import { planDocument } from '../../plan/document.js';

const time = z.iso.datetime({ offset: true });
const name = z.string().min(1).max(200);
const celsius = z.number().min(-50).max(1000);
const count = z.number().int().min(1).max(1000);

/** `seq` counts from 1; `at`: when it was written down; `when`: when it happened, `at` or earlier. */
const head = {
  v: z.literal(1),
  seq: z.number().int().min(1),
  at: time,
  when: time,
  who: name.nullable(),
};

/** Where it was really done, at what heat and by whom; what is absent is as planned. */
const manner = { place: name.optional(), celsius: celsius.optional(), cooks: z.array(name).min(1).optional() };

/** A part of the kitchen. */
const thing = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('appliance'), appliance: name }),
  z.strictObject({ kind: z.literal('burner'), appliance: name, burner: name }),
  z.strictObject({ kind: z.literal('pan'), pan: name, count }),
  z.strictObject({ kind: z.literal('board'), count }),
]);

const bodies = [
  /** The first of all: which meal it is about. */
  z.strictObject({ kind: z.literal('begin'), title: z.string(), digest: z.string().regex(/^[0-9a-f]{64}$/) }),
  /** A plan that was taken; `say`: what it changes, and why. */
  z.strictObject({ kind: z.literal('plan'), plan: planDocument, say: z.array(z.string()) }),
  z.strictObject({ kind: z.literal('started'), step: name, ...manner }),
  z.strictObject({ kind: z.literal('done'), step: name, ...manner }),
  z.strictObject({ kind: z.literal('reading'), step: name, celsius }),
  z.strictObject({ kind: z.literal('serve'), serve: time }),
  /** A dish for so many instead of so many. */
  z.strictObject({ kind: z.literal('guests'), dish: name, now: count, before: count }),
  z.strictObject({ kind: z.literal('lost'), what: thing }),
  z.strictObject({ kind: z.literal('found'), what: thing }),
  z.strictObject({ kind: z.literal('gone'), cook: name }),
  z.strictObject({ kind: z.literal('back'), cook: name }),
  z.strictObject({ kind: z.literal('dropped'), dish: name }),
  /** A dish as the problem file would have it, as text. */
  z.strictObject({ kind: z.literal('added'), dish: z.string().max(20_000) }),
  /** A call that leaves no other trace: a look, a dial that was turned. `call`: its key. */
  z.strictObject({ kind: z.literal('heeded'), call: z.string().min(1).max(500) }),
  z.strictObject({ kind: z.literal('note'), text: z.string().min(1).max(2000) }),
  /** Takes the entry of this number back. */
  z.strictObject({ kind: z.literal('undo'), of: z.number().int().min(1) }),
] as const;

/** What an entry says, before it is written. */
export const bodyShape = z.discriminatedUnion('kind', [...bodies]);
export type Body = z.infer<typeof bodyShape>;
export type BodyOf<K extends Body['kind']> = Extract<Body, { kind: K }>;
export type Thing = BodyOf<'lost'>['what'];

const headShape = z.strictObject(head);
export type Head = z.infer<typeof headShape>;
export type Entry = Head & Body;

/** An entry from anything, or null. */
export function entryFrom(value: unknown): Entry | null {
  if (typeof value !== 'object' || value === null) return null;
  const { v, seq, at, when, who, ...rest } = value as Record<string, unknown>;
  const first = headShape.safeParse({ v, seq, at, when, who });
  const body = bodyShape.safeParse(rest);
  return first.success && body.success ? { ...first.data, ...body.data } : null;
}
