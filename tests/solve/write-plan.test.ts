import { describe, expect, it } from 'vitest';
import type { PlanDocument } from '../../src/plan/document.js';
import { compile } from '../../src/solve/compile.js';
import { writePlan } from '../../src/solve/write-plan.js';
import { type At, stateOf } from '../kernel/model-builder.js';
import { circle, cooktop, grill, oven, pan, problemOf, rectangle } from '../support/problem-builder.js';

const kitchen = {
  appliances: [oven(), grill('grill', { modes: { roast: [100, 260] } }), cooktop()],
  boards: 2,
  pans: [
    pan('tray', rectangle(0.4, 0.3), { count: 4 }),
    pan('pot', circle(0.2), { count: 1 }),
    pan('wide tray', rectangle(0.5, 0.3), { count: 1 }),
  ],
};

const bake = { work: 'bake' as const, place: 'oven', pan: 'tray', takes: 30, heat: [180, 180] as const };
const meal = problemOf({
  serve: 120,
  start: '2026-10-03T17:00:00+01:00',
  kitchen,
  cooks: ['Ines', 'Tomas'],
  dishes: [
    {
      dish: 'Bread',
      steps: [
        { step: 'shape', place: 'board', takes: 10, hands: { all: true } },
        { step: 'bake', ...bake, hands: { start: 2, end: 3 } },
      ],
    },
    {
      dish: 'Roots',
      steps: [
        { step: 'cut', place: 'board', takes: 15, hands: { all: true } },
        { step: 'roast', ...bake, pans: 2, work: 'roast' },
      ],
    },
    { dish: 'Soup', steps: [{ step: 'heat', work: 'simmer', place: 'range', pan: 'pot', takes: 20, flame: 'low' }] },
    {
      dish: 'Loin',
      steps: [
        {
          step: 'roast',
          work: 'roast',
          place: 'grill',
          pan: 'wide tray',
          takes: { '160C': 40, '180C': 30 },
          core: 58,
          ideal: 160,
        },
      ],
    },
  ],
});

/** Shape and cut overlap; the bakes follow each other in one run after the changeover; the loin at 165 °C takes 38 minutes. */
const PLACES: At[] = [
  { start: 20, hands: [0] },
  { start: 30, hands: [0, 1] },
  { start: 25, hands: [1] },
  { start: 70 },
  { start: 95, units: [1] },
  { start: 82, setting: 1 },
];

const effort: PlanDocument['effort'] = { level: 'quick', seed: 7, rounds: 3, stopped: false };

function planOf(outcome: Partial<Parameters<typeof writePlan>[2]> = {}): PlanDocument {
  const compiled = compile(meal);
  return writePlan(compiled, stateOf(compiled.model, PLACES), { status: 'good', bound: 1, effort, ...outcome });
}

describe('the plan document', () => {
  const plan = planOf();
  const row = (dish: string, step: string) => plan.steps.find((each) => each.dish === dish && each.step === step)!;
  const clock = (iso: string): string => iso.slice(11, 16);

  it('has its steps in the order of their starts, with times of the zone', () => {
    expect(plan.steps.map((each) => `${each.dish} ${clock(each.start)}-${clock(each.end)}`)).toEqual([
      'Bread 17:20-17:30',
      'Roots 17:25-17:40',
      'Bread 17:30-18:00',
      'Roots 18:10-18:40',
      'Loin 18:22-19:00',
      'Soup 18:35-18:55',
    ]);
    expect(plan.serve).toBe('2026-10-03T19:00:00+01:00');
  });

  it('gives boards numbers, burners names, and racks levels and spots, one for each pan', () => {
    expect([row('Bread', 'shape').place, row('Roots', 'cut').place]).toEqual(['board 1', 'board 2']);
    expect(row('Soup', 'heat')).toMatchObject({
      appliance: 'range',
      place: 'back',
      celsius: null,
      mode: null,
      spot: null,
    });
    expect(row('Bread', 'bake')).toMatchObject({
      appliance: 'oven',
      mode: 'roast',
      celsius: 180,
      pan: 'tray',
      level: 1,
      place: 'rack 1',
    });
    const roots = row('Roots', 'roast');
    expect(roots.level).toHaveLength(2);
    expect(new Set(roots.level as number[])).toEqual(new Set([1, 2]));
    expect(roots.place).toEqual((roots.level as number[]).map((level) => `rack ${level}`));
    expect(roots.spot).toHaveLength(2);
  });

  it('names the zones under a pan from left to right', () => {
    expect(row('Loin', 'roast')).toMatchObject({ place: 'left + middle', level: null });
  });

  it('carries the minutes by temperature of a step with a core temperature', () => {
    expect(row('Loin', 'roast')).toMatchObject({ celsius: 165, minutes: { 160: 40, 180: 30 } });
    expect(row('Bread', 'bake').minutes).toBeUndefined();
  });

  it('says whose hands are needed when', () => {
    const hands = row('Bread', 'bake').hands.map((each) => `${each.cook} ${clock(each.start)}-${clock(each.end)}`);
    expect(hands).toEqual(['Ines 17:30-17:32', 'Tomas 17:57-18:00']);
    expect(row('Soup', 'heat').hands).toEqual([]);
  });

  it('has the runs with the changeover that each needs', () => {
    const runs = plan.runs.map(({ appliance, celsius, start, end, changeover }) => [
      appliance,
      celsius,
      clock(start),
      clock(end),
      changeover,
    ]);
    // From 20 °C at 10 a minute.
    expect(runs).toEqual([
      ['oven', 180, '17:30', '18:40', 16],
      ['grill', 165, '18:22', '19:00', 15],
    ]);
  });

  it('says when each dish is ready and how long it waits', () => {
    expect(plan.dishes.map(({ dish, ready, wait, late }) => [dish, clock(ready), wait, late])).toEqual([
      ['Bread', '18:00', 60, 0],
      ['Roots', '18:40', 20, 0],
      ['Soup', '18:55', 5, 0],
      ['Loin', '19:00', 0, 0],
    ]);
  });

  it('states its points: the parts, their sum and the bound', () => {
    const { parts, total } = plan.points;
    // 60 + 20 + 5 minutes of waiting; cut to roast 30 min at 0.02; 5 °C off; 10 idle minutes; a second cook; from 17:14.
    expect(parts).toEqual({
      late: 0,
      wait: 85,
      over: 0,
      gap: 0.6,
      heat: 0.25,
      runs: 0,
      idle: 0.1,
      rest: 0,
      swap: 0.5,
      day: 2.12,
    });
    expect(total).toBe(88.57);
    expect(plan.effort).toEqual(effort);
  });

  it('never states a bound above the total, nor loses a hundredth of a bound that is met', () => {
    expect(planOf({ bound: 500 }).points.bound).toBe(88.57);
    expect(planOf({ bound: 88.57 - 1e-6 }).points.bound).toBe(88.57);
    expect(planOf({ bound: 12.349 }).points.bound).toBe(12.34);
  });
});
