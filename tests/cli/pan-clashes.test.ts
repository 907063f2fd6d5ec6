import { describe, expect, it } from 'vitest';
import { clashWords, panClashes } from '../../cli/check/pan-clashes.js';
import type { Problem } from '../../src/problem/problem.js';
import { readMeal } from '../support/read-meal.js';

const problem = (count: number, first: string, second: string): Problem => {
  const text = `
format: hearthtable/1
title: Pots
serve: 2026-11-07 19:00
zone: UTC
cooks: [Ada]
kitchen:
  kitchen: Pots
  appliances:
    - { appliance: stove, kind: cooktop, burners: [{ burner: left, size: 20 cm }, { burner: right, size: 20 cm }] }
  pans: [{ pan: pot, round: 22 cm, height: 14 cm, count: ${count} }, { pan: pan, round: 20 cm, height: 5 cm, count: 1 }]
dishes:
  - dish: Broth
    steps: [${first}]
  - dish: Rice
    steps: [${second}]
`;
  return readMeal(text);
};
const simmer = (more = '') =>
  `{ step: simmer, work: simmer, takes: 30 min, on: [{ place: burner, heat: low }], pan: pot${more} }`;

describe('pans that clash', () => {
  it('are those that several dishes keep until they are served', () => {
    const read = problem(1, simmer(), simmer());
    const clashes = panClashes(read);
    expect(clashes).toEqual([{ pan: 0, course: 0, dishes: [0, 1], wanted: 2, certain: true }]);
    expect(clashWords(read, clashes[0]!)).toBe(
      'Broth and Rice want 2 of the pan "pot" and there is one; all of them keep it until they are served. ' +
        'Say `empties: yes` on the step after which the pan is free, or have another.',
    );
  });

  it('are told more gently where the dishes can take turns', () => {
    const carve = '{ step: slice, work: carve, takes: 3 min }';
    for (const first of [simmer(', empties: yes'), `${simmer()}, ${carve}`]) {
      const read = problem(1, first, simmer());
      expect(panClashes(read).map((clash) => clash.certain)).toEqual([false]);
      expect(clashWords(read, panClashes(read)[0]!)).toContain('they have to take turns');
    }
  });

  it('are none where there are enough, or where a dish may take another', () => {
    expect(panClashes(problem(2, simmer(), simmer()))).toEqual([]);
    const either =
      '{ step: boil, work: boil, takes: 15 min, on: [{ place: burner, heat: low, pan: pot }, { place: burner, heat: low, pan: pan }] }';
    expect(panClashes(problem(1, simmer(), either))).toEqual([]);
  });
});
