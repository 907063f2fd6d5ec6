/** The other side of `planner.ts`: works out one new plan after the other in a thread of its own. */
import { parentPort } from 'node:worker_threads';
import { type Asked, told } from './new-plan.js';

parentPort!.on('message', (asked: Asked) => parentPort!.postMessage(told(asked)));
