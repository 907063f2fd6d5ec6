/** Cooks, courses, rates, dishes and components. */
import { describe, expect, it } from 'vitest';
import { isAble } from '../../src/problem/able.js';
import { changed, dishOf, problemOf, SMALL_SUPPER } from './support/small-supper.js';

const COOKS = 'cooks: [Ines, { name: Tomas, can: [prep, oven, board], from: 15:00, to: 22:00 }]\n';
const COURSES = 'courses: [{ course: main, at: 0 min }, { course: sweet, at: 40 min }]\n';

describe('cooks', () => {
  it('have names, and may be limited in what they do and when', () => {
    expect(problemOf(SMALL_SUPPER).cooks).toEqual([
      { name: 'Ines', can: null, from: null, to: null },
      { name: 'Tomas', can: ['prep', 'oven', 'board'], from: 900, to: 1320 },
    ]);
    expect(problemOf(changed(['can: [prep, oven, board]', 'can: prep'])).cooks[1]!.can).toEqual(['prep']);
  });

  it('are one where none is named', () => {
    expect(problemOf(changed([COOKS, ''])).cooks).toEqual([{ name: 'cook', can: null, from: null, to: null }]);
  });

  it('can do what one word of theirs matches: the work, the appliance, its kind, or a board', () => {
    const { kitchen } = problemOf(SMALL_SUPPER);
    const cook = (...can: string[]) => ({ name: 'Mara', can, from: null, to: null });
    const oven = { kind: 'heated', appliance: 1, mode: 0 } as const;
    const front = { kind: 'burner', appliance: 2, burners: [0] } as const;
    expect(isAble(kitchen, cook('roast'), 'roast', oven)).toBe(true);
    expect(isAble(kitchen, cook('wall oven'), 'roast', oven)).toBe(true);
    expect(isAble(kitchen, cook('oven'), 'roast', oven)).toBe(true);
    expect(isAble(kitchen, cook('prep', 'cooktop'), 'roast', oven)).toBe(false);
    expect(isAble(kitchen, cook('prep', 'cooktop'), 'fry', front)).toBe(true);
    expect(isAble(kitchen, cook('board'), 'prep', { kind: 'board' })).toBe(true);
    expect(isAble(kitchen, cook('board'), 'prep', { kind: 'none' })).toBe(false);
    expect(isAble(kitchen, cook('prep'), 'prep', { kind: 'none' })).toBe(true);
    expect(isAble(kitchen, { ...cook(), can: null }, 'prep', { kind: 'none' })).toBe(true);
  });
});

describe('courses', () => {
  it('are in the order of the file; a dish without one belongs to the first', () => {
    const problem = problemOf(SMALL_SUPPER);
    expect(problem.courses).toEqual([
      { name: 'main', at: 0 },
      { name: 'sweet', at: 40 },
    ]);
    expect(dishOf(problem, 'Roots').course).toBe(0);
    expect(
      dishOf(problemOf(changed(['    keeps: 25 min', '    course: sweet\n    keeps: 25 min'])), 'Roots').course,
    ).toBe(1);
  });

  it('may be names alone, at the serving time', () => {
    expect(problemOf(changed([COURSES, 'courses: [main, { course: sweet }]\n'])).courses).toEqual([
      { name: 'main', at: 0 },
      { name: 'sweet', at: 0 },
    ]);
  });

  it('are one where none is named', () => {
    const problem = problemOf(changed([COURSES, ''], ['    course: main\n', '']));
    expect(problem.courses).toEqual([{ name: 'meal', at: 0 }]);
    expect(problem.dishes.map((dish) => dish.course)).toEqual([0, null, 0]);
  });
});

describe('care', () => {
  const rates = (care: string) => problemOf(changed([COURSES, `${COURSES}care: ${care}\n`])).rates;

  it('has rates of its own where nothing is said', () => {
    expect(problemOf(SMALL_SUPPER).rates).toEqual({
      late: 60,
      wait: { fast: 4, steady: 1, slow: 0.25, never: 0 },
      over: 10,
      gap: 0.02,
      heat: 0.05,
      runs: 5,
      idle: 0.01,
      rest: 0.5,
      swap: 0.5,
      day: 0.02,
    });
  });

  it('overrides them one by one', () => {
    expect(rates('{ runs: 0, wait: { fast: 9 } }')).toEqual({
      ...problemOf(SMALL_SUPPER).rates,
      runs: 0,
      wait: { fast: 9, steady: 1, slow: 0.25, never: 0 },
    });
    expect(rates('{ late: 1, over: 2, gap: 3, heat: 4, idle: 5, rest: 6, swap: 7, day: 8 }')).toMatchObject({
      late: 1,
      over: 2,
      gap: 3,
      heat: 4,
      runs: 5,
      idle: 5,
      rest: 6,
      swap: 7,
      day: 8,
    });
  });
});

