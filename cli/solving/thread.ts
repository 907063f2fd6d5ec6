/** The other side of `aside.ts`: works a task out in a thread of its own and hands back the outcome. */
import { parentPort, workerData } from 'node:worker_threads';
import { type Stage, type Task, work } from './work.js';

export interface Brief {
  readonly task: Task;
  /** One number, shared; anything but 0 asks to stop. */
  readonly stop: Int32Array;
}

export type Message = { readonly stage: Stage } | { readonly outcome: Awaited<ReturnType<typeof work>> };

const { task, stop } = workerData as Brief;
const send = (message: Message): void => parentPort!.postMessage(message);
const outcome = await work(task, {
  onStage: (stage) => send({ stage }),
  shouldStop: () => Atomics.load(stop, 0) !== 0,
});
send({ outcome });
