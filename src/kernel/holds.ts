/** Whether a complete schedule keeps every rule of the model: lags, machines, surfaces, renewables, units, workers, horizon. */
import { blocksOf, transitionsHold } from './blocks.js';
import { stretchTimes } from './cost.js';
import { freeUnits } from './custody.js';
import type { Model } from './model.js';
import { standingOn } from './standing.js';
import type { State } from './state.js';

export function holds(state: State): boolean {
  const { model } = state;
  for (const { id } of model.activities) if (state.start[id]! < 0 || state.end(id) > model.horizon) return false;
  for (const lag of model.lags) {
    const gap = state.start[lag.to]! - state.end(lag.from);
    if (gap < lag.low || gap > lag.high) return false;
  }
  return (
    storesHold(state) && machinesHold(state) && custodiesHold(state, null) && unitsHold(state) && workersHold(state)
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
    (machine, m) => transitionsHold(machine, blocksOf(state, m)) && machine.fits(standingOn(state, m)),
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
  const spans: [number, number][][] = Array.from({ length: model.units }, () => []);
  for (const { id } of model.activities) {
    for (const unit of state.units[id]!) spans[unit]!.push([state.start[id]!, state.end(id)]);
  }
  return spans.every(apart);
}

function workersHold(state: State): boolean {
  const { model } = state;
  const spans: [number, number][][] = model.workers.map(() => []);
  for (const { id } of model.activities) {
    const hands = state.hands[id]!;
    const flat = stretchTimes(state, id);
    const { crew } = state.modeOf(id).attention;
    if (hands.length !== (flat.length / 2) * crew) return false;
    for (let k = 0; k < hands.length; k++) {
      const stretch = Math.floor(k / crew);
      spans[hands[k]!]!.push([flat[stretch * 2]!, flat[stretch * 2 + 1]!]);
    }
  }
  return spans.every(
    (list, w) =>
      apart(list) && list.every(([from, to]) => model.workers[w]!.stays.some((s) => s.from <= from && to <= s.to)),
  );
}

function apart(spans: [number, number][]): boolean {
  spans.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  return spans.every((span, i) => i === 0 || spans[i - 1]![1] <= span[0]);
}
