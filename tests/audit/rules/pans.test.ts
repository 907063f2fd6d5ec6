import { describe, expect, it } from 'vitest';
import { type DishSpec, pan, problemOf, rectangle, type StepSpec } from '../../support/problem-builder.js';
import { faults } from '../plan-builder.js';

type Times = Readonly<Record<string, readonly [start: number, end: number]>>;

/**
 * Steps without place, so that only pans matter; `bowl` counts 1 and washes for 5 minutes, `tray` counts 2 and needs no
 * wash. All lands at minute 100. Another dish borrows the pan for one minute at `borrow`.
 */
function borrowing(dishes: readonly DishSpec[], times: Times, wanted: 'bowl' | 'tray', borrow: number): string[] {
  const problem = problemOf({
    serve: 100,
    kitchen: {
      pans: [pan('bowl', rectangle(0.2, 0.2), { wash: 5 }), pan('tray', rectangle(0.3, 0.4), { count: 2 })],
      boards: 3,
    },
    courses: [
      { name: 'main', at: 0 },
      { name: 'sweet', at: 60 },
    ],
    dishes: [
      ...dishes,
      { dish: 'Other', course: 'sweet', steps: [{ step: 'use', takes: 1, pan: wanted, empties: true }] },
    ],
  });
  const where = (label: string): object => {
    const step = problem.steps.find((each) => `${problem.dishes[each.dish]?.name}/${each.name}` === label);
    const option = step?.options[0];
    return {
      ...(option?.pan === null || option?.pan === undefined ? {} : { pan: problem.kitchen.pans[option.pan]!.name }),
      ...(option?.place.kind === 'board' ? { place: 'board 1' } : {}),
    };
  };
  const all: Times = { ...times, 'Other/use': [borrow, borrow + 1] };
  return faults(problem, {
    steps: Object.fromEntries(Object.entries(all).map(([label, at]) => [label, { at, ...where(label) }])),
  });
}

/** The minutes at which the pan may not be borrowed, as [first, last]; it must be one stretch. */
function takenFor(dishes: readonly DishSpec[], times: Times, wanted: 'bowl' | 'tray' = 'bowl'): [number, number] {
  const taken: number[] = [];
  for (let at = 0; at < 130; at += 1) {
    const found = borrowing(dishes, times, wanted, at);
    if (found.length === 0) continue;
    expect(found).toEqual(['7 pan']);
    taken.push(at);
  }
  const first = taken[0]!;
  expect(taken).toEqual(taken.map((_, index) => first + index));
  return [first, taken.at(-1)!];
}

const inBowl = (step: string, more: Partial<StepSpec> = {}): StepSpec => ({ step, pan: 'bowl', takes: 10, ...more });
const free = (step: string, more: Partial<StepSpec> = {}): StepSpec => ({ step, takes: 10, ...more });
const onBoard = (step: string, more: Partial<StepSpec> = {}): StepSpec => ({
  step,
  place: 'board',
  takes: 10,
  ...more,
});

// Borrowed for a minute and washed for five after it, the bowl must be free for six.
const BEFORE = 5;

describe('rule 7: a pan stays with its food', () => {
  it('until the dish is served, and then is away for its wash', () => {
    expect(takenFor([{ dish: 'A', steps: [inBowl('mix')] }], { 'A/mix': [40, 50] })).toEqual([40 - BEFORE, 100 + 4]);
  });

  it('until the next step in another place begins, not only until its own end', () => {
    const dish: DishSpec = { dish: 'A', steps: [inBowl('mix'), onBoard('knead')] };
    expect(takenFor([dish], { 'A/mix': [40, 50], 'A/knead': [60, 70] })).toEqual([40 - BEFORE, 60 + 4]);
  });

  it('until the next step in another pan begins', () => {
    const dish: DishSpec = { dish: 'A', steps: [inBowl('mix'), free('spread', { pan: 'tray' })] };
    expect(takenFor([dish], { 'A/mix': [40, 50], 'A/spread': [60, 70] })).toEqual([40 - BEFORE, 60 + 4]);
  });

  it('until the step’s end where it empties', () => {
    const dish: DishSpec = { dish: 'A', steps: [inBowl('mix', { empties: true }), onBoard('knead')] };
    expect(takenFor([dish], { 'A/mix': [40, 50], 'A/knead': [60, 70] })).toEqual([40 - BEFORE, 50 + 4]);
  });

  it('passes over steps without pan and place', () => {
    const rests: DishSpec = { dish: 'A', steps: [inBowl('mix'), free('rest'), onBoard('knead')] };
    const times: Times = { 'A/mix': [20, 30], 'A/rest': [40, 50], 'A/knead': [60, 70] };
    expect(takenFor([rests], times)).toEqual([20 - BEFORE, 60 + 4]);
    const last: DishSpec = { dish: 'A', steps: [inBowl('mix'), free('rest')] };
    expect(takenFor([last], { 'A/mix': [20, 30], 'A/rest': [40, 50] })).toEqual([20 - BEFORE, 100 + 4]);
    const emptied: DishSpec = { dish: 'A', steps: [inBowl('mix'), free('rest', { empties: true }), onBoard('knead')] };
    expect(takenFor([emptied], times)).toEqual([20 - BEFORE, 50 + 4]);
  });

  it('goes on in the next step of the same kind, unwashed', () => {
    const dish: DishSpec = { dish: 'A', steps: [inBowl('mix'), free('rest'), inBowl('fold'), onBoard('knead')] };
    const times: Times = { 'A/mix': [10, 20], 'A/rest': [20, 30], 'A/fold': [30, 40], 'A/knead': [50, 60] };
    expect(takenFor([dish], times)).toEqual([10 - BEFORE, 50 + 4]);
  });

  it('needs a wash between two uses where the first was emptied', () => {
    const dish: DishSpec = { dish: 'A', steps: [inBowl('mix', { empties: true }), inBowl('fold', { empties: true })] };
    const folding = (start: number): string[] =>
      borrowing([dish], { 'A/mix': [10, 20], 'A/fold': [start, start + 10] }, 'tray', 120);
    expect(folding(25)).toEqual([]);
    expect(folding(24)).toEqual(['7 pan']);
  });
});

