/**
 * What fits where, against sizes and packings that others have published. Sheet pan sizes: US baking-trade convention, outside
 * rim, inches. Gastronorm sizes: EN 631-1, millimetres. Best packings of equal circles: the values are from memory; those up to
 * nine in a square and seven in a circle are proven optimal in the literature that is named.
 */
import { describe, expect, it } from 'vitest';
import { type Packing, pack } from '../../src/kitchen/pack.js';
import type { Surface } from '../../src/kitchen/surface.js';
import type { Footprint } from '../../src/problem/problem.js';

const rack = (width: number, depth: number): Surface => ({ strips: [{ x: 0, width, depth }], round: null });
const disc = (diameter: number): Footprint => ({ kind: 'round', diameter });
const times = (count: number, footprint: Footprint): Footprint[] => new Array<Footprint>(count).fill(footprint);
const inches = (width: number, depth: number): Footprint => ({
  kind: 'rectangle',
  width: width * 0.0254,
  depth: depth * 0.0254,
});
const inchRack = (width: number, depth: number): Surface => rack(width * 0.0254, depth * 0.0254);
const millimetres = (width: number, depth: number): Footprint => ({
  kind: 'rectangle',
  width: width / 1000,
  depth: depth / 1000,
});

const fits = (packing: Packing): boolean => packing.spots !== null;
const PROVEN_NOT: Packing = { spots: null, proof: true };

describe('sheet pans (US baking-trade convention, outside rim)', () => {
  const full = inches(18, 26);
  const threeQuarter = inches(15, 21);
  const half = inches(13, 18);
  const quarter = inches(9, 13);
  const eighth = inches(6.5, 9);

  it('a half sheet goes into a domestic oven, a full sheet does not (trade guidance, rack of 24 x 16 in)', () => {
    const oven = inchRack(24, 16);
    expect(fits(pack(oven, [half]))).toBe(true);
    expect(fits(pack(oven, [threeQuarter]))).toBe(true);
    expect(pack(oven, [full])).toEqual(PROVEN_NOT);
    expect(pack(oven, [half, half])).toEqual(PROVEN_NOT);
  });

  it('a half sheet goes on the rack of a 60 cm built-in oven only the one way round (46 x 38 cm, common practice, no source)', () => {
    expect(pack(rack(0.46, 0.38), [half])).toEqual({ spots: [{ x: 0, y: 0, turned: true }] });
    expect(pack(rack(0.45, 0.38), [half])).toEqual(PROVEN_NOT);
  });

  it('half, quarter and eighth sheets fill the area of the next larger one exactly', () => {
    const onFull = inchRack(18, 26);
    const onHalf = inchRack(13, 18);
    expect(fits(pack(onFull, times(2, half)))).toBe(true);
    expect(fits(pack(onHalf, times(2, quarter)))).toBe(true);
    expect(fits(pack(onHalf, times(4, eighth)))).toBe(true);
    expect(fits(pack(onHalf, [quarter, eighth, eighth]))).toBe(true);
    expect(fits(pack(onFull, [half, quarter, quarter]))).toBe(true);
    expect(fits(pack(onFull, [half, quarter, eighth, eighth]))).toBe(true);
  });

  it('a hair less than the area and they do not', () => {
    expect(pack(inchRack(13, 17.99), times(2, quarter))).toEqual(PROVEN_NOT);
    expect(pack(inchRack(13, 17.99), times(4, eighth))).toEqual(PROVEN_NOT);
    expect(pack(inchRack(13, 18), [quarter, eighth, eighth, eighth])).toEqual(PROVEN_NOT);
    // Some makers print 9.5 x 13 in (from memory): two of those are 19 in on 18 in.
    expect(pack(inchRack(13, 18), times(2, inches(9.5, 13)))).toEqual(PROVEN_NOT);
  });
});