describe('dishes', () => {
  it('keep for ever and fade steadily where nothing is said', () => {
    const roots = dishOf(problemOf(changed(['    keeps: 25 min\n', ''])), 'Roots');
    expect([roots.keeps, roots.fades, roots.piece, roots.served]).toEqual([
      Number.POSITIVE_INFINITY,
      'steady',
      null,
      true,
    ]);
  });

  it('may be held warm, in their own pan or one that the hold names', () => {
    expect(dishOf(problemOf(SMALL_SUPPER), 'Roots').hold).toEqual({
      heat: { low: 80, high: 95 },
      keeps: 90,
      fades: 'slow',
      pan: null,
    });
    const hold = (words: string) =>
      dishOf(problemOf(changed(['{ heat: 80-95C, keeps: 90 min, fades: slow }', words])), 'Roots').hold;
    expect(hold('{ heat: 90C, pan: skillet }')).toEqual({
      heat: { low: 90, high: 90 },
      keeps: Number.POSITIVE_INFINITY,
      fades: 'steady',
      pan: 1,
    });
  });

  it('are components only with `served: no`, which have no course', () => {
    const oil = dishOf(problemOf(SMALL_SUPPER), 'Herb oil');
    expect([oil.served, oil.course, oil.keeps]).toEqual([false, null, Number.POSITIVE_INFINITY]);
    expect(dishOf(problemOf(changed(['served: no', 'served: false'])), 'Herb oil').served).toBe(false);
    // Served, its last step may not say how long it keeps.
    const served = changed(['served: no', 'served: yes'], ['takes: 4 min, keeps: 6 h', 'takes: 4 min']);
    expect(dishOf(problemOf(served), 'Herb oil').served).toBe(true);
  });

  it('have pieces in metres, kilograms and °C', () => {
    const piece = (words: string) =>
      dishOf(
        problemOf(
          changed([
            '{ food: pork, shape: cylinder, thickness: 10 cm, length: 34 cm, weight: 2.8 kg, from: 4C }',
            words,
          ]),
        ),
        'Pork loin',
      ).piece;
    expect(
      piece(
        '{ food: pork, shape: brick, thickness: 4 in, width: 5 in, length: 11 in, weight: 8 lb, from: 39.2F, bone: yes, crust: 1 cm }',
      ),
    ).toEqual({
      food: 'pork',
      shape: 'brick',
      thickness: 0.1016,
      width: 0.127,
      length: 0.2794,
      weight: 8 * 0.45359237,
      from: (39.2 - 32) / 1.8,
      bone: true,
      crust: 0.01,
    });
  });

  it('have pieces whose missing size follows from the others, and whose shape the food may say', () => {
    const piece = (words: string) =>
      dishOf(
        problemOf(
          changed(
            ['{ food: pork, shape: cylinder, thickness: 10 cm, length: 34 cm, weight: 2.8 kg, from: 4C }', words],
            ['mode: sear, heat: 260-300C', 'mode: sear, pan: skillet, heat: 260-300C'],
          ),
        ),
        'Pork loin',
      ).piece!;
    const loin = piece('{ food: Loin of pork, thickness: 10 cm, weight: 2.8 kg }');
    expect(loin).toMatchObject({ shape: 'cylinder', thickness: 0.1, weight: 2.8, from: null, bone: false, crust: 0 });
    expect(loin.length).toBeCloseTo(2.8 / 1050 / (Math.PI * 0.05 ** 2), 4);
    expect(piece('{ food: duck, weight: 2.4 kg }')).toMatchObject({ shape: 'sphere', thickness: 0.1634 });
    expect(piece('{ food: pork chop, thickness: 3 cm }')).toMatchObject({
      shape: 'slab',
      thickness: 0.03,
      width: null,
    });
    expect(piece('{ food: beef, length: 30 cm }')).toMatchObject({ shape: 'cylinder', thickness: null });
    expect(piece('{ food: oranges }').thickness).toBeNull();
  });
});
