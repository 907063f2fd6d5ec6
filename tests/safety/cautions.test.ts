/** All cautions together: their order, their form, and the same answer for the same meal. */

import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { planDocument } from '../../src/plan/document.js';
import { CAUTION_RULES } from '../../src/problem/caution-rules.js';
import { readProblem } from '../../src/problem/read.js';
import { cautionsOf } from '../../src/safety/cautions.js';
import { solve } from '../../src/solve/solve.js';
import { randomProblem } from '../support/random-problem.js';
import { mealWith, rulesOf } from './meals.js';

const FEAST = mealWith([
  { dish: 'Hake', steps: [{ step: 'fry', work: 'fry', place: 'range', pan: 'tub', flame: 'high' }] },
  { dish: 'Pink lamb', steps: [{ step: 'roast', work: 'roast', place: 'oven', pan: 'tray', core: 55 }] },
  { dish: 'Chicken', steps: [{ step: 'grill', work: 'grill', place: 'gas grill', pan: 'tray', core: 65 }] },
  { dish: 'Pink beef', steps: [{ step: 'roast', work: 'roast', place: 'oven', pan: 'tray', core: 55 }] },
]);

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

  it('of random meals and their plans have a rule, a source and a short say, and are the same twice', () => {
    const shape = planDocument.shape.cautions;
    let count = 0;
    for (let seed = 1; seed <= 8; seed++) {
      const read = readProblem(stringify(randomProblem(seed, { dishes: 1 + (seed % 3) })), { name: 'random.yaml' });
      if (!read.ok) throw new Error(`seed ${seed} does not read`);
      const { plan } = solve(read.problem, { effort: 'quick', seed: 1 });
      for (const rows of plan === null ? [null] : [null, plan]) {
        const cautions = cautionsOf(read.problem, rows);
        count += cautions.length;
        expect(shape.parse(cautions)).toEqual(cautions);
        expect(cautionsOf(read.problem, rows)).toEqual(cautions);
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
