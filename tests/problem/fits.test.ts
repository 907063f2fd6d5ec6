import { describe, expect, it } from 'vitest';
import {
  carryingBurners,
  footprintFits,
  heightFits,
  narrowerSide,
  pieceFootprint,
  tallestLoad,
} from '../../src/problem/fits.js';
import type { Appliance, Footprint, Grate, Mode } from '../../src/problem/problem.js';

const box = (width: number, depth: number): Footprint => ({ kind: 'rectangle', width, depth });
const disc = (diameter: number): Footprint => ({ kind: 'round', diameter });
const mode = (lit: string[] = [], height: number | null = null): Mode => ({
  name: 'roast',
  lid: null,
  heat: { low: 100, high: 250 },
  lit,
  height,
});
const grill = (sizes: readonly (readonly [width: number, depth: number])[], round: number | null = null): Appliance => {
  let x = 0;
  const zones: Grate['zones'][number][] = sizes.map(([width, depth], index) => {
    x += width;
    return { name: String(index), x: x - width, width, depth };
  });
  return {
    name: 'grill',
    kind: 'grill',
    surface: { kind: 'grate', zones, round },
    modes: [],
    heats: 1,
    cools: 1,
    dial: { unit: 'C', step: 5 },
  };
};
const oven: Appliance = {
  name: 'oven',
  kind: 'oven',
  surface: { kind: 'racks', count: 2, width: 0.56, depth: 0.41, height: 0.38, clearance: 0.04 },
  modes: [],
  heats: 1,
  cools: 1,
  dial: { unit: 'C', step: 5 },
};

