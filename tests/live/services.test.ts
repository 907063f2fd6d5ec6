import { describe, expect, it } from 'vitest';
import { solve } from '../../src/solve/solve.js';
import { readMealFile } from '../support/read-meal.js';
import { faultsOf, serve } from '../support/services.js';

function planned(name: string) {
  const problem = readMealFile(`problems/${name}.yaml`);
  return { problem, plan: solve(problem, { effort: 'quick', seed: 1 }).plan! };
}

describe('a service with a new plan whenever the evening goes otherwise', () => {
  const pork = planned('one-grill-pork');

  it.each([1, 2, 3, 4])('lands near its time, and every plan on the way is right: evening %i', (seed) => {
    const { late, plans, faults, leftOut } = serve(pork.problem, pork.plan, { seed, anew: true, mishaps: true });
    expect(faults).toEqual([]);
    expect(leftOut).toBe(0);
    expect(plans).toBeGreaterThan(0);
    expect(late).toBeLessThanOrEqual(5);
  });

  it('asks a cook to stay some minutes, and says so, before the meal waits for the morning', () => {
    const { problem, plan } = planned('clocks-change');
    let asked = 0;
    const { late, faults } = serve(problem, plan, {
      seed: 2,
      anew: true,
      mishaps: true,
      opened: false,
      onPlan: (_, happened, made, expected) => {
        const isTold = made.say.some((say) => /^Signe stays until 23:3\d\.$/.test(say));
        const inHours = faultsOf(problem, { ...made, stay: 0 }, happened, expected);
        expect(inHours.some((say) => say.includes('is not there for all of'))).toBe(isTold);
        asked += isTold ? 1 : 0;
      },
    });
    expect(asked).toBeGreaterThan(0);
    expect(faults).toEqual([]);
    expect(late).toBeLessThanOrEqual(5);
  });

  it('says where a cook is wanted at two things that have both begun', () => {
    const { problem, plan } = planned('weeknight-three-burners');
    let told = 0;
    const { faults } = serve(problem, plan, {
      seed: 4,
      anew: true,
      mishaps: true,
      opened: false,
      onPlan: (_, happened, made, expected) => {
        const silent = faultsOf(problem, { ...made, twice: [] }, happened, expected);
        expect(silent.length > 0).toBe(made.twice.length > 0);
        expect(made.say.some((say) => say.includes('at once'))).toBe(made.twice.length > 0);
        told += made.twice.length;
      },
    });
    expect(told).toBeGreaterThan(0);
    expect(faults).toEqual([]);
  });
});
