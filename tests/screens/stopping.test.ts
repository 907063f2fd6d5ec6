/** Long searches in a real terminal: how far they are, and Ctrl-C. */
import { afterEach, describe, expect, it } from 'vitest';
import { widthOf } from '../../src/chart/text.js';
import { reason, Terminal } from '../support/terminal.js';

const MEAL = 'problems/wedding-supper.yaml';
if (reason) console.warn(`Tests in a real terminal are skipped: ${reason}.`);

describe.skipIf(reason !== null)('a search that takes long', () => {
  const opened: Terminal[] = [];
  const begin = async (columns: number, rows: number, options: string): Promise<Terminal> => {
    const terminal = new Terminal(columns, rows);
    opened.push(terminal);
    await terminal.until((screen) => screen.includes('ready>'));
    terminal.type(`clear; node dist/cli/main.js plan ${MEAL} --effort deep ${options}; echo ended with $?`, 'Enter');
    const seen = await terminal.until((screen) => /Planning, \d+ s: [\d.]+ points/.test(screen));
    const line = seen.split('\n').find((each) => each.startsWith('Planning'))!;
    expect(line).toMatch(/^Planning, \d+ s: [\d.]+ points, at least [\d.]+ \(gap [\d.]+\); Ctrl-C takes it$/);
    expect(widthOf(line)).toBeLessThan(columns);
    return terminal;
  };
  afterEach(() => {
    for (const each of opened.splice(0)) each.close();
  });

  it('gives the best plan so far at Ctrl-C, says so, and is left clean', async () => {
    const terminal = await begin(120, 40, '');
    terminal.type('C-c');
    const seen = await terminal.until((screen) => screen.includes('q leave'));
    expect(seen).toContain('stopped early');
    expect(seen).toMatch(/not (sooner|later)/);
    terminal.type('q');
    const after = await terminal.until((screen) => screen.includes('ended with 0'));
    expect(after).not.toMatch(/Planning|Stopping|──/);
  });

  it('ends at once at the second', async () => {
    const terminal = await begin(80, 24, '--text');
    terminal.type('C-c');
    // Two signals of one kind that wait together are one.
    await new Promise((resolve) => setTimeout(resolve, 60));
    terminal.type('C-c');
    const seen = await terminal.until((screen) => screen.includes('ended with'));
    expect(seen).toContain('ended with 130');
    expect(seen).not.toMatch(/Planning|Stopping|Wedding supper for sixty/);
  });
});
