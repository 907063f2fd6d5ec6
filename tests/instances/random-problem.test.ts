/** Random problem files read without errors, are the same for the same seed, and together use everything the format has. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readProblem } from '../../src/problem/read.js';
import { refusals } from '../../src/safety/refuse.js';
import { problemTexts, randomProblemText } from '../support/random-problem.js';
import { readMeal } from '../support/read-meal.js';

const FEATURES = [
  ['alternatives', /- place: grill\n +mode: sear\n[^-]*heat: [^\n]*\n +- place: burner/],
  ['a round grate', /round: 57 cm\n/],
  ['lit zones', /lit:/],
  ['a warming drawer', /kind: warming drawer/],
  ['a hold', /hold:/],
  ['minutes by temperature', /takes:\n +"?\d+[CF]"?:/],
  ['until', /until:\n +core:/],
  ['a core whose minutes are left to the heat model', /until:\n +core: [^\n]*\n +(?! |minutes:)/],
  ['a target', /target:/],
  ['a piece by its weight', /weight:/],
  ['a caution that is taken on', /accept:/],
  ['a range with a best', /best:/],
  ['a spread', /likely:/],
  ['an ideal', /ideal:/],
  ['two pans', /pans: 2/],
  ['a pan that empties', /empties:/],
  ['a pan that is washed', /wash:/],
  ['a gap', /gap:/],
  ['a component', /served: "?no/],
  ['branches', /after: none/],
  ['looks', /every:/],
  ['two cooks at once', /cooks: 2/],
  ['a cook who can some things', /can:/],
  ['hours', /from: "?\d\d:00/],
  ['courses', /courses:/],
  ['care', /care:/],
  ['US units', /\dF\/min/],
  ['a change of the clocks', /2026-10-25|2026-03-08/],
  ['a dial', /dial:/],
  ['no start', /serve: [^\n]*\nzone/],
] as const;

describe('random problems', () => {
  it('read without an error, and ask for nothing that is refused', () => {
    fc.assert(
      fc.property(problemTexts(12), (text) => {
        expect(refusals(readMeal(text))).toEqual([]);
      }),
      { seed: 1, numRuns: 150 },
    );
  });

  it('read when there are two hundred dishes', () => {
    const read = readProblem(randomProblemText(1, { dishes: 200 }), { name: 'random.yaml' });
    expect(read.ok && read.problem.dishes.length).toBeGreaterThanOrEqual(200);
  });

  it('are the same for the same seed, and keep their first dishes when they shrink', () => {
    expect(randomProblemText(7, { dishes: 9 })).toBe(randomProblemText(7, { dishes: 9 }));
    expect(randomProblemText(7, { dishes: 9 })).not.toBe(randomProblemText(8, { dishes: 9 }));
  });

  const texts = Array.from({ length: 60 }, (_, seed) => randomProblemText(seed, { dishes: 8 }));
  it.each(FEATURES)('have %s', (_, pattern) => {
    expect(texts.some((text) => pattern.test(text))).toBe(true);
  });
});
