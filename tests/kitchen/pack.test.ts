import { describe, expect, it } from 'vitest';
import { liesOn, overlaps } from '../../src/kitchen/footprint.js';
import { pack } from '../../src/kitchen/pack.js';
import type { Spot, Surface } from '../../src/kitchen/surface.js';
import type { Footprint } from '../../src/problem/problem.js';

const rectangle = (width: number, depth: number): Footprint => ({ kind: 'rectangle', width, depth });
const round = (diameter: number): Footprint => ({ kind: 'round', diameter });
const rack = (width: number, depth: number): Surface => ({ strips: [{ x: 0, width, depth }], round: null });

/** Overlaps and spots off the surface, as text; nothing where the packing is right. */
function faults(surface: Surface, footprints: readonly Footprint[], spots: readonly Spot[]): string[] {
  const found: string[] = [];
  footprints.forEach((a, i) => {
    if (!liesOn(surface, a, spots[i]!)) found.push(`${i} is off the surface`);
    footprints.slice(0, i).forEach((b, j) => {
      if (overlaps(a, spots[i]!, b, spots[j]!)) found.push(`${i} overlaps ${j}`);
    });
  });
  return found;
}

describe('pack', () => {
  it('puts nothing nowhere', () => {
    expect(pack(rack(0.5, 0.4), [])).toEqual({ spots: [] });
  });

  it('turns a tray that fits only turned', () => {
    expect(pack(rack(0.5, 0.3), [rectangle(0.3, 0.5)])).toEqual({ spots: [{ x: 0, y: 0, turned: true }] });
  });

  it('puts two trays side by side, and one behind the other where the width is short', () => {
    expect(pack(rack(0.6, 0.4), [rectangle(0.3, 0.4), rectangle(0.3, 0.4)])).toEqual({
      spots: [
        { x: 0, y: 0, turned: false },
        { x: 0.3, y: 0, turned: false },
      ],
    });
    expect(pack(rack(0.4, 0.6), [rectangle(0.4, 0.3), rectangle(0.4, 0.3)])).toEqual({
      spots: [
        { x: 0, y: 0, turned: false },
        { x: 0, y: 0.3, turned: false },
      ],
    });
  });

  it('measures two round pans by their true distance, not by their bounding boxes', () => {
    // Across the diagonal of 40 x 30 cm: distance of the centres of two 22 cm pans is sqrt(18² + 8²) = 19.7 cm.
    expect(pack(rack(0.4, 0.3), [round(0.22), round(0.22)])).toEqual({ spots: null, proof: true });
    const surface = rack(0.4, 0.35);
    const pans = [round(0.22), round(0.22)];
    const packing = pack(surface, pans);
    expect(packing.spots && faults(surface, pans, packing.spots)).toEqual([]);
  });

  it('lets two stand on the same spot when they are never on together', () => {
    const pans = [rectangle(0.4, 0.3), rectangle(0.4, 0.3), rectangle(0.1, 0.3)];
    const packing = pack(rack(0.5, 0.3), pans, (i, j) => i === 2 || j === 2);
    expect(packing.spots?.[0]).toEqual(packing.spots?.[1]);
    expect(packing.spots?.[2]).toBeDefined();
  });

  it('keeps what is fixed and packs around it', () => {
    const surface = rack(0.6, 0.4);
    const pans = [rectangle(0.2, 0.4), rectangle(0.2, 0.4), rectangle(0.2, 0.4)];
    const middle = { x: 0.2, y: 0, turned: false };
    const packing = pack(surface, pans, null, [null, middle, null]);
    expect(packing.spots?.[1]).toEqual(middle);
    expect(packing.spots && faults(surface, pans, packing.spots)).toEqual([]);
    expect(pack(surface, pans, null, [null, { x: 0.21, y: 0, turned: false }, null])).toEqual({
      spots: null,
      proof: true,
    });
  });
});
