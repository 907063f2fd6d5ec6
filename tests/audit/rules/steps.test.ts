import { describe, expect, it } from 'vitest';
import { ALL_HANDS, circle, cooktop, oven, pan, problemOf, rectangle } from '../../support/problem-builder.js';
import { faults, faultsOf, isoAt, type PlanSpec, planOf } from '../plan-builder.js';

const problem = problemOf({
  serve: 120,
  kitchen: {
    appliances: [oven(), cooktop()],
    pans: [pan('roaster', rectangle(0.3, 0.4)), pan('skillet', circle(0.26)), pan('wide skillet', circle(0.4))],
  },
  dishes: [
    {
      dish: 'Roots',
      steps: [
        { step: 'cut', place: 'board', takes: 20, hands: ALL_HANDS },
        {
          step: 'roast',
          work: 'roast',
          on: [
            { place: 'oven', pan: 'roaster', takes: { '160C': 47, '185C': 37, '210C': 30 } },
            { place: 'range/front', pan: 'skillet', takes: 25 },
          ],
        },
        { step: 'rest', work: 'rest', takes: { low: 5, high: 15 } },
      ],
    },
  ],
});

const right: PlanSpec = {
  steps: {
    'Roots/cut': { at: [40, 60], place: 'board 1', hands: 'Ines' },
    'Roots/roast': {
      at: [60, 96],
      in: ['oven', 'roast'],
      place: 'rack 1',
      level: 1,
      spot: [0, 0],
      pan: 'roaster',
      celsius: 190,
    },
    'Roots/rest': { at: [100, 110] },
  },
  runs: [{ in: ['oven', 'roast'], celsius: 190, at: [60, 100], changeover: 17 }],
};
const withRow = (label: string, change: object): PlanSpec => ({
  ...right,
  steps: { ...right.steps, [label]: { ...right.steps[label]!, ...change } },
});

describe('rule 1: every step once, in one of its alternatives, as long as it takes', () => {
  it('finds nothing against a right plan, and tells a minute too many or too few', () => {
    // 190 °C lies a fifth of the way from 37 to 30 minutes: 35.6, rounded up to 36.
    expect(faults(problem, right)).toEqual([]);
    expect(faults(problem, withRow('Roots/roast', { at: [60, 95] }))).toEqual(['1 length']);
    expect(faults(problem, withRow('Roots/roast', { at: [61, 98] }))).toEqual(['1 length']);
  });

  it('takes the columns themselves exactly, and no minute more for rounding', () => {
    for (const [celsius, minutes, changeover] of [
      [160, 47, 14],
      [185, 37, 17],
      [210, 30, 19],
    ] as const) {
      const at = [60, 60 + minutes] as const;
      const spec: PlanSpec = {
        steps: {
          ...right.steps,
          'Roots/roast': { ...right.steps['Roots/roast']!, at, celsius },
          'Roots/rest': { at: [110, 120] },
        },
        runs: [{ in: ['oven', 'roast'], celsius, at, changeover }],
      };
      expect(faults(problem, spec)).toEqual([]);
    }
  });

  it('keeps a free duration within its range', () => {
    const base: PlanSpec = {
      ...right,
      steps: { ...right.steps, 'Roots/roast': { at: [60, 85], in: ['range'], place: 'front', pan: 'skillet' } },
      runs: [],
    };
    const resting = (minutes: number): string[] =>
      faults(problem, { ...base, steps: { ...base.steps, 'Roots/rest': { at: [100, 100 + minutes] } } });
    expect(resting(5)).toEqual([]);
    expect(resting(15)).toEqual([]);
    expect(resting(4)).toEqual(['1 length']);
    expect(resting(16)).toEqual(['1 length']);
  });

  it('tells a step that is missing or unknown', () => {
    const { 'Roots/rest': _rest, ...fewer } = right.steps;
    expect(faults(problem, { ...right, steps: fewer })).toContain('1 missing');
    expect(faults(problem, { ...right, steps: { ...right.steps, 'Roots/glaze': { at: [105, 106] } } })).toContain(
      '1 unknown',
    );
    expect(faults(problem, { ...right, steps: { ...right.steps, 'Soup/boil': { at: [105, 106] } } })).toContain(
      '1 unknown',
    );
  });

  it('tells a step that is there twice, even at another time', () => {
    const plan = planOf(problem, right);
    const rest = plan.steps.find((row) => row.step === 'rest')!;
    const again = { ...rest, start: isoAt(problem, 112), end: isoAt(problem, 118) };
    expect(faultsOf(problem, { ...plan, steps: [...plan.steps, again] })).toEqual(['1 twice']);
  });

  it('tells an alternative that is none of the step’s', () => {
    const elsewhere = (change: object): string[] => faults(problem, withRow('Roots/rest', change));
    expect(elsewhere({ place: 'board 1' })).toContain('1 alternative');
    expect(elsewhere({ pan: 'skillet' })).toContain('1 alternative');
    const onRange = (change: object): string[] =>
      faults(problem, {
        steps: {
          ...right.steps,
          'Roots/roast': { at: [60, 85], in: ['range'], place: 'front', pan: 'skillet', ...change },
        },
      });
    expect(onRange({})).toEqual([]);
    expect(onRange({ place: 'back' })).toEqual(['3 burner']);
    expect(onRange({ pan: 'roaster' })).toEqual(['1 alternative']);
    expect(onRange({ pan: 'wide skillet' })).toEqual(['1 alternative']);
    expect(onRange({ place: ['front', 'back'] })).toContain('1 alternative');
  });

  it('tells a burner that would carry the pan but is not among the step’s', () => {
    const one = problemOf({
      serve: 60,
      kitchen: { appliances: [cooktop('range', { front: 0.23, back: 0.23 })], pans: [pan('skillet', circle(0.26))] },
      dishes: [{ dish: 'Egg', steps: [{ step: 'fry', work: 'fry', place: 'range/front', pan: 'skillet', takes: 5 }] }],
    });
    const on = (place: string): string[] =>
      faults(one, { steps: { 'Egg/fry': { at: [50, 55], in: ['range'], place, pan: 'skillet' } } });
    expect(on('front')).toEqual([]);
    expect(on('back')).toEqual(['1 alternative']);
    expect(on('middle')).toEqual(['3 place']);
  });

  it('tells the wrong word for the work', () => {
    expect(faults(problem, withRow('Roots/rest', { work: 'chill' }))).toContain('1 work');
  });
});

