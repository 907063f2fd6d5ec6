/** Every part of the objective against numbers worked out by hand from the rates of the design. */
import { describe, expect, it } from 'vitest';
import { audit } from '../../src/audit/audit.js';
import type { PartName } from '../../src/plan/document.js';
import type { Problem } from '../../src/problem/problem.js';
import {
  type ALL_HANDS,
  type DishSpec,
  oven,
  pan,
  problemOf,
  rectangle,
  type StepSpec,
} from '../support/problem-builder.js';
import { type PlanSpec, planOf, type RowSpec } from './plan-builder.js';

/** The parts that are not 0, and whether the plan is a right one. */
function partsOf(problem: Problem, spec: PlanSpec): Partial<Record<PartName, number>> {
  const { violations, points } = audit(problem, planOf(problem, spec));
  expect(violations).toEqual([]);
  return Object.fromEntries(Object.entries(points.parts).filter(([name, value]) => value !== 0 && name !== 'day'));
}

const boil = (step: string, more: Partial<StepSpec> = {}): StepSpec => ({ step, work: 'boil', takes: 10, ...more });
const finish = (step: string, more: Partial<StepSpec> = {}): StepSpec => ({ step, work: 'finish', takes: 10, ...more });
const timed = (rows: Readonly<Record<string, readonly [number, number]>>): PlanSpec => ({
  steps: Object.fromEntries(Object.entries(rows).map(([label, at]) => [label, { at } satisfies RowSpec])),
});
const meal = (...dishes: DishSpec[]): Problem => problemOf({ serve: 100, dishes });

describe('wait and gap within a dish', () => {
  it('costs the gap rate before the last work on the heat, the dish’s rate from it on', () => {
    const problem = meal({
      dish: 'A',
      fades: 'fast',
      steps: [{ step: 'cut' }, boil('first'), finish('peel'), boil('last'), finish('dress')],
    });
    // cut → first 5, first → peel 6, peel → last 7: 18 at 0.02. last → dress 8, dress → landing 4: 12 at 4.
    expect(
      partsOf(
        problem,
        timed({ 'A/cut': [10, 20], 'A/first': [25, 35], 'A/peel': [41, 51], 'A/last': [58, 68], 'A/dress': [76, 86] }),
      ),
    ).toEqual({ gap: 0.36, wait: 4 * (8 + 14) });
  });

  it('counts from the gap’s low end', () => {
    const problem = meal({ dish: 'A', steps: [boil('boil'), finish('dress', { gap: [5, 20] })] });
    expect(partsOf(problem, timed({ 'A/boil': [65, 75], 'A/dress': [80, 90] }))).toEqual({ wait: 10 });
    expect(partsOf(problem, timed({ 'A/boil': [62, 72], 'A/dress': [80, 90] }))).toEqual({ wait: 3 + 10 });
  });

  it('costs nothing after a step with its own keeps', () => {
    const problem = meal({ dish: 'A', steps: [boil('boil', { keeps: 60 }), finish('dress')] });
    expect(partsOf(problem, timed({ 'A/boil': [20, 30], 'A/dress': [90, 100] }))).toEqual({});
  });

  it('knows the last work on the heat through `after`, branch by branch', () => {
    const problem = meal({
      dish: 'A',
      fades: 'slow',
      steps: [
        { step: 'cut' },
        boil('one', { after: ['cut'] }),
        finish('two', { after: ['cut'] }),
        finish('join', { after: ['one', 'two'] }),
      ],
    });
    // cut → one 10 and cut → two 15 at 0.02; two → join 5 at 0.02, as two comes after no heat. one → join 10 at 0.25,
    // join → landing 30 at 0.25.
    expect(
      partsOf(problem, timed({ 'A/cut': [20, 30], 'A/one': [40, 50], 'A/two': [45, 55], 'A/join': [60, 70] })),
    ).toEqual({
      gap: 0.6,
      wait: 10,
    });
  });

  it('follows `after` through other dishes', () => {
    const problem = meal(
      { dish: 'A', fades: 'fast', steps: [boil('boil'), boil('glaze', { after: ['Jus/reduce'] })] },
      { dish: 'Jus', served: false, steps: [boil('reduce', { after: ['A/boil'] })] },
    );
    // boil is not A's last work on the heat, and it is no last step: 10 minutes to reduce at the gap rate. Jus fades steadily: 5.
    expect(partsOf(problem, timed({ 'A/boil': [50, 60], 'Jus/reduce': [70, 80], 'A/glaze': [85, 95] }))).toEqual({
      gap: 0.2,
      wait: 5 + 4 * 5,
    });
  });
});

