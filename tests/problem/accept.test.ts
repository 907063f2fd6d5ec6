/** `accept` of a dish, and where core temperatures stand. */
import { describe, expect, it } from 'vitest';
import { CAUTION_RULES } from '../../src/problem/caution-rules.js';
import { problemJsonSchema } from '../../src/problem/schema-json.js';
import { optionsWith } from './support/roots.js';
import { changed, messagesOf, read } from './support/small-supper.js';

const accepting = (words: string): string => changed(['    fades: fast', `    fades: fast\n    accept: ${words}`]);
const acceptOf = (words: string) => {
  const result = read(accepting(words));
  if (!result.ok) throw new Error(result.messages.map((message) => message.say).join('\n'));
  return result.problem.dishes[0]!.accept;
};
const complaints = (words: string): string[] =>
  messagesOf(accepting(words)).map(({ line, column, say, hint }) => `${line}:${column} ${say} | ${hint}`);

describe('accept', () => {
  it('is one caution, a list, or nothing', () => {
    expect(acceptOf('core-unsafe')).toEqual(['core-unsafe']);
    expect(acceptOf('[hold-low, core-unsafe, hold-low]')).toEqual(['core-unsafe', 'hold-low']);
    expect(acceptOf('[]')).toEqual([]);
    const result = read(changed());
    expect(result.ok && result.problem.dishes.every((dish) => dish.accept.length === 0)).toBe(true);
  });

  it('suggests the nearest caution, at its place', () => {
    expect(complaints('core-unsfae')).toEqual(['40:13 There is no caution `core-unsfae`. | core-unsafe']);
    expect(complaints('[core-unsafe, holdlow]')).toEqual(['40:27 There is no caution `holdlow`. | hold-low']);
    expect(complaints('everything')).toEqual([
      `40:13 There is no caution \`everything\`. | ${CAUTION_RULES.join(', ')}`,
    ]);
    expect(complaints('{ core: 60C }')[0]).toMatch(/^40:13 `accept` cannot be a map of keys and values\./);
  });

  it('is described in the JSON Schema with every caution', () => {
    const schema = problemJsonSchema() as {
      properties: { dishes: { items: { properties: { accept: { anyOf: object[]; description: string } } } } };
    };
    const { accept } = schema.properties.dishes.items.properties;
    expect(accept.anyOf).toEqual([
      { type: 'string', enum: [...CAUTION_RULES] },
      { type: 'array', items: { type: 'string', enum: [...CAUTION_RULES] } },
    ]);
    expect(accept.description).toMatch(/shown all the same/);
  });
});

describe('a core temperature', () => {
  const pair = `{ place: oven, until: { core: 50C }, minutes: { "150C": 60 min, "180C": 50 min } }`;

  it('is known in each way: its own, else the step’s, and none where `takes` replaces it', () => {
    const minutes = 'minutes: { "150C": 90 min, "180C": 70 min }';
    const [first, second] = optionsWith(
      `work: roast, until: { core: 71C }, ${minutes}, pan: half sheet, on: [{ place: oven, mode: fan }, ${pair}]`,
    );
    expect([first!.core, second!.core]).toEqual([71, 50]);
    const [third, fourth] = optionsWith(
      `work: roast, takes: 30 min, pan: half sheet, heat: 150-180C, on: [{ place: oven, mode: fan }, ${pair}]`,
    );
    expect([third!.core, fourth!.core]).toEqual([null, 50]);
  });

  it('stands where the file says it', () => {
    const result = read(changed());
    if (!result.ok) throw new Error('the small supper does not read');
    const { problem, spots } = result;
    expect(spots).toHaveLength(problem.steps.length);
    const roast = problem.steps.find((step) => step.core === 58)!.id;
    expect(spots[roast]).toMatchObject({ step: { line: 47 }, cores: [{ line: 49, column: 24 }] });
    expect(spots[0]!.cores).toEqual([null]);
  });
});
