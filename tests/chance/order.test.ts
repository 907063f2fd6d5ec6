import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inOrder } from '../../src/chance/order.js';

const graph = fc.integer({ min: 1, max: 12 }).chain((count) => {
  const node = fc.integer({ min: 0, max: count - 1 });
  return fc.record({
    count: fc.constant(count),
    arcs: fc.array(fc.record({ from: node, to: node }), { maxLength: 30 }),
  });
});

/** Whether arcs lead from each node to each other one. */
function reaches(count: number, arcs: readonly { from: number; to: number }[]): boolean[][] {
  const from = Array.from({ length: count }, (_, i) => Array.from({ length: count }, (_, j) => i === j));
  for (const arc of arcs) from[arc.from]![arc.to] = true;
  for (let k = 0; k < count; k++) {
    for (let i = 0; i < count; i++) {
      for (let j = 0; j < count; j++) if (from[i]![k] && from[k]![j]) from[i]![j] = true;
    }
  }
  return from;
}

describe('the order of moments', () => {
  it('has each once, circles together, and each group after all that leads to it', () => {
    fc.assert(
      fc.property(graph, ({ count, arcs }) => {
        const groups = inOrder(count, arcs);
        const groupOf = new Map(groups.flatMap((nodes, g) => nodes.map((node) => [node, g] as const)));
        expect(groups.flat().sort((a, b) => a - b)).toEqual([...Array(count).keys()]);
        for (const { from, to } of arcs) expect(groupOf.get(from)!).toBeLessThanOrEqual(groupOf.get(to)!);
        const reach = reaches(count, arcs);
        for (let i = 0; i < count; i++) {
          for (let j = 0; j < i; j++) {
            expect(groupOf.get(i) === groupOf.get(j)).toBe(reach[i]![j]! && reach[j]![i]!);
          }
        }
      }),
      { seed: 1, numRuns: 200 },
    );
  });
});
