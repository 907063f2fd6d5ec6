import { describe, expect, it } from 'vitest';
import { oven, pan, problemOf, rectangle } from '../../support/problem-builder.js';
import { faults } from '../plan-builder.js';

const problem = problemOf({
  serve: 120,
  dishes: [
    {
      dish: 'Loin',
      steps: [
        { step: 'dry', takes: 10, keeps: 40 },
        { step: 'tie', takes: 5 },
        { step: 'rest', work: 'rest', takes: 15, gap: [2, 6] },
        { step: 'dress', work: 'finish', takes: 3, after: ['rest', { step: 'Oil/strain', gap: [5, 30] }] },
      ],
    },
    { dish: 'Oil', served: false, steps: [{ step: 'strain', work: 'finish', takes: 4 }] },
  ],
});
const starting = (dry: number, tie: number, rest: number, dress: number, strain: number): string[] =>
  faults(problem, {
    steps: {
      'Loin/dry': { at: [dry, dry + 10] },
      'Loin/tie': { at: [tie, tie + 5] },
      'Loin/rest': { at: [rest, rest + 15] },
      'Loin/dress': { at: [dress, dress + 3] },
      'Oil/strain': { at: [strain, strain + 4] },
    },
  });

describe('rule 2: order and gaps', () => {
  it('finds nothing at either end of the gaps', () => {
    expect(starting(0, 10, 17, 32, 23)).toEqual([]);
    expect(starting(0, 50, 61, 76, 67)).toEqual([]);
    expect(starting(0, 50, 61, 76, 42)).toEqual([]);
  });

  it('tells a step that begins before the one before ends', () => {
    expect(starting(0, 9, 16, 31, 20)).toEqual(['2 order']);
  });

  it('tells a gap that is a minute short or long', () => {
    expect(starting(0, 10, 16, 31, 20)).toEqual(['2 soon']);
    expect(starting(0, 10, 22, 37, 20)).toEqual(['2 long']);
  });

  it('tells gaps between dishes', () => {
    expect(starting(0, 10, 17, 32, 24)).toEqual(['2 soon']);
    expect(starting(0, 50, 61, 76, 41)).toEqual(['2 long']);
  });

  it('lets a step’s own keeps bound the wait', () => {
    expect(starting(0, 51, 60, 75, 60)).toEqual(['2 keeps']);
  });

  it('keeps a hold between ready and landing', () => {
    const held = problemOf({
      serve: 120,
      kitchen: { appliances: [oven()], pans: [pan('dish', rectangle(0.2, 0.3))] },
      dishes: [
        {
          dish: 'Gratin',
          hold: { heat: [60, 95] },
          steps: [{ step: 'bake', work: 'bake', place: 'oven', pan: 'dish', takes: 40, heat: [60, 200] }],
        },
      ],
    });
    const row = {
      in: ['oven', 'roast'] as const,
      place: 'rack 1',
      level: 1,
      spot: [0, 0] as const,
      pan: 'dish',
      celsius: 80,
    };
    const holding = (start: number, end: number): string[] =>
      faults(held, {
        steps: { 'Gratin/bake': { ...row, at: [40, 80] }, 'Gratin/hold': { ...row, at: [start, end] } },
        runs: [{ in: ['oven', 'roast'], celsius: 80, at: [40, 130], changeover: 6 }],
      });
    expect(holding(80, 120)).toEqual([]);
    expect(holding(90, 100)).toEqual([]);
    expect(holding(80, 121)).toEqual(['2 hold']);
    expect(holding(79, 120)).toEqual(['2 hold', '3 overlap']);
  });
});
