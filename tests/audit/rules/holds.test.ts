import { describe, expect, it } from 'vitest';
import { type DishSpec, oven, pan, problemOf, rectangle, type StepSpec } from '../../support/problem-builder.js';
import { faults, type RowSpec } from '../plan-builder.js';

const PANS = [
  pan('dish', rectangle(0.2, 0.3), { height: 0.06, wash: 5 }),
  pan('platter', rectangle(0.25, 0.35), { height: 0.02 }),
  pan('tray', rectangle(0.1, 0.1), { height: 0.02, count: 2 }),
];

/** A gratin of one step that is ready at 60 and held from 60 to 100, when it lands. */
function holding(
  dish: Omit<DishSpec, 'dish' | 'steps'>,
  step: Partial<StepSpec>,
  hold: Partial<RowSpec>,
  more: readonly StepSpec[] = [],
): string[] {
  const problem = problemOf({
    serve: 100,
    kitchen: {
      appliances: [oven('oven', { modes: { roast: { heat: { low: 50, high: 270 }, height: 0.1 } } })],
      pans: PANS,
    },
    dishes: [{ dish: 'Gratin', ...dish, steps: [{ step: 'mix', pan: 'dish', takes: 20, ...step }, ...more] }],
  });
  const option = problem.steps[0]!.options[0]!;
  const panName = option.pan === null ? undefined : PANS[option.pan]!.name;
  const others = more.map(
    (each, index) => [`Gratin/${each.step}`, { at: [40 + 10 * index, 50 + 10 * index] }] as const,
  );
  const row: RowSpec = {
    at: [60, 100],
    in: ['oven', 'roast'],
    place: 'rack 1',
    level: 1,
    spot: [0, 0],
    celsius: 80,
    ...(panName === undefined ? {} : { pan: panName }),
    ...hold,
  };
  return faults(problem, {
    steps: {
      'Gratin/mix': { at: [20, 40], ...(panName === undefined ? {} : { pan: panName }) },
      ...Object.fromEntries(others),
      'Gratin/hold': row,
    },
    runs: [{ in: ['oven', 'roast'], celsius: 80, at: [50, 110], changeover: 6 }],
  });
}

const warm = { heat: [60, 90] } as const;

