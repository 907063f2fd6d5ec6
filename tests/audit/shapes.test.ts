/** The audit's geometry against plain sampling of points. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { overlap, type Shape, type Strip, shapeAt, withinCircle, withinStrips } from '../../src/audit/shapes.js';
import type { Footprint } from '../../src/problem/problem.js';

const SEED = 20261003;
const size = fc.integer({ min: 2, max: 12 }).map((each) => each / 20);
const place = fc.integer({ min: 0, max: 20 }).map((each) => each / 40);
const footprint: fc.Arbitrary<Footprint> = fc.oneof(
  fc.record({ kind: fc.constant('rectangle' as const), width: size, depth: size }),
  fc.record({ kind: fc.constant('round' as const), diameter: size }),
);
const shape = fc
  .record({ footprint, x: place, y: place, turned: fc.boolean() })
  .map((each) => shapeAt(each.footprint, each));

/** Whether a point lies in a shape that is made larger by `margin` on every side (smaller where it is negative). */
function holds(each: Shape, x: number, y: number, margin: number): boolean {
  if (!each.round) {
    return x >= each.left - margin && x <= each.right + margin && y >= each.front - margin && y <= each.back + margin;
  }
  const radius = (each.right - each.left) / 2 + margin;
  return radius >= 0 && Math.hypot(x - (each.left + radius - margin), y - (each.front + radius - margin)) <= radius;
}

const STEP = 0.005;
function* pointsOver(each: Shape): Generator<readonly [number, number]> {
  for (let x = each.left; x <= each.right + STEP / 2; x += STEP) {
    for (let y = each.front; y <= each.back + STEP / 2; y += STEP) yield [x, y];
  }
}

describe('shapes against sampled points', () => {
  it('overlap where a point lies well within both, and nowhere else', () => {
    fc.assert(
      fc.property(shape, shape, (one, two) => {
        let deep = false;
        let near = false;
        for (const [x, y] of pointsOver(one)) {
          if (holds(one, x, y, -1e-5) && holds(two, x, y, -1e-5)) deep = true;
          if (holds(one, x, y, STEP) && holds(two, x, y, STEP)) near = true;
        }
        if (deep) expect(overlap(one, two)).toBe(true);
        if (!near) expect(overlap(one, two)).toBe(false);
        expect(overlap(two, one)).toBe(overlap(one, two));
      }),
      { seed: SEED, numRuns: 150 },
    );
  });

  const strips = fc
    .array(fc.record({ gap: fc.constantFrom(0, 0, 0, 0.02), width: size, depth: size }), { minLength: 1, maxLength: 3 })
    .map((list) => {
      let x = 0;
      return list.map((each, index): Strip => {
        const strip = { name: `zone ${index}`, x: x + each.gap, width: each.width, depth: each.depth };
        x = strip.x + strip.width;
        return strip;
      });
    });

  it('lie within strips where none of their points lies outside all of them', () => {
    fc.assert(
      fc.property(shape, strips, (each, area) => {
        const within = withinStrips(each, area);
        const outside = (x: number, y: number, margin: number): boolean =>
          !area.some(
            (strip) =>
              x >= strip.x - margin && x <= strip.x + strip.width + margin && y >= -margin && y <= strip.depth + margin,
          );
        let far = false;
        for (const [x, y] of pointsOver(each)) {
          if (holds(each, x, y, -1e-5) && outside(x, y, 1e-5)) far = true;
        }
        if (far) expect(within).toBe(false);
        // Grown by a little and still inside at every sampled point, it must lie within.
        const grown: Shape = {
          ...each,
          left: each.left - 2 * STEP,
          right: each.right + 2 * STEP,
          front: each.front - 2 * STEP,
          back: each.back + 2 * STEP,
        };
        const inside = [...pointsOver(grown)].every(([x, y]) => !holds(grown, x, y, 0) || !outside(x, y, 0));
        if (inside) expect(within).toBe(true);
      }),
      { seed: SEED, numRuns: 150 },
    );
  });

  it('lie within a circle where their farthest points do', () => {
    fc.assert(
      fc.property(shape, size, (each, diameter) => {
        const grate: Shape = { round: true, left: 0, right: diameter, front: 0, back: diameter };
        const within = withinCircle(each, diameter);
        const points = [...pointsOver(each)];
        if (points.some(([x, y]) => holds(each, x, y, -1e-5) && !holds(grate, x, y, 1e-5))) expect(within).toBe(false);
        if (points.every(([x, y]) => !holds(each, x, y, STEP) || holds(grate, x, y, -2 * STEP)))
          expect(within).toBe(true);
      }),
      { seed: SEED, numRuns: 150 },
    );
  });
});
