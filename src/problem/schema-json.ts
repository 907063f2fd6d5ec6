/** The JSON Schema of the problem file, for editors that complete and check it. */
import * as z from 'zod';
import { mealShape } from './schema.js';
import { QUANTITIES, type QuantityKind, quantityPattern } from './schema-parts.js';

/**
 * zod's own JSON Schema of the shape (draft 2020-12). Where the shape lets a bare number through, so that the reader can
 * say which unit it lacks, the schema asks for text with a unit. Meaning, such as names and what fits, is not in it.
 */
export function problemJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(mealShape, {
    io: 'input',
    override: ({ jsonSchema }) => {
      const kind = jsonSchema.quantity as QuantityKind | undefined;
      if (kind === undefined) return;
      delete jsonSchema.quantity;
      delete jsonSchema.anyOf;
      jsonSchema.type = 'string';
      jsonSchema.pattern = quantityPattern(kind);
      jsonSchema.examples = [...QUANTITIES[kind].examples];
    },
  }) as Record<string, unknown>;
}
