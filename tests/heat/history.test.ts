import { describe, expect, it } from 'vitest';
import type { Body } from '../../src/heat/body.js';
import { FOODS } from '../../src/heat/composition.js';
import { valueAt } from '../../src/heat/history.js';
import { matterOf } from '../../src/heat/properties.js';
import { everywhere, goThrough, type Stretch } from '../../src/heat/stretch.js';
import { air, meat, onPlate, oven } from '../support/pieces.js';

const pork = matterOf(FOODS.pork.composition);
const LOIN: Body = { shape: 'cylinder', thickness: 0.1, length: 0.34 };
const STEAK: Body = { shape: 'slab', thickness: 0.04, width: 0.1, length: 0.15 };
const BLOCK: Body = { shape: 'brick', thickness: 0.08, width: 0.12, length: 0.2 };
const searEachSide: readonly Stretch[] = [
  { around: { ...everywhere(oven(25, 5)), bottom: onPlate(230) }, until: { seconds: 240 } },
  { around: { ...everywhere(oven(25, 5)), top: onPlate(230) }, until: { seconds: 240 } },
];

describe('what the history holds', () => {
  it('is the coldest place, the mean, each side’s mean, and water that has left', () => {
    const { history } = goThrough({ body: BLOCK, matter: pork, celsius: 4 }, [
      ...searEachSide,
      { around: everywhere(oven(165)), until: { seconds: 3600 } },
    ]);
    expect(Object.keys(history.surface)).toEqual(['bottom', 'top', 'side']);
    for (const row of history.seconds.keys()) {
      expect(history.coldest[row]).toBeLessThanOrEqual(history.core[row]!);
      expect(history.coldest[row]).toBeLessThanOrEqual(history.mean[row]!);
    }
    expect(history.waterLost.at(-1)).toBeGreaterThan(0.05);
    expect(history.waterLost.at(-1)).toBeLessThan(0.5);
  });

  it('has only the sides that exchange heat', () => {
    const run = (body: Body) =>
      Object.keys(
        goThrough({ body, matter: meat, celsius: 4 }, [{ around: air(160, 20), until: { seconds: 60 } }]).history
          .surface,
      );
    expect(run({ shape: 'sphere', thickness: 0.1 })).toEqual(['side']);
    expect(run(STEAK)).toEqual(['top']);
    expect(run(LOIN)).toEqual(['top', 'side']);
  });

  it('gives values between rows, and the ends beyond them', () => {
    const { history } = goThrough({ body: STEAK, matter: meat, celsius: 4 }, [
      { around: air(160, 20), until: { seconds: 600 } },
    ]);
    const { core, seconds } = history;
    expect(valueAt(history, core, -5)).toBe(core[0]);
    expect(core[0]).toBeCloseTo(4, 9);
    expect(valueAt(history, core, 1e6)).toBe(core.at(-1));
    expect(valueAt(history, core, (seconds[7]! + seconds[8]!) / 2)).toBeCloseTo((core[7]! + core[8]!) / 2, 12);
    expect(valueAt(history, core, seconds[5]!)).toBe(core[5]);
  });
});
