import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/problem/problem.js';
import { cookedSteps, followers, pairRate } from '../../src/solve/rates.js';
import { type DishSpec, problemOf } from '../support/problem-builder.js';

const mealOf = (...dishes: DishSpec[]): Problem => problemOf({ serve: 300, dishes });

/** Points a minute and part of every pair of steps, by name. */
function ratesOf(problem: Problem): Record<string, string> {
  const cooked = cookedSteps(problem);
  const pairs = problem.steps.flatMap((to) =>
    to.after.map((link) => {
      const { rate, part } = pairRate(problem, cooked, link, to);
      return [`${problem.steps[link.step]!.name}-${to.name}`, `${part} ${rate}`];
    }),
  );
  return Object.fromEntries(pairs);
}

describe('followers', () => {
  it('are those tied directly, and later ones through any dishes', () => {
    const problem = mealOf(
      { dish: 'A', steps: [{ step: 'a1' }, { step: 'a2', after: ['B/b1'] }, { step: 'a3' }] },
      { dish: 'B', served: false, steps: [{ step: 'b1', after: ['A/a1'] }] },
    );
    const { later, next } = followers(problem);
    expect([...later[0]!]).toEqual([1, 2]);
    expect(next).toEqual([[1], [2], [], []]);
  });

  it('are several at a branch', () => {
    const { next, later } = followers(
      mealOf({ dish: 'A', steps: [{ step: 'a' }, { step: 'b', after: ['a'] }, { step: 'c', after: ['a'] }] }),
    );
    expect([next[0], [...later[1]!]]).toEqual([[1, 2], []]);
  });
});

describe('the last work on the heat', () => {
  it('is cooked, and so is all that comes after it', () => {
    const problem = mealOf({
      dish: 'A',
      steps: [
        { step: 'cut' },
        { step: 'sear', work: 'sear' },
        { step: 'roast', work: 'roast' },
        { step: 'rest', work: 'rest' },
      ],
    });
    expect(cookedSteps(problem)).toEqual([false, false, true, true]);
  });

  it('may be one in each of two branches', () => {
    const problem = mealOf({
      dish: 'A',
      steps: [
        { step: 'boil', work: 'boil', after: [] },
        { step: 'fry', work: 'fry', after: [] },
        { step: 'toss', work: 'finish', after: ['boil', 'fry'] },
      ],
    });
    expect(cookedSteps(problem)).toEqual([true, true, true]);
  });
});

describe('waiting between two steps', () => {
  it('costs little before the last work on the heat, and the dish’s own rate after it', () => {
    const problem = mealOf({
      dish: 'A',
      fades: 'fast',
      steps: [{ step: 'cut' }, { step: 'roast', work: 'roast' }, { step: 'rest', work: 'rest' }, { step: 'carve' }],
    });
    expect(ratesOf(problem)).toEqual({ 'cut-roast': 'gap 0.02', 'roast-rest': 'wait 4', 'rest-carve': 'wait 4' });
  });

  it('costs nothing after a step with its own `keeps`', () => {
    const problem = mealOf({
      dish: 'A',
      steps: [
        { step: 'cut', keeps: 60 },
        { step: 'toss', work: 'finish' },
      ],
    });
    expect(ratesOf(problem)).toEqual({ 'cut-toss': 'gap 0' });
  });

  it('costs a component’s own rate when it has been on the heat, else little', () => {
    const user = (from: string): DishSpec => ({ dish: 'A', steps: [{ step: 'dress', after: [from] }] });
    const warm = {
      dish: 'Oil',
      served: false as const,
      fades: 'slow' as const,
      steps: [{ step: 'warm', work: 'simmer' as const }],
    };
    expect(ratesOf(mealOf(user('Oil/warm'), warm))).toEqual({ 'warm-dress': 'wait 0.25' });
    const cold = { ...warm, steps: [{ step: 'whisk' }] };
    expect(ratesOf(mealOf(user('Oil/whisk'), cold))).toEqual({ 'whisk-dress': 'gap 0.02' });
  });

  it('costs little between two served dishes', () => {
    const problem = mealOf(
      { dish: 'A', fades: 'fast', steps: [{ step: 'roast', work: 'roast' }] },
      { dish: 'B', steps: [{ step: 'gravy', work: 'simmer', after: ['A/roast'] }] },
    );
    expect(ratesOf(problem)).toEqual({ 'roast-gravy': 'gap 0.02' });
  });
});
