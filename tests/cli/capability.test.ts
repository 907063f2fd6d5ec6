import { describe, expect, it } from 'vitest';
import { capabilityOf, type Surroundings, type Wishes } from '../../cli/terminal/capability.js';

const around = (env: Record<string, string>, tty = true): Surroundings => ({
  env,
  stdin: { isTTY: tty },
  stdout: { isTTY: tty, columns: 132, rows: 40 },
  stderr: { isTTY: tty },
});
const of = (env: Record<string, string>, wishes: Wishes = {}, tty = true) => capabilityOf(around(env, tty), wishes);

describe('colours', () => {
  it.each([
    ['a terminal of 256 colours', { TERM: 'xterm-256color' }, {}, true, 'many'],
    ['a terminal of 24 bits', { TERM: 'xterm-256color', COLORTERM: 'truecolor' }, {}, true, 'full'],
    ['any other terminal', { TERM: 'xterm' }, {}, true, 'sixteen'],
    ['no terminal', { TERM: 'xterm' }, {}, false, 'none'],
    ['a dumb terminal', { TERM: 'dumb' }, {}, true, 'none'],
    ['NO_COLOR', { TERM: 'xterm', NO_COLOR: '1' }, {}, true, 'none'],
    ['an empty NO_COLOR', { TERM: 'xterm', NO_COLOR: '' }, {}, true, 'sixteen'],
    ['FORCE_COLOR without a terminal', { FORCE_COLOR: '3' }, {}, false, 'full'],
    ['FORCE_COLOR=0', { TERM: 'xterm', FORCE_COLOR: '0' }, {}, true, 'none'],
    ['NO_COLOR before FORCE_COLOR', { NO_COLOR: '1', FORCE_COLOR: '1' }, {}, true, 'none'],
    ['the option before NO_COLOR', { NO_COLOR: '1', TERM: 'xterm' }, { color: 'always' }, false, 'sixteen'],
    ['the option against all', { FORCE_COLOR: '3' }, { color: 'never' }, true, 'none'],
  ] as const)('with %s', (_, env, wishes, tty, colors) => {
    expect(of(env, wishes, tty).colors).toBe(colors);
  });
});

describe('characters', () => {
  it('are 7-bit when asked, and where the locale is not for more', () => {
    expect(of({}).unicode).toBe(true);
    expect(of({ LANG: 'pt_PT.UTF-8' }).unicode).toBe(true);
    expect(of({ LANG: 'pt_PT.utf8' }).unicode).toBe(true);
    expect(of({ LANG: 'pt_PT.UTF-8', LC_ALL: 'C' }).unicode).toBe(false);
    expect(of({ LANG: 'pt_PT.UTF-8' }, { ascii: true }).unicode).toBe(false);
  });
});

describe('the screen', () => {
  it('needs a terminal on both sides that can be drawn on, and no wish for text', () => {
    expect(of({}).screen).toBe(true);
    expect(of({}, {}, false).screen).toBe(false);
    expect(of({}, { text: true }).screen).toBe(false);
    expect(of({ TERM: 'dumb' }).screen).toBe(false);
    expect(capabilityOf({ ...around({}), stdin: {} }, {}).screen).toBe(false);
  });
});

it('has the terminal’s columns, else 80, within bounds', () => {
  expect(of({}).width).toBe(132);
  expect(of({}, {}, false).width).toBe(80);
  expect(of({}, { width: 200 }).width).toBe(200);
});
