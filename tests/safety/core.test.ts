/** Core targets below the published figures, none at all, too little rest. The figures themselves: tests/published. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { timesAt } from '../../src/safety/core.js';
import { CHICKEN, GROUND_MEAT, MEAT } from '../../src/safety/lethality-tables.js';
import { CORE_FIGURES, meets } from '../../src/safety/published.js';
import { celsiusOfFahrenheit } from '../../src/units/temperature.js';
import { mealWith, roastOf, rulesOf, said, saidOf } from './meals.js';

const CORE_RULES = ['core-unsafe', 'core-low', 'core-unknown', 'thermometer', 'rest-short'];
const coreRules = (problem: Parameters<typeof rulesOf>[0]): string[] =>
  rulesOf(problem).filter((rule) => CORE_RULES.includes(rule));

const loin = (core: number, rest: number | null) =>
  mealWith([
    {
      dish: 'Loin',
      piece: { food: 'pork' },
      steps: [
        { step: 'roast', work: 'roast', place: 'oven', pan: 'tray', takes: 90, core },
        ...(rest === null ? [] : [{ step: 'rest', work: 'rest' as const, takes: { low: rest, high: 30 } }]),
        { step: 'carve', work: 'carve', place: 'board', takes: 6 },
      ],
    },
  ]);

describe('a target below the published figure', () => {
  it('tells the figure, that it is for the highest core reached, who published it and who comes first', () => {
    expect(said(loin(60, 15), 'core-low')).toEqual([
      {
        rule: 'core-low',
        dish: 'Loin',
        say: 'Set to 60 °C; published for pork: 63 °C (145 °F), then 3 min of rest. It counts for the highest core reached: a thermometer must show it before serving.',
        source:
          'USDA FSIS, Safe Minimum Internal Temperature Chart; Health Canada asks 71 °C (160 °F); local rules and licensed advice come first',
      },
    ]);
  });

  it('asks for another target where nothing rests', () => {
    expect(said(loin(60, null), 'core-low')[0]!.say).toMatch(/Raise the target, or see a thermometer show it/);
  });

  it('takes a figure as met in either degree in which it is printed', () => {
    for (const core of [71, celsiusOfFahrenheit(160), 71.1])
      expect(coreRules(roastOf('Burgers', 'beef', core))).toEqual([]);
    for (const core of [70.9, celsiusOfFahrenheit(159)])
      expect(coreRules(roastOf('Burgers', 'beef', core))).toEqual(['core-unsafe']);
  });

  it('is graver for poultry, ground meat, stuffing and game than for whole cuts, fish and eggs', () => {
    const ruleAt50 = (food: string) => coreRules(roastOf('Main dish', food, 50));
    for (const food of ['chicken', 'minced beef', 'veal with stuffing', 'venison'])
      expect(ruleAt50(food)).toEqual(['core-unsafe']);
    for (const food of ['beef', 'lamb', 'veal', 'pork', 'salmon', 'egg']) expect(ruleAt50(food)).toEqual(['core-low']);
  });

  it('goes by the hottest target of the dish', () => {
    const steps = [
      { step: 'smoke', work: 'roast' as const, place: 'oven', takes: 60, core: 50 },
      { step: 'finish', work: 'roast' as const, place: 'oven', takes: 20, core: 75 },
    ];
    expect(coreRules(mealWith([{ dish: 'Chicken', steps }]))).toEqual([]);
  });

  it('never goes unsaid, whatever the food and however it is named', () => {
    const foods = [
      ['chicken', 'poultry'],
      ['turkey', 'poultry'],
      ['ground beef', 'ground meat'],
      ['pork', 'pork'],
      ['ham', 'raw ham'],
      ['beef', 'red meat'],
      ['lamb', 'red meat'],
      ['salmon', 'fish'],
      ['prawns', 'shellfish'],
      ['egg', 'eggs'],
    ] as const;
    const around = fc.constantFrom('Roast', 'Sunday', 'Second', 'Lemon', 'My aunt’s', 'Tray 3:');
    fc.assert(
      fc.property(
        fc.constantFrom(...foods),
        around,
        fc.boolean(),
        fc.double({ min: 30, max: 99, noNaN: true }),
        ([food, kind], prefix, asPiece, core) => {
          const problem = asPiece ? roastOf(`${prefix} dish`, food, core) : roastOf(`${prefix} ${food}`, null, core);
          const low = coreRules(problem).some((rule) => rule === 'core-unsafe' || rule === 'core-low');
          expect(low).toBe(!meets(core, CORE_FIGURES[kind]));
        },
      ),
      { seed: 7, numRuns: 200 },
    );
  });
});

describe('a published time', () => {
  it('is told at the temperature asked for, else at one that the table has, rounded up', () => {
    expect([54.5, 58, 60, 63, 65, 68].map((celsius) => timesAt(MEAT, celsius))).toEqual([
      '1 h 50 min at 54.5 °C',
      '26 min at 58 °C',
      '12 min at 60 °C',
      '4 min at 63 °C',
      '85 s at 65 °C',
      '25 s at 68 °C',
    ]);
    expect([40, 75].map((celsius) => timesAt(MEAT, celsius))).toEqual(['12 min at 60 °C', '12 min at 60 °C']);
    expect(timesAt(CHICKEN, 60)).toBe('35 min at 60 °C');
    expect(timesAt(GROUND_MEAT, 60)).toBe('91 s at 65 °C');
  });
});

describe('a food that no word knows', () => {
  it('is said to have no figure, below the highest of the chart', () => {
    expect(said(roastOf('Vitela assada', 'vitela', 58), 'core-unknown')[0]!.say).toMatch(
      /^Set to 58 °C, and no published figure goes with this name\. .* 74 °C \(165 °F\) is the highest/,
    );
    expect(coreRules(roastOf('Vitela assada', 'vitela', 74))).toEqual([]);
  });

  it('is not said of bread or potatoes', () => {
    expect(coreRules(roastOf('Flatbread', null, 60))).toEqual([]);
    expect(coreRules(roastOf('Potatoes', null, 60))).toEqual([]);
  });
});

describe('no target', () => {
  it('asks for a thermometer with the figure', () => {
    const [caution] = said(roastOf('Slow duck legs', 'duck', null), 'thermometer');
    expect(caution!.say).toBe(
      'No core target is set: use a thermometer, in the thickest part and clear of bone; published for poultry: 74 °C (165 °F).',
    );
  });

  it('takes the looks of fish that the chart takes', () => {
    const [caution] = said(roastOf('Hake', 'fish', null), 'thermometer');
    expect(caution!.say).toBe(
      'No core target is set; published for fish: 63 °C (145 °F), or flesh that is opaque and flakes.',
    );
  });

  it('is nothing to say of vegetables, of stock, and of meat that is not heated here', () => {
    expect(coreRules(roastOf('Roast roots', null, null))).toEqual([]);
    expect(coreRules(roastOf('Chicken stock', null, null))).toEqual([]);
    const steps = [{ step: 'slice', place: 'board' }];
    expect(coreRules(mealWith([{ dish: 'Ham and melon', steps }]))).toEqual([]);
  });
});

describe('the rest that belongs to the figure', () => {
  const plan = (carve: number) => ({
    steps: {
      'Loin/roast': { at: [400, 490] as const, in: ['oven', 'roast'] as const, celsius: 165, pan: 'tray' },
      'Loin/carve': { at: [carve, carve + 6] as const, place: 'board 1' },
    },
  });

  it('is counted in the plan from the heat to the knife', () => {
    const [caution] = saidOf(loin(64, null), 'rest-short', plan(491));
    expect(caution).toMatchObject({
      dish: 'Loin',
      say: 'It rests 1 min; 63 °C (145 °F) for pork is published with 3 min of rest before it is cut. Let it rest that long.',
    });
    expect(saidOf(loin(64, null), 'rest-short', plan(493))).toEqual([]);
  });

  it('is counted without a plan as what is certain', () => {
    expect(said(loin(64, 2), 'rest-short')[0]!.say).toMatch(/^2 min of rest is certain;/);
    expect(said(loin(64, 3), 'rest-short')).toEqual([]);
    expect(said(loin(64, null), 'rest-short')).toHaveLength(1);
  });

  it('is not asked for where the chart asks for none, nor twice where the core is too low already', () => {
    expect(coreRules(roastOf('Chicken', 'chicken', 74))).toEqual([]);
    expect(coreRules(loin(60, null))).toEqual(['core-low']);
  });
});
