/**
 * Works a task out while somebody watches: in another thread, so that this one can tell how far it is and hear Ctrl-C. The first ends the
 * search with the best plan so far, the second ends everything at once.
 */
import { existsSync } from 'node:fs';
import { constants } from 'node:os';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { Io } from '../io.js';
import { type Progress, progressOn } from '../terminal/progress.js';
import type { Brief, Message } from './thread.js';
import { type Outcome, type Task, work } from './work.js';

/** Beside the bundled command; where the sources run as they are, there is none. */
const THREAD = new URL('./thread.js', import.meta.url);

/** Milliseconds between two looks at how far it is. */
const PACE = 250;

export async function workOut(io: Io, watched: boolean, task: Task): Promise<Outcome> {
  const progress = progressOn(io.stderr, watched);
  const people = [io.stdin, io.stdout, io.stderr].some(({ isTTY }) => isTTY === true);
  try {
    if (people && existsSync(fileURLToPath(THREAD))) return await inThread(task, progress);
    return await work(task, { onStage: progress.onStage, shouldStop: progress.onTick });
  } finally {
    progress.clear();
  }
}

async function inThread(task: Task, progress: Progress): Promise<Outcome> {
  const stop = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
  const interrupt = (): void => {
    if (Atomics.load(stop, 0) !== 0) {
      progress.clear();
      process.exit(128 + constants.signals.SIGINT);
    }
    Atomics.store(stop, 0, 1);
    progress.stop();
  };
  const ticking = setInterval(progress.onTick, PACE);
  process.on('SIGINT', interrupt);
  const workerData: Brief = { task, stop };
  const worker = new Worker(THREAD, { workerData });
  try {
    return await new Promise<Outcome>((resolve, reject) => {
      worker.on('message', (message: Message) => {
        if ('stage' in message) progress.onStage(message.stage);
        else resolve(message.outcome);
      });
      worker.on('error', reject);
      worker.on('exit', (code) => reject(new Error(`the search ended without a result (${code})`)));
    });
  } finally {
    clearInterval(ticking);
    process.off('SIGINT', interrupt);
    await worker.terminate();
  }
}
