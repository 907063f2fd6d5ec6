import { describe, expect, it } from 'vitest';
import { placeName } from '../../src/kitchen/place-name.js';
import { shelvesOf, surfaceOf } from '../../src/kitchen/surface-of.js';
import type { Appliance, Burners, Footprint, Grate, Mode, Racks } from '../../src/problem/problem.js';

const appliance = (surface: Grate | Racks | Burners): Appliance => ({
  name: 'grill',
  kind: 'grill',
  surface,
  modes: [],
  heats: 14,
  cools: 8,
  dial: { unit: 'C', step: 5 },
});
const mode = (lit: readonly string[], height: number | null = null): Mode => ({
  name: 'roast',
  lid: 'closed',
  heat: { low: 110, high: 260 },
  lit,
  height,
});
const zones = [
  { name: 'left', x: 0, width: 0.28, depth: 0.46 },
  { name: 'middle', x: 0.28, width: 0.28, depth: 0.46 },
  { name: 'right', x: 0.56, width: 0.28, depth: 0.46 },
];
const grill = appliance({ kind: 'grate', zones, round: null });
const oven = appliance({ kind: 'racks', count: 2, width: 0.56, depth: 0.41, height: 0.38, clearance: 0.04 });
const hob = appliance({ kind: 'burners', burners: [{ name: 'front', size: 0.2, carries: { low: 0, high: 0.25 } }] });

describe('surfaceOf', () => {
  it('makes one strip of a rack', () => {
    expect(surfaceOf(oven, null)).toEqual({ strips: [{ x: 0, width: 0.56, depth: 0.41 }], round: null });
  });

  it('joins neighbours of one depth', () => {
    const { strips } = surfaceOf(grill, null);
    expect(strips).toHaveLength(1);
    expect(strips[0]!.x).toBe(0);
    expect(strips[0]!.width).toBeCloseTo(0.84, 12);
  });

  it('leaves out what is lit, at the side or in the middle', () => {
    expect(surfaceOf(grill, mode(['right'])).strips).toEqual([{ x: 0, width: 0.56, depth: 0.46 }]);
    const parted = surfaceOf(grill, mode(['middle'])).strips;
    expect(parted.map(({ x }) => x)).toEqual([0, 0.56]);
  });

  it('keeps neighbours of different depth apart but touching', () => {
    const steps = [zones[0]!, { ...zones[1]!, depth: 0.4 }];
    const { strips } = surfaceOf(appliance({ kind: 'grate', zones: steps, round: null }), null);
    expect(strips).toEqual([
      { x: 0, width: 0.28, depth: 0.46 },
      { x: 0.28, width: 0.28, depth: 0.4 },
    ]);
  });

  it('makes strips of a circle of the zones of a round grate', () => {
    const halves = [
      { name: 'coals', x: 0, width: 0.2, depth: 0.57 },
      { name: 'shade', x: 0.2, width: 0.37, depth: 0.57 },
    ];
    const kettle = appliance({ kind: 'grate', zones: halves, round: 0.57 });
    expect(surfaceOf(kettle, mode(['coals']))).toEqual({ strips: [{ x: 0.2, width: 0.37, depth: 0.57 }], round: 0.57 });
  });

  it('refuses burners', () => {
    expect(() => surfaceOf(hob, null)).toThrow(RangeError);
  });
});

describe('shelvesOf', () => {
  it('gives racks their cavity and a grate none', () => {
    expect(shelvesOf(oven, null)).toMatchObject({
      levels: 2,
      height: 0.38,
      clearance: 0.04,
      limit: Number.POSITIVE_INFINITY,
    });
    expect(shelvesOf(grill, mode([], 0.22))).toMatchObject({
      levels: 1,
      height: Number.POSITIVE_INFINITY,
      clearance: 0,
      limit: 0.22,
    });
  });
});

describe('placeName', () => {
  const tray: Footprint = { kind: 'rectangle', width: 0.33, depth: 0.46 };
  const at = (x: number, turned = false) => ({ level: 2, spot: { x, y: 0, turned } });

  it('numbers racks', () => {
    expect(placeName(oven, tray, at(0))).toBe('rack 2');
  });

  it('names the zones below it from left to right', () => {
    expect(placeName(grill, tray, at(0))).toBe('left + middle');
    expect(placeName(grill, tray, at(0.25))).toBe('left + middle + right');
    expect(placeName(grill, { kind: 'round', diameter: 0.28 }, at(0.28))).toBe('middle');
  });

  it('goes by the turned width', () => {
    const slim: Footprint = { kind: 'rectangle', width: 0.4, depth: 0.2 };
    expect(placeName(grill, slim, at(0))).toBe('left + middle');
    expect(placeName(grill, slim, at(0, true))).toBe('left');
  });

  it('refuses burners', () => {
    expect(() => placeName(hob, tray, at(0))).toThrow(RangeError);
  });
});
