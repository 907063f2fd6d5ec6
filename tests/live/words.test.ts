/** Heats and cores of the day in the degrees and words that the plan has them in. */
import { describe, expect, it } from 'vitest';
import type { Day } from '../../src/live/journal/day.js';
import { heatWords, shownCore } from '../../src/live/state/words.js';
import { readProblem } from '../../src/problem/read.js';
import { settled } from '../support/read-meal.js';
import { SUPPER } from './day-of.js';

const problem = settled(
  readProblem(SUPPER.replace('{ roast: { heat: 75-270C } }', '{ roast: { heat: 170-520F } }'), { name: 'f.yaml' }),
);
const clock = () => '18:00';
const words = (celsius: number, set: number | null, there: number | null = null) =>
  heatWords({ problem } as Day, { appliance: 0, celsius, set, mode: 'roast', there, lost: false }, clock);
const ofFahrenheit = (degrees: number) => ((degrees - 32) * 5) / 9;

describe('the words of the day', () => {
  it('tell a dial as it is written, and what is reckoned in whole degrees', () => {
    const dial = ofFahrenheit(350);
    expect(words(dial, dial)).toBe('350 °F, roast');
    expect(words(100, dial, 5)).toBe('about 212 °F, set to 350 °F: there at 18:00');
    expect(words(100, null)).toBe('off, still about 212 °F');
    expect(words(20, null)).toBe('off');
  });

  it('tell a core in the degrees of what its dish is heated in, while it rests too', () => {
    const loin = problem.steps.filter(({ dish }) => problem.dishes[dish]!.name === 'Roast loin');
    expect(loin.map(({ id }) => shownCore(problem, id, 60))).toEqual(loin.map(() => '140 °F'));
  });
});
