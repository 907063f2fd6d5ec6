/** One line on stderr while the work takes longer than a moment. */
import type { Stage } from '../solving/work.js';
import { USUAL_WIDTH } from './capability.js';

interface Watched {
  readonly columns?: number;
  write(text: string): unknown;
}

/** Milliseconds before anything is said, and between two updates. */
const PATIENCE = 1000;
const PACE = 250;

/** More points than any plan costs: not everything has a place yet. */
const NO_PLAN = 1e6;

export interface Progress {
  readonly onStage: (stage: Stage) => void;
  /** Tells how far it is, if it is time to; false always. */
  readonly onTick: () => boolean;
  /** Somebody asked to stop. */
  readonly stop: () => void;
  /** Takes the line away. */
  readonly clear: () => void;
}

export function progressOn(stream: Watched, watched: boolean, now: () => number = Date.now): Progress {
  const began = now();
  let told = began + PATIENCE - PACE;
  let shown = false;
  let stopping = false;
  let stage: Stage | null = null;
  const tell = (): void => {
    const time = now();
    if (!watched || time - told < PACE) return;
    told = time;
    shown = true;
    const line = stopping
      ? 'Stopping; Ctrl-C again leaves at once'
      : stageWords(stage, Math.round((time - began) / 1000));
    // A line that wraps could not be taken away again.
    stream.write(`\r\u001b[K${line.slice(0, (stream.columns ?? USUAL_WIDTH) - 1)}`);
  };
  return {
    onStage: (next) => {
      stage = next;
      tell();
    },
    onTick: () => {
      tell();
      return false;
    },
    stop: () => {
      stopping = true;
      told = Number.NEGATIVE_INFINITY;
      tell();
    },
    clear: () => {
      if (shown) stream.write('\r\u001b[K');
    },
  };
}

/** Well within 80 columns; what matters most comes first. */
function stageWords(stage: Stage | null, seconds: number): string {
  if (stage === null || (stage.kind === 'plan' && stage.points >= NO_PLAN))
    return `Planning, ${seconds} s: no plan yet`;
  if (stage.kind === 'way')
    return `Looking for ways out, ${seconds} s: ${stage.done} of ${stage.of} tried; Ctrl-C ends it`;
  const { points, bound } = stage;
  const gap = Math.max(0, points - bound);
  return `Planning, ${seconds} s: ${points.toFixed(1)} points, at least ${bound.toFixed(1)} (gap ${gap.toFixed(1)}); Ctrl-C takes it`;
}
