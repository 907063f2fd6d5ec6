/** What the shapes of a meal and of a kitchen are built from. */
import * as z from 'zod';

/** The kinds of quantities: right spellings, and words that do as well; both go into the JSON Schema. */
export const QUANTITIES = {
  temperature: { examples: ['165C', '330F'], words: [] },
  'temperature range': { examples: ['150-180C', '300-350F'], words: [] },
  heat: { examples: ['150-180C', '330F', 'high'], words: ['low', 'medium', 'high'] },
  rate: { examples: ['11C/min', '20F/min'], words: [] },
  dial: { examples: ['5C', '25F'], words: [] },
  duration: { examples: ['15 min', '1h 30m', '6 h'], words: [] },
  'duration range': { examples: ['20-30 min', '2h-12h', '15 min'], words: [] },
  hands: { examples: ['all', '3 min'], words: ['all', 'none'] },
  length: { examples: ['30 cm', '12 in'], words: [] },
  'length range': { examples: ['16-30 cm', '6-12 in'], words: [] },
  size: { examples: ['30 x 41 cm', '13 x 18 in'], words: [] },
  weight: { examples: ['2.8 kg', '7 lb'], words: [] },
} as const satisfies Record<string, { examples: readonly string[]; words: readonly string[] }>;
export type QuantityKind = keyof typeof QUANTITIES;

/** What a quantity looks like from afar: it begins with a number and ends with a unit, or it is one of the words. */
export const quantityPattern = (kind: QuantityKind): string =>
  `^(?:${[...QUANTITIES[kind].words, String.raw`\s*-?\.?\d.*[A-Za-z"″℃℉]\.?\s*`].join('|')})$`;

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