describe('wait and gap between dishes', () => {
  const using = (fades: DishSpec['fades'], first: StepSpec, ...more: StepSpec[]): Problem =>
    meal(
      { dish: 'Sauce', served: false, ...(fades === undefined ? {} : { fades }), steps: [first, ...more] },
      { dish: 'A', fades: 'fast', steps: [finish('dress', { after: [`Sauce/${(more.at(-1) ?? first).step}`] })] },
    );

  it('costs a component’s own rate', () => {
    expect(partsOf(using('slow', boil('boil')), timed({ 'Sauce/boil': [50, 60], 'A/dress': [90, 100] }))).toEqual({
      wait: 7.5,
    });
    expect(
      partsOf(
        using('slow', boil('boil'), finish('strain')),
        timed({ 'Sauce/boil': [40, 50], 'Sauce/strain': [52, 62], 'A/dress': [90, 100] }),
      ),
    ).toEqual({ wait: 0.25 * (2 + 28) });
    expect(partsOf(using('never', boil('boil')), timed({ 'Sauce/boil': [50, 60], 'A/dress': [90, 100] }))).toEqual({});
  });

  it('costs it from whichever of the component’s steps is used', () => {
    const problem = meal(
      { dish: 'Stock', served: false, fades: 'slow', steps: [finish('skim'), boil('reduce')] },
      { dish: 'A', fades: 'never', steps: [finish('dress', { after: ['Stock/skim', 'Stock/reduce'] })] },
    );
    // skim → reduce 10 at 0.02; skim → dress 60 and reduce → dress 40 at 0.25.
    expect(partsOf(problem, timed({ 'Stock/skim': [20, 30], 'Stock/reduce': [40, 50], 'A/dress': [90, 100] }))).toEqual(
      {
        gap: 0.2,
        wait: 25,
      },
    );
  });

  it('costs the gap rate for a component never on the heat', () => {
    expect(partsOf(using('fast', finish('whisk')), timed({ 'Sauce/whisk': [50, 60], 'A/dress': [90, 100] }))).toEqual({
      gap: 0.6,
    });
  });

  it('costs nothing for a component’s step that keeps', () => {
    expect(
      partsOf(using('fast', boil('boil', { keeps: 300 })), timed({ 'Sauce/boil': [50, 60], 'A/dress': [90, 100] })),
    ).toEqual({});
  });

  it('costs the gap rate from a served dish', () => {
    const problem = meal(
      { dish: 'Roast', fades: 'fast', steps: [boil('boil'), finish('carve', { takes: 30 })] },
      { dish: 'Gravy', fades: 'fast', steps: [boil('simmer', { after: ['Roast/boil'] })] },
    );
    // boil → carve 0, boil → simmer 20 at 0.02.
    expect(
      partsOf(problem, timed({ 'Roast/boil': [60, 70], 'Roast/carve': [70, 100], 'Gravy/simmer': [90, 100] } as const)),
    ).toEqual({ gap: 0.4 });
  });
});

describe('wait and over until the landing', () => {
  it('costs each last step its dish’s rate, heated or never', () => {
    const salad = meal({ dish: 'Salad', fades: 'fast', steps: [{ step: 'wash' }] });
    expect(partsOf(salad, timed({ 'Salad/wash': [85, 95] }))).toEqual({ wait: 20 });
    const two = meal({ dish: 'A', steps: [boil('one'), boil('two', { after: [] })] });
    expect(partsOf(two, timed({ 'A/one': [80, 90], 'A/two': [70, 80] }))).toEqual({ wait: 30 });
  });

  it('costs over beyond the dish’s keeps, for each last step', () => {
    const problem = meal({ dish: 'A', keeps: 12, fades: 'slow', steps: [boil('one'), boil('two', { after: [] })] });
    expect(partsOf(problem, timed({ 'A/one': [78, 88], 'A/two': [70, 80] }))).toEqual({ wait: 0.25 * 32, over: 80 });
  });

  it('lands every dish of a late course late', () => {
    const problem = problemOf({
      serve: 100,
      courses: [
        { name: 'main', at: 0 },
        { name: 'sweet', at: 30 },
        { name: 'cheese', at: 60 },
      ],
      dishes: [
        { dish: 'A', steps: [boil('boil')] },
        { dish: 'B', steps: [boil('boil')] },
        { dish: 'C', course: 'sweet', steps: [boil('boil')] },
      ],
    });
    // The main course lands 3 late and B waits 5 for it; the sweet 2 late; no cheese is served.
    expect(partsOf(problem, timed({ 'A/boil': [93, 103], 'B/boil': [88, 98], 'C/boil': [122, 132] }))).toEqual({
      late: 300,
      wait: 5,
    });
  });
});

