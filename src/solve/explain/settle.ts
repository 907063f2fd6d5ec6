/**
 * Schedules by order: with one way of doing each activity fixed, the earliest times at which nothing clashes, and then who and
 * which unit. Slower than insertion for large models, and surer for small ones, where insertion can stand in its own way.
 */
import { holds } from '../../kernel/holds.js';
import type { Activity, ActivityMode, Model } from '../../kernel/model.js';
import { stretchesOf } from '../../kernel/model.js';
import type { Rng } from '../../kernel/rng.js';
import { State } from '../../kernel/state.js';
import type { Problem } from '../../problem/problem.js';
import { earliestStarts } from '../paths.js';
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

/** How choices are made: by the cheapest settings, by settings that as many as can be share, or by chance. */
export type Manner = 'cheap' | 'shared' | 'chance';

/** `cheap` takes the first mode of each activity and draws nothing from `rng`; the others take modes by chance. */
export function choicesFor(model: Model, rng: Rng, manner: Manner): Choices {
  const modes = model.activities.map((one) => (manner === 'cheap' ? 0 : rng.below(one.modes.length)));
  const modeOf = (a: number): ActivityMode => model.activities[a]!.modes[modes[a]!]!;
  const settings = model.activities.map((_, a) => {
    const costs = modeOf(a).settings.map((setting) => setting.cost);
    return manner === 'chance' ? rng.below(costs.length) : costs.indexOf(Math.min(...costs));
  });
  if (manner !== 'cheap') share(model, modeOf, settings, manner === 'chance' ? rng : null);
  return modes.map((mode, a) => ({ mode, setting: settings[a]! }));
}

/**
 * Lets activities on one machine agree on a state: again and again the state that most of the others can have, or one by chance, is
 * given to all that can have it.
 */
function share(model: Model, modeOf: (a: number) => ActivityMode, settings: number[], rng: Rng | null): void {
  model.machines.forEach((machine, m) => {
    let open = [...model.activities.keys()].filter((a) => modeOf(a).machine === m);
    while (open.length > 0) {
      const can = machine.states.map((_, s) => open.filter((a) => modeOf(a).settings.some((one) => one.state === s)));
      const useful = [...can.keys()].filter((s) => can[s]!.length > 0);
      const state =
        rng === null
          ? useful.reduce((a, b) => (can[b]!.length > can[a]!.length ? b : a))
          : useful[rng.below(useful.length)]!;
      for (const a of can[state]!) settings[a] = modeOf(a).settings.findIndex((one) => one.state === state);
      open = open.filter((a) => !can[state]!.includes(a));
    }
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
