/** What the shapes of a meal and of a kitchen are built from. */
import { z } from 'zod';

/** The kinds of quantities, with the pattern and examples that go into the JSON Schema. */
export const QUANTITIES = {
  temperature: { pattern: '^-?[\\d./ ]+ ?[°]?[CcFf]$', examples: ['165C', '330F'] },
  'temperature range': {
    pattern: '^-?[\\d./ ]+ ?[°]?[CcFf]?( ?(-|–|to) ?-?[\\d./ ]+ ?[°]?[CcFf])?$',
    examples: ['150-180C', '300-350F'],
  },
  rate: { pattern: '^[\\d./ ]+ ?[°]?[CcFf]/m(in)?$', examples: ['11C/min', '20F/min'] },
  dial: { pattern: '^[\\d.]+ ?[°]?[CcFf]$', examples: ['5C', '25F'] },
  duration: { pattern: '^[\\d./ ]+ ?[A-Za-z]', examples: ['15 min', '1h 30m', '6 h'] },
  'duration range': { pattern: '^[\\d./ ]+', examples: ['20-30 min', '2h-12h', '15 min'] },
  length: { pattern: '^[\\d./ ]+ ?(mm|cm|m|in|inch|inches|ft|")$', examples: ['30 cm', '12 in'] },
  'length range': { pattern: '^[\\d./ ]+', examples: ['16-30 cm', '6-12 in'] },
  size: { pattern: '^[\\d./ ]+.*[x×].*[\\d./ ]+.*$', examples: ['30 x 41 cm', '13 x 18 in'] },
  weight: { pattern: '^[\\d./ ]+ ?(kg|g|lb|lbs|oz)', examples: ['2.8 kg', '7 lb'] },
} as const;
export type QuantityKind = keyof typeof QUANTITIES;

/** A quantity as written. A bare number has the right shape: what it lacks is said by who reads the quantity. */
export const quantity = (kind: QuantityKind, description: string) =>
  z.union([z.string(), z.number()]).meta({ quantity: kind, description });

/** The keys of every shape, by the name under which unknown ones are reported. */
export const KEYS = new Map<string, readonly string[]>();

/** A map that has these keys and no others. `thing` is how a message calls it: `a dish`. */
export function shape<T extends z.ZodRawShape>(thing: string, keys: T, description: string) {
  KEYS.set(thing, Object.keys(keys));
  return z
    .strictObject(keys, { error: (issue) => (issue.code === 'unrecognized_keys' ? thing : undefined) })
    .meta({ description });
}

/** A name: a dish, a step, a pan. What it may hold is checked by who reads it. */
export const name = (description: string) => z.string().meta({ description });

/** `yes` and `no` are text in YAML 1.2; true and false do as well. */
export const yesNo = (description: string) => z.union([z.boolean(), z.enum(['yes', 'no'])]).meta({ description });

export const isYes = (value: boolean | 'yes' | 'no' | undefined): boolean => value === true || value === 'yes';

export const count = (least: number, most: number, description: string) =>
  z.int().min(least).max(most).meta({ description });

/** One thing or a list of them. */
export const oneOrMore = <T extends z.ZodType>(one: T, description: string) =>
  z.union([one, z.array(one)]).meta({ description });
