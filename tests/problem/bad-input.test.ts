/** A table of wrong files, each with every message it must draw. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { showMessage } from '../../src/problem/message.js';
import { changed, messagesOf, read, SMALL_SUPPER } from './support/small-supper.js';

interface Row {
  readonly what: string;
  readonly from: string;
  readonly to: string;
  readonly say: readonly string[];
}

const MARK = '▶';
const folder = new URL('files/bad/', import.meta.url);

describe.each(readdirSync(folder).sort())('%s', (name) => {
  const rows = parse(readFileSync(new URL(name, folder), 'utf8')) as Row[];

  it.each(rows)('$what', ({ from, to, say }) => {
    const marked = changed([from, to]);
    const text = marked.replace(MARK, '');
    const messages = messagesOf(text);
    const found = messages.map(({ line, column, severity, say: words, hint }) => {
      const kind = severity === 'warning' ? 'warning ' : '';
      return `${line}:${column} ${kind}${words}${hint ? ` | ${hint}` : ''}`;
    });
    expect(found).toEqual(say);
    if (marked !== text) {
      const before = marked.slice(0, marked.indexOf(MARK)).split('\n');
      expect(found.map((one) => one.split(' ')[0])).toContain(`${before.length}:${before.at(-1)!.length + 1}`);
    }
    expect(read(text).ok).toBe(messages.every((message) => message.severity === 'warning'));
  });
});

describe('many mistakes', () => {
  it('come in one go, in the order of their places', () => {
    const text = changed(
      ['serve: 2026-10-03 18:30', 'serve: 2026-10-03'],
      ['kind: oven', 'kind: ovn'],
      ['height: 9 cm', 'height: 9'],
      ['fades: fast', 'fads: fast'],
      ['takes: { low: 10 min', 'takes: { low: 10 mn'],
      ['gap: 0-15 min', 'gap: 15-0 min'],
      ['after: [roast, {', 'after: [roats, {'],
    );
    expect(messagesOf(text).map(({ line, column, say }) => `${line}:${column} ${say}`)).toEqual([
      '3:8 `2026-10-03` is not a date and a clock time.',
      '20:13 `kind` cannot be `ovn`.',
      '30:54 `9` needs a unit.',
      '39:5 `fads` is not a key of a dish.',
      '45:23 `10 mn` is not a duration.',
      '54:14 `15-0 min` runs backwards: the low end comes first.',
      '76:60 `Roots` has no step `roats`.',
    ]);
  });

  it('are not made up from one: what was refused is not missed elsewhere', () => {
    const one = (from: string, to: string) => messagesOf(changed([from, to])).map((message) => message.say);
    expect(one('- dish: Herb oil\n', '- dihs: Herb oil\n')).toEqual(['`dihs` is not a key of a dish.']);
    expect(one('- { pan: skillet, round: 26 cm, height: 5 cm }', '- { pan: skillet, round: 26 cm }')).toEqual([
      '`height` is missing here.',
    ]);
    expect(one('pan: half sheet\n', 'pann: half sheet\n')).toEqual(['`pann` is not a key of a step.']);
    expect(one('        takes: { "160C"', '        takse: { "160C"')).toEqual(['`takse` is not a key of a step.']);
    expect(one('courses: [{ course: main', 'courses: [{ curse: main')).toEqual(['`curse` is not a key of a course.']);
    expect(one('thickness: 10 cm', 'thickness: 10')).toEqual(['`10` needs a unit.']);
    expect(one('  appliances:\n', '  applainces:\n')).toEqual(['`applainces` is not a key of a kitchen.']);
  });

  it('of a kitchen do not hide those of the steps, unless the steps depend on them', () => {
    const two = (from: string, to: string) =>
      messagesOf(changed([from, to], ['heat: 160-210C', 'heat: 280-300C'])).map((message) => message.say);
    const outside = "The heat 280-300 °C lies outside of the table's columns, 160-210 °C.";
    expect(two('  boards: 2\n', '  boards: 2\n  colour: red\n')).toEqual([
      '`colour` is not a key of a kitchen.',
      outside,
    ]);
    expect(two('roast: { heat: 75-270C }, fan', 'roast: 5, fan')).toEqual([
      '`roast` should be a map of keys and values, but is the number 5.',
    ]);
    expect(
      two('modes: { roast: { heat: 75-270C }, fan: { heat: 75-250C } }', 'mods: { roast: { heat: 75-270C } }'),
    ).toEqual(['`mods` is not a key of an appliance.']);
  });

  it('leave the right parts of a file to be read', () => {
    expect(messagesOf(SMALL_SUPPER)).toEqual([]);
    expect(showMessage(messagesOf(changed(['fades: fast', 'fades: fsat']))[0]!)).toBe(
      'supper.yaml:39:12: `fades` cannot be `fsat`.\nPerhaps: fast',
    );
  });
});

describe('a file that is hardly one', () => {
  it.each([
    ['', '1:1 The file is empty.'],
    ['\n\n', '1:1 The file is empty.'],
    ['# nothing but a comment\n', '1:1 The file is empty.'],
    ['null', '1:1 The file is empty.'],
    ['- a\n- b\n', '1:1 The file is a list; it is a map of keys and values.'],
    ['just words', '1:1 The file is one piece of text; it is a map of keys and values.'],
    ['42', '1:1 The file is one piece of text; it is a map of keys and values.'],
    ['\u0000\u0001\u0002', '1:1 The file is one piece of text; it is a map of keys and values.'],
    ['{', '1:2 A bracket that was opened before is not closed here.'],
    ['{}', '1:1 `format` is missing here.'],
    ['a: &a [*a]', '1:8 `*a` stands inside of what it names, without end.'],
  ])('%j', (text, first) => {
    const { line, column, say } = messagesOf(text)[0]!;
    expect(`${line}:${column} ${say}`).toBe(first);
  });
});