describe('gastronorm (EN 631-1)', () => {
  const whole = rack(0.53, 0.325);
  const double = rack(0.65, 0.53);
  const gn = {
    '1/1': millimetres(530, 325),
    '2/3': millimetres(354, 325),
    '2/4': millimetres(530, 162),
    '1/2': millimetres(325, 265),
    '1/3': millimetres(325, 176),
    '1/4': millimetres(265, 162),
    '1/6': millimetres(176, 162),
    '1/9': millimetres(176, 108),
  };

  it.each([
    ['2 x 1/2', times(2, gn['1/2'])],
    ['3 x 1/3', times(3, gn['1/3'])],
    ['2/3 + 1/3', [gn['2/3'], gn['1/3']]],
    ['2 x 2/4', times(2, gn['2/4'])],
    ['4 x 1/4', times(4, gn['1/4'])],
    ['1/2 + 2 x 1/4', [gn['1/2'], ...times(2, gn['1/4'])]],
    ['2/4 + 2 x 1/4', [gn['2/4'], ...times(2, gn['1/4'])]],
    ['6 x 1/6', times(6, gn['1/6'])],
    ['2/3 + 2 x 1/6', [gn['2/3'], ...times(2, gn['1/6'])]],
    ['2 x 1/3 + 3 x 1/9', [...times(2, gn['1/3']), ...times(3, gn['1/9'])]],
    ['1/3 + 2 x 1/6 + 3 x 1/9', [gn['1/3'], ...times(2, gn['1/6']), ...times(3, gn['1/9'])]],
    ['2 x 1/6 + 6 x 1/9', [...times(2, gn['1/6']), ...times(6, gn['1/9'])]],
    ['9 x 1/9', times(9, gn['1/9'])],
  ])('%s make 1/1', (_, pans) => {
    expect(fits(pack(whole, pans))).toBe(true);
  });

  it.each([
    ['3 x 1/2', times(3, gn['1/2'])],
    ['4 x 1/3', times(4, gn['1/3'])],
    ['2/3 + 1/2', [gn['2/3'], gn['1/2']]],
    ['2/3 + 1/3 + 1/9', [gn['2/3'], gn['1/3'], gn['1/9']]],
    ['5 x 1/4', times(5, gn['1/4'])],
    ['7 x 1/6', times(7, gn['1/6'])],
    // The areas would allow it, the lengths do not: 265 + 176 leave 89 mm of 530.
    ['1/2 + 1/3 + 1/9', [gn['1/2'], gn['1/3'], gn['1/9']]],
  ])('%s are more than 1/1', (_, pans) => {
    expect(pack(whole, pans)).toEqual(PROVEN_NOT);
  });

  it('two 1/1 make 2/1, and so do four 1/2 and eight 1/4', () => {
    expect(fits(pack(double, times(2, gn['1/1'])))).toBe(true);
    expect(fits(pack(double, times(4, gn['1/2'])))).toBe(true);
    expect(fits(pack(double, times(8, gn['1/4'])))).toBe(true);
    expect(fits(pack(double, [gn['1/1'], ...times(3, gn['1/3'])]))).toBe(true);
  });
});

describe('equal circles in a square (radii for the unit square; Schaer and Meir 1965, Schaer 1965, Melissen 1994, from memory)', () => {
  const SIDE = 0.5;
  it.each([
    [2, 0.292893218813],
    [3, 0.25433309503],
    [4, 0.25],
    [5, 0.207106781187],
    [6, 0.187680601147],
    [7, 0.174457630187],
    [8, 0.170540688701],
  ])('%i of them, radius %f: within one in a thousand', (count, radius) => {
    const diameter = 2 * radius * SIDE;
    const square = rack(SIDE, SIDE);
    expect(fits(pack(square, times(count, disc(diameter * 0.999))))).toBe(true);
    const over = pack(square, times(count, disc(diameter * 1.001)));
    expect(over.spots).toBeNull();
    // Proven too, as long as there are few.
    if (count <= 5) expect(over).toEqual(PROVEN_NOT);
  });

  it('two and four exactly', () => {
    expect(fits(pack(rack(SIDE, SIDE), times(2, disc((2 - Math.SQRT2) * SIDE))))).toBe(true);
    expect(fits(pack(rack(SIDE, SIDE), times(4, disc(SIDE / 2))))).toBe(true);
    expect(fits(pack(rack(SIDE, SIDE), times(9, disc(SIDE / 3))))).toBe(true);
  });
});

