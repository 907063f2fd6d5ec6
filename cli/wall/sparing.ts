/** Lines about requests that were refused: few enough to be read, however many come. */

/** So many at once, and one more in so many milliseconds. */
const MOST = 20;
const EVERY = 3000;

/** Writes what it is given, at most so often; what was left out is counted. */
export function sparing(write: (line: string) => void, now: () => number): (line: string) => void {
  let [left, since, silent] = [MOST, now(), 0];
  return (line) => {
    const at = now();
    const more = Math.floor((at - since) / EVERY);
    if (more > 0) {
      left = Math.min(MOST, left + more);
      since += more * EVERY;
    }
    if (left === 0) {
      silent++;
      return;
    }
    left--;
    write(silent > 0 ? `${line} (and ${silent} more)` : line);
    silent = 0;
  };
}
