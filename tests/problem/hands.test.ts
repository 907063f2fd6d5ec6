/** The attention a step needs. */
import { describe, expect, it } from 'vitest';
import type { Hands } from '../../src/problem/problem.js';
import { optionWith } from './support/roots.js';

describe('hands', () => {
  const none: Hands = { all: false, start: 0, end: 0, every: 0, for: 0, cooks: 1 };
  const two = ['{ name: Tomas, can: [prep, oven, board], from: 15:00, to: 22:00 }', 'Tomas'] as const;
  const hands = (step: string) => optionWith(`takes: 60 min, on: none, ${step}`, two).hands;

  it.each(['prep', 'sear', 'grill', 'fry', 'finish', 'carve', 'plate'])('are needed throughout for %s', (work) => {
    expect(hands(`work: ${work}`)).toEqual({ ...none, all: true });
  });
  it.each(['roast', 'bake', 'braise', 'boil', 'simmer', 'steam', 'warm'])(
    'are needed for 2 min at the start of %s',
    (work) => {
      expect(hands(`work: ${work}`)).toEqual({ ...none, start: 2 });
    },
  );
  it.each(['rest', 'chill'])('are not needed for %s', (work) => {
    expect(hands(`work: ${work}`)).toEqual(none);
  });

  it.each([
    ['all', { all: true }],
    ['none', {}],
    ['4 min', { start: 4 }],
    ['{ start: 3 min, end: 2 min }', { start: 3, end: 2 }],
    ['{ every: 20 min }', { every: 20, for: 1 }],
    [
      '{ start: 3 min, end: 3 min, every: 20 min, for: 2 min, cooks: 2 }',
      { start: 3, end: 3, every: 20, for: 2, cooks: 2 },
    ],
  ])('%s', (words, expected) => {
    expect(hands(`work: rest, hands: ${words}`)).toEqual({ ...none, ...expected });
  });

  it('of two cooks are those of the work, unless stretches are said', () => {
    expect(hands('work: finish, hands: { cooks: 2 }')).toEqual({ ...none, all: true, cooks: 2 });
  });
});
