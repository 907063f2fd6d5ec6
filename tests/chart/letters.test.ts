import { expect, it } from 'vitest';
import { letterOf } from '../../src/chart/letters.js';

it('gives every dish its own letters', () => {
  const letters = Array.from({ length: 2000 }, (_, dish) => letterOf(dish));
  expect(new Set(letters).size).toBe(2000);
  expect([letters[0], letters[25], letters[26], letters[51], letters[52], letters[53], letters[78]]).toEqual([
    'A',
    'Z',
    'a',
    'z',
    'AA',
    'AB',
    'BA',
  ]);
});
