/**
 * Times and temperatures together as one linear program, once order, places, hands and runs are fixed: starts, free lengths,
 * the temperature of each run, changeovers as two linear rows each, and every part of the objective that time or heat moves.
 *
 * Minutes at a temperature are convex and piecewise linear, and a plan must take exactly them, neither less nor more; so
 * each program keeps every run within the columns between which it lies, where they are linear, and the caller moves on
 * to the neighbouring columns as long as that helps. With the temperatures fixed all rows are differences of two times
 * with whole bounds: the matrix is totally unimodular and the times come out whole.
 */
import { priceOf } from '../kernel/cost.js';
import { holds } from '../kernel/holds.js';
import { stretchesOf } from '../kernel/model.js';
import { State } from '../kernel/state.js';
import type { Compiled } from './compile.js';
import { commonStates, jointLevels } from './joint-levels.js';
import { orderRows } from './order-rows.js';
import { type SkeletonRun, timingRuns } from './timetable.js';
import { type NodeMoment, TimingNetwork } from './timing-network.js';
import { mealRows } from './timing-rows.js';

/**
 * The best schedule with the order, places and hands of `state` and its runs in the states `fixed`; null where there is none.
 */
export function retime(
  compiled: Compiled,
  state: State,
  skeleton: readonly SkeletonRun[],
  fixed: readonly number[],
): State | null {
  const lengths = Int32Array.from(state.minutes);
  const settings = Int32Array.from(state.setting);
  const hands = state.hands.slice();
  for (let r = 0; r < skeleton.length; r++) {
    for (const a of skeleton[r]!.members) {
      const mode = state.modeOf(a);
      settings[a] = mode.settings.findIndex((s) => s.state === fixed[r]!);
      if (mode.range !== null || mode.settings[settings[a]!]!.minutes === lengths[a]) continue;
      lengths[a] = mode.settings[settings[a]!]!.minutes;
      hands[a] = handsFor(state, a, lengths[a]!);
    }
  }
  const runs = skeleton.map((run, r) => ({ ...run, state: fixed[r]! }));
  const network = new TimingNetwork(compiled, state, runs, lengths, hands);
  mealRows(network);
  orderRows(network);
  const timeOf = network.solve();
  return timeOf === null ? null : written(network, settings, hands, timeOf);
}

/** The schedule with the network's times and these hands; null where it breaks a rule that no row says. */
export function written(
  network: TimingNetwork,
  settings: Int32Array,
  hands: readonly (readonly number[])[],
  timeOf: (moment: NodeMoment) => number,
): State | null {
  const next = inTime(network, settings, hands, timeOf);
  return holds(next) ? next : null;
}

/** The schedule with the network's times and these hands, whatever rules it breaks. */
export function inTime(
  network: TimingNetwork,
  settings: Int32Array,
  hands: readonly (readonly number[])[],
  timeOf: (moment: NodeMoment) => number,
): State {
  const { model } = network.compiled;
  const { state, runs } = network;
  const next = new State(model);
  for (const { id } of model.activities) {
    const start = timeOf(network.start(id));
    const at = { start, minutes: timeOf(network.end(id)) - start, mode: state.mode[id]!, setting: settings[id]! };
    next.place(id, at, hands[id]!, state.units[id]!);
  }
  for (const run of runs) {
    for (const j of run.stores) {
      const start = timeOf(network.storeStart(j));
      const mode = state.store.mode[j]!;
      next.store.mode[j] = mode;
      next.store.setting[j] = model.jobs[j]!.storage!.modes[mode]!.settings.findIndex((s) => s.state === run.state);
      next.store.start[j] = start;
      next.store.minutes[j] = timeOf(network.storeEnd(j)) - start;
    }
  }
  return next;
}

/** Workers for an activity of another length: those of the same stretch where there was one, else those of its first. */
export function handsFor(state: State, a: number, minutes: number): readonly number[] {
  const { attention } = state.modeOf(a);
  const { crew } = attention;
  const old = stretchesOf(attention, state.minutes[a]!);
  const fresh = stretchesOf(attention, minutes);
  const known = state.hands[a]!;
  if (old.length === 0) return fresh.length === 0 ? [] : known;
  const out: number[] = [];
  for (let k = 0; k < fresh.length; k += 2) {
    const last = k + 2 === fresh.length && attention.end > 0;
    let from = last ? old.length - 2 : old.findIndex((offset, i) => i % 2 === 0 && offset === fresh[k]!);
    if (from < 0) from = 0;
    out.push(...known.slice((from / 2) * crew, (from / 2 + 1) * crew));
  }
  return out;
}

