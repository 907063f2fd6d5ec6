/** Minutes between cold and hot, and holds that are not hot enough. */
import { describe, expect, it } from 'vitest';
import type { RowSpec } from '../audit/plan-builder.js';
import type { DishSpec } from '../support/problem-builder.js';
import { mealWith, SERVE, said, saidOf } from './meals.js';

const roast: DishSpec = {
  dish: 'Roast pork',
  piece: { food: 'pork' },
  steps: [
    { step: 'tie', place: 'board' },
    { step: 'roast', work: 'roast', place: 'oven', pan: 'tray', takes: 60, core: 65 },
    { step: 'rest', work: 'rest', takes: { low: 10, high: 60 } },
  ],
};
const inOven = (from: number, to: number, celsius = 160): RowSpec => ({
  at: [from, to],
  in: ['oven', 'roast'],
  celsius,
  pan: 'tray',
});
/** Tied at 300; roasted for an hour from `on`; rests from then to `rested`; served at 600. */
const roastRows = (on: number, rested: number, celsius?: number): Record<string, RowSpec> => ({
  'Roast pork/tie': { at: [300, 310], place: 'board 1' },
  'Roast pork/roast': inOven(on, on + 60, celsius),
  'Roast pork/rest': { at: [on + 60, rested] },
});

describe('time between cold and hot', () => {
  it('adds up handling, waits, rest and the wait to the table, and not the heat', () => {
    // 300 to 405 before, 465 to 600 after.
    const [caution] = saidOf(mealWith([roast]), 'warm-too-long', { steps: roastRows(405, 500) });
    expect(caution).toEqual({
      rule: 'warm-too-long',
      dish: 'Roast pork',
      say: 'Handling, resting and waiting add up to 4 h (1 h 45 min before and 2 h 15 min after the heat), more than 2 h between 4 and 60 °C. Chill it meanwhile, or hold it at 60 °C (140 °F) or more.',
      source:
        'USDA FSIS, "Danger Zone" fact sheet; 5 and 57 °C in the FDA Food Code; local rules and licensed advice come first',
    });
  });

  it('begins to be too long after two hours, in a hot room after one', () => {
    // An hour of rest, and what lies between the tying and the oven at 480.
    const told = (tied: number, room: number) =>
      saidOf(mealWith([roast], { room }), 'warm-too-long', {
        steps: { ...roastRows(480, SERVE), 'Roast pork/tie': { at: [tied, tied + 10], place: 'board 1' } },
      });
    expect(told(420, 31)).toEqual([]);
    expect(told(419, 31)).toHaveLength(1);
    expect(told(470, 31)).toEqual([]);
    expect(told(470, 32)[0]!.say).toMatch(
      /add up to 1 h 10 min .* more than 1 h between 4 and 60 °C in a room of 32 °C/,
    );
  });

  it('takes what is chilled for cold until its next step', () => {
    const steps = [roast.steps[0]!, { step: 'cure', work: 'chill' as const, takes: 60 }, ...roast.steps.slice(1)];
    const rows = { ...roastRows(480, 600), 'Roast pork/cure': { at: [310, 370] as const } };
    expect(saidOf(mealWith([{ ...roast, steps }]), 'warm-too-long', { steps: rows })).toEqual([]);
    expect(saidOf(mealWith([roast]), 'warm-too-long', { steps: roastRows(480, 600) })).toHaveLength(1);
  });

  it('takes a hold for hot only from 60 °C', () => {
    const held = { ...roast, hold: { heat: [50, 80] as const } };
    const rows = (celsius: number) => ({
      ...roastRows(330, 400),
      'Roast pork/hold': { ...inOven(400, 590, celsius), work: 'hold' },
    });
    expect(saidOf(mealWith([held]), 'warm-too-long', { steps: rows(60) })).toEqual([]);
    expect(saidOf(mealWith([held]), 'warm-too-long', { steps: rows(55) })).toHaveLength(1);
  });

  it('counts an oven that is barely warm', () => {
    expect(saidOf(mealWith([roast]), 'warm-too-long', { steps: roastRows(330, 400, 55) })[0]!.say).toMatch(
      /add up to 5 h/,
    );
  });

  it('counts rice and beans from their cooking, batter until its own, vegetables never', () => {
    const dish = (name: string) =>
      mealWith([
        {
          dish: name,
          steps: [
            { step: 'prepare', place: 'board' },
            { step: 'cook', work: 'bake', place: 'oven', pan: 'tray' },
          ],
        },
      ]);
    const spent = (name: string, cook: number) =>
      saidOf(dish(name), 'warm-too-long', {
        steps: { [`${name}/prepare`]: { at: [0, 10], place: 'board 1' }, [`${name}/cook`]: inOven(cook, cook + 20) },
      }).length;
    expect([spent('Rice', 500), spent('Rice', 440)]).toEqual([0, 1]);
    expect([spent('Popovers', 120), spent('Popovers', 121)]).toEqual([0, 1]);
    expect([spent('Roots', 100), spent('Roots', 500)]).toEqual([0, 0]);
  });

  it('counts a component until its last user takes it', () => {
    const problem = mealWith([
      { dish: 'Horseradish cream', served: false, steps: [{ step: 'stir' }] },
      { dish: 'Beetroot', steps: [{ step: 'dress', work: 'finish', after: ['Horseradish cream/stir'] }] },
    ]);
    const at = (dress: number) =>
      saidOf(problem, 'warm-too-long', {
        steps: { 'Horseradish cream/stir': { at: [300, 306] }, 'Beetroot/dress': { at: [dress, dress + 3] } },
      });
    expect(at(420)).toEqual([]);
    expect(at(440)[0]).toMatchObject({
      dish: 'Horseradish cream',
      say: 'Handling, resting and waiting add up to 2 h 20 min, more than 2 h between 4 and 60 °C. Keep it in the cold meanwhile.',
    });
  });

  it('waits for a plan', () => {
    expect(said(mealWith([roast]), 'warm-too-long')).toEqual([]);
  });
});

describe('a hold', () => {
  const held = (dish: string, low: number) => mealWith([{ ...roast, dish, hold: { heat: [low, 80] } }]);

  it('that may begin below 60 °C is told from the file', () => {
    expect(said(held('Roast pork', 55), 'hold-low')[0]!.say).toBe(
      "Its hold of 55-80 °C begins too low: hot food is held at 60 °C (140 °F) or more, by food businesses at 57 °C (135 °F). Begin the hold's range there.",
    );
    expect(said(held('Roast pork', 57), 'hold-low')).toHaveLength(1);
    expect(said(held('Roast pork', 60), 'hold-low')).toEqual([]);
  });

  it('that is too low in the plan is told with its heat, and one that is hot enough is not', () => {
    const at = (celsius: number | null) =>
      saidOf(held('Roast pork', 50), 'hold-low', {
        steps: {
          ...roastRows(480, 560),
          ...(celsius === null ? {} : { 'Roast pork/hold': { ...inOven(560, 600, celsius), work: 'hold' } }),
        },
      });
    expect(at(55)[0]!.say).toMatch(/^It is held at 55 °C: hot food is held at 60 °C \(140 °F\) or more/);
    expect(at(60)).toEqual([]);
    expect(at(null)).toEqual([]);
  });

  it('of bread is nobody’s worry', () => {
    const bread = mealWith([{ dish: 'Soft rolls', steps: [{ step: 'bake', work: 'bake' }], hold: { heat: [40, 60] } }]);
    expect(said(bread, 'hold-low')).toEqual([]);
  });
});