describe('rule 1: minutes by temperature of an `until`', () => {
  const columns = { '150C': 60, '170C': 50 } as const;
  const until = problemOf({
    serve: 120,
    kitchen: { appliances: [oven(), cooktop()], pans: [pan('skillet', circle(0.26))] },
    dishes: [
      {
        dish: 'Pork',
        steps: [
          {
            step: 'roast',
            work: 'roast',
            core: 58,
            on: [
              { place: 'oven', pan: 'skillet', takes: columns },
              { place: 'range', pan: 'skillet', takes: 40 },
            ],
          },
        ],
      },
    ],
  });
  const inOven = (minutes: Record<string, number> | number | undefined, end = 115): string[] =>
    faults(until, {
      steps: {
        'Pork/roast': {
          at: [60, end],
          in: ['oven', 'roast'],
          place: 'rack 2',
          level: 2,
          spot: [0.1, 0.1],
          pan: 'skillet',
          celsius: 160,
          minutes,
        },
      },
      runs: [{ in: ['oven', 'roast'], celsius: 160, at: [60, end], changeover: 14 }],
    });

  it('must be the columns of the alternative, in any order', () => {
    expect(inOven({ '150': 60, '170': 50 })).toEqual([]);
    expect(inOven({ '170.0': 50, '150.0': 60 })).toEqual([]);
    expect(inOven(undefined)).toEqual(['1 minutes']);
    expect(inOven({ '150': 60 })).toEqual(['1 minutes']);
    expect(inOven({ '150': 60, '170': 49 })).toEqual(['1 minutes']);
    expect(inOven({ '150': 60, '175': 50 })).toEqual(['1 minutes']);
    expect(inOven({ '150': 60, '160': 55, '170': 50 })).toEqual(['1 minutes']);
    expect(inOven(55)).toEqual(['1 minutes']);
  });

  it('are one number on a burner', () => {
    const onBurner = (minutes: Record<string, number> | number | undefined): string[] =>
      faults(until, {
        steps: { 'Pork/roast': { at: [60, 100], in: ['range'], place: 'front', pan: 'skillet', minutes } },
      });
    expect(onBurner(40)).toEqual([]);
    expect(onBurner(39)).toEqual(['1 minutes']);
    expect(onBurner(undefined)).toEqual(['1 minutes']);
    expect(onBurner({ '160': 40 })).toEqual(['1 minutes']);
  });
});

describe('rule 1: two alternatives that look alike', () => {
  it('are told apart by what the row keeps, and cost the less', () => {
    const alike = problemOf({
      serve: 100,
      kitchen: { appliances: [oven()], pans: [pan('dish', rectangle(0.2, 0.3))] },
      dishes: [
        {
          dish: 'Gratin',
          steps: [
            {
              step: 'bake',
              work: 'bake',
              place: 'oven',
              pan: 'dish',
              on: [
                { takes: 40, heat: [150, 180], ideal: 165 },
                { takes: 30, heat: [170, 220], ideal: 200 },
              ],
            },
          ],
        },
      ],
    });
    const baked = (celsius: number, minutes: number, changeover: number): string[] =>
      faults(alike, {
        steps: {
          'Gratin/bake': {
            at: [50, 50 + minutes],
            in: ['oven', 'roast'],
            place: 'rack 1',
            level: 1,
            spot: [0, 0],
            pan: 'dish',
            celsius,
          },
        },
        runs: [{ in: ['oven', 'roast'], celsius, at: [50, 50 + minutes], changeover }],
      });
    expect(baked(160, 40, 14)).toEqual([]);
    expect(baked(200, 30, 18)).toEqual([]);
    expect(baked(200, 40, 18)).toEqual(['1 length']);
    expect(baked(175, 30, 16)).toEqual([]);
  });
});