describe('a hold', () => {
  const problem = problemOf({
    serve: 100,
    kitchen: { appliances: [oven()], pans: [pan('dish', rectangle(0.2, 0.3))] },
    dishes: [
      {
        dish: 'A',
        keeps: 5,
        fades: 'fast',
        hold: { heat: [60, 90], keeps: 20, fades: 'slow' },
        steps: [boil('boil', { pan: 'dish' })],
      },
    ],
  });
  const held = (start: number, end: number): Partial<Record<PartName, number>> => {
    const row = {
      in: ['oven', 'roast'] as const,
      place: 'rack 1',
      level: 1,
      spot: [0, 0] as const,
      pan: 'dish',
      celsius: 80,
    };
    return partsOf(problem, {
      steps: { 'A/boil': { at: [50, 60], pan: 'dish' }, 'A/hold': { ...row, at: [start, end] } },
      runs: [{ in: ['oven', 'roast'], celsius: 80, at: [start, end], changeover: 6 }],
    });
  };

  it('costs its own fades within its own keeps', () => {
    // 40 minutes from 60 to 100; those outside the hold count together against the dish's 5.
    expect(held(62, 98)).toEqual({ wait: 4 * 4 + 0.25 * 36, over: 160 });
    expect(held(70, 90)).toEqual({ wait: 4 * 20 + 0.25 * 20, over: 150 });
    expect(held(65, 100)).toEqual({ wait: 4 * 5 + 0.25 * 35, over: 150 });
  });
});

describe('what steps cost by themselves', () => {
  const appliances = [oven('oven', { heats: 20, cools: 20 })];
  const pans = [pan('dish', rectangle(0.2, 0.3), { count: 4 })];
  const baking = { place: 'rack 1', level: 1, spot: [0, 0] as const, pan: 'dish' };
  const dish = (name: string, more: Partial<StepSpec>): DishSpec => ({
    dish: name,
    steps: [{ step: 'bake', work: 'bake', place: 'oven', pan: 'dish', takes: 10, ...more }],
  });

  it('heat: 0.05 for a °C from the ideal, either way, once for all pans of a step', () => {
    const problem = problemOf({
      serve: 100,
      kitchen: { appliances, pans },
      dishes: [dish('A', { ideal: 165 }), dish('B', {}), dish('C', { ideal: 200, pans: 2 })],
    });
    const both = {
      place: ['rack 1', 'rack 2'],
      level: [1, 2],
      spot: [
        [0, 0],
        [0, 0],
      ] as const,
    };
    const parts = partsOf(problem, {
      steps: {
        'A/bake': { ...baking, at: [40, 50], in: ['oven', 'roast'], celsius: 160 },
        'B/bake': { ...baking, at: [40, 50], in: ['oven', 'roast'], celsius: 160, spot: [0.3, 0] },
        'C/bake': { ...baking, ...both, at: [90, 100], in: ['oven', 'roast'], celsius: 220 },
      },
      runs: [
        { in: ['oven', 'roast'], celsius: 160, at: [40, 50], changeover: 7 },
        { in: ['oven', 'roast'], celsius: 220, at: [90, 100], changeover: 3 },
      ],
    });
    // A and B wait 50 minutes each.
    expect(parts).toEqual({ heat: 0.05 * (5 + 20), runs: 5, wait: 100 });
  });

  it('runs: 5 for each beyond an appliance’s first; idle: 0.01 for a minute with nothing in it', () => {
    const problem = problemOf({
      serve: 100,
      kitchen: { appliances: [...appliances, oven('small oven')], pans },
      dishes: [dish('A', { takes: 30 }), dish('B', { takes: 30 })],
    });
    const parts = partsOf(problem, {
      steps: {
        'A/bake': { ...baking, at: [30, 60], in: ['oven', 'roast'], celsius: 160 },
        'B/bake': { ...baking, at: [50, 80], in: ['oven', 'roast'], celsius: 160, spot: [0.3, 0] },
      },
      runs: [
        { in: ['oven', 'roast'], celsius: 160, at: [26, 83], changeover: 7 },
        { in: ['oven', 'roast'], celsius: 160, at: [83, 90], changeover: 0 },
        { in: ['oven', 'roast'], celsius: 160, at: [90, 94], changeover: 0 },
        { in: ['small oven', 'roast'], celsius: 50, at: [20, 50], changeover: 3 },
      ],
    });
    // Idle: 26–30, 80–83, 83–90, 90–94 and all 30 of the small oven.
    expect(parts).toEqual({ runs: 10, idle: 0.48, wait: 40 + 20 });
  });

  it('rest: 0.5 for a minute outside the best of a free duration', () => {
    const resting = (minutes: number): Partial<Record<PartName, number>> =>
      partsOf(
        meal({ dish: 'A', steps: [{ step: 'rest', work: 'rest', takes: { low: 10, high: 40, best: [18, 26] } }] }),
        timed({ 'A/rest': [100 - minutes, 100] }),
      );
    expect(resting(10)).toEqual({ rest: 4 });
    expect(resting(18)).toEqual({});
    expect(resting(26)).toEqual({});
    expect(resting(29)).toEqual({ rest: 1.5 });
    const anywhere = meal({ dish: 'A', steps: [{ step: 'rest', work: 'rest', takes: { low: 10, high: 40 } }] });
    expect(partsOf(anywhere, timed({ 'A/rest': [60, 100] }))).toEqual({});
  });

  it('swap: 0.5 for each cook on a step beyond the number it asks for at once', () => {
    const stirring = (
      hands: Partial<typeof ALL_HANDS>,
      given: NonNullable<RowSpec['hands']>,
    ): Partial<Record<PartName, number>> =>
      partsOf(
        problemOf({
          serve: 100,
          cooks: ['Ines', 'Tomas', 'Rui'],
          dishes: [{ dish: 'A', steps: [{ step: 'stir', takes: 40, hands }] }],
        }),
        { steps: { 'A/stir': { at: [60, 100], hands: given } } },
      );
    const looks = { every: 10, for: 1 };
    expect(
      stirring(looks, [
        ['Ines', 70, 71],
        ['Ines', 80, 81],
        ['Ines', 90, 91],
      ]),
    ).toEqual({});
    expect(
      stirring(looks, [
        ['Ines', 70, 71],
        ['Tomas', 80, 81],
        ['Ines', 90, 91],
      ]),
    ).toEqual({ swap: 0.5 });
    expect(
      stirring(looks, [
        ['Ines', 70, 71],
        ['Tomas', 80, 81],
        ['Rui', 90, 91],
      ]),
    ).toEqual({ swap: 1 });
    const two = { start: 2, end: 2, cooks: 2 };
    const start: NonNullable<RowSpec['hands']> = [
      ['Ines', 60, 62],
      ['Tomas', 60, 62],
    ];
    expect(stirring(two, [...start, ['Ines', 98, 100], ['Tomas', 98, 100]] as never)).toEqual({});
    expect(stirring(two, [...start, ['Ines', 98, 100], ['Rui', 98, 100]] as never)).toEqual({ swap: 0.5 });
  });
});

