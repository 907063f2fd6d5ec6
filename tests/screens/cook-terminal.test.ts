/** A whole short service in a real terminal, by way of tmux. */
import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { widthOf } from '../../src/chart/text.js';
import { reason, root, Terminal } from '../support/terminal.js';

if (reason) console.warn(`The cook's screen in a real terminal is not tested: ${reason}.`);

describe.skipIf(reason !== null)('a service at the cook’s screen', () => {
  let folder: string;
  let terminal: Terminal;

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'hearthtable-cook-'));
    copyFileSync(join(root, 'tests/screens/meals/two-dishes.yaml'), join(folder, 'supper.yaml'));
    terminal = new Terminal(80, 24);
  });
  afterEach(() => {
    terminal.close();
    rmSync(folder, { recursive: true });
  });

  const cook = async (at: string) => {
    await terminal.until((screen) => screen.trimEnd().endsWith('ready>'));
    terminal.type(`clear; node dist/cli/main.js cook ${folder}/supper.yaml --at ${at}`, 'Enter');
    return terminal.until((screen) => screen.includes(`7 Nov, ${at}`) && screen.includes('leave'));
  };
  const press = async (key: string, seen: string | RegExp) => {
    terminal.type(key);
    return terminal.until((screen) => new RegExp(seen).test(screen));
  };
  /** What no program can clean up after; the terminal is put right by hand. */
  const kill = async () => {
    const shell = terminal.ask('#{pane_pid}');
    const child = execFileSync('ps', ['-o', 'pid=', '--ppid', shell], { encoding: 'utf8' }).trim();
    process.kill(Number(child), 'SIGKILL');
    await terminal.until((screen) => screen.includes('ready>'));
    // The terminal is still raw: a line ends with a line feed.
    terminal.type('printf "\\033[?1049l\\033[?7h"; stty sane; clear', 'C-j');
  };

  it('goes on after each kill -9, from the first call to serving, in both sizes', async () => {
    const first = await cook('18:05');
    expect(first.trimEnd().split('\n')).toHaveLength(24);
    for (const line of first.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(80);
    expect(first).toMatch(/▸18:05 now +Big oven: heat to 180 °C/);
    await press('Space', 'Heeded: Big oven');
    await press('Space', 'Bread pudding/soak started');
    await kill();

    expect(await cook('18:11')).toMatch(/Under way[^\n]*\n.*Bread pudding\/soak/);
    await press('1', '1 min ago');
    await press('Space', '18:10 Baked squash/cut started');
    await kill();

    await cook('18:20');
    await press('Space', 'Baked squash/cut done; 18:20 Baked squash/bake started');
    await press('Space', 'Bread pudding/soak done; 18:20 Bread pudding/bake started');
    terminal.resize(120, 40);
    const large = await terminal.until((screen) => screen.trimEnd().split('\n').length === 40);
    for (const line of large.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(120);
    expect(large).toMatch(/Under way[^\n]*\n.*Baked squash\/bake\n.*Bread pudding\/bake/);
    await kill();

    await cook('19:00');
    await press('Space', 'Baked squash/bake done');
    await press('Space', 'Bread pudding/bake done');
    await press('Space', 'Heeded: Big oven: turn it off');
    await press('Space', 'Heeded: Serve meal');
    expect(terminal.screen()).toContain('Nothing is left to do.');
    expect(terminal.screen()).toContain('4 of 4 steps done');
    terminal.type('C-c');
    await terminal.until((screen) => screen.trimEnd().endsWith('ready>'));
    expect([terminal.ask('#{alternate_on}'), terminal.ask('#{cursor_flag}')]).toEqual(['0', '1']);
    const lines = readFileSync(join(folder, 'supper.rehearsal.jsonl'), 'utf8').trimEnd().split('\n');
    expect(lines.filter((line) => line.includes('"kind":"started"'))).toHaveLength(4);
  });
});
