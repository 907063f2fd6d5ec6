/** Pairs of activities that follow each other on a worker, a unit, a renewable or a machine, and could change places. */
import { stretchTimes } from '../kernel/cost.js';
import type { State } from '../kernel/state.js';
import type { Swap } from './timetable.js';

/** How many places ahead a partner is looked for. */
const AHEAD = 2;

/** Further apart than this many minutes a pair does not hold each other up. */
const NEAR = 10;

export function neighbours(state: State): Swap[] {
  const { model } = state;
  const lists = new Map<string, { a: number; from: number; to: number }[]>();
  const add = (key: string, a: number, from: number, to: number): void => {
    const list = lists.get(key);
    if (list === undefined) lists.set(key, [{ a, from, to }]);
    else list.push({ a, from, to });
  };
  for (const { id } of model.activities) {
    const mode = state.modeOf(id);
    const hands = state.hands[id]!;
    const flat = stretchTimes(state, id);
    const { crew } = mode.attention;
    for (let k = 0; k < hands.length; k++) {
      const stretch = Math.floor(k / crew);
      add(`worker ${hands[k]!}`, id, flat[stretch * 2]!, flat[stretch * 2 + 1]!);
    }
    for (const unit of state.units[id]!) add(`unit ${unit}`, id, state.start[id]!, state.end(id));
    if (mode.machine >= 0) add(`machine ${mode.machine}`, id, state.start[id]!, state.end(id));
    if (mode.vessel >= 0) add(`renewable ${mode.vessel}`, id, state.start[id]!, state.end(id));
  }
  const found = new Map<string, Swap>();
  for (const list of lists.values()) {
    list.sort((x, y) => x.from - y.from || x.to - y.to || x.a - y.a);
    for (let i = 0; i + 1 < list.length; i++) {
      for (const two of list.slice(i + 1, i + 1 + AHEAD)) {
        const one = list[i]!;
        if (one.a === two.a || two.from < one.to || two.from - one.to > NEAR) continue;
        if (model.activities[one.a]!.outs.some((lag) => lag.to === two.a)) continue;
        found.set(`${one.a} ${two.a}`, { before: one.a, after: two.a });
      }
    }
  }
  return [...found.values()];
}
