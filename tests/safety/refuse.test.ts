/** What is refused below its published core temperature, what lets it pass, and what a predicted core changes. */
import { readdirSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/problem/problem.js';
import { cautionsOf } from '../../src/safety/cautions.js';
import type { DishCurve } from '../../src/safety/curve.js';
import { CORE_FIGURES, meets } from '../../src/safety/published.js';
import { refusals } from '../../src/safety/refuse.js';
import type { DishSpec, StepSpec } from '../support/problem-builder.js';
import { readMealFile } from '../support/read-meal.js';
import { mealWith, roastOf } from './meals.js';

const refused = (problem: Problem, curve?: DishCurve) =>
  refusals(problem, curve === undefined ? undefined : new Map([[0, curve]]));
const rulesWith = (problem: Problem, curve: DishCurve) =>
  cautionsOf(problem, null, new Map([[0, curve]])).map(({ rule }) => rule);
const sayWith = (problem: Problem, curve: DishCurve) => cautionsOf(problem, null, new Map([[0, curve]]))[0]!.say;
const accepted: Partial<DishSpec> = { accept: ['core-unsafe'] };

/** Heated to a core in two hours, which then keeps for some minutes. */
const kept = (celsius: number, minutes: number): DishCurve => ({
  minutes: [0, 120, 120 + minutes],
  celsius: [5, celsius, celsius],
});

describe('below the published figure', () => {
  it('poultry is refused with the figure, its source, who comes first, and what would let it pass', () => {
    expect(refused(roastOf('Sunday bird', 'chicken', 65))).toEqual([
      {
        rule: 'core-unsafe',
        dish: 0,
        step: 0,
        entry: 0,
        say: 'The core of `Sunday bird` is set to 65 °C; published for poultry: 74 °C (165 °F) (USDA FSIS, Safe Minimum Internal Temperature Chart; Health Canada asks 82 °C (180 °F) for whole birds; local rules and licensed advice come first).',
        hint: 'a core of 74C or 165F; `accept: core-unsafe` in the dish lets it pass, with the caution',
      },
    ]);
  });

  it.each([
    ['chicken', 73, 74],
    ['ground turkey', 73, 74],
    ['minced beef', 70, 71],
    ['veal with stuffing', 73, 74],
    ['venison', 73, 74],
    ['leftover lamb', 73, 74],
    ['cooked ham', 73, 74],
    ['chicken casserole', 73, 74],
  ])('%s is refused at %d °C and passes at %d', (food, low, high) => {
    expect(refused(roastOf('Main dish', food, low))).toHaveLength(1);
    expect(refused(roastOf('Main dish', food, high))).toEqual([]);
  });

  it.each(['beef', 'lamb', 'veal', 'pork', 'ham', 'salmon', 'prawns', 'egg', 'vitela'])(
    '%s passes, with a caution',
    (food) => {
      const problem = roastOf('Main dish', food, 50);
      expect(refused(problem)).toEqual([]);
      expect(cautionsOf(problem, null).map(({ rule }) => rule)[0]).toMatch(/^core-(low|unknown)$/);
    },
  );

  it('passes where the dish accepts it, and is cautioned all the same', () => {
    const problem = roastOf('Duck breast', 'duck', 57, accepted);
    expect(refused(problem)).toEqual([]);
    const plain = cautionsOf(roastOf('Duck breast', 'duck', 57), null);
    expect(cautionsOf(problem, null)).toEqual(plain);
    expect(plain[0]).toMatchObject({ rule: 'core-unsafe', dish: 'Duck breast' });
    expect(refused(roastOf('Duck breast', 'duck', 57, { accept: ['core-low', 'thermometer'] }))).toHaveLength(1);
  });

  it('is refused dish by dish, in the order of the file', () => {
    const step = (core: number): StepSpec[] => [{ step: 'roast', work: 'roast', place: 'oven', pan: 'tray', core }];
    const problem = mealWith([
      { dish: 'Lamb', steps: step(55) },
      { dish: 'Turkey', steps: step(70) },
      { dish: 'Duck', steps: step(57), ...accepted },
      { dish: 'Burgers', steps: step(55) },
    ]);
    expect(refusals(problem).map(({ dish, step: id }) => [dish, id])).toEqual([
      [1, 1],
      [3, 3],
    ]);
  });

  it('goes by the lowest of a step’s ways, and by the hottest of the steps', () => {
    const on = [
      { place: 'oven', core: 76 },
      { place: 'gas grill', mode: 'roast', core: 60 },
    ];
    const either = mealWith([{ dish: 'Chicken', steps: [{ step: 'roast', work: 'roast', pan: 'tray', on }] }]);
    expect(refused(either)).toMatchObject([{ step: 0, entry: 1 }]);
    const two = (...cores: number[]) =>
      mealWith([
        {
          dish: 'Chicken',
          steps: cores.map((core, at) => ({ step: `roast ${at}`, work: 'roast', place: 'oven', pan: 'tray', core })),
        },
      ]);
    expect(refused(two(50, 75))).toEqual([]);
    expect(refused(two(50, 65, 60))).toMatchObject([{ step: 1 }]);
  });

  it('is refused for what is heated again, whatever it was cooked to', () => {
    const steps = (again: number): StepSpec[] => [
      { step: 'braise', work: 'braise', place: 'oven', pan: 'tray', core: 90 },
      { step: 'cool', work: 'chill', takes: { low: 60, high: 300 } },
      { step: 'warm', work: 'warm', place: 'oven', pan: 'tray', core: again },
    ];
    const problem = (again: number) => mealWith([{ dish: 'Lamb shanks', steps: steps(again) }]);
    expect(refused(problem(60))).toMatchObject([{ step: 2 }]);
    expect(refused(problem(60))[0]!.say).toMatch(/published for food that is heated again: 74 °C/);
    expect(refused(problem(74))).toEqual([]);
    // The heat of the first day says nothing of the second.
    expect(refused(problem(60), kept(90, 60))).toHaveLength(1);
    expect(refused(roastOf('Leftover roast', null, 60), kept(74, 1))).toEqual([]);
  });

  it('never passes silently: refused, accepted or at its figure, over foods and targets', () => {
    const foods = fc.constantFrom(
      ['chicken', 'poultry'],
      ['minced pork', 'ground meat'],
      ['venison', 'game'],
    ) as fc.Arbitrary<['chicken', 'poultry'] | ['minced pork', 'ground meat'] | ['venison', 'game']>;
    fc.assert(
      fc.property(foods, fc.double({ min: 30, max: 99, noNaN: true }), fc.boolean(), ([food, kind], core, accept) => {
        const problem = roastOf('Main dish', food, core, accept ? accepted : {});
        const low = !meets(core, CORE_FIGURES[kind]);
        expect(refused(problem).length).toBe(low && !accept ? 1 : 0);
        expect(cautionsOf(problem, null).some(({ rule }) => rule === 'core-unsafe')).toBe(low);
      }),
      { seed: 21, numRuns: 100 },
    );
  });
});

describe('the meals of the project', () => {
  it.each(readdirSync('problems').filter((name) => name.endsWith('.yaml')))(
    '%s asks for nothing that is refused',
    (name) => {
      expect(refusals(readMealFile(`problems/${name}`))).toEqual([]);
    },
  );
});

describe('a predicted core', () => {
  const bird = roastOf('Chicken', 'chicken', 60);

  it('of poultry that is held for the published time at 60 °C satisfies, and is told as what it hangs on', () => {
    expect(refused(bird, kept(60, 35))).toEqual([]);
    expect(refused(bird, kept(60, 30))).toHaveLength(1);
    expect(rulesWith(bird, kept(60, 35))).toContain('core-predicted');
    expect(sayWith(bird, kept(60, 35))).toBe(
      'Set to 60 °C; published for poultry: 74 °C (165 °F). Predicted: 60 °C at most, and all of the published 35 min at 60 °C. Safe only if it goes so: a thermometer must show it, or raise the target.',
    );
    expect(rulesWith(bird, kept(60, 30))).toContain('core-unsafe');
    // Coming up from 57.8 °C counts as well: 3.2 of the 35 minutes.
    expect(sayWith(bird, kept(60, 15))).toMatch(
      /Predicted: 60 °C at most, and 51 % of the published 35 min at 60 °C\. Raise/,
    );
  });

  it('takes the turkey’s longer time for all other birds', () => {
    const duck = roastOf('Duck', 'duck', 60);
    expect(refused(duck, kept(60, 35))).toHaveLength(1);
    expect(refused(duck, kept(60, 39))).toEqual([]);
  });

  it('that rises to the figure while it rests satisfies', () => {
    const rising = { minutes: [0, 80, 100], celsius: [5, 71, 74] };
    const pulled = roastOf('Chicken', 'chicken', 71);
    expect(refused(pulled, rising)).toEqual([]);
    expect(sayWith(pulled, rising)).toMatch(
      /Predicted: 74 °C at most\. Safe only if it goes so: a thermometer must show it/,
    );
  });

  it('of food without published times satisfies by its figure only', () => {
    const stuffing = roastOf('Bread stuffing', null, 65);
    expect(refused(stuffing, kept(73, 600))).toHaveLength(1);
    expect(refused(stuffing, kept(74, 0))).toEqual([]);
  });

  it('that comes up to heat for more than six hours does not count by its time', () => {
    const slow = (hours: number): DishCurve => ({ minutes: [0, hours * 60, hours * 60 + 40], celsius: [5, 60, 60] });
    // Of 5 to 60 °C the part from 10 to 54.4 °C is 0.808.
    expect(refused(bird, slow(7.4))).toEqual([]);
    expect(refused(bird, slow(7.5))).toHaveLength(1);
    expect(sayWith(bird, slow(7.5))).toMatch(
      /all of the published 35 min at 60 °C, but too slowly heated for it to count\. Raise/,
    );
  });

  it('of a whole cut never takes the caution away', () => {
    const loin = roastOf('Loin', 'pork', 58);
    const curve = kept(58, 60);
    expect(rulesWith(loin, curve)).toEqual(['core-low']);
    expect(sayWith(loin, curve)).toMatch(
      /^Set to 58 °C; published for pork: 63 °C \(145 °F\), then 3 min of rest\. Predicted: 58 °C at most, and all of the published 26 min at 58 °C\./,
    );
    const [caution] = cautionsOf(loin, null, new Map([[0, curve]]));
    expect(caution!.source).toMatch(/Temperature Chart; USDA FSIS, Appendix A \(1999\), times for cooked meat;/);
  });

  it('refuses no target that meets its figure, and changes nothing for other dishes', () => {
    expect(refusals(roastOf('Chicken', 'chicken', 74), new Map([[0, kept(60, 0)]]))).toEqual([]);
    expect(rulesWith(roastOf('Chicken', 'chicken', 74), kept(74, 0))).toEqual([]);
    expect(refusals(bird, new Map([[7, kept(60, 60)]]))).toHaveLength(1);
  });

  it('that falls short of a figure to which it was to rise is told, with how much later it must be pulled', () => {
    const short = (peak: number) => cautionsOf(roastOf('Chicken', 'chicken', 74), null, new Map([[0, kept(peak, 0)]]));
    expect(short(60)[0]).toMatchObject({ rule: 'core-short', dish: 'Chicken' });
    expect(short(60)[0]!.say).toMatch(/rise to 14 °C less\. .*74 °C \(165 °F\).* Pull it 14 °C later/);
    // So near to it the published time is held, too.
    expect(short(72.4)).toEqual([]);
  });

  it('that is no curve is an error, not an answer', () => {
    expect(() => refused(bird, { minutes: [0, 60], celsius: [60, Number.NaN] })).toThrow(RangeError);
  });
});