describe('equal circles in a circle (ratios of the radii; Graham 1968, Pirl 1969, from memory)', () => {
  const ACROSS = 0.57;
  const grate: Surface = { strips: [{ x: 0, width: ACROSS, depth: ACROSS }], round: ACROSS };
  it.each([
    [2, 2],
    [3, 1 + 2 / Math.sqrt(3)],
    [4, 1 + Math.SQRT2],
    [5, 2.701301617],
    [6, 3],
    [7, 3],
    [8, 3.304764871],
  ])('%i of them, ratio %f: within one in a thousand', (count, ratio) => {
    const diameter = ACROSS / ratio;
    expect(fits(pack(grate, times(count, disc(diameter * 0.999))))).toBe(true);
    const over = pack(grate, times(count, disc(diameter * 1.001)));
    expect(over.spots).toBeNull();
    if (count <= 4) expect(over).toEqual(PROVEN_NOT);
  });

  it('the closed ratios exactly: 2, 3, 4 and 7', () => {
    for (const [count, ratio] of [
      [2, 2],
      [3, 1 + 2 / Math.sqrt(3)],
      [4, 1 + Math.SQRT2],
      [7, 3],
    ] as const) {
      expect(fits(pack(grate, times(count, disc(ACROSS / ratio))))).toBe(true);
    }
  });

  it('a rectangle in a circle: no longer than its diagonal allows (Thales)', () => {
    const side = (ACROSS * 3) / 5;
    const other = (ACROSS * 4) / 5;
    const exact: Footprint = { kind: 'rectangle', width: side, depth: other };
    expect(fits(pack(grate, [exact]))).toBe(true);
    expect(pack(grate, [{ kind: 'rectangle', width: side, depth: other * 1.0001 }])).toEqual(PROVEN_NOT);
  });
});

describe('circles in a rectangle', () => {
  it('two rows that interlock need (1 + √3/2) diameters of depth (hexagonal packing)', () => {
    const d = 0.2;
    const depth = d * (1 + Math.sqrt(3) / 2);
    expect(fits(pack(rack(2 * d, depth), times(3, disc(d))))).toBe(true);
    expect(fits(pack(rack(3 * d, depth), times(5, disc(d))))).toBe(true);
    expect(pack(rack(2 * d, depth * 0.999), times(3, disc(d)))).toEqual(PROVEN_NOT);
    expect(pack(rack(3 * d, depth * 0.995), times(5, disc(d))).spots).toBeNull();
  });

  it('two in opposite corners: (w − d)² + (h − d)² is d² at the limit (Pythagoras)', () => {
    // 3, 4, 5: w − d = 12 cm, h − d = 16 cm, d = 20 cm.
    expect(fits(pack(rack(0.32, 0.36), times(2, disc(0.2))))).toBe(true);
    expect(pack(rack(0.32, 0.3599), times(2, disc(0.2)))).toEqual(PROVEN_NOT);
  });

  it('a round pan reaches beside the corner of a tray: the distance counts, not the boxes (Pythagoras)', () => {
    // The centre of a 20 cm pan is 6 cm right of and 8 cm behind the corner of the tray.
    const tray: Footprint = { kind: 'rectangle', width: 0.25, depth: 0.25 };
    const surface = rack(0.25 + 0.06 + 0.1, 0.25 + 0.08 + 0.1);
    expect(fits(pack(surface, [tray, disc(0.2)]))).toBe(true);
    expect(pack(rack(0.4095, 0.43), [tray, disc(0.2)])).toEqual(PROVEN_NOT);
  });
});
