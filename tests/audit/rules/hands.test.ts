import { describe, expect, it } from 'vitest';
import type { Cook, Hands } from '../../../src/problem/problem.js';
import { ALL_HANDS, cooktop, oven, pan, problemOf, rectangle } from '../../support/problem-builder.js';
import { faults, type RowSpec } from '../plan-builder.js';

type Given = NonNullable<RowSpec['hands']>;

function watching(hands: Partial<Hands>, minutes: number, given: Given): string[] {
  const problem = problemOf({
    serve: 120,
    cooks: ['Ines', 'Tomas', 'Rui'],
    dishes: [{ dish: 'Stew', steps: [{ step: 'stir', takes: minutes, hands }] }],
  });
  return faults(problem, { steps: { 'Stew/stir': { at: [0, minutes], hands: given } } });
}

describe('rule 6: the stretches that a step asks for', () => {
  it('asks from start to end', () => {
    expect(watching(ALL_HANDS, 20, [['Ines', 0, 20]])).toEqual([]);
    expect(watching(ALL_HANDS, 20, [['Ines', 0, 19]])).toEqual(['6 extra', '6 missing']);
    expect(watching(ALL_HANDS, 20, [])).toEqual(['6 missing']);
  });

  it('keeps one stretch with one cook', () => {
    expect(
      watching(ALL_HANDS, 20, [
        ['Ines', 0, 10],
        ['Tomas', 10, 20],
      ]),
    ).toEqual(['6 extra', '6 extra', '6 missing']);
  });

  it('asks at the start, at the end, and for looks from the step’s start', () => {
    const hands = { start: 3, end: 3, every: 20, for: 1 };
    const ends: Given = [
      ['Ines', 0, 3],
      ['Tomas', 57, 60],
    ];
    const looks: Given = [
      ['Ines', 20, 21],
      ['Rui', 40, 41],
    ];
    expect(watching(hands, 60, [...ends, ...looks])).toEqual([]);
    expect(watching(hands, 60, [...ends, ['Ines', 20, 21]])).toEqual(['6 missing']);
    expect(watching(hands, 60, [...ends, ['Ines', 20, 21], ['Rui', 41, 42]])).toEqual(['6 extra', '6 missing']);
    expect(watching(hands, 60, [...ends, ...looks, ['Ines', 50, 51]])).toEqual(['6 extra']);
  });

  it('lets a look fall away that would run into the start or end stretch, or past the end', () => {
    expect(
      watching({ every: 20, for: 2 }, 42, [
        ['Ines', 20, 22],
        ['Ines', 40, 42],
      ]),
    ).toEqual([]);
    expect(watching({ every: 20, for: 2 }, 41, [['Ines', 20, 22]])).toEqual([]);
    expect(watching({ every: 20, for: 2 }, 40, [['Ines', 20, 22]])).toEqual([]);
    expect(
      watching({ every: 20, for: 2, end: 3 }, 45, [
        ['Ines', 20, 22],
        ['Ines', 40, 42],
        ['Ines', 42, 45],
      ]),
    ).toEqual([]);
    expect(
      watching({ every: 20, for: 2, end: 3 }, 44, [
        ['Ines', 20, 22],
        ['Ines', 41, 44],
      ]),
    ).toEqual([]);
    expect(
      watching({ every: 2, for: 1, start: 3 }, 6, [
        ['Ines', 0, 3],
        ['Ines', 4, 5],
      ]),
    ).toEqual([]);
    expect(
      watching({ every: 2, for: 1, start: 2 }, 5, [
        ['Ines', 0, 2],
        ['Ines', 2, 3],
        ['Ines', 4, 5],
      ]),
    ).toEqual([]);
  });

  it('asks for no minute twice in a step shorter than its start and end stretches', () => {
    expect(
      watching({ start: 3, end: 4 }, 5, [
        ['Ines', 0, 3],
        ['Ines', 3, 5],
      ]),
    ).toEqual([]);
    expect(watching({ start: 6, end: 4 }, 5, [['Ines', 0, 5]])).toEqual([]);
  });

  it('asks for different cooks', () => {
    const two = { ...ALL_HANDS, cooks: 2 };
    expect(
      watching(two, 10, [
        ['Ines', 0, 10],
        ['Rui', 0, 10],
      ]),
    ).toEqual([]);
    expect(watching(two, 10, [['Ines', 0, 10]])).toEqual(['6 missing']);
    expect(
      watching(two, 10, [
        ['Ines', 0, 10],
        ['Ines', 0, 10],
      ]),
    ).toEqual(['6 missing', '6 same']);
    expect(
      watching(two, 10, [
        ['Ines', 0, 10],
        ['Rui', 0, 10],
        ['Tomas', 0, 10],
      ]),
    ).toEqual(['6 extra']);
  });

  it('asks for nobody where there are no hands', () => {
    expect(watching({}, 10, [])).toEqual([]);
    expect(watching({}, 10, [['Ines', 0, 10]])).toEqual(['6 extra']);
  });

  it('knows its cooks', () => {
    expect(watching(ALL_HANDS, 10, [['Ana', 0, 10]])).toEqual(['6 cook']);
  });
});

