/** A schedule as the pieces of food meet it: ways, temperatures and minutes, without places and hands. */
import type { State } from '../kernel/state.js';
import type { Compiled } from './compile.js';
import type { Held, Taken, Timed } from './cores.js';

export function timedBy({ problem, model }: Compiled, state: State): Timed {
  const taken = problem.steps.map(({ id, options }): Taken => {
    const option = options[state.mode[id]!]!;
    const celsius = option.place.kind === 'heated' ? option.settings[state.setting[id]!]! : null;
    return { option, celsius, start: state.start[id]!, end: state.end(id) };
  });
  const holds = new Map<number, Held>();
  for (const { id, storage } of model.jobs) {
    const { mode, setting, start, minutes } = state.store;
    if (mode[id]! < 0) continue;
    const { machine, settings } = storage!.modes[mode[id]!]!;
    const { level } = model.machines[machine]!.states[settings[setting[id]!]!.state]!;
    holds.set(id, { celsius: level, start: start[id]!, end: start[id]! + minutes[id]! });
  }
  const lands = model.jobs.map(({ id, group, activities }) => {
    if (group >= 0) return state.landing(group);
    const uses = model.lags.filter(
      ({ from, to }) => problem.steps[from]!.dish === id && problem.steps[to]!.dish !== id,
    );
    // What was given up on the way is used by nothing.
    if (uses.length === 0) return Math.max(...activities.map((a) => state.end(a)));
    return Math.min(...uses.map(({ to, low }) => state.start[to]! - low));
  });
  return { taken, holds, lands };
}
