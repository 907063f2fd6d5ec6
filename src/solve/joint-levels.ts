/**
 * The joint program of times and run temperatures, piece by piece: between two columns of a table minutes are linear in the temperature, so each
 * program keeps every run between columns and the next one lets it go on to the neighbouring piece, as long as that helps.
 */
import { priceOf } from '../kernel/cost.js';
import type { State } from '../kernel/state.js';
import type { Compiled } from './compile.js';
import { orderRows } from './order-rows.js';
import type { SkeletonRun } from './timetable.js';
import { type Segment, TimingProgram } from './timing-program.js';
import { mealRows } from './timing-rows.js';

/** The machine states that all members of a run can be in, with the run's program, by rising level. */
export function commonStates(state: State, run: SkeletonRun): number[] {
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

/** What a joint program comes to. */
export interface JointLevels {
  /** °C of each run, in the order of the runs. */
  readonly levels: number[];
  /** Points at these levels with times that need not be whole minutes; null where no program has an answer, and `levels` are the state's. */
  readonly points: number | null;
}

/** All rows of a schedule's times, with these pieces of the runs' levels free (null: fixed at the state's). */
function programOf(
  compiled: Compiled,
  state: State,
  skeleton: readonly SkeletonRun[],
  segments: readonly (Segment | null)[],
): TimingProgram {
  const own = skeleton.map((run) => run.state);
  const program = new TimingProgram(compiled, state, skeleton, segments, own);
  mealRows(program);
  orderRows(program);
  return program;
}

/** Points that no row of the state's own levels says: hands, runs, and heat. */
function besides(compiled: Compiled, state: State, skeleton: readonly SkeletonRun[]): number {
  const { lp } = programOf(
    compiled,
    state,
    skeleton,
    skeleton.map(() => null),
  );
  return priceOf(state) - lp.costAt(lp.at);
}

/** Points for the heat of runs whose level is free, which the program reckons itself. */
function heatOf(state: State, skeleton: readonly SkeletonRun[], segments: readonly (Segment | null)[]): number {
  const free = skeleton.flatMap(({ members }, r) => (segments[r] === null ? [] : members));
  return free.reduce((sum, a) => sum + state.modeOf(a).settings[state.setting[a]!]!.cost, 0);
}

/** The levels at which the joint program of times and levels is best, run by run, for the order, places and hands of `state`. */
export function jointLevels(
  compiled: Compiled,
  state: State,
  skeleton: readonly SkeletonRun[],
  common: readonly (readonly number[])[],
): JointLevels {
  const { machines } = compiled.model;
  let levels = skeleton.map((run) => machines[run.machine]!.states[run.state]!.level);
  let up = skeleton.map(() => true);
  let points: number | null = null;
  let least: number | null = null;
  const other = besides(compiled, state, skeleton);
  for (let round = 0; round < 6; round++) {
    const segments = skeleton.map((run, r) => {
      const side = segmentAt(compiled, state, run, common[r]!, levels[r]!, up[r]!);
      return side ?? segmentAt(compiled, state, run, common[r]!, levels[r]!, !up[r]!);
    });
    if (segments.every((s) => s === null)) break;
    const program = programOf(compiled, state, skeleton, segments);
    const values = program.lp.minimise();
    if (values === null) break;
    const cost = program.lp.costAt(values) + other - heatOf(state, skeleton, segments);
    if (least !== null && cost > least - 1e-6 && round > 1) break;
    if (least === null || cost < least) least = cost;
    points = least;
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
    if (!moved) break;
  }
  return { levels, points };
}