/** The states of a run in which a table of one of its members has a column: minutes bend there, so a small step may cost what a large one saves. */
function cornersOf(compiled: Compiled, state: State, run: SkeletonRun, common: readonly number[]): number[] {
  const bends = new Set<number>();
  for (const a of run.members) {
    const { duration } = compiled.problem.steps[a]!.options[state.mode[a]!]!;
    if (duration.kind === 'table') for (const { celsius } of duration.columns) bends.add(celsius);
  }
  const { states } = compiled.model.machines[run.machine]!;
  return common.filter((s) => [...bends].some((celsius) => Math.abs(states[s]!.level - celsius) < 0.01));
}

/** Some of a list, at even distances, its ends among them. */
function thinned(list: readonly number[]): number[] {
  if (list.length <= SHARED) return [...list];
  return Array.from({ length: SHARED }, (_, k) => list[Math.round((k * (list.length - 1)) / (SHARED - 1))]!);
}

/** Temperatures tried for two runs that may be one. */
const SHARED = 8;

/** Free runs whose levels are put on the dial both ways, each with each: the nearest settings of all are tried first, then up to 2^4 others. */
const ROUNDED = 4;

/** Machine states of all runs that are next to `levels` on the dial, below or above. */
function roundings(
  compiled: Compiled,
  skeleton: readonly SkeletonRun[],
  common: readonly (readonly number[])[],
  levels: readonly number[],
  fixed: readonly number[],
): number[][] {
  const near = skeleton.map((run, r) => {
    const { states } = compiled.model.machines[run.machine]!;
    const off = (s: number): number => Math.abs(states[s]!.level - levels[r]!);
    const list = [...common[r]!].sort((x, y) => off(x) - off(y) || x - y).slice(0, 2);
    return list.length === 0 ? [fixed[r]!] : off(list[0]!) < 0.01 ? [list[0]!] : list;
  });
  const between = near.flatMap((list, r) => (list.length > 1 ? [r] : [])).slice(0, ROUNDED);
  return Array.from({ length: 2 ** between.length }, (_, bits) =>
    near.map((list, r) => list[(bits >> Math.max(0, between.indexOf(r))) & (between.includes(r) ? 1 : 0)]!),
  );
}

/** Beyond this many activities the joint program takes longer than the search can wait; levels are then tried one by one. */
const JOINT_ACTIVITIES = 60;
/** Single changes of level tried in one polish. */
const TUNE_TRIES = 100;

/**
 * The best schedule found with the same order, places, hands and runs: the joint program's levels put on the dial, then whole
 * minutes, then single runs tried some dial steps up and down, and where tables bend, as long as that helps. Never worse than `state`.
 */
export function polish(compiled: Compiled, state: State, tune: boolean): State {
  const skeleton = timingRuns(state);
  let fixed = skeleton.map((run) => run.state);
  let best = state;
  let least = priceOf(state);
  const tryFixed = (candidate: number[]): boolean => {
    const next = retime(compiled, state, skeleton, candidate);
    if (next === null) return false;
    const cost = priceOf(next);
    if (cost > least - 1e-9) return false;
    least = cost;
    best = next;
    fixed = candidate;
    return true;
  };
  tryFixed(fixed);
  if (!tune) return best;
  const common = skeleton.map((run) => commonStates(state, run));
  if (common.every((list) => list.length < 2)) return best;
  const jointly = compiled.model.activities.length <= JOINT_ACTIVITIES;
  const levels = jointly
    ? jointLevels(compiled, best, skeleton, common).levels
    : skeleton.map((run, r) => compiled.model.machines[run.machine]!.states[fixed[r]!]!.level);
  for (const candidate of roundings(compiled, skeleton, common, levels, fixed)) tryFixed(candidate);
  let tries = 0;
  for (let helped = true, round = 0; helped && round < 8; round++) {
    helped = false;
    for (let r = 0; r < skeleton.length && tries < TUNE_TRIES; r++) {
      const steps = (jointly ? [1, -1, 2, -2, 4, -4] : [1, -1]).map(
        (step) => common[r]![common[r]!.indexOf(fixed[r]!) + step],
      );
      for (const other of new Set([...steps, ...cornersOf(compiled, state, skeleton[r]!, common[r]!)])) {
        if (other === undefined || other === fixed[r]) continue;
        tries++;
        helped = tryFixed(fixed.map((s, k) => (k === r ? other : s))) || helped;
      }
      if (r === 0 || skeleton[r - 1]!.machine !== skeleton[r]!.machine || fixed[r] === fixed[r - 1]) continue;
      // Two runs at one temperature are one: no small step of either shows what that saves.
      for (const shared of thinned(common[r]!.filter((s) => common[r - 1]!.includes(s)))) {
        tries++;
        helped = tryFixed(fixed.map((s, k) => (k === r || k === r - 1 ? shared : s))) || helped;
      }
    }
  }
  return best;
}
