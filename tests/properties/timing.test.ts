/**
 * Times and temperatures of schedules: the network simplex method, the linear program and a general solver with rows written
 * out anew agree on every one.
 */
import { readdirSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { costOf, totalOf } from '../../src/kernel/cost.js';
import { holds } from '../../src/kernel/holds.js';
import type { State } from '../../src/kernel/state.js';
import type { Problem } from '../../src/problem/problem.js';
import { type Compiled, compile } from '../../src/solve/compile.js';
import { orderRows } from '../../src/solve/order-rows.js';
import { type Timetable, timingRuns } from '../../src/solve/timetable.js';
import { polish, retime } from '../../src/solve/timing.js';
import { TimingNetwork } from '../../src/solve/timing-network.js';
import { TimingProgram } from '../../src/solve/timing-program.js';
import { mealRows } from '../../src/solve/timing-rows.js';
import { type Found, type Range, TimingReference } from '../solve/timing-reference.js';
import { randomProblem, randomProblemText } from '../support/random-problem.js';
import { readMeal, readMealFile } from '../support/read-meal.js';
import { scheduled } from '../support/scheduled.js';

interface Instance {
  readonly name: string;
  readonly compiled: Compiled;
  readonly state: State;
}

function instancesOf(name: string, problem: Problem): Instance[] {
  const compiled = compile(problem);
  // Searching a large meal takes long; its first schedule has all that matters here.
  const works = problem.dishes.length > 12 ? [0] : [0, 60_000];
  return works.flatMap((work, k) => {
    const state = scheduled(compiled, 1 + k, work);
    return state === null ? [] : [{ name: `${name}, work ${work}`, compiled, state }];
  });
}

function randomInstances(count: number): Instance[] {
  const found: Instance[] = [];
  for (let seed = 1; found.length < count; seed++) {
    found.push(...instancesOf(`random meal ${seed}`, readMeal(randomProblemText(seed, { dishes: 1 + (seed % 7) }))));
  }
  return found;
}

/** Meals in which holding pays: their dishes fade fast, but not in a warm place, and only some of those are kept in which one is held. */
function heldInstances(count: number): Instance[] {
  const found: Instance[] = [];
  for (let seed = 1; found.length < count; seed++) {
    const meal = randomProblem(seed, { dishes: 3 + (seed % 4) });
    for (const dish of meal.dishes as { hold?: object; fades?: string }[]) {
      if (dish.hold === undefined) continue;
      dish.fades = 'fast';
      dish.hold = { ...dish.hold, fades: 'never' };
    }
    const made = instancesOf(`random meal ${seed} with holds`, readMeal(stringify(meal)));
    found.push(...made.filter(({ state }) => state.store.mode.some((mode) => mode >= 0)));
  }
  return found;
}

function mealInstances(): Instance[] {
  return readdirSync('problems')
    .filter((name) => name.endsWith('.yaml'))
    .flatMap((name) => {
      return instancesOf(name, readMealFile(`problems/${name}`));
    });
}

const ownLevels = ({ compiled, state }: Instance): number[] =>
  timingRuns(state).map((run) => compiled.model.machines[run.machine]!.states[run.state]!.level);

/** What a solver found, moment by moment. */
function foundBy<M>(
  { compiled }: Instance,
  table: Timetable<M>,
  timeOf: (moment: M) => number,
  levels: readonly number[],
): Found {
  const { activities, jobs } = compiled.model;
  const stores = new Set(table.runs.flatMap((run) => run.stores));
  return {
    start: activities.map(({ id }) => timeOf(table.start(id))),
    end: activities.map(({ id }) => timeOf(table.end(id))),
    stored: jobs.map(({ id }) => (stores.has(id) ? timeOf(table.storeStart(id)) : 0)),
    fetched: jobs.map(({ id }) => (stores.has(id) ? timeOf(table.storeEnd(id)) : 0)),
    levels,
  };
}

function asItIs(instance: Instance): Found {
  const { compiled, state } = instance;
  const { start, minutes } = state.store;
  return {
    start: state.start,
    end: compiled.model.activities.map(({ id }) => state.end(id)),
    stored: start,
    fetched: start.map((at, job) => at + minutes[job]!),
    levels: ownLevels(instance),
  };
}

function byNetwork(instance: Instance): Found | null {
  const { compiled, state } = instance;
  const network = new TimingNetwork(compiled, state, timingRuns(state), state.minutes, state.hands);
  mealRows(network);
  orderRows(network);
  const timeOf = network.solve();
  return timeOf && foundBy(instance, network, timeOf, ownLevels(instance));
}

function byProgram(instance: Instance, segments: readonly (Range | null)[]): Found | null {
  const { compiled, state } = instance;
  const skeleton = timingRuns(state);
  const own = skeleton.map((run) => run.state);
  const program = new TimingProgram(compiled, state, skeleton, segments, own);
  mealRows(program);
  orderRows(program);
  const values = program.lp.minimise();
  if (values === null) return null;
  const levels = ownLevels(instance).map((level, r) => {
    const variable = program.runs[r]!.level;
    return variable < 0 ? level : values[variable]!;
  });
  return foundBy(instance, program, (moment) => program.valueOf(moment, values), levels);
}

/** For each run the temperatures around its own within which the minutes of all its members are linear. */
function segmentsOf({ compiled, state }: Instance): (Range | null)[] {
  return timingRuns(state).map(({ machine, state: own, members, stores }) => {
    const { states } = compiled.model.machines[machine]!;
    const { program, level } = states[own]!;
    const modes = members.map((a) => state.modeOf(a));
    for (const j of stores) modes.push(compiled.model.jobs[j]!.storage!.modes[state.store.mode[j]!]!);
    const settings = modes.map((mode) => new Set(mode.settings.map((setting) => setting.state)));
    const levels = states
      .filter((each, s) => each.program === program && settings.every((list) => list.has(s)))
      .map((each) => each.level);
    const [least, most] = [Math.min(...levels), Math.max(...levels)];
    const bends = members.flatMap((a) => {
      const { duration } = compiled.problem.steps[a]!.options[state.mode[a]!]!;
      return duration.kind === 'table' ? duration.columns.map((column) => column.celsius) : [];
    });
    const inside = [...new Set([least, most, ...bends])]
      .filter((at) => at >= least && at <= most)
      .sort((a, b) => a - b);
    const right = inside.findIndex((at) => at > level);
    const upper = right < 0 ? inside.length - 1 : right;
    return upper < 1 ? null : { low: inside[upper - 1]!, high: inside[upper]! };
  });
}

/** Relative to the points; solvers stop within about 1e-7 of each row. */
const TOLERANCE = 1e-6;

function expectSame(name: string, points: number, optimum: number): void {
  expect(Math.abs(points - optimum), `${name}: ${points} against ${optimum}`).toBeLessThanOrEqual(
    TOLERANCE * Math.max(1, Math.abs(optimum)),
  );
}

describe('timing', () => {
  let instances: Instance[] = [];
  beforeAll(() => {
    instances = [...mealInstances(), ...heldInstances(8), ...randomInstances(200)];
  }, 120_000);

  it('has at least 200 random schedules and some of the meals', () => {
    expect(instances.filter(({ name }) => name.startsWith('random')).length).toBeGreaterThanOrEqual(200);
    expect(instances.filter(({ name }) => name.includes('.yaml')).length).toBeGreaterThanOrEqual(6);
    const stored = instances.filter(({ state }) => state.store.mode.some((mode) => mode >= 0));
    expect(stored.length).toBeGreaterThanOrEqual(8);
  });

  it('is judged by points that are the schedule’s own', () => {
    for (const instance of instances) {
      const { compiled, state, name } = instance;
      const { heat, runs, swap, ...moved } = costOf(state);
      const reference = new TimingReference(compiled, state, null);
      const found = asItIs(instance);
      expectSame(name, reference.pointsAt(found), totalOf({ ...moved, heat: 0, runs: 0, swap: 0 }));
      expect(heat + runs + swap).toBeGreaterThanOrEqual(0);
      expect(reference.breachOf(found), name).toBe(0);
    }
  });

  it('has one optimum at fixed temperatures: by network, by program and by a general solver', async () => {
    for (const instance of instances) {
      const { compiled, state, name } = instance;
      const reference = new TimingReference(compiled, state, null);
      const optimum = (await reference.optimum())!;
      const network = byNetwork(instance)!;
      expectSame(`${name}, network`, reference.pointsAt(network), optimum);
      expect(reference.breachOf(network), name).toBe(0);
      const { start, end, stored, fetched } = network;
      expect(
        [start, end, stored, fetched].every((times) => Array.from(times).every(Number.isInteger)),
        name,
      ).toBe(true);
      const program = byProgram(
        instance,
        timingRuns(state).map(() => null),
      )!;
      expectSame(`${name}, program`, reference.pointsAt(program), optimum);
      expect(reference.breachOf(program), name).toBeLessThan(1e-5);
    }
  });

  it('gives schedules that hold and cost what was found or less', () => {
    let held = 0;
    for (const instance of instances) {
      const { compiled, state, name } = instance;
      const skeleton = timingRuns(state);
      const next = retime(
        compiled,
        state,
        skeleton,
        skeleton.map((run) => run.state),
      );
      if (next === null) continue;
      held++;
      const { heat, runs, swap } = costOf(state);
      const points = new TimingReference(compiled, state, null).pointsAt(byNetwork(instance)!);
      expect(totalOf(costOf(next)), name).toBeLessThanOrEqual(points + heat + runs + swap + 1e-6);
      expect(totalOf(costOf(next)), name).toBeLessThanOrEqual(totalOf(costOf(state)) + 1e-6);
    }
    expect(held).toBeGreaterThan(0.95 * instances.length);
  });

  it('is never made worse by polishing, with or without other temperatures', () => {
    let better = 0;
    let tuned = 0;
    for (const { compiled, state, name } of instances.slice(0, 80)) {
      const before = totalOf(costOf(state));
      const timed = polish(compiled, state, false);
      const warmed = polish(compiled, state, true);
      const [after, last] = [timed, warmed].map((each) => totalOf(costOf(each)));
      expect(holds(timed) && holds(warmed), name).toBe(true);
      expect(after, name).toBeLessThanOrEqual(before + 1e-9);
      expect(last, name).toBeLessThanOrEqual(after! + 1e-9);
      if (after! < before - 1e-9) better++;
      if (last! < after! - 1e-9) tuned++;
    }
    expect(better).toBeGreaterThan(10);
    expect(tuned).toBeGreaterThan(10);
  });

  it('has one optimum of times and temperatures together', async () => {
    let free = 0;
    for (const instance of instances) {
      const { compiled, state, name } = instance;
      const segments = segmentsOf(instance);
      if (segments.every((segment) => segment === null)) continue;
      free++;
      const reference = new TimingReference(compiled, state, segments);
      const optimum = await reference.optimum();
      const program = byProgram(instance, segments);
      if (optimum === null || program === null) {
        expect([optimum, program], name).toEqual([null, null]);
        continue;
      }
      expectSame(name, reference.pointsAt(program), optimum);
      expect(reference.breachOf(program), name).toBeLessThan(1e-5);
    }
    expect(free).toBeGreaterThan(100);
  });
});
