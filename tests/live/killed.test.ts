/** Nothing that was acknowledged is lost when the writer is killed; 300 kills are in `npm run bench:journal`. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { appended, readJournal } from '../../cli/journal/journal-file.js';
import { locked } from '../../cli/journal/lock.js';
import type { Entry } from '../../src/live/journal/entries.js';
import { lineOf } from '../../src/live/journal/lines.js';
import { isRefusal } from '../../src/live/journal/names.js';
import { killings } from '../support/killing.js';

const folder = mkdtempSync(join(tmpdir(), 'hearthtable-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const at = '2026-10-03T17:00:00+01:00';
const note = (seq: number): Entry => ({ v: 1, seq, at, when: at, who: null, kind: 'note', text: `number ${seq}` });
const more = (path: string) => {
  const made = appended(path, (before) => [note((before.at(-1)?.seq ?? 0) + 1)]);
  return isRefusal(made) ? made : made.map(({ seq }) => seq);
};

describe('a journal whose writer is killed', () => {
  it('has lost nothing, and can be written on', { timeout: 120_000 }, async () => {
    const { kills, acknowledged, lost, damaged } = await killings(30, 1);
    expect({ kills, lost, damaged }).toEqual({ kills: 30, lost: 0, damaged: 0 });
    expect(acknowledged).toBeGreaterThan(30);
  });

  it('goes on after a torn end, which makes way', () => {
    const path = join(folder, 'torn.jsonl');
    writeFileSync(path, `${lineOf(note(1))}\n${lineOf(note(2)).slice(0, 40)}`);
    expect(readJournal(path).torn).toBe(true);
    expect(more(path)).toEqual([2]);
    expect(readJournal(path)).toMatchObject({ entries: [note(1), note(2)], torn: false, damage: [] });
  });

  it('goes on after an entry whose end of line is missing', () => {
    const path = join(folder, 'open.jsonl');
    writeFileSync(path, `${lineOf(note(1))}\n${lineOf(note(2))}`);
    expect(more(path)).toEqual([3]);
    expect(readJournal(path)).toMatchObject({ entries: [note(1), note(2), note(3)], damage: [] });
  });

  it('is only read where it is damaged in the middle', () => {
    const path = join(folder, 'damaged.jsonl');
    writeFileSync(path, `${lineOf(note(1))}\n${lineOf(note(2)).replace('number', 'nunber')}\n${lineOf(note(3))}\n`);
    expect(readJournal(path).entries).toEqual([note(1), note(3)]);
    expect(() => more(path)).toThrow(/damaged \(line 2 cannot be read\)\. It is only read: 2 entries are whole/);
  });

  it('takes away the lock of a process that is no more, and no other', () => {
    const path = join(folder, 'locked.jsonl');
    const lock = `${path}.lock`;
    // No process has this number: Linux ends at 4,194,304 and others before.
    writeFileSync(lock, JSON.stringify({ pid: 99_999_999, host: hostname(), token: 'a' }));
    expect(more(path)).toEqual([1]);
    writeFileSync(lock, JSON.stringify({ pid: process.pid, host: hostname(), token: 'b' }));
    expect(() => locked(lock, () => 0, 30)).toThrow(/has been writing the journal.*\nPerhaps: .*remove/);
    writeFileSync(lock, JSON.stringify({ pid: 1, host: 'another machine', token: 'c' }));
    expect(() => locked(lock, () => 0, 30)).toThrow(/another machine/);
  });
});
