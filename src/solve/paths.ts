/** Splits each job's precedence graph into paths, longest first, so that each can be inserted by a dynamic programme. */
import type { Model } from '../kernel/model.js';
import { isSettled } from '../kernel/model.js';

/** For each job its paths, of all that is not settled; a path lists activities in time order, each tied to the next by a lag. */
export function pathsOf(model: Model): number[][][] {
  return model.jobs.map((job) => {
    const left = new Set(job.activities.filter((a) => !isSettled(model, a)));
    const paths: number[][] = [];
    while (left.size > 0) {
      const length = new Map<number, number>();
      const next = new Map<number, number>();
      const measure = (a: number): number => {
        const known = length.get(a);
        if (known !== undefined) return known;
        const activity = model.activities[a]!;
        let best = 0;
        for (const { to: b } of activity.outs) {
          if (!left.has(b)) continue;
          const after = measure(b);
          if (after > best) {
            best = after;
            next.set(a, b);
          }
        }
        const own = best + activity.shortest + 1;
        length.set(a, own);
        return own;
      };
      let head = -1;
      for (const a of left) if (head < 0 || measure(a) > measure(head)) head = a;
      const path: number[] = [];
      for (let a: number | undefined = head; a !== undefined; a = next.get(a)) path.push(a);
      for (const a of path) left.delete(a);
      paths.push(path);
    }
    return paths;
  });
}

/**
 * Earliest start of each activity over all minimum and maximum lags (Bellman and Ford); null where the lags alone contradict
 * each other or do not fit before the horizon.
 */
export function earliestStarts(model: Model): Int32Array | null {
  const n = model.activities.length;
  const est = new Int32Array(n);
  for (const activity of model.activities) {
    let ready = Number.POSITIVE_INFINITY;
    for (const mode of activity.modes) {
      if (mode.machine < 0) ready = 0;
      else {
        const machine = model.machines[mode.machine]!;
        const rows = machine.states.length;
        for (const s of mode.settings) ready = Math.min(ready, machine.transition[rows * (rows + 1) + s.state]!);
      }
    }
    const settled = model.progress?.settled[activity.id];
    if (settled) est[activity.id] = settled.start;
    else est[activity.id] = Math.max(ready, model.progress?.earliest[activity.id] ?? 0);
  }
  for (let round = 0; round <= n; round++) {
    let moved = false;
    for (const lag of model.lags) {
      const after = est[lag.from]! + model.activities[lag.from]!.shortest + lag.low;
      if (after > est[lag.to]! && !isSettled(model, lag.to)) {
        est[lag.to] = after;
        moved = true;
      }
      if (lag.high < Number.POSITIVE_INFINITY && !isSettled(model, lag.from)) {
        const before = est[lag.to]! - lag.high - model.activities[lag.from]!.longest;
        if (before > est[lag.from]!) {
          est[lag.from] = before;
          moved = true;
        }
      }
    }
    if (!moved) {
      for (const a of model.activities) if (est[a.id]! + a.shortest > model.horizon) return null;
      return est;
    }
  }
  return null;
}
