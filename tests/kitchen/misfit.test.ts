import { describe, expect, it } from 'vitest';
import { explainBurners, explainMisfit, type NamedLoad } from '../../src/kitchen/misfit.js';
import { saySize, unitOf } from '../../src/kitchen/say-size.js';
import type { Appliance, Grate, Mode, Racks } from '../../src/problem/problem.js';

const INCH = 0.0254;
const roast: Mode = { name: 'roast', lid: 'closed', heat: { low: 110, high: 260 }, lit: [], height: null };
const appliance = (name: string, surface: Grate | Racks): Appliance => ({
  name,
  kind: surface.kind === 'racks' ? 'oven' : 'grill',
  surface,
  modes: [roast],
  heats: 10,
  cools: 5,
  dial: { unit: 'C', step: 5 },
});
const oven = (width: number, depth: number, count: number, height: number, clearance = 0, unit = INCH) =>
  appliance('oven', {
    kind: 'racks',
    count,
    width: width * unit,
    depth: depth * unit,
    height: height * unit,
    clearance: clearance * unit,
  });
const pan = (name: string, width: number, depth: number, height: number, unit = INCH): NamedLoad => ({
  name,
  footprint: { kind: 'rectangle', width: width * unit, depth: depth * unit },
  height: height * unit,
});
const pot = (name: string, diameter: number, height: number, unit = INCH): NamedLoad => ({
  name,
  footprint: { kind: 'round', diameter: diameter * unit },
  height: height * unit,
});

const half = pan('half sheet', 13, 18, 1);
const quarter = pan('quarter sheet', 9, 13, 1);

describe('explainMisfit', () => {
  it('says nothing where all fit', () => {
    expect(explainMisfit(oven(22, 18, 2, 15, 2), roast, [half, half])).toBeNull();
  });

  it('says by how much two do not go beside each other, and which pan does', () => {
    expect(explainMisfit(oven(23, 18, 1, 15), roast, [half, pot('skillet', 14, 2)], [quarter, half])).toBe(
      'the 13 x 18 in half sheet will not go beside the 14 in skillet: 27 in on 23 in; the 9 x 13 in quarter sheet does',
    );
    expect(explainMisfit(oven(22, 18, 1, 15), roast, [half, half], [quarter])).toBe(
      'the 13 x 18 in half sheet will not go beside a second one: 26 in on 22 in; the 9 x 13 in quarter sheet does',
    );
  });

  it('names the pan to put in the place of the second where the first has to stay', () => {
    expect(explainMisfit(oven(22, 18, 1, 15), roast, [half, pot('skillet', 14, 2)], [quarter])).toBe(
      'the 13 x 18 in half sheet will not go beside the 14 in skillet: 27 in on 22 in; ' +
        'it goes with the 9 x 13 in quarter sheet instead of the skillet',
    );
  });

  it('leaves those out that are not to blame', () => {
    const small = pot('ramekin', 3, 2);
    expect(explainMisfit(oven(22, 18, 1, 15), roast, [small, half, small, half])).toBe(
      'the 13 x 18 in half sheet will not go beside a second one: 26 in on 22 in',
    );
  });

  it('compares areas where there is simply too much', () => {
    expect(explainMisfit(oven(22, 18, 1, 15), roast, [quarter, quarter, quarter, quarter])).toBe(
      '4 of the 9 x 13 in quarter sheet will not go together on the rack of the oven (22 x 18 in): 468 sq in on 396 sq in',
    );
  });

  it('counts racks', () => {
    expect(explainMisfit(oven(22, 18, 2, 15, 2), roast, [half, half, half])).toBe(
      '3 of the 13 x 18 in half sheet need more than the 2 racks of the oven',
    );
  });

  it('adds up heights, with the room above each', () => {
    const cm = 0.01;
    expect(
      explainMisfit(oven(56, 41, 2, 38, 4, cm), roast, [pot('stock pot', 40, 28, cm), pan('tray', 33, 41, 5, cm)]),
    ).toBe(
      'the stock pot (28 cm high) and the tray (5 cm high), with 4 cm free above each level, need 41 cm; ' +
        'the cavity of the oven has 38 cm',
    );
  });

  it('tells what is too tall or too large by itself', () => {
    expect(explainMisfit(oven(22, 16, 1, 10, 2), roast, [pot('stock pot', 12, 11)])).toBe(
      'the stock pot (11 in high) needs 13 in with the room above it; the cavity of the oven has 10 in',
    );
    expect(explainMisfit(oven(12, 16, 1, 10), roast, [half])).toBe(
      'the 13 x 18 in half sheet does not go on the rack of the oven (12 x 16 in)',
    );
  });

  it('blames the lit zone where it takes the room', () => {
    const cm = 0.01;
    const grill = appliance('grill', {
      kind: 'grate',
      zones: ['left', 'middle', 'right'].map((name, i) => ({ name, x: i * 0.28, width: 0.28, depth: 0.46 })),
      round: null,
    });
    const low: Mode = { ...roast, lit: ['middle'], height: 0.22 };
    expect(explainMisfit(grill, low, [pan('half sheet', 33, 46, 3, cm)])).toBe(
      'the 33 x 46 cm half sheet does not go on left and right while middle is lit',
    );
    expect(explainMisfit(grill, low, [pan('pot', 20, 20, 23, cm)])).toBe(
      'the pot is 23 cm high; the grill takes 22 cm in roast',
    );
    const side: Mode = { ...roast, lit: ['right'] };
    expect(explainMisfit(grill, side, [pan('half sheet', 33, 46, 3, cm), pot('skillet', 26, 5, cm)])).toBe(
      'the 33 x 46 cm half sheet will not go beside the 26 cm skillet: 59 cm on 56 cm while right is lit',
    );
  });
});

describe('explainBurners', () => {
  const burners = {
    kind: 'burners' as const,
    burners: [
      { name: 'front', size: 0.23, carries: { low: 0, high: 0.28 } },
      { name: 'back', size: 0.18, carries: { low: 0.12, high: 0.23 } },
    ],
  };

  it('names what each carries', () => {
    expect(explainBurners(burners, pan('roasting pan', 30, 41, 9, 0.01))).toBe(
      'the roasting pan is 30 cm on its narrower side, and no burner carries that: front up to 28 cm and back 12 cm to 23 cm',
    );
    expect(explainBurners(burners, pot('skillet', 26, 5, 0.01))).toBeNull();
  });
});

describe('unitOf', () => {
  it('takes inches only for sizes that are whole half inches and not all whole half centimetres', () => {
    expect(unitOf([13 * INCH, 18 * INCH])).toBe('in');
    expect(unitOf([0.33, 0.457])).toBe('in');
    expect(unitOf([0.33, 0.46])).toBe('cm');
    expect(unitOf([0.635])).toBe('cm');
    expect(unitOf([13 * INCH, 0.28])).toBe('cm');
  });

  it('shows both kinds of footprint', () => {
    expect(saySize(half.footprint, 'in')).toBe('13 x 18 in');
    expect(saySize({ kind: 'round', diameter: 0.26 }, 'cm')).toBe('26 cm');
  });
});
