/**
 * Custody: a renewable taken at an activity's start stays with the job until a later activity that neither is transparent nor
 * goes on with the same renewable begins, or until the job has landed; then it is away for its tail.
 */
import type { State } from './state.js';

export interface Custody {
  readonly activity: number;
  readonly renewable: number;
  readonly amount: number;
  readonly from: number;
  readonly to: number;
}

/**
 * The end of the custody that placed activity `a` starts, tail included; activities that are not placed are taken to come
 * at once, so that a partial schedule is never held to more than a whole one.
 */
export function custodyEnd(state: State, a: number): number {
  const { model } = state;
  const activity = model.activities[a]!;
  const mode = state.modeOf(a);
  const tail = model.renewables[mode.vessel]!.tail;
  if (activity.empties) return state.end(a) + tail;
  let leaves = state.end(a);
  let goesOn = Number.POSITIVE_INFINITY;
  const walk = (from: number): void => {
    const nexts = model.activities[from]!.nexts;
    for (const b of nexts) {
      if (state.start[b]! < 0) continue;
      const next = state.modeOf(b);
      if (next.transparent) {
        leaves = Math.max(leaves, state.end(b));
        walk(b);
      } else if (next.vessel === mode.vessel) goesOn = Math.min(goesOn, state.start[b]!);
      else leaves = Math.max(leaves, state.start[b]!);
    }
    if (nexts.length > 0) return;
    const job = model.jobs[activity.job]!;
    if (job.group >= 0) leaves = Math.max(leaves, state.landing(job.group));
    else for (const user of job.users) if (state.start[user]! >= 0) leaves = Math.max(leaves, state.start[user]!);
  };
  walk(a);
  return goesOn < Number.POSITIVE_INFINITY ? goesOn : leaves + tail;
}

/** Free units of a renewable by minute, `free[t]` for [t, t + 1), with all that is placed. */
export function freeUnits(state: State, renewable: number, into: Int32Array): Int32Array {
  const { model } = state;
  const h = model.horizon + 1;
  into.fill(0, 0, h + 1);
  for (const activity of model.activities) {
    const a = activity.id;
    if (state.start[a]! < 0) continue;
    const mode = state.modeOf(a);
    if (mode.bench === renewable) {
      into[state.start[a]!]! -= 1;
      into[Math.min(h, state.end(a))]! += 1;
    }
    if (mode.vessel === renewable) {
      into[state.start[a]!]! -= mode.vessels;
      into[Math.min(h, custodyEnd(state, a))]! += mode.vessels;
    }
  }
  let free = model.renewables[renewable]!.capacity;
  for (let t = 0; t <= h; t++) {
    free += into[t]!;
    into[t] = free;
  }
  return into;
}
