/** Kills a writer of journals at random moments and looks at what is left. */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { readJournal } from '../../cli/journal/journal-file.js';
import { Rng } from '../../src/kernel/rng.js';

export interface Killings {
  readonly kills: number;
  /** Entries that a writer had said to be written. */
  readonly acknowledged: number;
  /** Of those, the ones that were not there afterwards. */
  readonly lost: number;
  /** Journals that could not be written on. */
  readonly damaged: number;
  /** Kills that left a line half written. */
  readonly torn: number;
  /** Kills after which the lock of the dead writer was still there. */
  readonly locked: number;
}

/** Entries after which a new journal is begun: reading a long one would take most of the time. */
const LONG = 400;

export async function killings(kills: number, seed: number): Promise<Killings> {
  const folder = mkdtempSync(join(tmpdir(), 'hearthtable-'));
  const rng = new Rng(seed);
  const counts = { kills: 0, acknowledged: 0, lost: 0, damaged: 0, torn: 0, locked: 0 };
  try {
    const writer = join(folder, 'writer.mjs');
    buildSync({
      entryPoints: [new URL('./killed-writer.ts', import.meta.url).pathname],
      outfile: writer,
      bundle: true,
      platform: 'node',
      format: 'esm',
      banner: { js: "import { createRequire } from 'node:module';\nconst require = createRequire(import.meta.url);" },
    });
    let [book, before] = [0, 0];
    while (counts.kills < kills) {
      const path = join(folder, `${book}.jsonl`);
      const last = await killedWriter(writer, path, rng);
      counts.kills++;
      const { entries, damage, torn } = readJournal(path);
      const there = new Set(entries.map(({ seq }) => seq));
      for (let seq = before + 1; seq <= last; seq++) if (!there.has(seq)) counts.lost++;
      counts.acknowledged += Math.max(0, last - before);
      if (damage.length > 0) counts.damaged++;
      if (torn) counts.torn++;
      if (statSync(`${path}.lock`, { throwIfNoEntry: false }) !== undefined) counts.locked++;
      before = entries.length;
      if (before > LONG) [book, before] = [book + 1, 0];
    }
    return counts;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The last entry that it said before it was killed, some milliseconds after the first; 0 where it said none. */
async function killedWriter(writer: string, path: string, rng: Rng): Promise<number> {
  const child = spawn(process.execPath, [writer, path], { stdio: ['ignore', 'pipe', 'inherit'] });
  let told = '';
  child.stdout.on('data', (chunk: Buffer) => {
    if (told === '') setTimeout(() => child.kill('SIGKILL'), rng.real() * 12);
    told += chunk.toString();
  });
  await new Promise((resolve) => child.on('close', resolve));
  return Number(told.split('\n').at(-2) ?? 0);
}
