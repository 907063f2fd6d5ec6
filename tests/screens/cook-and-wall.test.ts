/** A cook's screen in a real terminal and the wall beside it, as two processes at one journal. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { copyFileSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { WallDocument } from '../../src/wall/document.js';
import { reason, root, Terminal } from '../support/terminal.js';
import { newsFrom } from '../wall/a-wall.js';

if (reason) console.warn(`The wall beside the cook's screen is not tested: ${reason}.`);

describe.skipIf(reason !== null)('the wall beside a rehearsal at the cook’s screen', () => {
  let folder: string;
  let terminal: Terminal;
  let wall: ChildProcess | null = null;

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'hearthtable-both-'));
    copyFileSync(join(root, 'tests/screens/meals/two-dishes.yaml'), join(folder, 'supper.yaml'));
    terminal = new Terminal(80, 24);
  });
  afterEach(() => {
    terminal.close();
    wall?.kill('SIGKILL');
    rmSync(folder, { recursive: true });
  });

  /** Starts it; what it printed by the time it was up. */
  async function startWall(): Promise<string> {
    const args = ['dist/cli/main.js', 'wall', `${folder}/supper.yaml`, '--rehearsal', '--port', '0'];
    wall = spawn(process.execPath, args, { cwd: root, stdio: ['ignore', 'pipe', 'ignore'] });
    let told = '';
    for await (const text of wall.stdout!.setEncoding('utf8').iterator({ destroyOnReturn: false })) {
      told += text;
      if (told.includes('Ctrl+C')) break;
    }
    return told;
  }

  it('has its clock, its ticks and its end; what is tapped stands on the screen', async () => {
    await terminal.until((screen) => screen.trimEnd().endsWith('ready>'));
    terminal.type(`clear; node dist/cli/main.js cook ${folder}/supper.yaml --at 18:05`, 'Enter');
    await terminal.until((screen) => screen.includes('7 Nov, 18:05') && screen.includes('leave'));
    const link = /http:\S+/.exec(await startWall())![0];
    const stop = new AbortController();
    const news = newsFrom(`${link}events`, stop.signal);
    /** Minutes turn as well. */
    const heard = async (part: string, words: RegExp) => {
      for (let one = await news.next(); !words.test(one.value![part] ?? ''); ) one = await news.next();
    };
    await heard('top', /Rehearsal .*>18:0[5-7]<.*Saturday 7 November 2026; served at 19:00/);
    terminal.type('Space');
    await heard('all', /1 of 9 done/);

    const state = (await (await fetch(`${link}state`)).json()) as WallDocument;
    expect(state.items.filter(({ done }) => done).map(({ item }) => item)).toEqual(['call heat big oven/roast']);
    const item = 'call start Bread pudding/soak';
    expect(state.items.map((one) => one.item)).toContain(item);
    const mark = { method: 'POST', headers: { 'content-type': 'application/json' } };
    const body = JSON.stringify({ item, want: 'done' });
    expect((await fetch(`${link}mark`, { ...mark, body })).status).toBe(200);
    await terminal.until((screen) => /Under way[^\n]*\n.*Bread pudding\/soak/.test(screen));

    // A screen that is left ends the rehearsal: the wall stays, and takes nothing.
    terminal.type('C-c');
    await terminal.until((screen) => screen.trimEnd().endsWith('ready>'));
    await heard('trouble', /Nobody rehearses any more\./);
    expect((await fetch(`${link}mark`, { ...mark, body })).status).toBe(409);
    stop.abort();
    const ended = once(wall!, 'exit');
    wall!.kill('SIGINT');
    expect(await ended).toEqual([0, null]);
    expect(readdirSync(folder).sort()).toEqual(['supper.rehearsal.jsonl', 'supper.wall.key', 'supper.yaml']);
    const kinds = readFileSync(join(folder, 'supper.rehearsal.jsonl'), 'utf8').match(/"kind":"[a-z]+"/g);
    expect(kinds?.slice(-2)).toEqual(['"kind":"heeded"', '"kind":"started"']);
  });
});
