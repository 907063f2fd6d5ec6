import { describe, expect, it } from 'vitest';
import type { DishRow } from '../../../src/plan/document.js';
import { oven, problemOf } from '../../support/problem-builder.js';
import { faults, faultsOf, isoAt, planOf } from '../plan-builder.js';

const problem = problemOf({
  serve: 60,
  kitchen: { appliances: [oven()] },
  courses: [
    { name: 'main', at: 0 },
    { name: 'sweet', at: 40 },
  ],
  dishes: [
    {
      dish: 'Pork',
      steps: [{ step: 'plate', work: 'plate', takes: 5, after: [{ step: 'Oil/strain', gap: [0, 60] }] }],
    },
    { dish: 'Roots', steps: [{ step: 'plate', work: 'plate', takes: 5 }] },
    { dish: 'Tart', course: 'sweet', steps: [{ step: 'plate', work: 'plate', takes: 5 }] },
    { dish: 'Oil', served: false, steps: [{ step: 'strain', work: 'finish', takes: 5 }] },
  ],
});
const plan = planOf(problem, {
  steps: {
    'Pork/plate': { at: [60, 65] },
    'Roots/plate': { at: [50, 55] },
    'Tart/plate': { at: [90, 95] },
    'Oil/strain': { at: [10, 15] },
  },
});
const changing = (index: number, change: Partial<DishRow>): string[] => {
  const dishes = plan.dishes.map((row, at) => (at === index ? { ...row, ...change } : row));
  return faultsOf(problem, { ...plan, dishes });
};

describe('rule 9: a course lands at one time, the asked one or the last ready', () => {
  it('finds nothing where each dish says so', () => {
    expect(faultsOf(problem, plan)).toEqual([]);
    expect(plan.dishes.map((row) => row.late)).toEqual([5, 5, 0, null]);
  });

  it('tells a dish that lands by itself', () => {
    expect(changing(1, { serve: isoAt(problem, 60) })).toEqual(['9 serve']);
    expect(changing(1, { serve: isoAt(problem, 66) })).toEqual(['9 serve']);
    expect(changing(1, { serve: null })).toEqual(['9 serve']);
    expect(changing(2, { serve: isoAt(problem, 95) })).toEqual(['9 serve']);
  });

  it('tells minutes of lateness that are not so', () => {
    expect(changing(1, { late: 0 })).toEqual(['9 late']);
    expect(changing(0, { late: null })).toEqual(['9 late']);
    expect(changing(2, { late: 1 })).toEqual(['9 late']);
  });

  it('has no landing for a component', () => {
    expect(changing(3, { serve: isoAt(problem, 65) })).toEqual(['9 component']);
    expect(changing(3, { late: 0 })).toEqual(['9 component']);
  });

  it('names every dish once', () => {
    expect(faultsOf(problem, { ...plan, dishes: plan.dishes.slice(1) })).toEqual(['9 missing']);
    expect(faultsOf(problem, { ...plan, dishes: [...plan.dishes, plan.dishes[0]!] })).toEqual(['9 twice']);
    expect(changing(3, { dish: 'Salt' })).toEqual(['9 missing', '9 unknown']);
  });
});

describe('rule 8: nothing before the start', () => {
  const simple = problemOf({
    serve: 60,
    kitchen: { appliances: [oven()] },
    dishes: [{ dish: 'Salad', steps: [{ step: 'wash', takes: 5 }] }],
  });

  it('tells a step and a run that begin a minute early', () => {
    const at = (start: number): string[] => faults(simple, { steps: { 'Salad/wash': { at: [start, start + 5] } } });
    expect(at(0)).toEqual([]);
    expect(at(-1)).toEqual(['8 step']);
    const runs = [{ in: ['oven', 'roast'], celsius: 50, at: [-1, 30], changeover: 3 }] as const;
    expect(faults(simple, { steps: { 'Salad/wash': { at: [0, 5] } }, runs })).toEqual(['8 run']);
  });
});
