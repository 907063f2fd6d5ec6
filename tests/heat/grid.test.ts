import { describe, expect, it } from 'vitest';
import { type Body, surfaceOf, volumeOf } from '../../src/heat/body.js';
import { type Extent, type Grid, gridOf } from '../../src/heat/grid.js';

const FINENESS = { cells: 6, across: 4 };
const BODIES: readonly (readonly [Body, number])[] = [
  [{ shape: 'slab', thickness: 0.03, width: 0.1, length: 0.2 }, 1],
  [{ shape: 'cylinder', thickness: 0.1, length: 0.34 }, 2],
  [{ shape: 'sphere', thickness: 0.14 }, 1],
  [{ shape: 'brick', thickness: 0.08, width: 0.12, length: 0.2 }, 3],
];

const volumeIn = ({ axes, copies }: Grid): number =>
  axes.reduce((product, { sizes }) => product * sizes.reduce((sum, size) => sum + size, 0), copies);

/** Both ends of an axis, counted once for each copy. */
const surfaceIn = ({ axes, copies }: Grid): number =>
  axes.reduce((sum, { low, high }, a) => {
    const others = axes.reduce(
      (product, { sizes }, b) => (a === b ? product : product * sizes.reduce((s, x) => s + x, 0)),
      copies,
    );
    return sum + (low + high) * others;
  }, 0);

describe('gridOf', () => {
  it.each(BODIES)('%o: fills the body, to its surface, whatever it keeps of it', (body, axes) => {
    for (const upright of ['half', 'whole'] as const) {
      const grid = gridOf(body, FINENESS, { upright, across: 'half' });
      expect(grid.axes).toHaveLength(axes);
      expect(volumeIn(grid)).toBeCloseTo(volumeOf(body)!, 12);
      expect(surfaceIn(grid)).toBeCloseTo(surfaceOf(body)!, 12);
      expect(grid.count).toBe(grid.axes.reduce((product, { nodes }) => product * nodes.length, 1));
    }
  });

  it('has a node in the middle, and one on every surface', () => {
    for (const upright of ['one', 'half', 'whole'] as Extent[]) {
      const { axes, core } = gridOf(BODIES[3]![0], FINENESS, { upright, across: 'half' });
      const [thick] = axes;
      expect(thick!.nodes[thick!.core]).toBeCloseTo(upright === 'half' ? 0 : 0.04, 12);
      expect(core).toBe(thick!.core);
      if (upright !== 'one') expect(thick!.nodes.at(-1)).toBe(upright === 'half' ? 0.04 : 0.08);
      if (upright === 'whole') expect(thick!.nodes[0]).toBe(0);
    }
  });

  it('is finer towards the surface, evenly', () => {
    const { nodes } = gridOf(BODIES[2]![0], { cells: 10, across: 1 }, { upright: 'half', across: 'half' }).axes[0]!;
    const gaps = Array.from(nodes.slice(1), (x, i) => x - nodes[i]!);
    expect(gaps.at(-1)).toBeCloseTo((0.6 * 0.07) / 10, 9);
    for (let i = 1; i < gaps.length; i++) expect(gaps[i]! / gaps[i - 1]!).toBeCloseTo(gaps[1]! / gaps[0]!, 6);
    expect(gaps[1]).toBeLessThan(gaps[0]!);
  });

  it('names its ends as a cook sees them', () => {
    const sides = (body: Body, upright: Extent, across: Extent) =>
      gridOf(body, FINENESS, { upright, across }).ends.map(({ side }) => side);
    expect(sides(BODIES[0]![0], 'whole', 'half')).toEqual(['bottom', 'top']);
    expect(sides(BODIES[1]![0], 'whole', 'half')).toEqual(['side', 'bottom', 'top']);
    expect(sides(BODIES[1]![0], 'one', 'half')).toEqual(['side']);
    expect(sides(BODIES[2]![0], 'half', 'half')).toEqual(['side']);
    expect(sides(BODIES[3]![0], 'half', 'half')).toEqual(['top', 'side', 'side']);
    expect(sides(BODIES[3]![0], 'whole', 'one')).toEqual(['bottom', 'top']);
  });

  it('counts a slab of unknown width and length as one metre square', () => {
    const grid = gridOf({ shape: 'slab', thickness: 0.03, width: null, length: null }, FINENESS, {
      upright: 'half',
      across: 'half',
    });
    expect(volumeIn(grid)).toBeCloseTo(0.03, 12);
  });
});
