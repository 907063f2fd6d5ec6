import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Rng } from '../../src/kernel/rng.js';
import { Insertions } from '../../src/sequence/insertion.js';
import { MachineOrders } from '../../src/sequence/machine-orders.js';
import type { Project } from '../../src/sequence/project.js';
import { operationsOf, type Shop, shopBound } from '../../src/sequence/shop.js';
import { sequenceShop } from '../../src/sequence/shop-search.js';
import { faultsOf, makespanOf, optimum } from '../support/projects.js';

function shops(jobs: number, operations: number, machines: number): fc.Arbitrary<Shop> {
  const mode = fc.record({ machine: fc.nat(machines - 1), minutes: fc.integer({ min: 1, max: 9 }) });
  const ways = fc.uniqueArray(mode, { minLength: 1, maxLength: 2, selector: ({ machine }) => machine });
  const job = fc.array(ways, { minLength: 1, maxLength: operations });
  return fc.record({ machines: fc.constant(machines), jobs: fc.array(job, { minLength: 1, maxLength: jobs }) });
}

/** The same as a project: each machine a renewable of one unit. */
function asProject({ jobs, machines }: Shop): Project {
  const one = (machine: number) => Array.from({ length: machines }, (_, k) => (k === machine ? 1 : 0));
  const { before } = operationsOf({ jobs, machines });
  return {
    activities: jobs
      .flat()
      .map((ways) => ways.map(({ machine, minutes }) => ({ minutes, uses: one(machine), consumes: [] }))),
    lags: [...before].flatMap((from, to) => (from < 0 ? [] : [{ from, to, low: 0 }])),
    renewables: Array.from({ length: machines }, () => 1),
    nonrenewables: [],
  };
}

describe('machine orders', () => {
  it('end up as short as the best of all, which no bound is above', () => {
    fc.assert(
      fc.property(shops(3, 2, 2), fc.nat(), (shop, seed) => {
        const project = asProject(shop);
        const best = optimum(project);
        const { starts, machines, makespan, lower } = sequenceShop(shop, { schedules: 300, seed });
        const modes = project.activities.map((_, v) =>
          shop.jobs.flat()[v]!.findIndex((one) => one.machine === machines[v]),
        );
        expect(makespanOf(project, starts, modes)).toBe(makespan);
        expect(faultsOf(project, starts, modes)).toEqual([]);
        expect(makespan).toBe(best);
        expect(lower).toBeLessThanOrEqual(best);
      }),
      { numRuns: 50, seed: 41 },
    );
  });

  it('are the same for the same seed', () => {
    const [shop] = fc.sample(shops(8, 6, 4), { numRuns: 1, seed: 5 });
    const [one, two] = [3, 3].map((seed) => sequenceShop(shop!, { schedules: 500, seed }));
    expect(one).toEqual(two);
  });
});

describe('insertions', () => {
  it('make no circle, and no more than they estimate', () => {
    fc.assert(
      fc.property(shops(5, 4, 3), fc.nat(), (shop, seed) => {
        const rng = new Rng(seed);
        const operations = operationsOf(shop);
        const [orders, copy] = [0, 1].map(() => new MachineOrders(operations, shop.machines)) as [
          MachineOrders,
          MachineOrders,
        ];
        // Jobs one after the other, mixed up by random insertions.
        const last = new Int32Array(shop.machines).fill(-1);
        for (let v = 0; v < orders.size; v++) {
          const { machine } = operations.modes[v]![0]!;
          orders.putIn(v, 0, last[machine]!);
          last[machine] = v;
        }
        expect(orders.measure()).toBe(true);
        const insertions = new Insertions(orders);
        for (let round = 0; round < 6; round++) {
          const v = rng.below(orders.size);
          const moves: [number, number, number][] = [];
          insertions.of(v, (mode, before, estimate) => moves.push([mode, before, estimate]));
          for (const [mode, before, estimate] of moves) {
            copy.copy(orders);
            copy.takeOut(v);
            copy.putIn(v, mode, before);
            expect(copy.measure()).toBe(true);
            expect(copy.makespan).toBeLessThanOrEqual(estimate);
            expect(copy.makespan).toBeGreaterThanOrEqual(shopBound(shop, operations));
          }
          if (moves.length > 0) {
            const [mode, before] = moves[rng.below(moves.length)]!;
            orders.takeOut(v);
            orders.putIn(v, mode, before);
            orders.measure();
          }
        }
      }),
      { numRuns: 80, seed: 42 },
    );
  });

  it('say that orders make a circle', () => {
    const job = [[{ machine: 0, minutes: 1 }], [{ machine: 0, minutes: 1 }]];
    const orders = new MachineOrders(operationsOf({ machines: 1, jobs: [job] }), 1);
    orders.putIn(1, 0, -1);
    orders.putIn(0, 0, 1);
    expect(orders.measure()).toBe(false);
  });
});
