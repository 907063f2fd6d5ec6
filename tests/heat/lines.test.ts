import { describe, expect, it } from 'vitest';
import { gridOf } from '../../src/heat/grid.js';
import { Lines } from '../../src/heat/lines.js';

const grid = gridOf(
  { shape: 'brick', thickness: 0.06, width: 0.1, length: 0.14 },
  { cells: 3, across: 4 },
  { upright: 'whole', across: 'half' },
);
const some = (seed: number): Float64Array =>
  Float64Array.from({ length: grid.count }, (_, i) => Math.cos(seed + 3 * i));

describe.each([0, 1, 2])('lines along axis %d', (axis) => {
  const lines = new Lines(grid, axis);
  const sizes = grid.axes[axis]!.sizes;

  it('start once for every node across them', () => {
    expect(lines.starts).toHaveLength(grid.count / lines.length);
    const nodes = [...lines.starts].flatMap((start) => Array.from(sizes, (_, n) => start + n * lines.stride));
    expect(new Set(nodes).size).toBe(grid.count);
  });

  it('carry heat from cell to cell, and lose none', () => {
    const gain = new Float64Array(grid.count);
    lines.conduct(some(1), gain);
    for (const start of lines.starts) {
      let sum = 0;
      for (let n = 0; n < lines.length; n++) sum += gain[start + n * lines.stride]! * sizes[n]!;
      expect(Math.abs(sum)).toBeLessThan(1e-9);
    }
    const even = new Float64Array(grid.count);
    lines.conduct(new Float64Array(grid.count).fill(60), even);
    expect(even).toEqual(new Float64Array(grid.count));
  });

  it.each([true, false])('solve what they factor, from the middle: %s', (reaches) => {
    const ends = (slope: number) => ({
      perVolume: 150,
      slope: Float64Array.from(lines.starts, (_, line) => slope * (1 + line)),
    });
    const [low, high] = [reaches ? null : ends(20), ends(35)];
    const seconds = 120;
    const diffusivity = Float64Array.from({ length: grid.count }, (_, i) => 1e-7 * (1.3 + Math.sin(i)));
    const warming = diffusivity.map((each) => each / (0.4 + 1e6 * each));
    lines.factor(seconds, diffusivity, warming, low, high);
    const solved = some(2);
    lines.solve(solved);
    // 1 − seconds × conduction, applied to the solution, gives the right-hand side again.
    const conducted = new Float64Array(grid.count);
    const potential = solved.map((heat, i) => diffusivity[i]! * heat);
    lines.conduct(potential, conducted);
    for (const [i, wanted] of some(2).entries()) {
      const n = Math.floor(i / lines.stride) % lines.length;
      const line = Math.floor(i / (lines.stride * lines.length)) * lines.stride + (i % lines.stride);
      const rim = n === 0 ? low : n === lines.length - 1 ? high : null;
      const lost = rim === null ? 0 : rim.perVolume * rim.slope[line]! * warming[i]! * solved[i]!;
      expect(solved[i]! - seconds * (conducted[i]! - lost)).toBeCloseTo(wanted, 9);
    }
  });
});
