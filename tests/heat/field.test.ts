import { describe, expect, it } from 'vitest';
import { fieldOf, widened } from '../../src/heat/field.js';
import { stateAt } from '../../src/heat/properties.js';
import { everywhere, goThrough } from '../../src/heat/stretch.js';
import { air, meat, onPlate, oven } from '../support/pieces.js';

const piece = {
  body: { shape: 'brick', thickness: 0.06, width: 0.09, length: 0.12 },
  matter: meat,
  celsius: 5,
} as const;
const FINENESS = { cells: 5, across: 4 };

describe('fieldOf', () => {
  it('is one temperature throughout, with nothing lost', () => {
    const field = fieldOf(piece, FINENESS, { upright: 'half', across: 'half' });
    for (const heat of field.heat) expect(stateAt(meat, heat).celsius).toBeCloseTo(5, 9);
    expect(field.lost).toHaveLength(3);
    expect(field.lost.every((lost) => lost.every((each) => each === 0))).toBe(true);
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

  it('writes out the mirrored half, heat and lost water', () => {
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
    expect(whole.lost).toHaveLength(4);
    expect(whole.lost[0]![0]).toBe(half.lost[0]![cells]);
    expect(whole.lost[1]![2 * cells]).toBe(half.lost[0]![cells]);
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
