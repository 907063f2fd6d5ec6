/** What stands on a machine's surface. */
import type { StandingLoad } from './model.js';
import type { State } from './state.js';

/** Loads on a machine, storages too. */
export function standingOn(state: State, machine: number): StandingLoad[] {
  const { model } = state;
  const kind = model.machines[machine]!;
  const out: StandingLoad[] = [];
  for (const a of state.onMachine[machine]!) {
    const mode = state.modeOf(a);
    if (mode.load < 0) continue;
    const { program } = kind.states[state.stateOf(a)]!;
    const spot = model.progress?.spots[a] ?? -1;
    const load = { program, load: mode.load, count: mode.loads, start: state.start[a]!, end: state.end(a) };
    out.push(spot < 0 ? load : { ...load, spot });
  }
  for (const job of model.jobs) {
    const m = state.store.mode[job.id]!;
    if (m < 0) continue;
    const mode = job.storage!.modes[m]!;
    if (mode.machine !== machine || mode.load < 0) continue;
    const { program } = kind.states[mode.settings[state.store.setting[job.id]!]!.state]!;
    const start = state.store.start[job.id]!;
    const spot = model.progress?.storeSpots[job.id] ?? -1;
    const load = { program, load: mode.load, count: mode.loads, start, end: start + state.store.minutes[job.id]! };
    out.push(spot < 0 ? load : { ...load, spot });
  }
  return out;
}

/** Those that are tied to `fresh` by a chain of overlaps in time, and itself, first. */
export function connected(standing: readonly StandingLoad[], fresh: StandingLoad): StandingLoad[] {
  const group = [fresh];
  const left = standing.slice();
  for (let i = 0; i < group.length; i++) {
    const one = group[i]!;
    for (let k = left.length - 1; k >= 0; k--) {
      const two = left[k]!;
      if (two.start < one.end && one.start < two.end) {
        group.push(two);
        left[k] = left[left.length - 1]!;
        left.pop();
      }
    }
  }
  return group;
}
