/** What a change costs, reckoned from what it touches, is what an evaluation afresh says. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { construct } from '../../src/batch/construct.js';
import { evaluate } from '../../src/batch/evaluate.js';
import { NEIGHBOURHOODS } from '../../src/batch/neighbours.js';
import { State } from '../../src/batch/state.js';
import { tablesOf } from '../../src/batch/tables.js';
import { Rng } from '../../src/kernel/rng.js';
import { holdsTogether, problems } from './instances.js';

/** Evaluated afresh, with what the search charges for jobs undone. */
function costOf(state: State, problem: Parameters<typeof evaluate>[0]): number {
  const { cost, undone } = evaluate(problem, state.toRows());
  expect(state.undone).toBe(undone.length);
  return cost + undone.length * state.tables.undonePrice;
}

const drawn = new Set<string>();

it('changes in a row cost what they change', () => {
  fc.assert(
    fc.property(problems({ jobs: 14, machines: 3 }), fc.nat(), (problem, seed) => {
      const tables = tablesOf(problem);
      fc.pre(tables.machinesOf.every(({ length }) => length > 0));
      const state = new State(tables);
      const rng = new Rng(seed);
      construct(state, rng.shuffle(problem.jobs.map((_, j) => j)));
      expect(state.cost).toBe(costOf(state, problem));
      for (let k = 0; k < 60; k++) {
        const [name, , neighbourhood] = NEIGHBOURHOODS[rng.below(NEIGHBOURHOODS.length)]!;
        const before = state.toRows();
        state.begin();
        const laid = neighbourhood(state, rng);
        const price = laid ? state.priceOf(Number.POSITIVE_INFINITY) : 0;
        if (!laid || rng.below(3) === 0) {
          state.reject();
          expect(state.toRows()).toEqual(before);
          continue;
        }
        drawn.add(name);
        // A limit is only ever passed by what is dearer.
        expect(state.priceOf(price)).toBe(price);
        expect(state.priceOf(price - 1)).toBe(Number.POSITIVE_INFINITY);
        state.commit();
        state.cost += price;
        expect(state.cost).toBe(costOf(state, problem));
        const rows = state.toRows();
        expect(rows.every((row, m) => row.every((batch) => holdsTogether(problem, m, batch)))).toBe(true);
        expect(rows.flat(2).sort((x, y) => x - y)).toEqual(problem.jobs.map((_, j) => j));
      }
    }),
    { seed: 7, numRuns: 40 },
  );
  expect([...drawn].sort()).toEqual(NEIGHBOURHOODS.map(([name]) => name).sort());
});
