/**
 * A rehearsal's clock for other processes. Who rehearses writes beside the journal what it shows and how fast it runs; the wall goes by that.
 * It stands still once nobody rehearses.
 */
import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import * as z from 'zod';
import type { Io } from '../io.js';
import { isAlive } from '../journal/lock.js';
import { type Clock, realClock } from './clock.js';

const toldShape = z.strictObject({
  pid: z.number().int().positive(),
  /** What the machine's clock said, and the rehearsed one with it; milliseconds since the epoch. */
  machine: z.number(),
  shown: z.number(),
  speed: z.number().positive(),
});
type Told = z.infer<typeof toldShape>;

/** Milliseconds between two looks at the file. */
const PACE = 250;

/** `supper.rehearsal.jsonl` has `supper.rehearsal.clock` beside it. */
const clockBeside = (journal: string): string => `${journal.replace(/\.jsonl$/, '')}.clock`;

/** Tells others, until what comes back is called. One who rehearses already keeps telling. */
export function tellClock(io: Io, journal: string, clock: Clock): () => void {
  const path = clockBeside(journal);
  if (told(path) !== null) return () => {};
  const own: Told = { pid: process.pid, machine: realClock(io).now(), shown: clock.now(), speed: clock.speed };
  const beside = `${path}.${process.pid}.new`;
  try {
    writeFileSync(beside, `${JSON.stringify(own)}\n`);
    renameSync(beside, path);
  } catch {
    // The journal says that its folder cannot be written; a rehearsal without a wall is none the worse.
    rmSync(beside, { force: true });
  }
  return () => {
    if (told(path)?.pid === process.pid) rmSync(path, { force: true });
  };
}

export interface FollowedClock extends Clock {
  /** Whether somebody rehearses just now. */
  readonly runs: () => boolean;
}

/** The clock of whoever rehearses with this journal; null where nobody does. */
export function followedClock(io: Io, journal: string): FollowedClock | null {
  const path = clockBeside(journal);
  const machine = realClock(io);
  let last = told(path);
  if (last === null) return null;
  let { speed, shown } = last;
  let looked = machine.now();
  const look = (): void => {
    const now = machine.now();
    if (last === null || now - looked >= PACE) {
      last = told(path);
      looked = now;
    }
    if (last === null) return;
    speed = last.speed;
    shown = last.shown + (now - last.machine) * speed;
  };
  return {
    now: () => {
      look();
      return shown;
    },
    get speed() {
      return speed;
    },
    runs: () => {
      look();
      return last !== null;
    },
  };
}

/** What stands there, if the process that wrote it is alive. */
function told(path: string): Told | null {
  try {
    const read = toldShape.safeParse(JSON.parse(readFileSync(path, 'utf8')));
    return read.success && isAlive(read.data.pid) ? read.data : null;
  } catch {
    return null;
  }
}
