/** The built command in a real terminal, by way of tmux. */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { widthOf } from '../../src/chart/text.js';
import { reason, root, Terminal } from '../support/terminal.js';

const meal = 'tests/screens/meals/two-dishes.yaml';
if (reason) console.warn(`Tests in a real terminal are skipped: ${reason}.`);

const ALTERNATE = '#{alternate_on}';

const shown = (screen: string) => screen.includes('leave') && screen.includes('── ');

describe.skipIf(reason !== null)('in a real terminal', () => {
  let terminal: Terminal;
  const opened: Terminal[] = [];
  const open = async (columns: number, rows: number, options = '') => {
    terminal = new Terminal(columns, rows);
    opened.push(terminal);
    await terminal.until((screen) => screen.includes('ready>'));
    terminal.type(`node dist/cli/main.js plan ${meal} --effort quick ${options}`, 'Enter');
    return terminal.until(shown);
  };

  beforeAll(() => expect(existsSync(join(root, meal))).toBe(true));
  afterEach(() => {
    for (const each of opened.splice(0)) each.close();
  });
  afterAll(() => expect(opened).toHaveLength(0));

  for (const [columns, rows] of [
    [80, 24],
    [120, 40],
    [200, 50],
  ] as const) {
    it(`fills ${columns}x${rows} without wrapped rows, and q leaves it clean`, async () => {
      const screen = await open(columns, rows);
      const lines = screen.trimEnd().split('\n');
      expect(lines).toHaveLength(rows);
      for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(columns);
      expect(lines[0]).toMatch(/^ Two dishes and one oven .*serve 19:00$/);
      expect(lines.at(-1)).toMatch(/q leave$/);
      expect(lines.filter((line) => line.includes('oven'))).not.toHaveLength(0);
      terminal.type('q');
      const after = await terminal.until((seen) => seen.trimEnd().endsWith('ready>'));
      expect(after).not.toContain('── ');
      expect([terminal.ask(ALTERNATE), terminal.ask('#{cursor_flag}'), terminal.ask('#{wrap_flag}')]).toEqual([
        '0',
        '1',
        '1',
      ]);
    });
  }

  it('is left clean by Ctrl-C, with what stood there before and an echoing prompt', async () => {
    await open(80, 24);
    expect(terminal.ask(ALTERNATE)).toBe('1');
    terminal.type('C-c');
    const after = await terminal.until((seen) => seen.trimEnd().endsWith('ready>'));
    expect(after).toContain('node dist/cli/main.js plan');
    expect([terminal.ask(ALTERNATE), terminal.ask('#{cursor_flag}'), terminal.ask('#{wrap_flag}')]).toEqual([
      '0',
      '1',
      '1',
    ]);
    terminal.type('echo still $((40 + 2))', 'Enter');
    await terminal.until((seen) => seen.includes('still 42'));
  });

  it('is left clean when it is told to end', async () => {
    await open(80, 24);
    const shell = terminal.ask('#{pane_pid}');
    const child = execFileSync('ps', ['-o', 'pid=', '--ppid', shell], { encoding: 'utf8' }).trim();
    process.kill(Number(child), 'SIGTERM');
    await terminal.until((seen) => seen.trimEnd().endsWith('ready>'));
    expect([terminal.ask(ALTERNATE), terminal.ask('#{cursor_flag}'), terminal.ask('#{wrap_flag}')]).toEqual([
      '0',
      '1',
      '1',
    ]);
  });

  it('lays itself out anew when the window is made smaller and larger', async () => {
    await open(120, 40);
    terminal.type('d');
    await terminal.until((screen) => /^.B /m.test(screen));
    terminal.resize(80, 24);
    const small = await terminal.until((screen) => screen.trimEnd().split('\n').length === 24 && shown(screen));
    for (const line of small.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(80);
    terminal.resize(150, 45);
    const large = await terminal.until((screen) => screen.trimEnd().split('\n').length === 45 && shown(screen));
    expect(large.split('\n').filter((line) => line.includes('Two dishes and one oven'))).toHaveLength(1);
  });

  it('uses plain characters when asked', async () => {
    terminal = new Terminal(80, 24);
    opened.push(terminal);
    await terminal.until((screen) => screen.includes('ready>'));
    terminal.type(`node dist/cli/main.js plan ${meal} --effort quick --ascii`, 'Enter');
    const screen = await terminal.until((seen) => seen.includes('q leave'));
    expect(screen).toMatch(/^[\n\x20-\x7e]*$/);
    expect(screen).toContain('###');
  });
});
