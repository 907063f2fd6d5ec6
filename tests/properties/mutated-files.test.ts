/** Whatever happens to a file, the reader answers with a problem or with messages that have a place, and never throws. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { showMessage } from '../../src/problem/message.js';
import { readProblem } from '../../src/problem/read.js';
import { SMALL_SUPPER } from '../problem/support/small-supper.js';

const folder = new URL('../problem/files/', import.meta.url);
const kitchenText = readFileSync(new URL('kitchens/patio-grill.yaml', folder), 'utf8');
const GOOD = [SMALL_SUPPER, readFileSync(new URL('orchard-supper.yaml', folder), 'utf8')];

const TOKENS = [
  '\t', '\n', '  ', ':', '- ', '{', '}', '[', ']', '"', "'", '#', '&a ', '*a', '!x ', '|', '>', '%', '@', '`', '?', ',', '---\n',
  '__proto__: 1\n', 'null', '.nan', '-.inf', '1e400', '0', '-5', '325', '325F', '0 min', '99 d', '-3 min', '5-1 min', 'none',
  'hold', '/', '\u0000', '\u001b[31m', '\u202e', '\ufeff', '🍖', '\ud800', 'a'.repeat(300), 'dishes', 'after: [roast]', '<<: *a',
]; // biome-ignore format: a plain list of nasty words

const VALUES: unknown[] = [
  null, true, false, 0, -1, 1.5, Number.NaN, Number.POSITIVE_INFINITY, 1e300, '', ' ', 'x', 'none', 'hold', 'a/b', '325', '325F', '0 min',
  '5-1 min', '1 min', '999 d', '1 x 1 cm', 'free', 'oven', 'burner', 'board', [], {}, [[]], [null], [{}], { a: 1 }, { step: 'roast' },
  'roast', 'Pork loin/roast', ['roast', 'roast'], '2026-03-29 01:30', '18:30', 'x'.repeat(5000), { __proto__x: 1 },
]; // biome-ignore format: a plain list of odd values

const textChange = fc.oneof(
  fc.record({ kind: fc.constant('insert' as const), at: fc.nat(), token: fc.constantFrom(...TOKENS) }),
  fc.record({ kind: fc.constant('cut' as const), at: fc.nat(), length: fc.integer({ min: 1, max: 60 }) }),
  fc.record({ kind: fc.constant('end' as const), at: fc.nat() }),
  fc.record({ kind: fc.constant('lines' as const), at: fc.nat(), other: fc.nat() }),
  fc.record({ kind: fc.constant('repeat' as const), at: fc.nat() }),
  fc.record({ kind: fc.constant('word' as const), at: fc.nat(), token: fc.constantFrom(...TOKENS) }),
);
type TextChange = typeof textChange extends fc.Arbitrary<infer T> ? T : never;

function withText(text: string, change: TextChange): string {
  const at = change.at % (text.length + 1);
  const lines = text.split('\n');
  const line = change.at % lines.length;
  switch (change.kind) {
    case 'insert':
      return text.slice(0, at) + change.token + text.slice(at);
    case 'cut':
      return text.slice(0, at) + text.slice(at + change.length);
    case 'end':
      return text.slice(0, at);
    case 'lines': {
      const other = change.other % lines.length;
      [lines[line], lines[other]] = [lines[other]!, lines[line]!];
      return lines.join('\n');
    }
    case 'repeat':
      return [...lines.slice(0, line + 1), ...lines.slice(line)].join('\n');
    case 'word': {
      const words = [...text.matchAll(/[A-Za-z0-9.-]+/g)];
      const word = words[change.at % words.length];
      if (!word) return text;
      return text.slice(0, word.index) + change.token + text.slice(word.index + word[0].length);
    }
  }
}

const treeChange = fc.record({
  at: fc.nat(),
  kind: fc.constantFrom('drop' as const, 'replace' as const, 'rename' as const, 'twin' as const),
  value: fc.constantFrom(...VALUES),
  word: fc.constantFrom(
    'stp',
    'takes',
    'until',
    'on',
    'after',
    'keeps',
    '__proto__',
    'constructor',
    '',
    'dish',
    'hands',
    'best',
  ),
});
type TreeChange = typeof treeChange extends fc.Arbitrary<infer T> ? T : never;

/** Every place of a tree: who holds it, and under which key. */
function holders(tree: unknown, found: { holder: Record<string, unknown>; key: string }[] = []) {
  if (typeof tree === 'object' && tree !== null) {
    for (const key of Object.keys(tree)) {
      found.push({ holder: tree as Record<string, unknown>, key });
      holders((tree as Record<string, unknown>)[key], found);
    }
  }
  return found;
}

