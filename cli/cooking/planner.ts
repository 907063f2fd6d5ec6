/** New plans for what is left, worked out beside the screen: the latest question counts, whatever came before it. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { Answer, Asked, Question, Told } from './new-plan.js';

/** Beside the bundled command; where the sources run as they are, there is none. */
const THREAD = new URL('./planner-thread.js', import.meta.url);

export interface Planner {
  /** `answered` is called with the answer to the latest question only; `failed` where there is none, by a fault. */
  readonly ask: (question: Question) => void;
  readonly close: () => void;
}

export function plannerFor(answered: (answer: Answer) => void, failed: (fault: string) => void): Planner {
  let latest = 0;
  let busy = false;
  let waiting: Asked | null = null;
  const send = existsSync(fileURLToPath(THREAD)) ? inThread(hear) : inTurn(hear);
  function hear(told: Told): void {
    busy = false;
    if (waiting !== null) next(waiting);
    // What was asked before something else happened says nothing any more.
    if (told.number !== latest) return;
    if ('answer' in told) answered(told.answer);
    else failed(told.fault);
  }
  function next(asked: Asked): void {
    waiting = null;
    busy = true;
    send.post(asked);
  }
  return {
    ask: (question) => {
      latest += 1;
      const asked = { number: latest, question };
      if (busy) waiting = asked;
      else next(asked);
    },
    close: send.close,
  };
}

interface Post {
  readonly post: (asked: Asked) => void;
  readonly close: () => void;
}

function inThread(hear: (told: Told) => void): Post {
  let last = 0;
  const begin = (): Worker => {
    const worker = new Worker(THREAD);
    worker.on('message', hear);
    worker.on('error', (error) => {
      // A thread with a fault of its own is gone; the next question finds another.
      current = null;
      hear({ number: last, fault: error.message });
    });
    worker.unref();
    return worker;
  };
  let current: Worker | null = begin();
  return {
    post: (asked) => {
      last = asked.number;
      current ??= begin();
      current.postMessage(asked);
    },
    close: () => void current?.terminate(),
  };
}

function inTurn(hear: (told: Told) => void): Post {
  let open = true;
  return {
    post: async (asked) => {
      const { told } = await import('./new-plan.js');
      const answer = told(asked);
      if (open) hear(answer);
    },
    close: () => {
      open = false;
    },
  };
}
