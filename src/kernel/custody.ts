/**
 * Custody: a renewable taken at an activity's start stays with the job until a later activity that neither is transparent nor
 * goes on with the same renewable begins, or until the job has landed; then it is away for its tail.
 */
import { isSettled } from './model.js';
import type { State } from './state.js';

export interface Custody {
  readonly activity: number;
  readonly renewable: number;
  readonly amount: number;
  readonly from: number;
  readonly to: number;
}

/** One way in which a custody can end: at a moment of an activity or at the landing of a group. */
export type Release =
  | { readonly kind: 'start'; readonly activity: number /** The same units go on with it. */; readonly goesOn: boolean }
  | { readonly kind: 'end'; readonly activity: number }
  | { readonly kind: 'landing'; readonly group: number };

/**
 * What must all have come before the custody that placed activity `a` starts is over: at a branch the last one counts.
 * Activities that are not placed are passed by, so that a partial schedule is never held to more than a whole one.
 */
export function releasesOf(state: State, a: number): Release[] {
  const { model } = state;
  const { vessel } = state.modeOf(a);
  const out: Release[] = [{ kind: 'end', activity: a }];
  const walk = (from: number): void => {
    const activity = model.activities[from]!;
    if (activity.empties) {
      out.push({ kind: 'end', activity: from });
      return;
    }
    for (const b of activity.nexts) {
      if (state.start[b]! < 0) continue;
      const next = state.modeOf(b);
      if (next.transparent) {
        out.push({ kind: 'end', activity: b });
        walk(b);
      } else out.push({ kind: 'start', activity: b, goesOn: next.vessel === vessel });
    }
    const job = model.jobs[activity.job]!;
    if (job.group >= 0) {
      if (activity.sink) out.push({ kind: 'landing', group: job.group });
      return;
    }
    let users = activity.outs.filter((lag) => model.activities[lag.to]!.job !== activity.job).map((lag) => lag.to);
    if (users.length === 0 && activity.sink) users = [...job.users];
    for (const user of users) if (state.start[user]! >= 0) out.push({ kind: 'start', activity: user, goesOn: false });
  };
  walk(a);
  return out;
}

/** Minutes for which the units of `a` are away once all its releases have come: none where all of them go on. */
export function tailOf(state: State, a: number, releases: readonly Release[]): number {
  const { vessel, vessels } = state.modeOf(a);
  const goOn = releases.filter((r) => r.kind === 'start' && r.goesOn);
  const others = releases.filter((r) => r.kind !== 'end' && !(r.kind === 'start' && r.goesOn));
  const kept = goOn.reduce((sum, r) => sum + (r.kind === 'start' ? state.modeOf(r.activity).vessels : 0), 0);
  return goOn.length > 0 && others.length === 0 && kept >= vessels ? 0 : state.model.renewables[vessel]!.tail;
}

/** Whether something that is still to be placed may go on with what `a` has taken. */
function isOpen(state: State, a: number): boolean {
  const { empties, nexts } = state.model.activities[a]!;
  if (empties) return false;
  return nexts.some((b) => state.start[b]! < 0 || (state.modeOf(b).transparent && isOpen(state, b)));
}

/** The end of the custody that placed activity `a` starts, tail included. */
export function custodyEnd(state: State, a: number): number {
  const releases = releasesOf(state, a);
  let end = 0;
  for (const r of releases) {
    const at =
      r.kind === 'landing'
        ? state.landing(r.group)
        : r.kind === 'end'
          ? state.end(r.activity)
          : state.start[r.activity]!;
    if (at > end) end = at;
  }
  // Where the schedule is under way, what is settled waits for what is not.
  if (state.model.progress !== undefined && isOpen(state, a)) return end;
  return end + tailOf(state, a, releases);
}

/**
 * Free units of a renewable by minute, `free[t]` for [t, t + 1), with all that is placed. What settled activities have together is
 * there, whatever the capacity says.
 */
export function freeUnits(state: State, renewable: number, into: Int32Array): Int32Array {
  const { model } = state;
  const h = model.horizon + 1;
  into.fill(0, 0, h + 1);
  const taken = model.progress === undefined ? null : new Int32Array(h + 2);
  const capacity = model.renewables[renewable]!.capacity;
  for (const activity of model.activities) {
    const a = activity.id;
    if (state.start[a]! < 0) continue;
    const mode = state.modeOf(a);
    if (mode.bench === renewable) {
      take(into, 1, state.start[a]!, Math.min(h, state.end(a)));
      if (taken !== null && isSettled(model, a)) take(taken, 1, state.start[a]!, Math.min(h, state.end(a)));
    }
    if (mode.vessel === renewable) {
      const end = Math.min(h, custodyEnd(state, a));
      take(into, mode.vessels, state.start[a]!, end);
      if (taken !== null && isSettled(model, a)) take(taken, mode.vessels, state.start[a]!, end);
    }
  }
  let free = capacity;
  let settled = 0;
  for (let t = 0; t <= h; t++) {
    free += into[t]!;
    if (taken !== null) settled -= taken[t]!;
    into[t] = settled > capacity ? free + settled - capacity : free;
  }
  return into;
}

function take(line: Int32Array, amount: number, from: number, to: number): void {
  line[from]! -= amount;
  line[to]! += amount;
}
