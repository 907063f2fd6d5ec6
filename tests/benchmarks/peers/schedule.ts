/** From the values of the program's variables to a schedule of the model. */

import type { Model } from '../../../src/kernel/model.js';
import { State } from '../../../src/kernel/state.js';
import type { Built, Cut } from './build.js';
import { stretchesAt, stretchKey } from './hands.js';
import type { Literal, Sum } from './program.js';
import type { Doing } from './times.js';

/** Values by variable. */
export type Values = readonly number[];

const isTrue = (values: Values, literal: Literal): boolean =>
  literal < 0 ? values[-1 - literal] === 0 : values[literal] === 1;

export function valueIn(values: Values, sum: Sum): number {
  let total = sum.constant;
  for (const [variable, factor] of sum.terms) total += factor * values[variable]!;
  return total;
}

function chosenWay(values: Values, doing: Doing): { mode: number; setting: number } {
  const mode = doing.inMode.findIndex((literal) => isTrue(values, literal));
  return { mode, setting: doing.inSetting[mode]!.findIndex((literal) => isTrue(values, literal)) };
}

export function scheduleOf(model: Model, built: Built, values: Values): State {
  const state = new State(model);
  for (const { id } of model.activities) {
    const doing = built.times.doing[id]!;
    const { mode, setting } = chosenWay(values, doing);
    const minutes = valueIn(values, doing.minutes);
    const own = doing.modes[mode]!;
    const hands = stretchesAt(own, minutes).flatMap((stretch) => {
      const who = built.crews[id]!.get(stretchKey(mode, stretch))!;
      return [...who].filter(([, literal]) => isTrue(values, literal)).map(([w]) => w);
    });
    const units = [...built.units[id]![mode]!].filter(([, literal]) => isTrue(values, literal)).map(([u]) => u);
    state.place(id, { start: valueIn(values, doing.start), minutes, mode, setting }, hands, units);
  }
  built.storages.forEach((doing, job) => {
    if (doing === null || !isTrue(values, doing.happens)) return;
    const { mode, setting } = chosenWay(values, doing);
    state.store.mode[job] = mode;
    state.store.setting[job] = setting;
    state.store.start[job] = valueIn(values, doing.start);
    state.store.minutes[job] = valueIn(values, doing.minutes);
  });
  return state;
}

/** Overlaps on one machine that its surface cannot keep spots for: a least set of pairs, or null where all is well. */
export function misfit(model: Model, state: State): Cut | null {
  for (const [m, machine] of model.machines.entries()) {
    const standing = model.activities
      .map((a) => a.id)
      .filter((a) => state.modeOf(a).machine === m && state.modeOf(a).load >= 0)
      .map((a) => {
        const mode = state.modeOf(a);
        const { program } = machine.states[state.stateOf(a)]!;
        return { id: a, program, load: mode.load, count: mode.loads, start: state.start[a]!, end: state.end(a) };
      });
    for (const job of model.jobs) {
      if (state.store.mode[job.id]! < 0) continue;
      const mode = job.storage!.modes[state.store.mode[job.id]!]!;
      if (mode.machine !== m || mode.load < 0) continue;
      const { program } = machine.states[mode.settings[state.store.setting[job.id]!]!.state]!;
      const start = state.store.start[job.id]!;
      const end = start + state.store.minutes[job.id]!;
      standing.push({ id: model.activities.length + job.id, program, load: mode.load, count: mode.loads, start, end });
    }
    if (machine.fits(standing)) continue;
    // The fewest that still do not fit: leave out one after the other.
    let left = standing;
    for (const one of standing) {
      const fewer = left.filter((other) => other !== one);
      if (!machine.fits(fewer)) left = fewer;
    }
    const pairs = left.flatMap((a, i) =>
      left.slice(0, i).flatMap((b) => (a.start < b.end && b.start < a.end ? [[a.id, b.id] as const] : [])),
    );
    if (pairs.length === 0) throw new Error('what does not fit in alone was let in');
    return pairs;
  }
  return null;
}
