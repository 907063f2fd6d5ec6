/**
 * Times and temperatures of schedules: the network simplex method, the linear program and a general solver with rows written
 * out anew agree on every one.
 */
import { readdirSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { costOf, totalOf } from '../../src/kernel/cost.js';
import type { State } from '../../src/kernel/state.js';
import type { Problem } from '../../src/problem/problem.js';
import { readProblem, readProblemFile } from '../../src/problem/read.js';
import { type Compiled, compile } from '../../src/solve/compile.js';
import { orderRows } from '../../src/solve/order-rows.js';
import { earliestStarts, pathsOf } from '../../src/solve/paths.js';
import { search } from '../../src/solve/search.js';
import { timingRuns } from '../../src/solve/timetable.js';
import { retime } from '../../src/solve/timing.js';
import { TimingNetwork } from '../../src/solve/timing-network.js';
import { TimingProgram } from '../../src/solve/timing-program.js';
import { mealRows } from '../../src/solve/timing-rows.js';
import { type Found, type Range, TimingReference } from '../solve/timing-reference.js';
import { randomProblemText } from '../support/random-problem.js';

interface Instance {
  readonly name: string;
  readonly compiled: Compiled;
  readonly state: State;
}

/** A schedule as construction leaves it (`work` 0) or after some search, its times not yet polished; null where jobs are left out. */
function scheduled(compiled: Compiled, work: number): State | null {
  const { model } = compiled;
  const earliest = earliestStarts(model);
  if (earliest === null) return null;
  const found = search(model, {
    seed: 1,
    work,
    earliest,
    paths: pathsOf(model),
    polish: (state) => state,
    swapped: () => null,
    bound: 0,
  });
  return found.unplaced.length > 0 || found.state.store.mode.some((mode) => mode >= 0) ? null : found.state;
}

function instancesOf(name: string, problem: Problem): Instance[] {
  const compiled = compile(problem);
  return [0, 30_000].flatMap((work) => {
    const state = scheduled(compiled, work);
    return state === null ? [] : [{ name: `${name}, work ${work}`, compiled, state }];
  });
}

function randomInstances(count: number): Instance[] {
  const found: Instance[] = [];
  for (let seed = 1; found.length < count; seed++) {
    const read = readProblem(randomProblemText(seed, { dishes: 1 + (seed % 7) }), { name: 'random.yaml' });
    if (!read.ok) throw new Error(read.messages.map((message) => message.say).join('\n'));
    found.push(...instancesOf(`random meal ${seed}`, read.problem));
  }
  return found;
}

function mealInstances(): Instance[] {
  return readdirSync('problems')
    .filter((name) => name.endsWith('.yaml'))
    .flatMap((name) => {
      const read = readProblemFile(`problems/${name}`);
      if (!read.ok) throw new Error(`${name} does not read`);
      return read.problem.dishes.length > 12 ? [] : instancesOf(name, read.problem);
    });
}

const ownLevels = ({ compiled, state }: Instance): number[] =>
  timingRuns(state).map((run) => compiled.model.machines[run.machine]!.states[run.state]!.level);

function byNetwork(instance: Instance): Found | null {
  const { compiled, state } = instance;
  const network = new TimingNetwork(compiled, state, timingRuns(state), state.minutes, state.hands, null);
  mealRows(network);
  orderRows(network);
  const times = network.solve();
  return times && { ...times, levels: ownLevels(instance) };
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
  const levels = ownLevels(instance);
  return {
    start: compiled.model.activities.map(({ id }) => program.valueOf(program.start(id), values)),
    end: compiled.model.activities.map(({ id }) => program.valueOf(program.end(id), values)),
    levels: program.runs.map((run, r) => (run.level < 0 ? levels[r]! : values[run.level]!)),
  };
}

/** For each run the temperatures around its own within which the minutes of all its members are linear. */
function segmentsOf({ compiled, state }: Instance): (Range | null)[] {
  return timingRuns(state).map(({ machine, state: own, members }) => {
    const { states } = compiled.model.machines[machine]!;
    const { program, level } = states[own]!;
    const settings = members.map((a) => new Set(state.modeOf(a).settings.map((setting) => setting.state)));
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
    instances = [...mealInstances(), ...randomInstances(200)];
  });

  it('has at least 200 random schedules and some of the meals', () => {
    expect(instances.filter(({ name }) => name.startsWith('random')).length).toBeGreaterThanOrEqual(200);
    expect(instances.filter(({ name }) => name.includes('.yaml')).length).toBeGreaterThanOrEqual(6);
  });

  it('is judged by points that are the schedule’s own', () => {
    for (const instance of instances) {
      const { compiled, state, name } = instance;
      const { heat, runs, swap, ...moved } = costOf(state);
      const end = compiled.model.activities.map(({ id }) => state.end(id));
      const reference = new TimingReference(compiled, state, null);
      const found = { start: state.start, end, levels: ownLevels(instance) };
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
      expect([...Array.from(network.start), ...Array.from(network.end)].every(Number.isInteger), name).toBe(true);
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
        null,
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
