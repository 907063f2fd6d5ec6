import { describe, expect, it } from 'vitest';
import { type Message, Notes, showMessage } from '../../src/problem/message.js';
import { distance, nearest } from '../../src/problem/nearest.js';

const message = (line: number, column: number, hint?: string): Message => ({
  code: 'word',
  severity: 'error',
  file: 'supper.yaml',
  line,
  column,
  say: 'This is wrong.',
  ...(hint ? { hint } : {}),
});

describe('a message', () => {
  it('is shown with its place, its line, a caret below, and the hint', () => {
    expect(showMessage(message(2, 8, 'roast'), 'a: 1\nwork: raost\n')).toBe(
      ['supper.yaml:2:8: This is wrong.', '  2 | work: raost', '    |        ^', 'Perhaps: roast'].join('\n'),
    );
  });

  it('is shown without the text, without a hint, and beyond the end of the text', () => {
    expect(showMessage(message(2, 8))).toBe('supper.yaml:2:8: This is wrong.');
    expect(showMessage(message(9, 1), 'a: 1')).toBe('supper.yaml:9:1: This is wrong.');
    expect(showMessage({ ...message(1, 1), severity: 'warning' })).toBe('supper.yaml:1:1: warning: This is wrong.');
  });

  it('points rightly past tabs, wide signs and signs that are not shown', () => {
    const caretUnder = (line: string, column: number) => {
      const [, source, caret] = showMessage(message(1, column), line).split('\n');
      return [source!.slice(6), caret!.indexOf('^') - 6];
    };
    expect(caretUnder('\ta: x', 5)).toEqual(['  a: x', 5]);
    expect(caretUnder('a: 肉 x', 6)).toEqual(['a: 肉 x', 6]);
    expect(caretUnder('a: \u001b[31mx', 4)).toEqual(['a: ?[31mx', 3]);
    expect(caretUnder('abc\r\n', 4)).toEqual(['abc', 3]);
  });

  it('cuts a long line around the place', () => {
    const line = `${'x'.repeat(200)}HERE${'y'.repeat(200)}`;
    const [, source, caret] = showMessage(message(1, 201), line).split('\n');
    expect(source!.length).toBeLessThan(130);
    expect(source!.slice(caret!.indexOf('^')).startsWith('HERE')).toBe(true);
  });

  it('is kept once, in the order of files and places', () => {
    const notes = new Notes();
    const add = (file: string, line: number, column: number, say = 'x') =>
      notes.add('error', 'word', { file, line, column }, say);
    add('z.yaml', 3, 1);
    add('a.yaml', 1, 1);
    add('z.yaml', 1, 9);
    add('z.yaml', 1, 2);
    add('z.yaml', 1, 2);
    notes.add('warning', 'word', { file: 'z.yaml', line: 2, column: 1 }, 'bell\u0007', 'esc\u001b');
    expect(
      notes.sorted('z.yaml').map((one) => `${one.file}:${one.line}:${one.column} ${one.say}${one.hint ?? ''}`),
    ).toEqual(['z.yaml:1:2 x', 'z.yaml:1:9 x', 'z.yaml:2:1 bell?esc?', 'z.yaml:3:1 x', 'a.yaml:1:1 x']);
    expect(notes.errors).toBe(5);
  });
});

describe('the nearest spelling', () => {
  it.each([
    ['', '', 0],
    ['a', '', 1],
    ['roast', 'roast', 0],
    ['raost', 'roast', 1],
    ['rost', 'roast', 1],
    ['roasts', 'roast', 1],
    ['ca', 'abc', 3],
    ['kitten', 'sitting', 3],
  ])('%s is %s but for %i changes', (a, b, apart) => {
    expect(distance(a, b)).toBe(apart);
    expect(distance(b, a)).toBe(apart);
  });

  it('is found through case, spaces and hyphens, and not when it is far', () => {
    const words = ['half sheet', 'quarter sheet', 'skillet', 'pot'];
    expect(nearest('Half-Sheet', words)).toBe('half sheet');
    expect(nearest('hlaf sheet', words)).toBe('half sheet');
    expect(nearest('skilet', words)).toBe('skillet');
    expect(nearest('wok', words)).toBeNull();
    expect(nearest('', words)).toBeNull();
    expect(nearest('x'.repeat(1000), words)).toBeNull();
  });
});
