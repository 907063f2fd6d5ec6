/** The journal's file: entries are added at its end and nowhere else, and nothing counts before it is on the disk. */
import { closeSync, fstatSync, fsyncSync, ftruncateSync, openSync, readFileSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Entry } from '../../src/live/journal/entries.js';
import { lineOf, type ReadLines, readLines } from '../../src/live/journal/lines.js';
import { isRefusal, type Refusal } from '../../src/live/journal/names.js';
import { UsageError } from '../exit.js';
import { locked } from './lock.js';

/** `supper.yaml` has `supper.journal.jsonl` beside it. */
export const journalBeside = (meal: string): string => `${withoutEnding(meal)}.journal.jsonl`;

/** `supper.yaml` is rehearsed in `supper.rehearsal.jsonl`. */
export const rehearsalBeside = (meal: string): string => `${withoutEnding(meal)}.rehearsal.jsonl`;

const withoutEnding = (meal: string): string => meal.replace(/\.(?:ya?ml|json)$/i, '');

/** Entries by their lines: a journal is read again for each entry that is added, and its plans are long. */
const known = new Map<string, Entry>();

/** What stands there now; empty where there is no file yet. */
export function readJournal(path: string): ReadLines {
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(path);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code !== 'ENOENT') throw new UsageError(`${path}: The journal cannot be read (${code ?? 'unknown'}).`);
    bytes = new Uint8Array();
  }
  return readLines(bytes, known);
}

/** Why a journal is only read, in words; null where it can be written. */
export function damageWords(path: string, { damage, entries }: ReadLines): string | null {
  if (damage.length === 0) return null;
  const lines = damage.slice(0, 5).map(({ line, say }) => `line ${line} ${say}`);
  const more = damage.length > 5 ? [`and ${damage.length - 5} more`] : [];
  return `${path}: the journal is damaged (${[...lines, ...more].join('; ')}). It is only read: ${entries.length} entries are whole.`;
}

/**
 * Adds entries, which `make` derives from all that stand there by then. What comes back is on the disk. A torn end, which was never
 * acknowledged, makes way. Throws a UsageError where the journal is damaged or cannot be written.
 */
export function appended(
  path: string,
  make: (entries: readonly Entry[]) => readonly Entry[] | Refusal,
): readonly Entry[] | Refusal {
  try {
    return locked(`${path}.lock`, () => write(path, make));
  } catch (error) {
    if (error instanceof UsageError) throw error;
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw new UsageError(`${path}: The journal cannot be written (${code}). Nothing was noted.`);
  }
}

function write(
  path: string,
  make: (entries: readonly Entry[]) => readonly Entry[] | Refusal,
): readonly Entry[] | Refusal {
  const read = readJournal(path);
  const damaged = damageWords(path, read);
  if (damaged !== null) throw new UsageError(damaged);
  const made = make(read.entries);
  if (isRefusal(made) || made.length === 0) return made;
  const text = `${read.open ? '\n' : ''}${made.map((entry) => `${lineOf(entry)}\n`).join('')}`;
  const file = openSync(path, 'a');
  try {
    const before = fstatSync(file).size;
    if (read.torn) ftruncateSync(file, read.whole);
    const bytes = Buffer.from(text);
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
    fsyncSync(file);
    if (before === 0) syncFolder(path);
  } finally {
    closeSync(file);
  }
  return made;
}

/** A new file's name stands in its folder, which has to be on the disk as well; not every system lets a folder be opened. */
function syncFolder(path: string): void {
  try {
    const folder = openSync(dirname(path), 'r');
    try {
      fsyncSync(folder);
    } finally {
      closeSync(folder);
    }
  } catch {
    // Then the system does it in its own time.
  }
}
