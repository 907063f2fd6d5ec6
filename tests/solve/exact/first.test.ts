/** Where building one dish after the other leaves something out, a schedule of all dishes is found, or proven not to be there. */
import { describe, expect, it } from 'vitest';
import { audit } from '../../../src/audit/audit.js';
import { holds } from '../../../src/kernel/holds.js';
import { compile } from '../../../src/solve/compile.js';
import { firstSchedule } from '../../../src/solve/exact/first.js';
import { cannotBeDone } from '../../../src/solve/explain/judge.js';
import { solve } from '../../../src/solve/solve.js';
import { randomProblemText } from '../../support/random-problem.js';
import { readMeal, readMealFile } from '../../support/read-meal.js';

/** Fifteen dishes and few hands: with a third of all seeds building found no place for the last of them. */
const tight = () => readMeal(randomProblemText(109, { dishes: 15 }));

describe('a first schedule', () => {
  it('has every dish of a tight meal, and keeps every rule', () => {
    const { state, never } = firstSchedule(compile(tight()), 1e6);
    expect(never).toBe(false);
    expect(holds(state!)).toBe(true);
  });

  it('is what a plan is made of where building finds none', { timeout: 30_000 }, () => {
    const problem = tight();
    for (const seed of [5, 12]) {
      const { plan } = solve(problem, { effort: 'quick', seed, explain: false });
      expect(audit(problem, plan!).violations).toEqual([]);
    }
  });

  it('is proven not to be there', () => {
    for (const name of ['cannot-no-hands', 'cannot-two-heats']) {
      const first = firstSchedule(compile(readMealFile(`problems/${name}.yaml`)), 1e6);
      expect(first).toEqual({ state: null, never: true });
    }
  });

  it('is there unless another proof says that there is none', { timeout: 60_000 }, () => {
    let impossible = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const problem = readMeal(randomProblemText(seed, { dishes: 5 + ((seed - 1) % 8) }));
      const compiled = compile(problem);
      const { state, never } = firstSchedule(compiled, 1e6);
      expect(state === null, `seed ${seed}`).toBe(never);
      if (state === null) {
        impossible++;
        expect(solve(problem, { effort: 'quick', seed: 1, explain: false }).plan).toBeNull();
      } else {
        expect(holds(state)).toBe(true);
        expect(cannotBeDone(problem, compiled.model)).toBe(false);
      }
    }
    expect(impossible).toBeGreaterThan(2);
  });

  it('is not looked for beyond the work, and nothing is said then', () => {
    expect(firstSchedule(compile(tight()), 10)).toEqual({ state: null, never: false });
  });
});
