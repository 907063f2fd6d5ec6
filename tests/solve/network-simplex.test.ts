import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Network } from '../../src/solve/network-simplex.js';
import { Program, Sum } from '../referee/program.js';

const HARD = Number.POSITIVE_INFINITY;

interface Arc {
  readonly from: number;
  readonly to: number;
  readonly weight: number;
  readonly cap: number;
}

interface Dual {
  readonly nodes: number;
  readonly arcs: readonly Arc[];
  /** Pulls of pairs: `later` is pulled down at this rate, `earlier` up. */
  readonly pulls: readonly { readonly earlier: number; readonly later: number; readonly rate: number }[];
}

function solve({ nodes, arcs, pulls }: Dual): Float64Array | null {
  const network = new Network();
  for (let i = 0; i < nodes; i++) network.node();
  for (const { from, to, weight, cap } of arcs) network.arc(from, to, weight, cap);
  for (const { earlier, later, rate } of pulls) {
    network.addPull(later, rate);
    network.addPull(earlier, -rate);
  }
  return network.solve();
}

function costAt({ arcs, pulls }: Dual, p: ArrayLike<number>): number {
  let cost = 0;
  for (const { from, to, weight, cap } of arcs) {
    const breach = Math.max(0, weight - (p[to]! - p[from]!));
    if (breach > 0) cost += breach * cap;
  }
  for (const { earlier, later, rate } of pulls) cost += rate * (p[later]! - p[earlier]!);
  return cost;
}

/** Least cost over all whole potentials within [-reach, reach], node 0 at 0. */
function bruteForce(dual: Dual, reach: number): number {
  const p = new Array<number>(dual.nodes).fill(0);
  let least = Number.POSITIVE_INFINITY;
  const assign = (node: number): void => {
    if (node === dual.nodes) {
      least = Math.min(least, costAt(dual, p));
      return;
    }
    for (let value = -reach; value <= reach; value++) {
      p[node] = value;
      assign(node + 1);
    }
  };
  assign(1);
  return least;
}

/** The same by a general solver; null where there is none. */
async function general({ nodes, arcs, pulls }: Dual): Promise<number | null> {
  const program = new Program();
  const p = Array.from({ length: nodes }, (_, i) => program.number(i === 0 ? 0 : -1e6, i === 0 ? 0 : 1e6));
  for (const { from, to, weight, cap } of arcs) {
    const rise = new Sum().add(p[to]!).add(p[from]!, -1);
    if (cap < HARD) {
      const breach = program.number(0, Number.POSITIVE_INFINITY);
      program.pay(new Sum().add(breach), cap);
      rise.add(breach);
    }
    program.row(weight, rise, Number.POSITIVE_INFINITY);
  }
  for (const { earlier, later, rate } of pulls) program.pay(new Sum().add(p[later]!).add(p[earlier]!, -1), rate);
  return (await program.solve())?.objective ?? null;
}

/** Every node within [low, high] of node 0, as times within a horizon are. */
const fence = (nodes: number, low: number, high: number): Arc[] =>
  Array.from({ length: nodes - 1 }, (_, i) => i + 1).flatMap((i) => [
    { from: 0, to: i, weight: low, cap: HARD },
    { from: i, to: 0, weight: -high, cap: HARD },
  ]);

function duals(most: number, reach: number): fc.Arbitrary<Dual> {
  return fc.integer({ min: 2, max: most }).chain((nodes) => {
    const node = fc.nat(nodes - 1);
    const arc = fc
      .record({
        from: node,
        to: node,
        weight: fc.integer({ min: -reach, max: reach }),
        cap: fc.oneof(fc.constant(HARD), fc.nat(6)),
      })
      .filter(({ from, to }) => from !== to);
    return fc.record({
      nodes: fc.constant(nodes),
      arcs: fc.array(arc, { maxLength: 3 * nodes }).map((arcs) => [...fence(nodes, -reach, reach), ...arcs]),
      pulls: fc.array(fc.record({ earlier: node, later: node, rate: fc.integer({ min: -5, max: 5 }) }), {
        maxLength: nodes,
      }),
    });
  });
}

describe('Network', () => {
  it('is one node at 0', () => {
    expect(solve({ nodes: 1, arcs: [], pulls: [] })).toEqual(Float64Array.of(0));
  });

  it('pushes a later node to its bound and stops at a dearer hinge', () => {
    // Two nodes, p1 in [0, 10]; pulled up at 3 a unit against a hinge of 5 beyond 4.
    const arcs = [...fence(2, 0, 10), { from: 1, to: 0, weight: -4, cap: 5 }];
    expect(solve({ nodes: 2, arcs, pulls: [{ earlier: 1, later: 0, rate: 3 }] })).toEqual(Float64Array.of(0, 4));
    expect(solve({ nodes: 2, arcs, pulls: [{ earlier: 1, later: 0, rate: 6 }] })).toEqual(Float64Array.of(0, 10));
  });

  it('finds nothing where constraints contradict each other or nothing bounds the cost', () => {
    const apart = { from: 0, to: 1, weight: 5, cap: HARD };
    const near = { from: 1, to: 0, weight: -4, cap: HARD };
    expect(solve({ nodes: 2, arcs: [apart, near], pulls: [] })).toBeNull();
    expect(solve({ nodes: 2, arcs: [apart], pulls: [{ earlier: 1, later: 0, rate: 1 }] })).toBeNull();
    expect(solve({ nodes: 2, arcs: [apart], pulls: [{ earlier: 0, later: 1, rate: 1 }] })).toEqual(
      Float64Array.of(0, 5),
    );
  });

  it('is as cheap as the best whole potentials, and whole itself', () => {
    fc.assert(
      fc.property(duals(4, 4), (dual) => {
        const least = bruteForce(dual, 4);
        const p = solve(dual);
        if (p === null) expect(least).toBe(Number.POSITIVE_INFINITY);
        else {
          expect([...p].every(Number.isInteger)).toBe(true);
          expect(p[0]).toBe(0);
          expect(costAt(dual, p)).toBeCloseTo(least, 6);
        }
      }),
      { seed: 1, numRuns: 400 },
    );
  });

  it('agrees with a general solver on larger networks', async () => {
    let none = 0;
    await fc.assert(
      fc.asyncProperty(duals(30, 25), async (dual) => {
        const p = solve(dual);
        const objective = await general(dual);
        if (p === null) none++;
        if (p === null || objective === null) expect([p, objective]).toEqual([null, null]);
        else expect(Math.abs(costAt(dual, p) - objective)).toBeLessThanOrEqual(1e-6 * Math.max(1, Math.abs(objective)));
      }),
      { seed: 2, numRuns: 300 },
    );
    expect(none).toBeGreaterThan(0);
    expect(none).toBeLessThan(200);
  });

  it('ends on a degenerate network where all is tied', () => {
    const nodes = 40;
    const arcs = [...fence(nodes, 0, 0)];
    for (let i = 1; i < nodes; i++)
      for (let j = 1; j < nodes; j++)
        if (i !== j) arcs.push({ from: i, to: j, weight: 0, cap: (i * j) % 3 === 0 ? HARD : 1 });
    const pulls = Array.from({ length: nodes - 1 }, (_, i) => ({ earlier: 0, later: i + 1, rate: (i % 5) - 2 }));
    expect(solve({ nodes, arcs, pulls })).toEqual(new Float64Array(nodes));
  });
});
