import { describe, expect, it } from 'vitest';
import { evened, fieldOf, widened } from '../../src/heat/field.js';
import { stateAt } from '../../src/heat/properties.js';
import { everywhere, goThrough, TABLE } from '../../src/heat/stretch.js';
import { air, meat, onPlate, oven } from '../support/pieces.js';

const piece = {
  body: { shape: 'brick', thickness: 0.06, width: 0.09, length: 0.12 },
  matter: meat,
  celsius: 5,
} as const;
const FINENESS = { cells: 5, across: 4 };

describe('fieldOf', () => {
  it('is one temperature throughout, with nothing lacking', () => {
    const field = fieldOf(piece, FINENESS, { upright: 'half', across: 'half' });
    for (const heat of field.heat) expect(stateAt(meat, heat).celsius).toBeCloseTo(5, 9);
    expect(field.lacks).toHaveLength(3);
    expect(field.lacks.every((lacks) => lacks.every((each) => each === 0))).toBe(true);
  });

  it('refuses what no food is', () => {
    for (const celsius of [-50, 500, Number.NaN]) {
      expect(() => fieldOf({ ...piece, celsius }, FINENESS, { upright: 'half', across: 'half' })).toThrow(RangeError);
    }
  });
});

describe('widened', () => {
  const half = goThrough(piece, [{ around: everywhere(oven(160)), until: { seconds: 900 } }]).field;

  it('leaves a field that keeps enough', () => {
    expect(widened(half, { upright: 'one', across: 'half' })).toBe(half);
  });

  it('writes out the mirrored half, heat and lacking water', () => {
    const whole = widened(half, { upright: 'whole', across: 'half' });
    const [before, after] = [half.grid, whole.grid];
    const cells = before.axes[0]!.nodes.length - 1;
    expect(after.count).toBe((before.count / (cells + 1)) * (2 * cells + 1));
    for (let n = 0; n <= cells; n++) {
      expect(whole.heat[cells + n]).toBe(half.heat[n]);
      expect(whole.heat[cells - n]).toBe(half.heat[n]);
    }
    expect(whole.heat[after.core]).toBe(half.heat[before.core]);
    // bottom, top, side, side
    expect(whole.lacks).toHaveLength(4);
    expect(whole.lacks[0]![0]).toBe(half.lacks[0]![cells]);
    expect(whole.lacks[1]![2 * cells]).toBe(half.lacks[0]![cells]);
  });

  it('spreads one cell over an axis that had no exchange', () => {
    const flat = goThrough({ ...piece, body: { ...piece.body } }, [
      { around: { ...air(160, 20), side: { air: 20, coefficient: 0 } }, until: { seconds: 900 } },
    ]).field;
    const wide = widened(flat, { upright: 'whole', across: 'half' });
    expect(wide.heat[wide.grid.core]).toBe(flat.heat[flat.grid.core]);
    expect(wide.heat.at(-1)).toBe(flat.heat.at(-1));
  });

  it('goes on as if it had been whole from the beginning', () => {
    const roast = { around: everywhere(oven(160)), until: { seconds: 1500 } };
    const sear = { around: { ...everywhere(oven(160)), bottom: onPlate(250) }, until: { seconds: 120 } };
    const inOne = goThrough(piece, [roast, sear]);
    const [first] = [goThrough(piece, [roast])];
    const second = goThrough(first.field, [sear]);
    expect(second.ends[0]!.core).toBeCloseTo(inOne.ends[1]!.core, 6);
    expect(second.history.surface.bottom!.at(-1)).toBeCloseTo(inOne.history.surface.bottom!.at(-1)!, 6);
  });
});

describe('evened', () => {
  const roast = { around: everywhere(oven(160)), until: { seconds: 1500 } };
  const seared = goThrough(piece, [
    { around: { ...everywhere(oven(25, 5)), bottom: onPlate(250) }, until: { seconds: 300 } },
    { around: { ...everywhere(oven(25, 5)), top: onPlate(250) }, until: { seconds: 300 } },
  ]).field;

  it('undoes what wrote a half out', () => {
    const half = goThrough(piece, [roast]).field;
    expect(evened(widened(half, { upright: 'whole', across: 'half' }))).toEqual(half);
    expect(evened(half)).toBe(half);
  });

  it('keeps the heat and the water', () => {
    const half = evened(seared);
    const [before, after] = [seared, half].map((field) => {
      const { axes, strides, copies } = field.grid;
      const volume = (i: number): number =>
        axes.reduce((all, { sizes }, a) => all * sizes[Math.floor(i / strides[a]!) % sizes.length]!, copies);
      return field.heat.reduce((sum, heat, i) => sum + volume(i) * heat, 0);
    });
    expect(after! / before!).toBeCloseTo(1, 12);
    const { grid, lacks } = seared;
    const top = grid.axes[0]!.nodes.length - 1;
    expect(half.lacks).toHaveLength(3);
    expect(half.lacks[0]![half.grid.axes[0]!.nodes.length - 1]).toBe((lacks[0]![0]! + lacks[1]![top]!) / 2);
  });

  it('hardly shows in the core, however differently top and bottom were seared', () => {
    const [even, uneven] = [true, false].map((evens) => goThrough(seared, [roast], { ...TABLE, evens }));
    expect(even!.field.grid.count).toBeLessThan(0.6 * uneven!.field.grid.count);
    expect(Math.abs(even!.ends[0]!.core - uneven!.ends[0]!.core)).toBeLessThan(0.2);
  });
});
