/** Minutes between cold and hot along known temperatures and along the steps of a plan. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../src/safety/cautions.js';
import { type DishCurve, stretchesBetween } from '../../src/safety/curve.js';
import { exposureOf, zoneStretches } from '../../src/safety/exposure.js';
import { mealOf } from '../../src/safety/meal.js';
import { DANGER_ZONE, TRADE_ZONE } from '../../src/safety/published.js';
import { planOf, type RowSpec } from '../audit/plan-builder.js';
import type { DishSpec } from '../support/problem-builder.js';
import { mealWith } from './meals.js';

const dishOf = (food: string): DishSpec => ({
  dish: 'Roast',
  piece: { food },
  steps: [
    { step: 'temper', work: 'rest', takes: { low: 30, high: 120 } },
    { step: 'roast', work: 'roast', place: 'oven', pan: 'tray', core: 74 },
    { step: 'rest', work: 'rest', takes: { low: 10, high: 90 } },
  ],
});
/** Tempered from 300, roasted from 360 to 460, rests until 540, served at 600. */
const ROWS: Record<string, RowSpec> = {
  'Roast/temper': { at: [300, 360] },
  'Roast/roast': { at: [360, 460], in: ['oven', 'roast'], celsius: 160, pan: 'tray' },
  'Roast/rest': { at: [460, 540] },
};
function spent(food: string, curve: DishCurve | null, zone: typeof DANGER_ZONE | typeof TRADE_ZONE = DANGER_ZONE) {
  const problem = mealWith([dishOf(food)]);
  const meal = mealOf(problem, planOf(problem, { steps: ROWS }), curve === null ? undefined : new Map([[0, curve]]));
  return exposureOf(meal, meal.timetable!, 0, zone);
}

/** From minute -60: cold until the heat; the surface is at 80 °C at its end and at 40 °C two hours later. */
const CURVE: DishCurve = {
  minutes: [-60, 0, 100, 220],
  celsius: [3, 3, 70, 64],
  surface: [3, 15, 80, 40],
};

describe('exposure', () => {
  it('is every minute off the heat where nothing is known of the temperature', () => {
    expect(spent('pork', null)).toEqual({ before: 60, after: 140 });
    expect(spent('pork', null, TRADE_ZONE)).toEqual({ before: 60, after: 140 });
    // Without a surface, nothing is known of what cools first.
    expect(spent('pork', { minutes: CURVE.minutes, celsius: CURVE.celsius })).toEqual({ before: 60, after: 140 });
  });

  it('of an intact piece goes by its surface', () => {
    const { before, after } = spent('pork', CURVE);
    // 3 to 15 °C in an hour: above 4 °C from minute 5 on. 80 to 40 °C in two: below 60 °C after the first.
    expect(before).toBeCloseTo(55, 6);
    expect(after).toBeCloseTo(60 + 20, 6);
  });

  it('of anything else goes by any part of it', () => {
    const cold = { ...CURVE, celsius: [3, 3, 70, 20], surface: [3, 3.5, 80, 80] };
    expect(spent('chicken', cold).before).toBeCloseTo(0, 6);
    // The core falls from 70 to 20 °C in two hours: below 60 °C after 24 minutes, until the curve ends, and 20 more.
    expect(spent('chicken', cold).after).toBeCloseTo(96 + 20, 6);
    // A cold core under a hot surface: between them every temperature.
    const [stretch] = zoneStretches({ minutes: [0, 10], celsius: [2, 2], surface: [90, 90] }, false, DANGER_ZONE)!;
    expect(stretch).toEqual({ start: 0, end: 10 });
    expect(zoneStretches({ minutes: [0, 10], celsius: [2, 2], surface: [90, 90] }, true, DANGER_ZONE)).toEqual([]);
  });

  it('is less between the narrower limits of the trade', () => {
    const [wide, narrow] = [spent('pork', CURVE), spent('pork', CURVE, TRADE_ZONE)];
    expect(narrow.before).toBeCloseTo(50, 6);
    expect(narrow.after).toBeCloseTo(51 + 20, 6);
    expect(narrow.before + narrow.after).toBeLessThan(wide.before + wide.after);
  });

  it('never grows by knowing more, and counts every minute that a curve does not cover', () => {
    const temperature = fc.double({ min: -5, max: 100, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom('pork', 'chicken'),
        fc.integer({ min: -60, max: 0 }),
        fc.integer({ min: 100, max: 240 }),
        fc.array(fc.tuple(temperature, temperature), { minLength: 2, maxLength: 2 }),
        (food, from, to, ends) => {
          const curve = {
            minutes: [from, to],
            celsius: ends.map(([core]) => core),
            surface: ends.map(([, skin]) => skin),
          };
          const { before, after } = spent(food, curve);
          expect(before).toBeGreaterThanOrEqual(60 + from - 1e-6);
          expect(before).toBeLessThanOrEqual(60 + 1e-6);
          expect(after).toBeGreaterThanOrEqual(Math.max(0, 240 - to) - 1e-6);
          expect(after).toBeLessThanOrEqual(140 + 1e-6);
        },
      ),
      { seed: 31, numRuns: 100 },
    );
  });

  it('is found in stretches that lie apart', () => {
    expect(stretchesBetween([0, 10, 20, 30], [[0, 30, 70, 0]], 4, 60)).toEqual([
      { start: expect.closeTo(4 / 3, 9), end: expect.closeTo(17.5, 9) },
      { start: expect.closeTo(20 + 10 / 7, 9), end: expect.closeTo(30 - 4 / 7, 9) },
    ]);
  });
});

describe('what is said of it', () => {
  const said = (food: string, curve: DishCurve | null, rows = ROWS) => {
    const problem = mealWith([dishOf(food)]);
    const curves = curve === null ? undefined : new Map([[0, curve]]);
    return cautionsOf(problem, planOf(problem, { steps: rows }), curves).filter(({ rule }) => rule === 'warm-too-long');
  };

  it('goes by the curve: a rest that stays hot is no fault', () => {
    expect(said('pork', null)[0]!.say).toMatch(/add up to 3 h 20 min/);
    const hot = { ...CURVE, surface: [3, 4, 80, 60] };
    expect(said('pork', hot)).toEqual([]);
    expect(said('pork', CURVE)[0]!.say).toMatch(/add up to 2 h 15 min \(55 min before and 1 h 20 min after the heat\)/);
  });

  it('names what food businesses do after four hours', () => {
    const [caution] = said('pork', null, { ...ROWS, 'Roast/temper': { at: [255, 285] } });
    expect(caution!.say).toMatch(/add up to 4 h 5 min .* Past 4 h food businesses throw it away\.$/);
    expect(caution!.source).toMatch(/fact sheet; FDA Food Code 3-501\.19; /);
    expect(said('pork', null)[0]!.say).not.toMatch(/throw/);
  });

  it('tells of a piece that comes up to heat too slowly, without a plan too', () => {
    const slow = { minutes: [0, 480], celsius: [4, 62] };
    const problem = mealWith([dishOf('pork')]);
    const [caution] = cautionsOf(problem, null, new Map([[0, slow]])).filter(({ rule }) => rule === 'warm-too-long');
    expect(caution!.say).toBe(
      'Predicted to need 6 h 8 min from 10 to 54 °C; published: 6 h at most, for poison that germs leave is not cooked away. More heat, or smaller pieces.',
    );
    expect(cautionsOf(problem, null, new Map([[0, { ...slow, minutes: [0, 460] }]]))).toEqual(
      cautionsOf(problem, null),
    );
  });
});
