/** Raw food and then ready-to-eat food on one board or in one pan. */
import { describe, expect, it } from 'vitest';
import type { RowSpec } from '../audit/plan-builder.js';
import type { DishSpec } from '../support/problem-builder.js';
import { mealWith, saidOf } from './meals.js';

const chicken: DishSpec = {
  dish: 'Chicken',
  piece: { food: 'chicken' },
  steps: [
    { step: 'joint', place: 'board' },
    { step: 'roast', work: 'roast', place: 'oven', pan: 'tray', core: 75 },
    { step: 'carve', work: 'carve', place: 'board' },
  ],
};
const salad: DishSpec = { dish: 'Salad', steps: [{ step: 'shred', place: 'board' }] };
const roots: DishSpec = {
  dish: 'Roots',
  steps: [
    { step: 'cut', place: 'board' },
    { step: 'roast', work: 'roast', place: 'oven', pan: 'tray' },
  ],
};
const row = (start: number, board: number): RowSpec => ({ at: [start, start + 10], place: `board ${board}` });
const roasted = (start: number): RowSpec => ({
  at: [start, start + 60],
  in: ['oven', 'roast'],
  celsius: 180,
  pan: 'tray',
});
const RULE = 'raw-then-ready';

/** The joint at 09:00 on board 1, roasted; carved where and when the test says. */
const chickenRows = (carve: RowSpec): Record<string, RowSpec> => ({
  'Chicken/joint': row(0, 1),
  'Chicken/roast': roasted(20),
  'Chicken/carve': carve,
});

describe('raw, then ready to eat', () => {
  it('on one board is told with its times and what to do', () => {
    const problem = mealWith([chicken, salad]);
    const steps = { ...chickenRows(row(100, 2)), 'Salad/shred': row(200, 1) };
    expect(saidOf(problem, RULE, { steps })).toEqual([
      {
        rule: RULE,
        dish: null,
        source: 'FDA Food Code 3-302.11, from memory; local rules and licensed advice come first',
        say: 'Board 1: raw Chicken (joint) at 11:00, then Salad (shred) at 14:20. Wash it and the knife with hot soapy water between, or take another.',
      },
    ]);
  });

  it('is nothing to say of on two boards, or the other way round', () => {
    const problem = mealWith([chicken, salad]);
    const carve = row(300, 2);
    expect(saidOf(problem, RULE, { steps: { ...chickenRows(carve), 'Salad/shred': row(200, 2) } })).toEqual([]);
    const early = { ...chickenRows(carve), 'Chicken/joint': row(100, 1), 'Salad/shred': row(0, 1) };
    expect(saidOf(problem, RULE, { steps: early })).toEqual([]);
  });

  it('is told of the same bird that is carved where it was jointed', () => {
    const [caution] = saidOf(mealWith([chicken]), RULE, { steps: chickenRows(row(100, 1)) });
    expect(caution!.say).toMatch(/raw Chicken \(joint\) at 11:00, then its carve at 12:40\./);
  });

  it('is nothing to say of vegetables that are cooked yet, nor of what comes to a board cooked', () => {
    const problem = mealWith([chicken, roots]);
    const steps = { ...chickenRows(row(100, 2)), 'Roots/cut': row(30, 1), 'Roots/roast': roasted(90) };
    expect(saidOf(problem, RULE, { steps })).toEqual([]);
    const both = mealWith([chicken, salad]);
    expect(saidOf(both, RULE, { steps: { ...chickenRows(row(100, 2)), 'Salad/shred': row(150, 2) } })).toEqual([]);
  });

  it('sees through to a component: a raw mix that is cooked later, a dressing that is not', () => {
    const problem = mealWith([
      { dish: 'Minced lamb', served: false, steps: [{ step: 'mix', place: 'board' }] },
      {
        dish: 'Skewers',
        steps: [{ step: 'grill', work: 'grill', place: 'gas grill', pan: 'tray', after: ['Minced lamb/mix'] }],
      },
      { dish: 'Herb dressing', served: false, steps: [{ step: 'chop', place: 'board' }] },
      { dish: 'Leaves', steps: [{ step: 'dress', work: 'finish', after: ['Herb dressing/chop'] }] },
    ]);
    const [caution] = saidOf(problem, RULE, {
      steps: {
        'Minced lamb/mix': row(0, 1),
        'Skewers/grill': { at: [100, 110], in: ['gas grill', 'sear'], celsius: 250, pan: 'tray' },
        'Herb dressing/chop': row(20, 1),
        'Leaves/dress': { at: [300, 303] },
      },
    });
    expect(caution!.say).toMatch(/raw Minced lamb \(mix\) at 11:00, then Herb dressing \(chop\) at 11:20/);
  });

  it('tells each board once, with the times at which it comes again', () => {
    const twice = mealWith([chicken, { ...chicken, dish: 'Duck', piece: { food: 'duck' } }, salad]);
    const cautions = saidOf(twice, RULE, {
      steps: {
        ...chickenRows(row(100, 2)),
        'Salad/shred': row(30, 1),
        'Duck/joint': row(120, 1),
        'Duck/roast': roasted(140),
        'Duck/carve': row(300, 1),
      },
    });
    expect(cautions).toHaveLength(1);
    expect(cautions[0]!.say).toMatch(/then Salad \(shred\) at 11:30\. .* The same before 16:00\.$/);
  });

  it('in one pan is told where the pan is sent to no washing and no heat lies between', () => {
    const problem = (pan: string) =>
      mealWith([
        {
          ...chicken,
          steps: [{ step: 'marinate', work: 'chill', pan }, ...chicken.steps.slice(1)],
        },
        { dish: 'Slaw', steps: [{ step: 'toss', work: 'finish', pan }] },
      ]);
    const rows = (pan: string) => ({
      'Chicken/marinate': { at: [0, 60] as const, pan },
      'Chicken/roast': roasted(70),
      'Chicken/carve': row(200, 1),
      'Slaw/toss': { at: [300, 305] as const, pan },
    });
    expect(saidOf(problem('tub'), RULE, { steps: rows('tub') })[0]!.say).toMatch(
      /^The tub: raw Chicken \(marinate\) at 11:00, then Slaw \(toss\) at 16:00/,
    );
    expect(saidOf(problem('tray'), RULE, { steps: rows('tray') })).toEqual([]);
  });
});
