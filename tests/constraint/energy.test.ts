import { describe, expect, it } from 'vitest';
import { Energy } from '../../src/constraint/energy.js';
import { Engine } from '../../src/constraint/engine.js';
import { Optimiser } from '../../src/constraint/optimiser.js';
import { Timetable } from '../../src/constraint/timetable.js';
import { Rng } from '../../src/kernel/rng.js';

interface Task {
  readonly low: number;
  readonly high: number;
  readonly size: number;
  readonly demand: number;
  /** A minute earlier or later costs so much. */
  readonly cost: number;
}

function randomTasks(rng: Rng, capacity: number): Task[] {
  return Array.from({ length: 2 + rng.below(3) }, () => {
    const low = rng.below(4);
    const [size, demand] = [1 + rng.below(4), 1 + rng.below(capacity)];
    return { low, high: low + rng.below(6), size, demand, cost: rng.below(7) - 3 };
  });
}

function leastCost(tasks: readonly Task[], capacity: number): number {
  let least = Number.POSITIVE_INFINITY;
  const used = Array.from({ length: 20 }, () => 0);
  const place = (i: number, cost: number): void => {
    const task = tasks[i];
    if (task === undefined) {
      least = Math.min(least, cost);
      return;
    }
    for (let start = task.low; start <= task.high; start++) {
      for (let t = start; t < start + task.size; t++) used[t]! += task.demand;
      if (used.every((sum) => sum <= capacity)) place(i + 1, cost + start * task.cost);
      for (let t = start; t < start + task.size; t++) used[t]! -= task.demand;
    }
  };
  place(0, 0);
  return least;
}

/** An engine with the time-table, which alone is enough, and the energy beside it. */
function engineOf(tasks: readonly Task[], capacity: number, highest: number): { engine: Engine; optimiser: Optimiser } {
  const engine = new Engine();
  const { store } = engine;
  const starts = tasks.map(({ low, high }) => engine.addVariable(low, high));
  const energy = tasks.map(({ size, demand }, i) => ({ variable: starts[i]!, plus: 0, size, demand }));
  engine.addPropagator((number) => new Energy(store, number, energy, capacity, highest));
  const timed = energy.map(({ variable, size }) => {
    return { start: { variable, plus: 0 }, end: { variable, plus: size }, when: [] };
  });
  const demands = tasks.map(({ demand }) => demand);
  engine.addPropagator((number) => new Timetable(store, number, timed, demands, capacity));
  const terms = tasks.flatMap(({ cost }, i) =>
    cost === 0 ? [] : [{ half: 2 * starts[i]! + (cost > 0 ? 0 : 1), weight: Math.abs(cost) }],
  );
  return { engine, optimiser: new Optimiser(engine, terms, 0) };
}

describe('energy', () => {
  it.each([
    ['throughout', Number.POSITIVE_INFINITY],
    ['where little is decided', 1],
  ])('%s: leaves the least cost that trying all starts finds', (_, highest) => {
    for (let seed = 1; seed <= 400; seed++) {
      const rng = new Rng(seed);
      const capacity = 1 + rng.below(3);
      const tasks = randomTasks(rng, capacity);
      const { optimiser } = engineOf(tasks, capacity, highest);
      for (let turn = 0; turn < 200 && !optimiser.isProven; turn++) {
        if (turn % 2 === 0) optimiser.improve(1e6);
        else optimiser.lift(1e6);
      }
      expect(optimiser.best?.cost ?? Number.POSITIVE_INFINITY, `seed ${seed}`).toBe(leastCost(tasks, capacity));
    }
  });

  it('sees without a decision that three of two minutes do not fit between 0 and 5', () => {
    const three = Array.from({ length: 3 }, () => ({ low: 0, high: 3, size: 2, demand: 1, cost: 0 }));
    const { engine } = engineOf(three, 1, 0);
    expect(engine.toRoot()).toBe(false);
    expect(engine.work).toBe(0);
  });

  it('moves a task out of what two others fill, forwards and backwards', () => {
    const filling = { low: 0, high: 2, size: 2, demand: 1, cost: 0 };
    const { engine } = engineOf([filling, filling, { low: 1, high: 9, size: 3, demand: 1, cost: 0 }], 1, 0);
    expect(engine.toRoot()).toBe(true);
    expect(engine.store.lowOf(2)).toBe(4);
    const late = { ...filling, low: 8, high: 10 };
    const other = engineOf([late, late, { low: 0, high: 9, size: 3, demand: 1, cost: 0 }], 1, 0).engine;
    expect(other.toRoot()).toBe(true);
    expect(other.store.highOf(2)).toBe(5);
  });
});