function changeTree(tree: unknown, { at, kind, value, word }: TreeChange): void {
  const all = holders(tree);
  if (all.length === 0) return;
  const { holder, key } = all[at % all.length]!;
  if (Array.isArray(holder)) {
    if (kind === 'drop') holder.splice(Number(key), 1);
    else if (kind === 'twin') holder.push(structuredClone(holder[Number(key)]));
    else holder[Number(key)] = structuredClone(value);
  } else if (kind === 'drop') delete holder[key];
  else if (kind === 'replace') holder[key] = structuredClone(value);
  else
    Object.defineProperty(holder, word, {
      value: structuredClone(kind === 'twin' ? holder[key] : value),
      enumerable: true,
      configurable: true,
      writable: true,
    });
}

function checkAnswer(text: string): void {
  const readFile = () => kitchenText;
  const result = readProblem(text, { name: 'supper.yaml', readFile });
  const messages = result.ok ? result.warnings : result.messages;
  if (!result.ok) expect(messages.some((message) => message.severity === 'error')).toBe(true);
  for (const message of messages) {
    if (result.ok) expect(message.severity).toBe('warning');
    const source = result.texts.get(message.file) ?? text;
    const lines = source.split('\n');
    expect(message.line).toBeGreaterThanOrEqual(1);
    expect(message.line).toBeLessThanOrEqual(lines.length);
    expect(message.column).toBeGreaterThanOrEqual(1);
    expect(message.column).toBeLessThanOrEqual(lines[message.line - 1]!.length + 1);
    expect(message.say).toMatch(/^\P{Cc}{5,}$/u);
    expect(message.say).not.toMatch(/undefined|NaN|\[object|Infinity/);
    expect(showMessage(message, source)).toContain(`${message.file}:${message.line}:${message.column}: `);
  }
  if (!result.ok) return;
  const { problem } = result;
  expect(problem.serve).toBeGreaterThan(0);
  for (const step of problem.steps) {
    expect(step.options.length).toBeGreaterThan(0);
    for (const { step: before, gap } of step.after) {
      expect(before).toBeLessThan(problem.steps.length);
      expect(gap.low).toBeLessThanOrEqual(gap.high);
    }
    for (const option of step.options) {
      expect(option.settings.length > 0).toBe(option.place.kind === 'heated');
      expect(option.pan === null || option.pan < problem.kitchen.pans.length).toBe(true);
    }
  }
}

describe('a file to which anything has happened', () => {
  it('is answered after changes of its text', () => {
    fc.assert(
      fc.property(fc.constantFrom(...GOOD), fc.array(textChange, { minLength: 1, maxLength: 4 }), (good, changes) => {
        checkAnswer(changes.reduce(withText, good));
      }),
      { seed: 20261003, numRuns: 200 },
    );
  });

  it('is answered after changes of its tree, as YAML and as JSON', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...GOOD),
        fc.array(treeChange, { minLength: 1, maxLength: 4 }),
        fc.boolean(),
        (good, changes, json) => {
          const tree: unknown = parse(good);
          for (const change of changes) changeTree(tree, change);
          checkAnswer(json ? JSON.stringify(tree, null, 1) : stringify(tree));
        },
      ),
      { seed: 20261004, numRuns: 200 },
    );
  });

  it('is answered after bytes that are no text', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), fc.nat(SMALL_SUPPER.length), (noise, at) => {
        const bytes = new TextEncoder().encode(SMALL_SUPPER);
        const mixed = new Uint8Array([...bytes.subarray(0, at), ...noise, ...bytes.subarray(at)]);
        const result = readProblem(mixed, { name: 'supper.yaml' });
        if (result.ok) expect(noise.length === 0 || result.problem.steps.length > 0).toBe(true);
        else for (const message of result.messages) expect(showMessage(message).length).toBeGreaterThan(10);
      }),
      { seed: 20261005, numRuns: 100 },
    );
  });
});