describe('a hold', () => {
  it('is one more row of a dish that may be held, in the dish’s pan', () => {
    expect(holding({ hold: warm }, {}, {})).toEqual([]);
    expect(holding({}, {}, {})).toEqual(['1 hold']);
    expect(holding({ hold: warm }, {}, { work: 'warm' })).toEqual(['1 hold']);
    expect(holding({ hold: warm }, {}, { at: [70, 70] })).toEqual(['1 hold']);
    expect(holding({ hold: warm }, {}, { pan: 'tray' })).toEqual(['1 hold']);
    expect(holding({ hold: warm }, {}, { in: ['cellar', 'roast'] })).toContain('1 hold');
    expect(holding({ hold: warm }, {}, { minutes: { '80': 40 } })).toEqual(['1 hold']);
  });

  it('takes no hands', () => {
    expect(holding({ hold: warm }, {}, { hands: 'Ines' })).toEqual(['6 extra']);
  });

  it('stays in the pan under passed-over steps', () => {
    expect(holding({ hold: warm }, {}, {}, [{ step: 'dress', work: 'finish', takes: 10 }])).toEqual([]);
  });

  it('stands where it fits', () => {
    expect(holding({ hold: warm }, {}, { spot: [0.4, 0] })).toEqual(['3 outside']);
    const { place, level, spot } = { place: undefined, level: undefined, spot: undefined };
    expect(holding({ hold: warm }, {}, { place, level, spot } as never)).toContain('1 hold');
  });

  it('is as tall as its piece or its pan', () => {
    expect(holding({ hold: warm, piece: { thickness: 0.1 } }, {}, {})).toEqual([]);
    expect(holding({ hold: warm, piece: { thickness: 0.11 } }, {}, {})).toEqual(['3 height']);
  });

  it('may go on in a pan that the hold names', () => {
    const named = { hold: { ...warm, pan: 'platter' } };
    expect(holding(named, {}, { pan: 'platter' })).toEqual([]);
    expect(holding(named, {}, {})).toEqual(['1 hold']);
    expect(holding(named, { empties: true }, { pan: 'platter' })).toEqual([]);
  });

  it('is not for emptied food without such a pan, nor for food that moved to a board', () => {
    expect(holding({ hold: warm }, { empties: true }, {})).toEqual(['1 hold']);
    const problem = problemOf({
      serve: 100,
      kitchen: { appliances: [oven()], pans: PANS },
      dishes: [
        {
          dish: 'Loin',
          hold: warm,
          steps: [
            { step: 'salt', pan: 'dish' },
            { step: 'carve', work: 'carve', place: 'board' },
          ],
        },
      ],
    });
    const row: RowSpec = {
      at: [60, 100],
      in: ['oven', 'roast'],
      place: 'rack 1',
      level: 1,
      spot: [0, 0],
      celsius: 80,
      pan: 'dish',
    };
    const plan = {
      steps: {
        'Loin/salt': { at: [20, 30], pan: 'dish' },
        'Loin/carve': { at: [40, 50], place: 'board 1' },
        'Loin/hold': row,
      },
      runs: [{ in: ['oven', 'roast'], celsius: 80, at: [60, 100], changeover: 6 }],
    } as const;
    expect(faults(problem, plan)).toContain('1 hold');
  });

  it('is not for a dish with several last steps', () => {
    const two = [{ step: 'garnish', work: 'finish', takes: 10, after: [] } as const];
    expect(holding({ hold: warm }, {}, {}, two)).toEqual(['1 hold']);
  });

  it('holds every pan of the dish', () => {
    const both: Partial<RowSpec> = {
      place: ['rack 1', 'rack 1'],
      level: [1, 1],
      spot: [
        [0, 0],
        [0.1, 0],
      ],
    };
    expect(holding({ hold: warm }, { pan: 'tray', pans: 2 }, both)).toEqual([]);
    expect(holding({ hold: warm }, { pan: 'tray', pans: 2 }, {})).toEqual(['1 hold', '3 spot']);
  });

  it('keeps its pan until the landing, and washes it then', () => {
    const problem = problemOf({
      serve: 100,
      kitchen: { appliances: [oven()], pans: PANS },
      courses: [
        { name: 'main', at: 0 },
        { name: 'sweet', at: 100 },
      ],
      dishes: [
        { dish: 'Gratin', hold: { ...warm, pan: 'platter' }, steps: [{ step: 'mix', pan: 'dish', takes: 20 }] },
        { dish: 'A', course: 'sweet', steps: [{ step: 'mix', pan: 'dish', takes: 5, empties: true }] },
        { dish: 'B', course: 'sweet', steps: [{ step: 'set', pan: 'platter', takes: 5, empties: true }] },
      ],
    });
    const using = (dish: number, platter: number): string[] =>
      faults(problem, {
        steps: {
          'Gratin/mix': { at: [20, 40], pan: 'dish' },
          'Gratin/hold': {
            at: [50, 90],
            in: ['oven', 'roast'],
            place: 'rack 1',
            level: 1,
            spot: [0, 0],
            celsius: 80,
            pan: 'platter',
          },
          'A/mix': { at: [dish, dish + 5], pan: 'dish' },
          'B/set': { at: [platter, platter + 5], pan: 'platter' },
        },
        runs: [{ in: ['oven', 'roast'], celsius: 80, at: [50, 90], changeover: 6 }],
      });
    expect(using(55, 45)).toEqual([]);
    expect(using(54, 45)).toEqual(['7 pan']);
    expect(using(55, 46)).toEqual(['7 pan']);
    expect(using(55, 100)).toEqual([]);
    expect(using(55, 99)).toEqual(['7 pan']);
  });
});
