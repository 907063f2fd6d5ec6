/** From a schedule of the model to the values of a program's variables, as far as the schedule says them. */

import { type Literal, not, type Sum } from '../../constraint/program.js';
import type { State } from '../../kernel/state.js';
import type { Built } from './build.js';
import { stretchesAt, stretchKey } from './hands.js';
import type { Doing } from './times.js';

/** By variable; NaN where it says nothing. */
export function wishesOf(built: Built, state: State, variables: number): number[] {
  const wishes = new Array<number>(variables).fill(Number.NaN);
  const set = (literal: Literal, holds: boolean): void => {
    wishes[literal >= 0 ? literal : not(literal)] = holds === literal >= 0 ? 1 : 0;
  };
  const give = ({ terms, constant }: Sum, value: number): void => {
    if (terms.size !== 1) return;
    const [[variable, factor]] = [...terms] as [[number, number]];
    wishes[variable] = (value - constant) / factor;
  };
  const doing = (one: Doing, at: { start: number; minutes: number; mode: number; setting: number }): void => {
    give(one.start, at.start);
    give(one.minutes, at.minutes);
    give(one.end, at.start + at.minutes);
    one.inMode.forEach((literal, m) => void set(literal, m === at.mode));
    one.setting.forEach((index, m) => void give(index, m === at.mode ? at.setting : 0));
    set(one.happens, at.mode >= 0);
  };
  const { model } = state;
  for (const { id } of model.activities) {
    const one = built.times.doing[id]!;
    const mode = state.mode[id]!;
    doing(one, { start: state.start[id]!, minutes: state.minutes[id]!, mode, setting: state.setting[id]! });
    for (const who of built.crews[id]!.values()) for (const literal of who.values()) set(literal, false);
    const crew = one.modes[mode]!.attention.crew;
    stretchesAt(one.modes[mode]!, state.minutes[id]!).forEach((stretch, k) => {
      const who = built.crews[id]!.get(stretchKey(mode, stretch))!;
      for (const w of state.hands[id]!.slice(k * crew, (k + 1) * crew)) set(who.get(w)!, true);
    });
    built.units[id]!.forEach((use, m) => {
      for (const [unit, literal] of use) set(literal, m === mode && state.units[id]!.includes(unit));
    });
  }
  model.groups.forEach((_, g) => {
    wishes[built.times.landing[g]!] = state.landing(g);
  });
  built.storages.forEach((one, job) => {
    if (one === null) return;
    const { store } = state;
    doing(one, {
      start: store.start[job]!,
      minutes: store.minutes[job]!,
      mode: store.mode[job]!,
      setting: store.setting[job]!,
    });
  });
  return wishes;
}
