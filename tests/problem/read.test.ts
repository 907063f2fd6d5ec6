import { createHash } from 'node:crypto';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { stepKey } from '../../src/problem/hours.js';
import { readProblem, readProblemFile } from '../../src/problem/read.js';
import { dishOf, messagesOf, problemOf, read, SMALL_SUPPER, stepOf } from './support/small-supper.js';

const file = (name: string) => fileURLToPath(new URL(`files/${name}`, import.meta.url));

describe('the example of the design', () => {
  const result = readProblemFile(file('orchard-supper.yaml'));

  it('is right, with a warning for each appliance that is named like a kind', () => {
    expect(result.ok).toBe(true);
    if (!result.ok) return;
    expect(result.warnings.map(({ code, line, column, say }) => [code, line, column, say])).toEqual([
      ['kind-name', 4, 16, 'The appliance is named like a kind: `place: grill` means this one alone, not any grill.'],
      ['kind-name', 16, 16, 'The appliance is named like a kind: `place: oven` means this one alone, not any oven.'],
    ]);
    expect(result.warnings[0]!.file).toBe(file('kitchens/patio-grill.yaml'));
    expect(result.texts.get(result.warnings[0]!.file)!.split('\n')[3]).toBe('  - appliance: grill');
  });

  it('comes out whole', () => {
    if (!result.ok) throw new Error('not read');
    const { problem } = result;
    expect(problem).toMatchObject({
      title: 'Orchard supper',
      zone: 'Europe/Lisbon',
      origin: Date.UTC(2026, 9, 3, 10, 0),
      serve: 450,
      courses: [
        { name: 'main', at: 0 },
        { name: 'sweet', at: 40 },
      ],
      cooks: [
        { name: 'Ines', can: null, from: null, to: null },
        { name: 'Tomas', can: ['prep', 'oven', 'board'], from: 900, to: null },
      ],
    });
    expect(problem.dishes.map((dish) => [dish.name, dish.served, dish.course, dish.keeps, dish.fades])).toEqual([
      ['Brined pork loin', true, 0, 10, 'fast'],
      ['Herb oil', false, null, Number.POSITIVE_INFINITY, 'steady'],
      ['Roast roots', true, 0, 25, 'steady'],
    ]);
    expect(problem.steps.map((step) => stepKey(problem, step.id))).toEqual([
      'Brined pork loin/brine',
      'Brined pork loin/dry',
      'Brined pork loin/sear',
      'Brined pork loin/roast',
      'Brined pork loin/rest',
      'Brined pork loin/carve',
      'Herb oil/warm',
      'Herb oil/strain',
      'Roast roots/cut',
      'Roast roots/roast',
      'Roast roots/dress',
    ]);
    expect(stepOf(problem, 'Roast roots/dress').after).toEqual([
      { step: 9, gap: { low: 0, high: 5 } },
      { step: 7, gap: { low: 0, high: 360 } },
    ]);
    expect(stepOf(problem, 'Brined pork loin/sear').options.map((option) => option.place)).toEqual([
      { kind: 'heated', appliance: 0, mode: 0 },
      { kind: 'burner', appliance: 2, burners: [0] },
    ]);
    expect(dishOf(problem, 'Roast roots').hold).toEqual({
      heat: { low: 60, high: 95 },
      keeps: 90,
      fades: 'slow',
      pan: null,
    });
    expect(dishOf(problem, 'Brined pork loin').piece).toEqual({
      food: 'pork',
      shape: 'cylinder',
      thickness: 0.1,
      width: null,
      length: 0.34,
      weight: 2.8,
      from: 4,
      bone: false,
      crust: 0,
    });
  });

  it('has the digest of its text', () => {
    expect(problemOf(SMALL_SUPPER).digest).toBe(createHash('sha256').update(SMALL_SUPPER).digest('hex'));
  });
});

