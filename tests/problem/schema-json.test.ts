import { describe, expect, it } from 'vitest';
import { problemJsonSchema } from '../../src/problem/schema-json.js';
import { QUANTITIES, type QuantityKind, quantityPattern } from '../../src/problem/schema-parts.js';

type Schema = { [key: string]: unknown } & {
  properties?: Record<string, Schema>;
  items?: Schema;
  anyOf?: Schema[];
  required?: string[];
  pattern?: string;
  type?: string;
};

const schema = problemJsonSchema() as Schema;
const step = schema.properties!.dishes!.items!.properties!.steps!.items!;

describe('the JSON Schema', () => {
  it('is of draft 2020-12 and asks for what a meal needs', () => {
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(schema.required).toEqual(['format', 'title', 'serve', 'zone', 'kitchen', 'dishes']);
    expect(schema.additionalProperties).toBe(false);
    expect(step.required).toEqual(['step', 'work']);
  });

  it('describes every key', () => {
    const bare: string[] = [];
    const walk = (node: Schema, path: string): void => {
      for (const [key, part] of Object.entries(node.properties ?? {})) {
        if (!part.description && !part.anyOf?.some((one) => one.description) && !part.$ref) bare.push(`${path}/${key}`);
        walk(part, `${path}/${key}`);
      }
      for (const part of [node.items, ...(node.anyOf ?? []), node.additionalProperties as Schema]) {
        if (part && typeof part === 'object') walk(part, path);
      }
    };
    walk(schema, '');
    expect(bare).toEqual([]);
  });

  it('asks for text with a unit where a quantity is due', () => {
    expect(step.properties!.gap).toMatchObject({ type: 'string', examples: ['20-30 min', '2h-12h', '15 min'] });
    expect(JSON.stringify(schema)).not.toContain('"quantity"');
    const pattern = new RegExp(step.properties!.gap!.pattern!);
    expect(['20-30 min', '2h-12h', '15 min', '1h 30m', '.5 h'].every((text) => pattern.test(text))).toBe(true);
    expect(['20', '20-30', 'soon', ''].some((text) => pattern.test(text))).toBe(false);
  });

  it.each(Object.keys(QUANTITIES) as QuantityKind[])('lets the right spellings of %s through', (kind) => {
    const pattern = new RegExp(quantityPattern(kind));
    for (const example of [...QUANTITIES[kind].examples, ...QUANTITIES[kind].words]) expect(example).toMatch(pattern);
    expect('12').not.toMatch(pattern);
  });
});