describe('one load alone', () => {
  it('lies on a rack, turned or not', () => {
    expect(footprintFits(oven, mode(), box(0.41, 0.56))).toBe(true);
    expect(footprintFits(oven, mode(), box(0.56, 0.41))).toBe(true);
    expect(footprintFits(oven, mode(), box(0.42, 0.42))).toBe(false);
    expect(footprintFits(oven, mode(), disc(0.41))).toBe(true);
    expect(footprintFits(oven, mode(), disc(0.411))).toBe(false);
  });

  it('is low enough with its clearance, and for the mode', () => {
    const load = (height: number) => ({ footprint: disc(0.2), height });
    expect(tallestLoad(oven, mode())).toBeCloseTo(0.34, 12);
    expect(heightFits(oven, mode(), load(0.34))).toBe(true);
    expect(heightFits(oven, mode(), load(0.341))).toBe(false);
    expect(heightFits(oven, mode([], 0.2), load(0.21))).toBe(false);
    expect(heightFits(grill([[0.3, 0.4]]), mode(), load(2))).toBe(true);
  });

  it('straddles neighbouring zones, but no lit one', () => {
    const three = grill([
      [0.28, 0.46],
      [0.28, 0.46],
      [0.28, 0.46],
    ]);
    expect(footprintFits(three, mode(), box(0.84, 0.46))).toBe(true);
    expect(footprintFits(three, mode(['2']), box(0.84, 0.46))).toBe(false);
    expect(footprintFits(three, mode(['2']), box(0.46, 0.56))).toBe(true);
    expect(footprintFits(three, mode(['1']), box(0.28, 0.46))).toBe(true);
    expect(footprintFits(three, mode(['1']), box(0.3, 0.3))).toBe(false);
    expect(footprintFits(three, mode(['1']), disc(0.28))).toBe(true);
    expect(footprintFits(three, mode(['1']), disc(0.3))).toBe(false);
    expect(footprintFits(three, mode(['0', '1', '2']), disc(0.01))).toBe(false);
  });

  it('lies over zones of unlike depth where they are deep enough', () => {
    const stairs = grill([
      [0.3, 0.5],
      [0.3, 0.3],
    ]);
    expect(footprintFits(stairs, mode(), box(0.6, 0.3))).toBe(true);
    expect(footprintFits(stairs, mode(), box(0.6, 0.31))).toBe(false);
    expect(footprintFits(stairs, mode(), box(0.31, 0.31))).toBe(false);
    expect(footprintFits(stairs, mode(), box(0.5, 0.3))).toBe(true);
    // A disc of 0.4 m leans over the corner (0.3, 0.3): its centre stands at (0.2, 0.2), 0.1414 m from the corner.
    expect(footprintFits(stairs, mode(), disc(0.4))).toBe(false);
    // One of 0.34 m has its centre at (0.17, 0.17), so that the corner is sqrt(0.13^2 + 0.13^2) = 0.184 m away.
    expect(footprintFits(stairs, mode(), disc(0.34))).toBe(true);
    expect(footprintFits(stairs, mode(), disc(0.3))).toBe(true);
  });

  it('of any size that touches the corner of a step fits just so', () => {
    // The disc touches both edges and the corner (a, a): r = a * sqrt(2) / (1 + sqrt(2)), doubled for the diameter.
    const stairs = grill([
      [0.3, 0.6],
      [0.3, 0.3],
    ]);
    const touching = (2 * 0.3 * Math.SQRT2) / (1 + Math.SQRT2);
    expect(footprintFits(stairs, mode(), disc(touching - 1e-6))).toBe(true);
    expect(footprintFits(stairs, mode(), disc(touching + 1e-6))).toBe(false);
  });

  it('lies within a round grate and its strips', () => {
    const kettle = grill(
      [
        [0.19, 0.57],
        [0.19, 0.57],
        [0.19, 0.57],
      ],
      0.57,
    );
    expect(footprintFits(kettle, mode(), disc(0.57))).toBe(true);
    expect(footprintFits(kettle, mode(), disc(0.571))).toBe(false);
    // The largest square in a circle has its diagonal as the diameter.
    const side = 0.57 / Math.SQRT2;
    expect(footprintFits(kettle, mode(), box(side - 1e-6, side - 1e-6))).toBe(true);
    expect(footprintFits(kettle, mode(), box(side + 1e-6, side + 1e-6))).toBe(false);
    // With the right strip lit, 0.38 m of width remain, from the left edge: a disc of 0.38 m just fits.
    expect(footprintFits(kettle, mode(['2']), disc(0.38))).toBe(true);
    expect(footprintFits(kettle, mode(['2']), disc(0.381))).toBe(false);
    expect(footprintFits(kettle, mode(['1']), disc(0.2))).toBe(false);
    // A rectangle against the lit middle strip: its far corners are 0.285 m from the centre.
    expect(footprintFits(kettle, mode(['1']), box(0.1, 2 * Math.sqrt(0.285 ** 2 - 0.195 ** 2) - 1e-6))).toBe(true);
    expect(footprintFits(kettle, mode(['1']), box(0.1, 2 * Math.sqrt(0.285 ** 2 - 0.195 ** 2) + 1e-6))).toBe(false);
  });

  it('stands on burners that carry its narrower side', () => {
    const burners = [
      { name: 'front', size: 0.23, carries: { low: 0, high: 0.28 } },
      { name: 'back', size: 0.18, carries: { low: 0.16, high: 0.23 } },
    ];
    const on = (footprint: Footprint) => carryingBurners({ kind: 'burners', burners }, { footprint, height: 0.1 });
    expect(on(disc(0.28))).toEqual([0]);
    expect(on(disc(0.2))).toEqual([0, 1]);
    expect(on(disc(0.12))).toEqual([0]);
    expect(on(box(0.46, 0.23))).toEqual([0, 1]);
    expect(on(disc(0.3))).toEqual([]);
    expect(narrowerSide(box(0.46, 0.33))).toBe(0.33);
    const top: Appliance = { ...oven, kind: 'cooktop', surface: { kind: 'burners', burners } };
    expect(footprintFits(top, mode(), disc(0.1))).toBe(false);
  });

  it('may be the piece itself, if it says its sizes', () => {
    const piece = {
      food: 'pork',
      shape: 'cylinder',
      thickness: 0.1,
      width: null,
      length: 0.3,
      weight: null,
      from: null,
      bone: false,
      crust: 0,
    } as const;
    expect(pieceFootprint(piece)).toEqual(box(0.3, 0.1));
    expect(pieceFootprint({ ...piece, shape: 'slab' })).toBeNull();
    expect(pieceFootprint({ ...piece, shape: 'brick', width: 0.2 })).toEqual(box(0.3, 0.2));
    expect(pieceFootprint({ ...piece, shape: 'sphere' })).toEqual(disc(0.1));
    expect(pieceFootprint({ ...piece, thickness: null })).toBeNull();
  });
});