describe('a problem', () => {
  it('is frozen through and through', () => {
    const seen: unknown[] = [problemOf(SMALL_SUPPER)];
    for (const thing of seen) {
      expect(Object.isFrozen(thing)).toBe(true);
      for (const part of Object.values(thing as object)) if (typeof part === 'object' && part !== null) seen.push(part);
    }
    expect(seen.length).toBeGreaterThan(150);
  });

  it('reads the same from JSON, with spaces or tabs, from bytes, with a mark at the beginning and with CRLF', () => {
    const { digest: _, ...plain } = problemOf(SMALL_SUPPER);
    const forms: (string | Uint8Array)[] = [
      JSON.stringify(parse(SMALL_SUPPER), null, 2),
      JSON.stringify(parse(SMALL_SUPPER), null, '\t'),
      JSON.stringify(parse(SMALL_SUPPER)),
      new TextEncoder().encode(SMALL_SUPPER),
      `\ufeff${SMALL_SUPPER}`,
      SMALL_SUPPER.replaceAll('\n', '\r\n'),
    ];
    for (const form of forms) {
      const result = read(form);
      if (!result.ok) throw new Error(result.messages[0]!.say);
      const { digest: __, ...other } = result.problem;
      expect(other).toEqual(plain);
    }
  });

  it('is the same every time', () => {
    expect(read(SMALL_SUPPER)).toEqual(read(SMALL_SUPPER));
  });

  it('takes anchors and aliases for what they stand for', () => {
    const aliased = SMALL_SUPPER.replace('pan: roasting pan\n', 'pan: &tin roasting pan\n').replace(
      'pan: half sheet\n',
      'pan: *tin\n',
    );
    expect(stepOf(problemOf(aliased), 'Roots/roast').options[0]!.pan).toBe(0);
  });

  it('may be served or started at other times than its file says', () => {
    const moved = read(SMALL_SUPPER, { serve: '19:15', start: '2026-10-03 11:00' });
    expect(moved.ok && moved.problem.serve).toBe(495);
    const nextDay = read(SMALL_SUPPER, { serve: '2026-10-04 18:30' });
    expect(nextDay.ok && nextDay.problem.serve).toBe(390 + 1440);
    const early = read(SMALL_SUPPER, { serve: '11:00' });
    expect(early.ok || early.messages.map((message) => message.say)).toEqual([
      'The start is not before the serving time, 2026-10-03 11:00.',
    ]);
    const odd = read(SMALL_SUPPER, { serve: 'soon' });
    expect(odd.ok || odd.messages.map((message) => message.say)).toEqual(['`soon` is not a date and a clock time.']);
  });
});

describe('a file that cannot be read', () => {
  it('is said in one message', () => {
    expect(readProblemFile(file('nowhere.yaml'))).toMatchObject({
      ok: false,
      messages: [{ file: file('nowhere.yaml'), line: 1, column: 1, say: 'There is no such file.' }],
    });
    const near = readProblemFile(file('orchard-suppe.yaml'));
    expect(near.ok || near.messages.map(({ hint }) => hint)).toEqual([file('orchard-supper.yaml')]);
    expect(readProblemFile(file('kitchens'))).toMatchObject({
      ok: false,
      messages: [{ say: 'The file cannot be read.' }],
    });
  });

  it('is a kitchen', () => {
    expect(readProblemFile(file('kitchens/patio-grill.yaml'))).toMatchObject({
      ok: false,
      messages: [{ line: 1, column: 1, say: 'This file is a kitchen, not a meal.' }],
    });
  });

  it('is not in UTF-8, and where', () => {
    const bytes = new TextEncoder().encode('format: hearthtable/1\ntitle: Caf? au lait\n');
    bytes[bytes.indexOf('?'.charCodeAt(0))] = 0xe9;
    expect(messagesOf(bytes)).toMatchObject([{ line: 2, column: 11, say: 'The file is not written in UTF-8 here.' }]);
    const wide = new Uint8Array([0xff, 0xfe, 0x66, 0x00]);
    expect(messagesOf(wide)).toMatchObject([
      { line: 1, column: 1, say: 'The file is written in UTF-16, not in UTF-8.' },
    ]);
  });

  it('is endless or bottomless', () => {
    expect(messagesOf('- a\n'.repeat(300_000))).toMatchObject([{ code: 'too-large', line: 1 }]);
    expect(messagesOf('['.repeat(100_000))).toMatchObject([{ code: 'too-deep', line: 1, column: 513 }]);
    expect(messagesOf(`title: ${'['.repeat(200)}${']'.repeat(200)}`)).toMatchObject([{ code: 'too-deep', line: 1 }]);
    expect(messagesOf(`${'- '.repeat(5000)}a`)).toMatchObject([{ line: 1 }]);
    const letters = [...'abcdefghi'];
    const bomb = letters.map(
      (name, index) =>
        `${name}: &${name} [${Array(9)
          .fill(index === 0 ? 'x' : `*${letters[index - 1]}`)
          .join(', ')}]`,
    );
    expect(messagesOf(bomb.join('\n'))).toMatchObject([{ code: 'too-large' }]);
    expect(messagesOf('dishes: &all [ { dish: A, steps: *all } ]')).toMatchObject([
      { code: 'alias', line: 1, column: 34, say: '`*all` stands inside of what it names, without end.' },
    ]);
  });
});

