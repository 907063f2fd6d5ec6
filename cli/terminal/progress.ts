/** One line on stderr while the search takes longer than a moment. */

interface Watched {
  write(text: string): unknown;
}

/** Milliseconds before anything is said, and between two updates. */
const PATIENCE = 1000;
const PACE = 250;

export interface Progress {
  readonly hooks: {
    readonly onProgress: (progress: { points: number; bound: number }) => void;
    readonly shouldStop: () => boolean;
  };
  /** Takes the line away. */
  readonly clear: () => void;
}

export function progressOn(stream: Watched, watched: boolean, now: () => number = Date.now): Progress {
  const began = now();
  let told = began + PATIENCE - PACE;
  let shown = false;
  let best = '';
  const tell = () => {
    const time = now();
    if (!watched || time - told < PACE) return;
    told = time;
    shown = true;
    stream.write(`\r\u001b[KPlanning, ${Math.round((time - began) / 1000)} s${best}`);
  };
  return {
    hooks: {
      onProgress: ({ points, bound }) => {
        best = `: ${points.toFixed(1)} points, no plan has fewer than ${bound.toFixed(1)}`;
        tell();
      },
      shouldStop: () => {
        tell();
        return false;
      },
    },
    clear: () => {
      if (shown) stream.write('\r\u001b[K');
    },
  };
}