describe('rule 7: at a branch', () => {
  const dish: DishSpec = {
    dish: 'A',
    steps: [inBowl('mix'), onBoard('one'), onBoard('two', { after: ['mix'] }), free('join', { after: ['one', 'two'] })],
  };

  it('the pan is free when the last branch has moved on', () => {
    const times: Times = { 'A/mix': [10, 20], 'A/one': [30, 40], 'A/two': [50, 60], 'A/join': [80, 90] };
    expect(takenFor([dish], times)).toEqual([10 - BEFORE, 50 + 4]);
  });

  it('a branch that goes on in the same pan takes it along, and the other still holds it', () => {
    const goesOn: DishSpec = {
      dish: 'A',
      steps: [inBowl('mix'), inBowl('fold', { empties: true }), onBoard('two', { after: ['mix'] })],
    };
    const times: Times = { 'A/mix': [10, 20], 'A/fold': [30, 40], 'A/two': [60, 70] };
    expect(takenFor([goesOn], times)).toEqual([10 - BEFORE, 60 + 4]);
  });

  it('two branches at once cannot both go on in one pan', () => {
    const both: DishSpec = {
      dish: 'A',
      steps: [inBowl('mix'), inBowl('one', { empties: true }), inBowl('two', { after: ['mix'], empties: true })],
    };
    const second = (start: number): string[] =>
      borrowing([both], { 'A/mix': [10, 20], 'A/one': [30, 40], 'A/two': [start, start + 10] }, 'tray', 120);
    expect(second(39)).toEqual(['7 pan']);
    expect(second(45)).toEqual([]);
  });

  it('pans that meet again are let go but for those that go on', () => {
    const meeting: DishSpec = {
      dish: 'A',
      steps: [
        free('one', { pan: 'tray' }),
        free('two', { pan: 'tray', after: [] }),
        free('join', { pan: 'tray', after: ['one', 'two'], empties: true }),
      ],
    };
    const times: Times = { 'A/one': [10, 20], 'A/two': [30, 40], 'A/join': [50, 60] };
    expect(takenFor([meeting], times, 'tray')).toEqual([30, 49]);
  });
});

describe('rule 7: components', () => {
  const sauce: DishSpec = { dish: 'Sauce', served: false, steps: [inBowl('whisk'), free('stand')] };
  const user = (name: string): DishSpec => ({
    dish: name,
    steps: [free('dress', { after: ['Sauce/stand'] }), free('look', { after: ['dress'] })],
  });
  const times: Times = { 'Sauce/whisk': [10, 20], 'Sauce/stand': [20, 30], 'A/dress': [40, 50], 'A/look': [50, 60] };

  it('let their pan go when the last step that uses them begins', () => {
    expect(takenFor([sauce, user('A')], times)).toEqual([10 - BEFORE, 40 + 4]);
    const both: Times = { ...times, 'B/dress': [70, 80], 'B/look': [80, 90] };
    expect(takenFor([sauce, user('A'), user('B')], both)).toEqual([10 - BEFORE, 70 + 4]);
  });

  it('do not go on in the pan of another dish: it takes its own', () => {
    const bowl: DishSpec = { dish: 'A', steps: [inBowl('dress', { after: ['Sauce/stand'] })] };
    const { 'A/look': _look, ...own } = times;
    expect(borrowing([sauce, bowl], own, 'tray', 120)).toEqual(['7 pan']);
  });

  it('may be used on the way: that is a branch too', () => {
    const early: DishSpec = { dish: 'A', steps: [free('dress', { after: ['Sauce/whisk'] })] };
    const moved: DishSpec = { dish: 'Sauce', served: false, steps: [inBowl('whisk'), onBoard('cool')] };
    const late: DishSpec = { dish: 'B', steps: [free('dress', { after: ['Sauce/cool'] })] };
    const all: Times = { 'Sauce/whisk': [10, 20], 'Sauce/cool': [20, 30], 'A/dress': [40, 50], 'B/dress': [70, 80] };
    expect(takenFor([moved, early, late], all)).toEqual([10 - BEFORE, 40 + 4]);
  });
});

describe('rule 7: several of a kind', () => {
  it('counts how many a step fills, and keeps only those that go on', () => {
    const dish: DishSpec = {
      dish: 'A',
      steps: [
        free('spread', { pan: 'tray', pans: 2 }),
        free('gather', { pan: 'tray', gap: [0, 60] }),
        free('cut', { place: 'board' }),
      ],
    };
    const times: Times = { 'A/spread': [10, 20], 'A/gather': [40, 50], 'A/cut': [60, 70] };
    expect(takenFor([dish], times, 'tray')).toEqual([10, 39]);
  });

  it('tells each shortage once', () => {
    const dishes = ['A', 'B', 'C'].map((dish): DishSpec => ({ dish, steps: [free('spread', { pan: 'tray' })] }));
    const times: Times = { 'A/spread': [10, 20], 'B/spread': [20, 30], 'C/spread': [30, 40] };
    expect(borrowing(dishes, times, 'bowl', 120)).toEqual(['7 pan']);
  });
});
