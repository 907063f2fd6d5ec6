import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { packBisected } from '../../src/kitchen/bisect.js';
import { type Boxes, packCorners } from '../../src/kitchen/corners.js';
import { groundOf } from '../../src/kitchen/ground.js';
import { packRelations } from '../../src/kitchen/relations.js';
import { Work } from '../../src/kitchen/work.js';
import type { Task } from '../../src/kitchen/yard.js';

const WIDTH = 0.6;
const DEPTH = 0.4;

/** Boxes that all conflict, scaled so that they cover a share of the ground. */
function boxesOf(sizes: readonly (readonly [number, number])[], cover: number): Boxes {
  const scale = Math.sqrt((cover * WIDTH * DEPTH) / sizes.reduce((sum, [w, d]) => sum + w * d, 0));
  return {
    bounds: { left: 0, front: 0, right: WIDTH, back: DEPTH },
    obstacles: [],
    hits: () => false,
    width: sizes.map(([w]) => w * scale),
    depth: sizes.map(([, d]) => d * scale),
    turnable: sizes.map(() => true),
    conflict: new Uint8Array(sizes.length ** 2).fill(1),
    area: WIDTH * DEPTH,
  };
}

const sizes = (most: number) =>
  fc.array(fc.tuple(fc.integer({ min: 3, max: 12 }), fc.integer({ min: 3, max: 12 })), {
    minLength: 3,
    maxLength: most,
  });
const cover = fc.double({ min: 0.75, max: 1, noNaN: true });

describe('the searches', () => {
  it('agree: corners and relations, which share no reasoning', () => {
    const seen = { yes: 0, no: 0 };
    fc.assert(
      fc.property(sizes(5), cover, (list, share) => {
        const boxes = boxesOf(list, share);
        const corners = packCorners(boxes, new Work(100_000));
        const relations = packRelations(boxes, new Work(100_000));
        expect(corners.complete && relations.complete).toBe(true);
        expect(corners.spots !== null).toBe(relations.spots !== null);
        seen[corners.spots === null ? 'no' : 'yes']++;
      }),
      { seed: 3, numRuns: 300 },
    );
    expect(Math.min(seen.yes, seen.no)).toBeGreaterThan(60);
  });

  it('agree: corners and halving, where halving comes to an end', () => {
    const seen = { yes: 0, no: 0 };
    fc.assert(
      fc.property(sizes(4), cover, (list, share) => {
        const boxes = boxesOf(list, share);
        const corners = packCorners(boxes, new Work(100_000));
        const task: Task = {
          ground: groundOf({ strips: [{ x: 0, width: WIDTH, depth: DEPTH }], round: null }),
          footprints: list.map((_, i) => ({ kind: 'rectangle', width: boxes.width[i]!, depth: boxes.depth[i]! })),
          conflict: boxes.conflict,
          fixed: list.map(() => null),
          free: list.map((_, i) => i),
        };
        const halving = packBisected(task, new Work(20_000));
        if (halving.spots !== null) expect(corners.spots).not.toBeNull();
        if (halving.complete && halving.spots === null) expect(corners.spots).toBeNull();
        if (halving.complete) seen[halving.spots === null ? 'no' : 'yes']++;
      }),
      { seed: 4, numRuns: 200 },
    );
    expect(Math.min(seen.yes, seen.no)).toBeGreaterThan(30);
  });

  it('say so when the work runs out', () => {
    const boxes = boxesOf(
      [
        [5, 7],
        [6, 4],
        [3, 8],
        [7, 7],
        [4, 5],
        [6, 3],
      ],
      0.8,
    );
    expect(packCorners(boxes, new Work(3))).toEqual({ spots: null, complete: false });
    expect(packRelations(boxes, new Work(3))).toEqual({ spots: null, complete: false });
  });
});
