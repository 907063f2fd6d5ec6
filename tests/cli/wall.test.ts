/** `hearthtable wall` as a command: it begins a journal, serves until it is stopped, and says what it cannot do. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { type AddressInfo, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Io } from '../../cli/io.js';
import { run } from '../../cli/run.js';
import { SUPPER } from '../live/day-of.js';

const home = mkdtempSync(join(tmpdir(), 'wall-'));
const MEAL = join(home, 'supper.yaml');
beforeAll(() => writeFileSync(MEAL, SUPPER));
afterAll(() => rmSync(home, { recursive: true, force: true }));

/** Runs the command; once it says that it is up, does something, and then stops it. */
async function running(args: readonly string[], whileUp: (told: string) => Promise<void>) {
  const [out, err]: [string[], string[]] = [[], []];
  const io: Io = {
    env: {},
    stdin: { isTTY: false },
    stdout: { isTTY: false, columns: 80, rows: 24, write: (text) => out.push(text) },
    stderr: { isTTY: false, write: (text) => err.push(text) },
    now: () => Date.parse('2026-10-03T17:00:00+01:00'),
    stopped: () => whileUp(out.join('')),
  };
  const code = await run(['wall', MEAL, ...args], io);
  return { code, stdout: out.join(''), stderr: err.join('') };
}

const linksIn = (told: string) => told.match(/http:\S+/g) ?? [];

describe('wall', () => {
  it('begins the journal with a plan and serves it, with the same links every time', async () => {
    let links: string[] = [];
    const first = await running(['--port', '0', '--who', 'Ines'], async (told) => {
      links = linksIn(told);
      expect(links).toHaveLength(4);
      const page = await fetch(links[0]!);
      expect(await page.text()).toContain('Ines, may tick off everything');
      const mark = await fetch(`${links[0]}mark`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ item: 'call heat oven/roast', want: 'done' }),
      });
      expect(mark.status).toBe(200);
      expect((await fetch(links[0]!.replace('127.0.0.1', 'localhost'))).status).toBe(200);
    });
    expect(first.code).toBe(0);
    expect(first.stdout).toContain('17:00 Ines: heeded: heat oven/roast');
    expect(first.stdout).toContain('--open-to-network lets phones in');
    await expect(fetch(links[0]!)).rejects.toThrow();
    const journal = readFileSync(join(home, 'supper.journal.jsonl'), 'utf8').trim().split('\n');
    expect(journal).toHaveLength(3);
    expect(readdirSync(home).sort()).toEqual(['supper.journal.jsonl', 'supper.wall.key', 'supper.yaml']);
    const paths = (told: string) => linksIn(told).map((link) => new URL(link).pathname);
    const again = await running(['--port', '0'], async () => {});
    expect(paths(again.stdout)).toEqual(paths(first.stdout));
    const anew = await running(['--port', '0', '--new-links'], async () => {});
    expect(paths(anew.stdout).some((path) => paths(first.stdout).includes(path))).toBe(false);
  });

  it('says when its port is taken, and which others there are', async () => {
    const other = createServer();
    await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
    const { port } = other.address() as AddressInfo;
    const { code, stderr } = await running(['--port', String(port)], async () => {});
    other.close();
    expect(code).toBe(2);
    expect(stderr).toContain(`Something else listens on port ${port} already.\nPerhaps: --port `);
  });
});
