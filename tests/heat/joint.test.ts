import { describe, expect, it } from 'vitest';
import type { Body } from '../../src/heat/body.js';
import { CALIBRATION } from '../../src/heat/calibration.js';
import { FOODS } from '../../src/heat/composition.js';
import { type Joint, matterFor, pieceOf } from '../../src/heat/joint.js';
import { stateAt } from '../../src/heat/properties.js';

const BALL: Body = { shape: 'sphere', thickness: 0.2 };
const joint = (over: Partial<Joint> = {}): Joint => ({
  food: FOODS.lamb,
  body: BALL,
  from: 5,
  bone: false,
  crust: 0,
  ...over,
});

describe('a joint', () => {
  it('is denser with its bone, by a few per cent, and takes its heat much as before', () => {
    const [boned, whole] = [matterFor(joint()), matterFor(joint({ bone: true }))];
    expect(whole.density / boned.density).toBeGreaterThan(1.005);
    expect(whole.density / boned.density).toBeLessThan(1.06);
    const diffusivity = (matter: typeof boned): number => {
      const { conductivity, capacity } = stateAt(matter, 1.5e8);
      return conductivity / capacity;
    };
    expect(Math.abs(diffusivity(whole) / diffusivity(boned) - 1)).toBeLessThan(0.05);
  });

  it('keeps its properties, food by food', () => {
    expect(matterFor(joint())).toBe(matterFor(joint({ from: 20 })));
    expect(matterFor(joint())).not.toBe(matterFor(joint({ food: FOODS.pork })));
  });

  it('is a hollow bird where it is a ball of poultry', () => {
    for (const food of [FOODS.chicken, FOODS.turkey, FOODS.duck])
      expect(pieceOf(joint({ food }), CALIBRATION).body.thickness).toBeCloseTo(0.2 * CALIBRATION.bird);
    expect(pieceOf(joint(), CALIBRATION).body.thickness).toBe(0.2);
    const breast: Body = { shape: 'slab', thickness: 0.03, width: null, length: null };
    expect(pieceOf(joint({ food: FOODS.chicken, body: breast }), CALIBRATION).body).toEqual(breast);
  });

  it.each<Body>([
    BALL,
    { shape: 'cylinder', thickness: 0.1, length: 0.3 },
    { shape: 'brick', thickness: 0.1, width: 0.2, length: 0.3 },
    { shape: 'slab', thickness: 0.03, width: null, length: null },
  ])('grows in all its sizes that count: $shape', (body) => {
    const { body: bigger } = pieceOf(joint({ body }), CALIBRATION, 1.1);
    for (const [name, size] of Object.entries(body))
      if (typeof size === 'number') expect(bigger[name as keyof Body]).toBeCloseTo(1.1 * size);
    expect(bigger.shape).toBe(body.shape);
  });
});
