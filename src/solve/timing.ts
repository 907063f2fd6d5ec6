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
import { orderRows } from './order-rows.js';
import { type SkeletonRun, timingRuns } from './timetable.js';
import { type NodeMoment, TimingNetwork } from './timing-network.js';
import { type Segment, TimingProgram } from './timing-program.js';
import { mealRows } from './timing-rows.js';

/** The machine states that all members of a run can be in, with the run's program, by rising level. */
function commonStates(state: State, run: SkeletonRun): number[] {
  const machine = state.model.machines[run.machine]!;
  const { program } = machine.states[run.state]!;
  const lists = run.members.map((a) => new Set(state.modeOf(a).settings.map((s) => s.state)));
  for (const j of run.stores) {
    lists.push(new Set(state.model.jobs[j]!.storage!.modes[state.store.mode[j]!]!.settings.map((s) => s.state)));
  }
  return machine.states
    .map((_, s) => s)
    .filter((s) => machine.states[s]!.program === program && lists.every((list) => list.has(s)))
    .sort((x, y) => machine.states[x]!.level - machine.states[y]!.level);
}

/** The piece of a run's levels within which all its members' minutes are linear, on the given side of `level`. */
function segmentAt(
  compiled: Compiled,
  state: State,
  run: SkeletonRun,
  common: readonly number[],
  level: number,
  up: boolean,
): Segment | null {
  const levels = common.map((s) => compiled.model.machines[run.machine]!.states[s]!.level);
  let low = levels[0] ?? level;
  let high = levels[levels.length - 1] ?? level;
  if (high - low < 1e-9) return null;
  for (const a of run.members) {
    const { duration } = compiled.problem.steps[a]!.options[state.mode[a]!]!;
    if (duration.kind !== 'table') continue;
    for (const { celsius } of duration.columns) {
      if (celsius < level - 1e-9 || (celsius < level + 1e-9 && up)) low = Math.max(low, celsius);
      if (celsius > level + 1e-9 || (celsius > level - 1e-9 && !up)) high = Math.min(high, celsius);
    }
  }
  return high - low < 1e-9 ? null : { low, high };
}

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
  return holds(next) ? next : null;
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

/** Levels at the optimum of the joint program of times and levels, run by run; the state's own where they are fixed. */
function jointLevels(
  compiled: Compiled,
  state: State,
  skeleton: readonly SkeletonRun[],
  common: readonly number[][],
): number[] {
  const { machines } = compiled.model;
  let levels = skeleton.map((run) => machines[run.machine]!.states[run.state]!.level);
  let up = skeleton.map(() => true);
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 6; round++) {
    const segments = skeleton.map((run, r) => {
      const side = segmentAt(compiled, state, run, common[r]!, levels[r]!, up[r]!);
      return side ?? segmentAt(compiled, state, run, common[r]!, levels[r]!, !up[r]!);
    });
    if (segments.every((s) => s === null)) return levels;
    const own = skeleton.map((run) => run.state);
    const program = new TimingProgram(compiled, state, skeleton, segments, own);
    mealRows(program);
    orderRows(program);
    const values = program.lp.minimise();
    if (values === null) return levels;
    const cost = program.lp.cost.reduce((sum, c, v) => sum + c * values[v]!, 0);
    if (cost > least - 1e-6 && round > 1) return levels;
    least = Math.min(least, cost);
    let moved = false;
    const next = program.runs.map((run, r) => (run.level < 0 ? levels[r]! : values[run.level]!));
    up = next.map((level, r) => {
      const segment = segments[r];
      if (segment === null || segment === undefined) return up[r]!;
      const atTop = level > segment.high - 1e-6;
      const atBottom = level < segment.low + 1e-6;
      if (atTop !== up[r]! || (!atTop && !atBottom)) moved ||= atTop || atBottom;
      return atTop;
    });
    levels = next;
    if (!moved) return levels;
  }
  return levels;
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
    const next = retime(compiled, best, skeleton, candidate);
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
  const joint = compiled.model.activities.length <= JOINT_ACTIVITIES;
  const levels = joint
    ? jointLevels(compiled, best, skeleton, common)
    : skeleton.map((run, r) => compiled.model.machines[run.machine]!.states[fixed[r]!]!.level);
  const { machines } = compiled.model;
  tryFixed(
    levels.map((level, r) => {
      const { states } = machines[skeleton[r]!.machine]!;
      return common[r]!.reduce(
        (a, b) => (Math.abs(states[b]!.level - level) < Math.abs(states[a]!.level - level) ? b : a),
        fixed[r]!,
      );
    }),
  );
  let tries = 0;
  for (let helped = true, round = 0; helped && round < 8; round++) {
    helped = false;
    for (let r = 0; r < skeleton.length && tries < TUNE_TRIES; r++) {
      const steps = (joint ? [1, -1, 2, -2, 4, -4] : [1, -1]).map(
        (step) => common[r]![common[r]!.indexOf(fixed[r]!) + step],
      );
      for (const other of new Set([...steps, ...cornersOf(compiled, state, skeleton[r]!, common[r]!)])) {
        if (other === undefined || other === fixed[r]) continue;
        tries++;
        helped = tryFixed(fixed.map((s, k) => (k === r ? other : s))) || helped;
      }
    }
  }
  return best;
}