describe('the kitchen in a file of its own', () => {
  const meal = SMALL_SUPPER.replace(/kitchen:\n(?: .*\n)+/, 'kitchen: ./kitchens/mine.yaml\n');
  const kitchen = /kitchen:\n((?: .*\n)+)/.exec(SMALL_SUPPER)![1]!.replaceAll(/^ {2}/gm, '');

  it('is looked for from the folder of the meal, and reads as one inside', () => {
    const asked: string[] = [];
    const readFile = (path: string) => {
      asked.push(path);
      return kitchen;
    };
    const result = readProblem(meal, { name: 'meals/supper.yaml', readFile });
    expect(asked).toEqual(['meals/kitchens/mine.yaml']);
    expect(result.ok && result.problem.kitchen).toEqual(problemOf(SMALL_SUPPER).kitchen);
  });

  it('has its own name and places in messages, after those of the meal', () => {
    const readFile = () =>
      kitchen.replace('heats: 14C/min', 'heats: fast').replace('half sheet,', 'half sheet, handle: long,');
    const result = readProblem(meal.replace('fades: fast', 'fades: faast'), { name: 'supper.yaml', readFile });
    expect(
      result.ok || result.messages.map(({ file: where, line, column, say }) => [where, line, column, say]),
    ).toEqual([
      ['supper.yaml', 13, 12, '`fades` cannot be `faast`.'],
      ['kitchens/mine.yaml', 10, 12, '`fast` is not a change of temperature a minute.'],
      ['kitchens/mine.yaml', 26, 24, '`handle` is not a key of a pan.'],
    ]);
  });

  it('is missing, unreadable, or a meal', () => {
    const missing = readProblem(meal, {
      name: 'supper.yaml',
      readFile: () => {
        throw new Error('gone');
      },
    });
    expect(missing.ok || missing.messages).toMatchObject([
      { line: 6, column: 10, say: "The kitchen's file `kitchens/mine.yaml` cannot be read." },
    ]);
    expect(messagesOf(meal)).toMatchObject([
      { line: 6, column: 10, say: "The kitchen's file `kitchens/mine.yaml` cannot be read." },
    ]);
    const self = readProblem(meal, { name: 'supper.yaml', readFile: () => meal });
    expect(self.ok || self.messages).toMatchObject([
      { file: 'kitchens/mine.yaml', line: 1, say: 'This file is a meal, not a kitchen.' },
    ]);
    const empty = readProblem(meal, { name: 'supper.yaml', readFile: () => '' });
    expect(empty.ok || empty.messages).toMatchObject([
      { file: 'kitchens/mine.yaml', line: 1, column: 1, say: 'The file is empty.' },
    ]);
  });

  it('is named by its file where it has no name', () => {
    const nameless = readProblem(meal, { name: 'supper.yaml', readFile: () => kitchen.replace(/^kitchen: .*\n/, '') });
    expect(nameless.ok && nameless.problem.kitchen.name).toBe('mine');
  });
});
