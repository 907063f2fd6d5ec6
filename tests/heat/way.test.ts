/** The way of a piece through its dish. */
import { describe, expect, it } from 'vitest';
import {
  endingAt,
  knownOf,
  leastOf,
  legsOf,
  likelySetting,
  likelyStays,
  type Stay,
  wayThrough,
  wayTo,
  wayUncut,
} from '../../src/heat/way.js';
import { problemOf } from '../support/problem-builder.js';

const room = (celsius: number, covered = false) => ({ kind: 'room', celsius, covered }) as const;
const hot = { kind: 'air', celsius: 160, moving: 'still', on: 'pan' } as const;
const stay = (start: number, end: number, around: Stay['around'], least: number | null = null): Stay => ({
  start,
  end,
  around,
  least,
});

const problem = problemOf({
  serve: 300,
  kitchen: { room: 21 },
  dishes: [
    {
      dish: 'Loin',
      steps: [
        { step: 'season', work: 'prep', takes: 10 },
        { step: 'stock', work: 'prep', takes: 5, after: [] },
        {
          step: 'cure',
          work: 'chill',
          takes: { low: 60, high: 240, best: [100, 180] },
          after: [{ step: 'season', gap: [0, 4] }],
        },
        { step: 'temper', work: 'rest', takes: 30, after: [{ step: 'cure', gap: [5, Infinity] }] },
        {
          step: 'gravy',
          work: 'finish',
          takes: 4,
          after: [
            { step: 'temper', gap: [0, 5] },
            { step: 'stock', gap: [0, 90] },
          ],
        },
        {
          step: 'lie',
          work: 'rest',
          takes: { low: 15, high: 35, best: [20, 28] },
          after: [{ step: 'temper', gap: [0, 2] }],
        },
        { step: 'carve', work: 'carve', takes: 6, after: [{ step: 'lie', gap: [0, 5] }] },
      ],
    },
  ],
});
const names = (ids: readonly number[]): string[] => ids.map((id) => problem.steps[id]!.name);
const id = (name: string): number => problem.steps.find((step) => step.name === name)!.id;

describe('a way', () => {
  it('leads back through the dish, and on to where it rests and ends', () => {
    expect(names(wayTo(problem.steps, id('temper')))).toEqual(['season', 'cure']);
    expect(names(wayTo(problem.steps, id('gravy')))).toEqual(['season', 'cure', 'temper']);
    expect(names(wayThrough(problem.steps, id('cure')))).toEqual(['season', 'cure', 'temper', 'lie', 'carve']);
  });

  it('takes half of each gap, ten minutes at most, and ranges a quarter into their best', () => {
    const stays = likelyStays(problem, wayThrough(problem.steps, id('cure')), null);
    expect(stays.map(({ start, end }) => [start, end])).toEqual([
      [0, 10],
      [12, 132],
      [147, 177],
      [178, 200],
      [202.5, 208.5],
    ]);
    expect(stays.map(({ around }) => around!.celsius)).toEqual([21, 4, 21, 21, 21]);
    expect(stays.map(({ least }) => least)).toEqual([null, null, 30, 15, null]);
  });

  it('ends, for a piece, where it is carved after the heat', () => {
    const way = wayThrough(problem.steps, id('cure'));
    expect(wayUncut(problem.steps, way)).toEqual(way);
    const roasted = problem.steps.map((step) => (step.name === 'temper' ? { ...step, work: 'roast' as const } : step));
    expect(names(wayUncut(roasted, way))).toEqual(['season', 'cure', 'temper', 'lie']);
  });

  it('is done at the ideal heat, or in the middle of it', () => {
    expect(likelySetting({ settings: [150, 155, 160], ideal: 154 })).toBe(155);
    expect(likelySetting({ settings: [150, 155, 160], ideal: null })).toBe(155);
    expect(likelySetting({ settings: [], ideal: null })).toBeNull();
  });
});

describe('legs', () => {
  const stays = [
    stay(0, 10, room(4, true)),
    stay(15, 60, hot),
    stay(61, 80, room(21, true), 15),
    stay(85, 90, room(21)),
  ];

  it('are the stays with the waits between them, up to a minute', () => {
    expect(legsOf(problem.kitchen, stays, 88)).toEqual([
      { around: room(4, true), minutes: 10 },
      { around: room(4, true), minutes: 5 },
      { around: hot, minutes: 45 },
      { around: room(21), minutes: 1 },
      { around: room(21, true), minutes: 19 },
      { around: room(21, true), minutes: 5 },
      { around: room(21), minutes: 3 },
    ]);
    expect(legsOf(problem.kitchen, stays, 30)).toHaveLength(3);
    expect(legsOf(problem.kitchen, stays.slice(0, 1), 25)).toEqual([
      { around: room(4, true), minutes: 10 },
      { around: room(4, true), minutes: 15 },
    ]);
  });

  it('are none where something is not known, and known up to there', () => {
    const wet = [stays[0]!, stay(15, 60, null), stays[2]!];
    expect(legsOf(problem.kitchen, wet, 90)).toBeNull();
    expect(knownOf(wet)).toEqual([stays[0]]);
    expect(knownOf(stays)).toBe(stays);
  });

  it('move a rest with the end of what comes before, and no longer than it can be shortened', () => {
    expect(endingAt(stays, 1, 57)[2]).toEqual(stay(58, 80, room(21, true), 15));
    expect(endingAt(stays, 1, 63)[2]).toEqual(stay(64, 80, room(21, true), 15));
    expect(endingAt(stays, 1, 70)[2]).toEqual(stay(71, 86, room(21, true), 15));
    expect(endingAt(stays, 2, 82)[3]).toEqual(stays[3]);
    const glazed = [stays[1]!, stay(61, 64, room(21)), stay(66, 90, room(21, true), 15)];
    expect(endingAt(glazed, 0, 55).slice(1)).toEqual([stay(56, 59, room(21)), stay(61, 90, room(21, true), 15)]);
    expect(endingAt([stays[1]!, stay(61, 70, hot), stays[2]!], 0, 55).slice(1)).toEqual([stay(61, 70, hot), stays[2]]);
    expect(leastOf('rest', { kind: 'range', low: 15, high: 30, best: { low: 20, high: 25 } }, 22)).toBe(15);
    expect(leastOf('rest', { kind: 'fixed', minutes: 20, low: 20, high: 20 }, 20)).toBe(20);
    expect(leastOf('prep', { kind: 'fixed', minutes: 20, low: 20, high: 20 }, 20)).toBeNull();
  });
});
