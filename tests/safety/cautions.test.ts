/** All cautions together: their order, their form, and the same answer for the same meal. */

import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { planDocument } from '../../src/plan/document.js';
import { CAUTION_RULES } from '../../src/problem/caution-rules.js';
import { type CautionRow, cautionsOf } from '../../src/safety/cautions.js';
import { solve } from '../../src/solve/solve.js';
import { planOf } from '../audit/plan-builder.js';
import { problemOf } from '../support/problem-builder.js';
import { randomProblem } from '../support/random-problem.js';
import { readMeal } from '../support/read-meal.js';
import { KITCHEN, mealWith, roastOf, rulesOf, SERVE } from './meals.js';

const FEAST = mealWith([
  { dish: 'Hake', steps: [{ step: 'fry', work: 'fry', place: 'range', pan: 'tub', flame: 'high' }] },
  { dish: 'Pink lamb', steps: [{ step: 'roast', work: 'roast', place: 'oven', pan: 'tray', core: 55 }] },
  { dish: 'Chicken', steps: [{ step: 'grill', work: 'grill', place: 'gas grill', pan: 'tray', core: 65 }] },
  { dish: 'Pink beef', steps: [{ step: 'roast', work: 'roast', place: 'oven', pan: 'tray', core: 55 }] },
]);

const ROAST = { step: 'roast', work: 'roast', place: 'oven', pan: 'tray' } as const;

/** Cautions of several meals that together show every rule. */
function everyCaution(): CautionRow[] {
  const evening = { zone: 'UTC', start: '2026-10-03T12:00:00+00:00', serve: SERVE };
  const board = mealWith([
    {
      dish: 'Chicken',
      steps: [
        { step: 'joint', place: 'board' },
        { ...ROAST, core: 75 },
      ],
    },
    { dish: 'Leaves', steps: [{ step: 'shred', place: 'board' }] },
    { dish: 'Lamb', steps: [{ ...ROAST, core: 63 }], hold: { heat: [50, 70] } },
  ]);
  const kept = problemOf({
    ...evening,
    kitchen: KITCHEN,
    cooks: [{ name: 'Ines', from: 0, to: 13 * 60 }],
    dishes: [{ dish: 'White beans', steps: [ROAST, { step: 'cool', work: 'chill' }, { step: 'warm', work: 'warm' }] }],
  });
  const inOven = { in: ['oven', 'roast'] as const, celsius: 160, pan: 'tray' };
  return [
    ...cautionsOf(FEAST, null),
    ...cautionsOf(roastOf('Vitela', 'vitela', 58), null),
    ...cautionsOf(roastOf('Duck', 'duck', 74), null, new Map([[0, { minutes: [0, 90, 150], celsius: [5, 55, 50] }]])),
    ...cautionsOf(roastOf('Duck', 'duck', 60), null, new Map([[0, { minutes: [0, 90, 150], celsius: [5, 60, 60] }]])),
    ...cautionsOf(
      board,
      planOf(board, {
        steps: {
          'Chicken/joint': { at: [0, 10], place: 'board 1' },
          'Chicken/roast': { ...inOven, at: [20, 80] },
          'Leaves/shred': { at: [100, 110], place: 'board 1' },
          'Lamb/roast': { ...inOven, at: [100, 200] },
          'Lamb/hold': { ...inOven, at: [200, 600], celsius: 55, work: 'hold' },
        },
      }),
    ),
    ...cautionsOf(roastOf('Lamb', 'lamb', 63), null),
    ...cautionsOf(kept, planOf(kept, { steps: { 'White beans/roast': { ...inOven, at: [200, 260] } } })),
  ];
}

describe('cautions', () => {
  it('come most serious first, then in the order of the dishes', () => {
    expect(cautionsOf(FEAST, null).map(({ rule, dish }) => [rule, dish])).toEqual([
      ['core-unsafe', 'Chicken'],
      ['grill-outdoors', null],
      ['core-low', 'Pink lamb'],
      ['core-low', 'Pink beef'],
      ['thermometer', 'Hake'],
      ['hot-fat', null],
      ['hot-iron', null],
    ]);
  });

  it('are none where nothing can hurt', () => {
    expect(
      rulesOf(mealWith([{ dish: 'Leaves', steps: [{ step: 'wash' }, { step: 'dress', work: 'finish' }] }])),
    ).toEqual([]);
  });

  it('each say in few words what to do, name a source, and leave the last word to local rules', () => {
    const told = new Map(everyCaution().map((caution) => [caution.rule, caution]));
    expect([...told.keys()].sort()).toEqual([...CAUTION_RULES].sort());
    for (const { rule, say, source } of told.values()) {
      expect(say.length, rule).toBeLessThanOrEqual(230);
      expect(source, rule).toMatch(
        /(USDA|FDA|US CPSC|NFPA|Health Canada).*; local (fire rules|rules and licensed advice) come first$/,
      );
      // What satisfies: a figure to be reached, or something to do.
      expect(say, rule).toMatch(
        /°C \(\d+ °F\)|[Oo]utdoors only|Wash it|stays in the house|Cool it fast|lid on|dry mitts/,
      );
    }
  });

  it('of random meals and their plans have a rule, a source and a short say, and are the same twice', () => {
    const shape = planDocument.shape.cautions;
    let count = 0;
    for (let seed = 1; seed <= 8; seed++) {
      const problem = readMeal(stringify(randomProblem(seed, { dishes: 1 + (seed % 3) })));
      const { plan } = solve(problem, { effort: 'quick', seed: 1 });
      for (const rows of plan === null ? [null] : [null, plan]) {
        const cautions = cautionsOf(problem, rows);
        count += cautions.length;
        expect(shape.parse(cautions)).toEqual(cautions);
        expect(cautionsOf(problem, rows)).toEqual(cautions);
        const ranks = cautions.map(({ rule }) => (CAUTION_RULES as readonly string[]).indexOf(rule));
        expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
        expect(ranks).not.toContain(-1);
        for (const { source, say } of cautions) {
          expect(source).toMatch(/FSIS|FDA|Health Canada|CPSC|NFPA/);
          expect(say.length).toBeLessThan(260);
        }
      }
    }
    expect(count).toBeGreaterThan(8);
  });
});
