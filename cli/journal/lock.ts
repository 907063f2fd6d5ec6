/**
 * One writer at a time: a file beside the journal that says who writes. It is held for one entry; that of a process which is no more is
 * taken away.
 */
import { randomUUID } from 'node:crypto';
import { closeSync, openSync, readFileSync, statSync, unlinkSync, writeSync } from 'node:fs';
import { hostname } from 'node:os';
import * as z from 'zod';
import { UsageError } from '../exit.js';

const holderShape = z.object({ pid: z.number().int().positive().nullable(), host: z.string(), token: z.string() });
type Holder = z.infer<typeof holderShape>;

/** Milliseconds to wait for another writer, and between two tries. */
const PATIENCE = 5000;
const PACE = 5;
/** Milliseconds after which a lock is surely written, if its process lives. */
const WRITTEN = 1000;

/** Does something while nobody else writes. Throws a UsageError where somebody else does for longer than a write can take. */
export function locked<T>(path: string, act: () => T, patience = PATIENCE): T {
  const own: Holder = { pid: process.pid, host: hostname(), token: randomUUID() };
  const until = Date.now() + patience;
  while (!taken(path, own)) {
    if (Date.now() > until) throw new UsageError(busy(path, holderOf(path)));
    pause(PACE);
  }
  try {
    return act();
  } finally {
    remove(path);
  }
}

/** Whether it is ours now. What a dead process left is taken away, for the next try. */
function taken(path: string, own: Holder): boolean {
  if (created(path, own)) return true;
  const other = holderOf(path);
  if (other !== null && isDead(other)) takeAway(path, other, own);
  return false;
}

function created(path: string, holder: Holder): boolean {
  let file: number;
  try {
    file = openSync(path, 'wx');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
  writeSync(file, JSON.stringify(holder));
  closeSync(file);
  return true;
}

/** Null where the lock has just gone, or is being written. One that was never written to its end has no process. */
function holderOf(path: string): Holder | null {
  try {
    const { ino, mtimeMs } = statSync(path);
    const read = holderShape.safeParse(parsed(readFileSync(path, 'utf8')));
    if (read.success) return read.data;
    return Date.now() - mtimeMs > WRITTEN ? { pid: null, host: hostname(), token: `${ino}-${mtimeMs}` } : null;
  } catch {
    return null;
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function isDead({ pid, host }: Holder): boolean {
  return host === hostname() && (pid === null || !isAlive(pid));
}

/** Of a process on this machine, whoever's it is. */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
}

/** Of all who find it stale, one may take it away: who holds the lock of its token. By then another may stand there, which stays. */
function takeAway(path: string, stale: Holder, own: Holder): void {
  const claim = `${path}.${stale.token}`;
  if (!taken(claim, own)) return;
  try {
    if (holderOf(path)?.token === stale.token) remove(path);
  } finally {
    remove(claim);
  }
}

function remove(path: string): void {
  try {
    unlinkSync(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
}

function busy(path: string, holder: Holder | null): string {
  const who = holder === null || holder.pid === null ? 'Somebody else' : `Process ${holder.pid} on ${holder.host}`;
  return `${who} has been writing the journal for some seconds.\nPerhaps: if that cannot be, remove ${path}`;
}

/** Blocks: a lock is held for milliseconds. */
function pause(milliseconds: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, milliseconds);
}
