/** Whether a complete schedule keeps every rule of the model: lags, machines, surfaces, renewables, units, workers, horizon. */
import { blocksOf, sinceOf, transitionsHold } from './blocks.js';
import { stretchTimes } from './cost.js';
import { freeUnits } from './custody.js';
import type { Model } from './model.js';
import { isSettled } from './model.js';
import { standingOn } from './standing.js';
import type { State } from './state.js';

export function holds(state: State): boolean {
  const { model } = state;
  for (const { id } of model.activities) if (state.start[id]! < 0 || state.end(id) > model.horizon) return false;
  for (const lag of model.lags) {
    if (isSettled(model, lag.from) && isSettled(model, lag.to)) continue;
    const gap = state.start[lag.to]! - state.end(lag.from);
    if (gap < lag.low || gap > lag.high) return false;
  }
  return (
    windowsHold(state) &&
    storesHold(state) &&
    machinesHold(state) &&
    custodiesHold(state, null) &&
    unitsHold(state) &&
    workersHold(state)
  );
}

/** What is not settled begins when it may. */
function windowsHold(state: State): boolean {
  const { progress } = state.model;
  if (progress === undefined) return true;
  return progress.settled.every(
    (as, a) => as !== null || (state.start[a]! >= progress.earliest[a]! && state.start[a]! <= progress.latest[a]!),
  );
}

/** Stored jobs are so after their end and before their group lands. */
function storesHold(state: State): boolean {
  return state.model.jobs.every((job) => {
    if (state.store.mode[job.id]! < 0) return true;
    const start = state.store.start[job.id]!;
    const ready = Math.max(...job.activities.map((a) => state.end(a)));
    return start >= ready && start + state.store.minutes[job.id]! <= state.landing(job.group);
  });
}

function machinesHold(state: State): boolean {
  return state.model.machines.every(
    (machine, m) =>
      transitionsHold(machine, blocksOf(state, m), sinceOf(state, m)) && machine.fits(standingOn(state, m)),
  );
}

const scratch = new WeakMap<Model, Int32Array>();

/** No renewable (none of these, where given) is in use beyond its capacity at any minute. */
export function custodiesHold(state: State, only: ReadonlySet<number> | null): boolean {
  const { model } = state;
  let line = scratch.get(model);
  if (line === undefined) {
    line = new Int32Array(model.horizon + 2);
    scratch.set(model, line);
  }
  for (let r = 0; r < model.renewables.length; r++) {
    if (only !== null && !only.has(r)) continue;
    const free = freeUnits(state, r, line);
    for (let t = 0; t <= model.horizon; t++) if (free[t]! < 0) return false;
  }
  return true;
}

function unitsHold(state: State): boolean {
  const { model } = state;
  const spans: Span[][] = Array.from({ length: model.units }, () => []);
  for (const { id } of model.activities) {
    const settled = isSettled(model, id);
    for (const unit of state.units[id]!) spans[unit]!.push({ from: state.start[id]!, to: state.end(id), settled });
  }
  return spans.every(apart);
}

function workersHold(state: State): boolean {
  const { model } = state;
  const spans: Span[][] = model.workers.map(() => []);
  for (const { id } of model.activities) {
    const settled = isSettled(model, id);
    const hands = state.hands[id]!;
    const flat = stretchTimes(state, id);
    const { crew } = state.modeOf(id).attention;
    if (hands.length !== (flat.length / 2) * crew) return false;
    for (let k = 0; k < hands.length; k++) {
      const stretch = Math.floor(k / crew);
      spans[hands[k]!]!.push({ from: flat[stretch * 2]!, to: flat[stretch * 2 + 1]!, settled });
    }
  }
  return spans.every(
    (list, w) =>
      apart(list) &&
      list.every(
        ({ from, to, settled }) => settled || model.workers[w]!.stays.some((s) => s.from <= from && to <= s.to),
      ),
  );
}

interface Span {
  readonly from: number;
  readonly to: number;
  readonly settled: boolean;
}

/** Two that are both settled may clash: that has happened. */
function apart(spans: Span[]): boolean {
  spans.sort((a, b) => a.from - b.from || a.to - b.to);
  let busy = 0;
  let busySettled = 0;
  return spans.every(({ from, to, settled }) => {
    if (from < busy || (!settled && from < busySettled)) return false;
    if (settled) busySettled = Math.max(busySettled, to);
    else busy = to;
    return true;
  });
}
