/** Fire and burns. */
import { describe, expect, it } from 'vitest';
import { planOf, type RowSpec } from '../audit/plan-builder.js';
import { cooktop, type DishSpec, grill, problemOf, type StepSpec } from '../support/problem-builder.js';
import { KITCHEN, mealWith, rulesOf, said, saidOf } from './meals.js';

const FIRE = ['grill-outdoors', 'heat-alone', 'hot-fat', 'hot-iron'];
const dishOf = (step: Omit<StepSpec, 'step'>, dish = 'Peppers'): DishSpec => ({
  dish,
  steps: [{ step: 'cook', ...step }],
});
const fireRules = (...steps: Omit<StepSpec, 'step'>[]): string[] =>
  rulesOf(mealWith(steps.map((step, at) => dishOf(step, `Peppers ${at + 1}`)))).filter((rule) => FIRE.includes(rule));

describe('a grill', () => {
  const grilled = { work: 'grill', place: 'gas grill', mode: 'sear', pan: 'tray' } as const;

  it('is for outdoors, once for the meal', () => {
    const problem = mealWith([dishOf(grilled), dishOf(grilled, 'Corn')]);
    expect(said(problem, 'grill-outdoors')).toEqual([
      {
        rule: 'grill-outdoors',
        dish: null,
        say: 'Gas grill: outdoors only, never in a house, garage or tent (carbon monoxide). Clear of walls, rails and branches; never left lit unattended. Gas is lit with the lid open.',
        source:
          'US CPSC, charcoal and carbon monoxide; NFPA, grilling safety, from memory; local fire rules come first',
      },
    ]);
  });

  it('that is not used, or that burns nothing, is not spoken of', () => {
    expect(fireRules({ work: 'roast', place: 'oven', pan: 'tray' })).toEqual([]);
    const electric = mealWith([dishOf({ work: 'grill', place: 'electric grill' })], {
      appliances: [grill('electric grill')],
    });
    expect(rulesOf(electric)).toEqual(['hot-iron']);
    const either = mealWith([
      {
        dish: 'Peppers',
        steps: [
          { step: 'cook', work: 'roast', pan: 'tray', on: [{ place: 'gas grill', mode: 'roast' }, { place: 'oven' }] },
        ],
      },
    ]);
    expect(rulesOf(either)).toEqual(['grill-outdoors']);
    const inside = planOf(either, {
      steps: { 'Peppers/cook': { at: [500, 510], in: ['oven', 'roast'], celsius: 200 } },
    });
    expect(rulesOf(either, inside)).toEqual([]);
  });
});

describe('hot fat and hot iron', () => {
  it('are told of frying and searing', () => {
    expect(fireRules({ work: 'fry', place: 'range', pan: 'tub' })).toEqual(['hot-fat']);
    expect(fireRules({ work: 'fry', place: 'range', pan: 'tub', flame: 'high' })).toEqual(['hot-fat', 'hot-iron']);
    expect(fireRules({ work: 'sear', place: 'range', pan: 'tub', flame: 'high' })).toEqual(['hot-fat', 'hot-iron']);
    expect(fireRules({ work: 'roast', place: 'oven', mode: 'broil', pan: 'tray' })).toEqual(['hot-iron']);
    expect(fireRules({ work: 'simmer', place: 'range', pan: 'tub' })).toEqual([]);
  });

  it('are told once, with the lid and without water', () => {
    const fry = { work: 'fry', place: 'range', pan: 'tub' } as const;
    const problem = mealWith([dishOf(fry), dishOf(fry, 'Onions')]);
    expect(said(problem, 'hot-fat')).toHaveLength(1);
    expect(said(problem, 'hot-fat')[0]!.say).toMatch(/lid on, heat off.*Never water/);
  });
});

describe('heat while no cook is there', () => {
  const beans = (cooks: Parameters<typeof problemOf>[0]['cooks']) =>
    problemOf({
      serve: 600,
      start: '2026-10-03T20:00:00+01:00',
      kitchen: { ...KITCHEN, appliances: [...KITCHEN.appliances!, cooktop('stove')] },
      ...(cooks && { cooks }),
      dishes: [dishOf({ work: 'bake', place: 'oven', pan: 'tray', takes: 480 }, 'Beans')],
    });
  const overnight: RowSpec = { at: [60, 540], in: ['oven', 'roast'], celsius: 110, pan: 'tray' };
  const told = (cooks: Parameters<typeof problemOf>[0]['cooks']) =>
    saidOf(beans(cooks), 'heat-alone', { steps: { 'Beans/cook': overnight } });

  it('is told with its hours', () => {
    expect(told([{ name: 'Ines', from: 7 * 60, to: 23 * 60 }])).toMatchObject([
      { dish: 'Beans', say: expect.stringMatching(/^The oven is on from 23:00 to 05:00, when no cook is there/) },
    ]);
  });

  it('is not said where the cooks take turns or have no hours', () => {
    expect(told(['Ines'])).toEqual([]);
    expect(
      told([
        { name: 'Ines', from: 7 * 60, to: 23 * 60 },
        { name: 'Rui', from: 22 * 60, to: 8 * 60 },
      ]),
    ).toEqual([]);
  });
});