describe('day and total', () => {
  const dayOf = (problem: Problem, spec: PlanSpec): number => audit(problem, planOf(problem, spec)).points.parts.day;
  const problem = problemOf({
    serve: 100,
    kitchen: { appliances: [oven()] },
    dishes: [{ dish: 'Salad', steps: [{ step: 'wash' }] }],
  });

  it('runs from the first step or the first changeover to the asked serve', () => {
    const steps = { 'Salad/wash': { at: [60, 70] } } as const;
    expect(dayOf(problem, { steps })).toBe(0.8);
    // 180 − 20 at 10 °C a minute: the changeover begins at 50, and at 46 when the run is at 62.
    expect(
      dayOf(problem, { steps, runs: [{ in: ['oven', 'roast'], celsius: 180, at: [66, 80], changeover: 16 }] }),
    ).toBe(1);
    expect(
      dayOf(problem, { steps, runs: [{ in: ['oven', 'roast'], celsius: 180, at: [80, 90], changeover: 16 }] }),
    ).toBe(0.8);
    expect(dayOf(problem, { steps: { 'Salad/wash': { at: [110, 120] } } })).toBe(0);
    expect(dayOf(problem, { steps: { 'Salad/wash': { at: [95, 105] } } })).toBe(0.1);
  });

  it('rounds the exact sum once', () => {
    const fine = problemOf({
      serve: 100,
      rates: { day: 0.004, gap: 0.004 },
      dishes: [{ dish: 'A', fades: 'never', steps: [{ step: 'cut' }, { step: 'wash' }] }],
    });
    // A day of 31 minutes: 0.124; a gap of 11: 0.044. Together 0.168, where the rounded parts make 0.16.
    const { points } = audit(fine, planOf(fine, timed({ 'A/cut': [69, 79], 'A/wash': [90, 100] })));
    expect(points.parts).toMatchObject({ day: 0.12, gap: 0.04 });
    expect(points.total).toBe(0.17);
  });

  it('takes the meal’s own rates', () => {
    const own = problemOf({
      serve: 100,
      rates: { day: 1 },
      dishes: [{ dish: 'A', fades: 'never', steps: [{ step: 'cut' }] }],
    });
    expect(audit(own, planOf(own, timed({ 'A/cut': [30, 40] }))).points.total).toBe(70);
  });
});