describe('rule 6: a cook in one place at a time', () => {
  const problem = problemOf({
    serve: 120,
    cooks: ['Ines', 'Tomas'],
    dishes: [
      { dish: 'A', steps: [{ step: 'stir', takes: 10, hands: ALL_HANDS }] },
      { dish: 'B', steps: [{ step: 'stir', takes: 30, hands: { every: 10, for: 2 } }] },
    ],
  });
  const stirring = (at: number, cook: string): string[] =>
    faults(problem, {
      steps: {
        'A/stir': { at: [at, at + 10], hands: cook },
        'B/stir': {
          at: [0, 30],
          hands: [
            ['Ines', 10, 12],
            ['Ines', 20, 22],
          ],
        },
      },
    });

  it('tells two stretches that share a minute', () => {
    expect(stirring(0, 'Ines')).toEqual([]);
    expect(stirring(1, 'Ines')).toEqual(['6 two']);
    expect(stirring(11, 'Ines')).toEqual(['6 two', '6 two']);
    expect(stirring(12, 'Ines')).toEqual(['6 two']);
    expect(stirring(12, 'Tomas')).toEqual([]);
    expect(stirring(22, 'Ines')).toEqual([]);
  });

  it('sees beyond a short stretch to a long one', () => {
    const long = problemOf({
      serve: 120,
      dishes: ['A', 'B', 'C'].map((dish) => ({
        dish,
        steps: [{ step: 'do', takes: { low: 1, high: 60 }, hands: ALL_HANDS }],
      })),
    });
    const steps = {
      'A/do': { at: [0, 30], hands: 'Ines' },
      'B/do': { at: [5, 6], hands: 'Ines' },
      'C/do': { at: [20, 25], hands: 'Ines' },
    } as const;
    expect(faults(long, { steps })).toEqual(['6 two', '6 two']);
  });
});

describe('rule 6: what a cook can do', () => {
  const can = (list: string[], place: 'oven' | 'board' | 'range'): string[] => {
    const problem = problemOf({
      serve: 120,
      kitchen: { appliances: [oven('big oven'), cooktop()], pans: [pan('dish', rectangle(0.1, 0.1))] },
      cooks: [{ name: 'Tomas', can: list }],
      dishes: [
        {
          dish: 'A',
          steps: [
            {
              step: 'do',
              work: 'roast',
              place: place === 'oven' ? 'big oven' : place,
              pan: 'dish',
              takes: 10,
              hands: ALL_HANDS,
              heat: [60, 60],
            },
          ],
        },
      ],
    });
    const where: Omit<RowSpec, 'at'> = {
      oven: { in: ['big oven', 'roast'] as const, place: 'rack 1', level: 1, spot: [0, 0] as const, celsius: 60 },
      board: { place: 'board 1' },
      range: { in: ['range'] as const, place: 'front' },
    }[place];
    return faults(problem, {
      steps: { 'A/do': { at: [10, 20], hands: 'Tomas', pan: 'dish', ...where } },
      runs: place === 'oven' ? [{ in: ['big oven', 'roast'], celsius: 60, at: [10, 20], changeover: 4 }] : [],
    });
  };

  it('is a kind of work, an appliance’s name or kind, or the board: one match is enough', () => {
    expect(can(['roast'], 'oven')).toEqual([]);
    expect(can(['big oven'], 'oven')).toEqual([]);
    expect(can(['oven', 'prep'], 'oven')).toEqual([]);
    expect(can(['cooktop'], 'range')).toEqual([]);
    expect(can(['board'], 'board')).toEqual([]);
    expect(can(['board'], 'oven')).toEqual(['6 can']);
    expect(can(['oven'], 'board')).toEqual(['6 can']);
    expect(can(['prep', 'grill'], 'oven')).toEqual(['6 can']);
    expect(can([], 'oven')).toEqual(['6 can']);
  });
});

