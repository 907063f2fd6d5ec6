/**
 * Schedules by order: with one way of doing each activity fixed, the earliest times at which nothing clashes, and then who and
 * which unit. Slower than insertion for large models, and surer for small ones, where insertion can stand in its own way.
 */
import { holds } from '../../kernel/holds.js';
import type { Activity, ActivityMode, Model } from '../../kernel/model.js';
import { stretchesOf } from '../../kernel/model.js';
import { State } from '../../kernel/state.js';
import type { Problem } from '../../problem/problem.js';
import { earliestStarts } from '../paths.js';
import type { Rng } from '../rng.js';
import { endOf, momentsOf, startOf } from './claim.js';
import { claimsOf } from './claims.js';
import { Network } from './network.js';
import { OrderSearch } from './order-search.js';
import { distancesOf } from './refute.js';

/** A mode and a setting for each activity. */
export type Choices = readonly { readonly mode: number; readonly setting: number }[];

export interface Settled {
  readonly state: State | null;
  /** Distances followed. */
  readonly work: number;
}

/** A schedule with these choices; null where none was found with this effort (in distances followed). */
export function settle(problem: Problem, model: Model, choices: Choices, effort: number): Settled {
  const fixed: Model = { ...model, activities: model.activities.map((one) => withOneWay(one, choices[one.id]!)) };
  const network = new Network(momentsOf(fixed));
  const ready = earliestStarts(fixed);
  if (ready === null || !network.add(distancesOf(fixed, ready))) return { state: null, work: network.work };
  const options = (a: number) => [problem.steps[a]!.options[choices[a]!.mode]!];
  const scene = { kitchen: problem.kitchen, options };
  const { pools, stays } = claimsOf(scene, fixed);
  let state: State | null = null;
  const accept = (): boolean => {
    state = stateAt(model, choices, network.earliest);
    return state !== null;
  };
  new OrderSearch(network, pools, stays, effort, accept).find();
  return { state, work: network.work };
}

function withOneWay(activity: Activity, { mode, setting }: { mode: number; setting: number }): Activity {
  const way = activity.modes[mode]!;
  const only = way.settings[setting]!;
  const { low, high } = way.range ?? { low: only.minutes, high: only.minutes };
  return { ...activity, modes: [{ ...way, settings: [only] }], shortest: low, longest: high };
}

/**
 * Choices by chance, so that activities on one machine tend to agree: each machine and program gets a temperature that one of
 * its activities may have, and each activity takes the setting nearest to it. `plain`: the first mode and the cheapest setting of each.
 */
export function choicesFor(model: Model, rng: Rng, plain: boolean): Choices {
  const wanted = new Map<string, number>();
  const levelOf = (mode: ActivityMode, setting: number): number =>
    model.machines[mode.machine]!.states[mode.settings[setting]!.state]!.level;
  const programOf = (mode: ActivityMode): string =>
    `${mode.machine} ${model.machines[mode.machine]!.states[mode.settings[0]!.state]!.program}`;
  const order = rng.shuffle([...model.activities.keys()]);
  const modes = model.activities.map((activity) => (plain ? 0 : rng.below(activity.modes.length)));
  for (const a of order) {
    const mode = model.activities[a]!.modes[modes[a]!]!;
    if (mode.machine >= 0) wanted.set(programOf(mode), levelOf(mode, rng.below(mode.settings.length)));
  }
  return model.activities.map((activity, a) => {
    const mode = activity.modes[modes[a]!]!;
    if (mode.machine < 0) return { mode: modes[a]!, setting: 0 };
    const cost = (s: number): number =>
      plain ? mode.settings[s]!.cost : Math.abs(levelOf(mode, s) - wanted.get(programOf(mode))!);
    let setting = 0;
    for (let s = 1; s < mode.settings.length; s++) if (cost(s) < cost(setting)) setting = s;
    return { mode: modes[a]!, setting };
  });
}

/** The schedule at these times, with workers and units; null where it breaks a rule. */
function stateAt(model: Model, choices: Choices, times: Int32Array): State | null {
  const state = new State(model);
  const order = model.activities.map((one) => one.id).sort((a, b) => times[startOf(a)]! - times[startOf(b)]! || a - b);
  for (const a of order) {
    const start = times[startOf(a)]!;
    const minutes = times[endOf(a)]! - start;
    const mode = model.activities[a]!.modes[choices[a]!.mode]!;
    const hands = handsFor(state, mode, start, minutes);
    const units = unitsFor(state, mode, start, minutes);
    if (hands === null || units === null) return null;
    state.place(a, { start, minutes, ...choices[a]! }, hands, units);
  }
  return holds(state) ? state : null;
}

const free = (busy: Uint8Array, from: number, to: number): boolean => {
  const at = busy.subarray(from, to).indexOf(1);
  return at < 0;
};

/** How many activities could use each of some workers or units. */
function popularity(model: Model, uses: (mode: ActivityMode, index: number) => boolean, count: number): number[] {
  return Array.from({ length: count }, (_, index) =>
    model.activities.reduce((sum, one) => sum + Number(one.modes.some((mode) => uses(mode, index))), 0),
  );
}

/** Those who can do least first, for each stretch the ones before where that can be; null where too few are free. */
function handsFor(state: State, mode: ActivityMode, start: number, minutes: number): number[] | null {
  const { model } = state;
  const asked = popularity(model, ({ able }, w) => ((able >>> w) & 1) === 1, model.workers.length);
  const able = [...model.workers.keys()]
    .filter((w) => (mode.able >>> w) & 1)
    .sort((a, b) => asked[a]! - asked[b]! || a - b);
  const flat = stretchesOf(mode.attention, minutes);
  const out: number[] = [];
  const canDo = (w: number, k: number): boolean =>
    free(state.busy[w]!, start + flat[k]!, start + flat[k]! + flat[k + 1]!);
  const steady = able.filter((w) => flat.every((_, k) => k % 2 === 1 || canDo(w, k)));
  for (let k = 0; k < flat.length; k += 2) {
    const here = [...steady, ...able.filter((w) => !steady.includes(w) && canDo(w, k))].slice(0, mode.attention.crew);
    if (here.length < mode.attention.crew) return null;
    out.push(...here);
  }
  return out;
}

/** Units that fewest could use first; null where too few are free. */
function unitsFor(state: State, mode: ActivityMode, start: number, minutes: number): number[] | null {
  if (mode.unitCount === 0) return [];
  const asked = popularity(state.model, ({ units }, unit) => units.includes(unit), state.model.units);
  const chosen = mode.units
    .filter((unit) => free(state.unitBusy[unit]!, start, start + minutes))
    .sort((a, b) => asked[a]! - asked[b]! || a - b)
    .slice(0, mode.unitCount);
  return chosen.length < mode.unitCount ? null : chosen;
}
