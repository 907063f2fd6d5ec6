import { describe, expect, it } from 'vitest';
import { costOf, totalOf } from '../../src/kernel/cost.js';
import { holds } from '../../src/kernel/holds.js';
import type { State } from '../../src/kernel/state.js';
import { type Compiled, compile } from '../../src/solve/compile.js';
import { earliestStarts, pathsOf } from '../../src/solve/paths.js';
import { Reorder } from '../../src/solve/reorder.js';
import { AS_IT_IS, search } from '../../src/solve/search.js';
import { randomProblemText } from '../support/random-problem.js';
import { readMeal } from '../support/read-meal.js';

/** A schedule as it was first put together, which leaves something to be gained by other orders. */
function firstSchedule(compiled: Compiled): State | null {
  const { model } = compiled;
  const earliest = earliestStarts(model);
  if (earliest === null) return null;
  const options = { seed: 1, work: 0, earliest, paths: pathsOf(model), bound: 0 };
  const found = search(model, { ...options, polish: (state) => state, reorder: AS_IT_IS });
  return found.unplaced.length > 0 ? null : found.state;
}

const points = (state: State): number => totalOf(costOf(state));

const CASES = Array.from({ length: 40 }, (_, k) => 1 + k).flatMap((seed) => {
  const compiled = compile(readMeal(randomProblemText(seed, { dishes: 3 + (seed % 6) })));
  const state = firstSchedule(compiled);
  return state === null ? [] : [{ seed, compiled, reorder: new Reorder(compiled, state) }];
});

describe('Reorder', () => {
  it('finds the times of the schedule itself', () => {
    const timed = CASES.filter(({ reorder }) => reorder.state !== null);
    expect(timed.length).toBeGreaterThan(25);
    for (const { reorder } of timed) expect(holds(reorder.state!)).toBe(true);
  });

  it('tells of each change what it saves: the changed schedule holds and costs as much less', () => {
    let saving = 0;
    for (const { seed, compiled, reorder } of CASES) {
      if (reorder.state === null) continue;
      const before = points(reorder.state);
      for (const move of reorder.moves()) {
        const saved = reorder.saving(move);
        expect(reorder.saving(move), `seed ${seed}`).toBeCloseTo(saved, 6);
        const next = saved > 1e-6 ? reorder.taken(move) : null;
        if (next === null) continue;
        saving++;
        expect(holds(next)).toBe(true);
        expect(points(next), `seed ${seed}, ${JSON.stringify(move)}`).toBeLessThanOrEqual(before - saved + 1e-6);
        const anew = new Reorder(compiled, next).state;
        if (anew !== null) expect(points(anew), `seed ${seed}`).toBeLessThanOrEqual(points(next) + 1e-6);
      }
    }
    expect(saving).toBeGreaterThan(40);
  });

  it('knows changes of order and of hands', () => {
    const kinds = new Set(CASES.flatMap(({ reorder }) => reorder.moves().map(({ kind }) => kind)));
    expect([...kinds].sort()).toEqual(['ahead', 'hand']);
  });
});