describe('rule 6: a cook’s hours', () => {
  /** Stirring from `start` minutes after the start of the day on which the meal begins. */
  function there(hours: Partial<Cook>, start: string, from: number, minutes: number): string[] {
    const problem = problemOf({
      serve: 3000,
      start,
      cooks: [{ name: 'Tomas', ...hours }],
      dishes: [{ dish: 'A', steps: [{ step: 'stir', takes: minutes, hands: ALL_HANDS }] }],
    });
    return faults(problem, { steps: { 'A/stir': { at: [from, from + minutes], hands: 'Tomas' } } });
  }
  const midnight = '2026-10-03T00:00:00+01:00';
  const three = 15 * 60;

  it('hold on every day', () => {
    const hours = { from: three, to: three + 120 };
    for (const day of [0, 1440]) {
      expect(there(hours, midnight, day + three, 120)).toEqual([]);
      expect(there(hours, midnight, day + three - 1, 10)).toEqual(['6 hours']);
      expect(there(hours, midnight, day + three + 111, 10)).toEqual(['6 hours']);
    }
    expect(there(hours, midnight, three, 1440 + 60)).toEqual(['6 hours']);
  });

  it('without a limit on one side reach to midnight', () => {
    expect(there({ from: three }, midnight, three, 540)).toEqual([]);
    expect(there({ from: three }, midnight, three, 541)).toEqual(['6 hours']);
    expect(there({ to: three }, midnight, 1440, three)).toEqual([]);
    expect(there({ to: three }, midnight, 1439, 10)).toEqual(['6 hours']);
    expect(there({}, midnight, 0, 2000)).toEqual([]);
    expect(there({ from: 0 }, midnight, 0, 2000)).toEqual([]);
  });

  it('may reach over midnight', () => {
    const night = { from: 22 * 60, to: 2 * 60 };
    expect(there(night, midnight, 22 * 60, 240)).toEqual([]);
    expect(there(night, midnight, 0, 120)).toEqual([]);
    expect(there(night, midnight, 22 * 60, 241)).toEqual(['6 hours']);
    expect(there(night, midnight, 120, 1)).toEqual(['6 hours']);
  });

  it('go by the zone’s clock when it changes: Lisbon, 2026-10-25, back from 02:00 to 01:00', () => {
    const eve = '2026-10-25T00:00:00+01:00';
    // From 01:30, the first of two: 90 minutes after midnight; to 03:00, which is 240 minutes after it.
    const hours = { from: 90, to: 180 };
    expect(there(hours, eve, 90, 150)).toEqual([]);
    expect(there(hours, eve, 89, 150)).toEqual(['6 hours']);
    expect(there(hours, eve, 90, 151)).toEqual(['6 hours']);
  });

  it('go by the zone’s clock when it changes: Lisbon, 2026-03-29, on from 01:00 to 02:00', () => {
    const eve = '2026-03-29T00:00:00+00:00';
    // 01:30 does not exist; from the jump, 60 minutes after midnight, the clock shows more. 03:00 is 120 after it.
    const hours = { from: 90, to: 180 };
    expect(there(hours, eve, 60, 60)).toEqual([]);
    expect(there(hours, eve, 59, 10)).toEqual(['6 hours']);
    expect(there(hours, eve, 60, 61)).toEqual(['6 hours']);
  });
});
