import { describe, expect, it } from 'vitest';
import type { Dial } from '../../../src/problem/problem.js';
import { oven, pan, problemOf, rectangle } from '../../support/problem-builder.js';
import { faults, faultsOf, planOf } from '../plan-builder.js';

function baking(celsius: number, dial: Dial): string[] {
  const problem = problemOf({
    serve: 120,
    kitchen: { appliances: [oven('oven', { dial, heats: 1000 })], pans: [pan('dish', rectangle(0.2, 0.3))] },
    dishes: [
      { dish: 'Pie', steps: [{ step: 'bake', work: 'bake', place: 'oven', pan: 'dish', takes: 30, heat: [150, 200] }] },
    ],
  });
  return faults(problem, {
    steps: {
      'Pie/bake': {
        at: [60, 90],
        in: ['oven', 'roast'],
        place: 'rack 1',
        level: 1,
        spot: [0, 0],
        pan: 'dish',
        celsius,
      },
    },
    runs: [{ in: ['oven', 'roast'], celsius, at: [60, 90], changeover: 1 }],
  });
}

describe('rule 10: whole minutes and the dial', () => {
  it('sets temperatures on the dial', () => {
    expect(baking(175, { unit: 'C', step: 5 })).toEqual([]);
    expect(baking(176, { unit: 'C', step: 5 })).toEqual(['10 dial']);
    expect(baking(176, { unit: 'C', step: 1 })).toEqual([]);
    expect(baking(((325 - 32) * 5) / 9, { unit: 'F', step: 25 })).toEqual([]);
    expect(baking(((330 - 32) * 5) / 9, { unit: 'F', step: 25 })).toEqual(['10 dial']);
    expect(baking(162.8, { unit: 'F', step: 5 })).toEqual(['10 dial']);
  });

  const problem = problemOf({ serve: 60, dishes: [{ dish: 'Salad', steps: [{ step: 'wash', takes: 5 }] }] });
  const plan = planOf(problem, { steps: { 'Salad/wash': { at: [50, 55] } } });
  const starting = (start: string): string[] =>
    faultsOf(problem, { ...plan, steps: plan.steps.map((row) => ({ ...row, start })) });

  it('tells times between minutes', () => {
    expect(starting('2026-10-03T11:50:00+01:00')).toEqual([]);
    expect(starting('2026-10-03T11:50:30+01:00')).toContain('10 minute');
    expect(starting('2026-10-03T11:50:00.5+01:00')).toContain('10 minute');
    expect(starting('ten to twelve')).toContain('10 minute');
  });

  it('tells times by another clock than the zone’s, even the same moment', () => {
    expect(starting('2026-10-03T10:50:00Z')).toEqual(['10 clock']);
    expect(starting('2026-10-03T12:50:00+02:00')).toEqual(['10 clock']);
    expect(starting('2026-10-03T11:50:00')).toContain('10 clock');
  });
});
