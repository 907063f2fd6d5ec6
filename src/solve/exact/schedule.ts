/** From the values of the program's variables to a schedule of the model. */

import type { Literal, Sum } from '../../constraint/program.js';
import type { ActivityMode, Model, StandingLoad } from '../../kernel/model.js';
import { State } from '../../kernel/state.js';
import type { Built, Cut } from './build.js';
import { stretchesAt, stretchKey } from './hands.js';
import type { Rooms } from './rooms.js';
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
  return { mode, setting: valueIn(values, doing.setting[mode]!) };
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

/** Overlaps for which a machine has no spots; `proven`: there are none, and not only none were found. */
export interface Misfit {
  readonly cut: Cut;
  readonly proven: boolean;
}

/** The first machine whose loads cannot keep spots for their whole time; null where all is well. */
export function misfit(model: Model, state: State, rooms: Rooms): Misfit | null {
  for (const m of model.machines.keys()) {
    const standing = standingOn(model, state, m);
    const verdict = rooms.judge(m, standing);
    if (verdict === 'fits') continue;
    // The fewest of which the same is true: leave out one after the other.
    let left = standing;
    for (const one of standing) {
      const fewer = left.filter((other) => other !== one);
      if (rooms.judge(m, fewer) === verdict) left = fewer;
    }
    const pairs = left.flatMap((a, i) =>
      left.slice(0, i).flatMap((b) => (a.start < b.end && b.start < a.end ? [[a.id, b.id] as const] : [])),
    );
    if (pairs.length === 0) throw new Error('what does not fit in alone was let in');
    return { cut: { machine: m, things: left, pairs }, proven: verdict === 'clash' };
  }
  return null;
}

/** What stands on a machine, with the number that a cut has for it. */
function standingOn(model: Model, state: State, m: number): (StandingLoad & { readonly id: number })[] {
  const machine = model.machines[m]!;
  const found: (StandingLoad & { id: number })[] = [];
  const add = (id: number, mode: ActivityMode, setting: number, start: number, minutes: number): void => {
    if (mode.machine !== m || mode.load < 0) return;
    const { program } = machine.states[mode.settings[setting]!.state]!;
    found.push({ id, program, load: mode.load, count: mode.loads, start, end: start + minutes });
  };
  for (const { id } of model.activities) {
    add(id, state.modeOf(id), state.setting[id]!, state.start[id]!, state.minutes[id]!);
  }
  const { store } = state;
  for (const { id, storage } of model.jobs) {
    if (store.mode[id]! < 0) continue;
    const mode = storage!.modes[store.mode[id]!]!;
    add(model.activities.length + id, mode, store.setting[id]!, store.start[id]!, store.minutes[id]!);
  }
  return found;
}
