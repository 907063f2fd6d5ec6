import { describe, expect, it } from 'vitest';
import { grill, oven, pan, problemOf, rectangle } from '../../support/problem-builder.js';
import { faults, type PlanSpec } from '../plan-builder.js';

const problem = problemOf({
  serve: 240,
  kitchen: {
    appliances: [grill('grill', { heats: 14, cools: 8 })],
    pans: [pan('tray', rectangle(0.2, 0.3), { count: 2 })],
  },
  dishes: [
    {
      dish: 'Pork',
      steps: [
        { step: 'sear', work: 'sear', place: 'grill', mode: 'sear', pan: 'tray', takes: 12, heat: [260, 300] },
        { step: 'roast', work: 'roast', place: 'grill', mode: 'roast', pan: 'tray', takes: 60, heat: [150, 180] },
      ],
    },
  ],
});
const row = { place: 'left', spot: [0, 0] as const, pan: 'tray' };
const sear = { ...row, in: ['grill', 'sear'] as const, celsius: 260, at: [40, 52] as const };
const roast = { ...row, in: ['grill', 'roast'] as const, celsius: 180, at: [70, 130] as const };
const searing = { in: ['grill', 'sear'] as const, celsius: 260, at: [40, 52] as const, changeover: 18 };
const roasting = { in: ['grill', 'roast'] as const, celsius: 180, at: [62, 130] as const, changeover: 10 };
const withRuns = (...runs: NonNullable<PlanSpec['runs']>): string[] =>
  faults(problem, { steps: { 'Pork/sear': sear, 'Pork/roast': roast }, runs });

describe('rule 4: one run at a time, every step inside one of its mode and heat', () => {
  it('finds nothing against runs that just hold their steps', () => {
    expect(withRuns(searing, roasting)).toEqual([]);
    expect(withRuns(searing, { ...roasting, at: [70, 130] })).toEqual([]);
  });

  it('tells a step that leaves its run by a minute, or has none', () => {
    expect(withRuns(searing, { ...roasting, at: [62, 129] })).toEqual(['4 outside']);
    expect(withRuns(searing, { ...roasting, at: [71, 130] })).toEqual(['4 outside']);
    expect(withRuns({ ...searing, at: [41, 52] }, roasting)).toEqual(['4 outside']);
    expect(withRuns(searing)).toEqual(['4 outside']);
  });

  it('tells a run of another mode or temperature', () => {
    expect(withRuns(searing, { ...roasting, in: ['grill', 'sear'], celsius: 200, changeover: 8 })).toEqual(['4 other']);
    expect(withRuns(searing, { ...roasting, celsius: 175, changeover: 11, at: [63, 130] })).toEqual(['4 celsius']);
  });

  it('does not let a step lie in two runs that touch', () => {
    expect(withRuns(searing, { ...roasting, at: [62, 100] }, { ...roasting, at: [100, 130], changeover: 0 })).toEqual([
      '4 outside',
    ]);
  });

  it('tells two runs at once, also within a long one', () => {
    expect(withRuns(searing, roasting, { ...roasting, at: [120, 140], changeover: 0 })).toEqual(['4 two']);
    const enclosed = { ...roasting, changeover: 0 };
    expect(withRuns(searing, roasting, { ...enclosed, at: [70, 80] }, { ...enclosed, at: [90, 100] })).toEqual([
      '4 two',
      '4 two',
    ]);
    expect(withRuns(searing, roasting, { ...enclosed, at: [130, 140] })).toEqual([]);
  });

  it('tells a run of no length, of no mode, and beyond its mode’s heat', () => {
    expect(withRuns(searing, roasting, { ...roasting, at: [140, 140], changeover: 0 })).toEqual(['4 empty']);
    expect(withRuns(searing, roasting, { ...roasting, in: ['smoker', 'roast'], at: [140, 150] })).toEqual(['4 mode']);
    expect(withRuns(searing, roasting, { ...roasting, in: ['grill', 'bake'], at: [140, 150], changeover: 0 })).toEqual([
      '4 mode',
    ]);
    expect(withRuns(searing, roasting, { ...roasting, celsius: 90, at: [150, 160], changeover: 12 })).toEqual([
      '4 range',
    ]);
  });

  it('tells a temperature outside the step’s own range', () => {
    const hotter = { ...roasting, celsius: 185 };
    const plan = (celsius: number): PlanSpec => ({
      steps: { 'Pork/sear': sear, 'Pork/roast': { ...roast, celsius } },
      runs: [searing, { ...hotter, celsius, changeover: Math.ceil((260 - celsius) / 8), at: [66, 130] }],
    });
    expect(faults(problem, plan(150))).toEqual([]);
    expect(faults(problem, plan(185))).toEqual(['4 heat']);
    expect(faults(problem, plan(145))).toEqual(['4 heat', '5 short']);
  });
});

describe('rule 4: a hold', () => {
  const held = problemOf({
    serve: 120,
    kitchen: { appliances: [oven()], pans: [pan('dish', rectangle(0.2, 0.3))] },
    dishes: [
      { dish: 'Gratin', hold: { heat: [60, 80] }, steps: [{ step: 'bake', work: 'bake', pan: 'dish', takes: 40 }] },
    ],
  });
  const holding = (celsius: number, run = celsius, end = 120): string[] =>
    faults(held, {
      steps: {
        'Gratin/bake': { at: [40, 80], pan: 'dish' },
        'Gratin/hold': {
          at: [80, 120],
          in: ['oven', 'roast'],
          place: 'rack 1',
          level: 1,
          spot: [0, 0],
          pan: 'dish',
          celsius,
        },
      },
      runs: [{ in: ['oven', 'roast'], celsius: run, at: [80, end], changeover: (run - 20) / 10 }],
    });

  it('lies in a run of its own range', () => {
    expect(holding(60)).toEqual([]);
    expect(holding(80)).toEqual([]);
    expect(holding(50)).toEqual(['4 heat']);
    expect(holding(90)).toEqual(['4 heat']);
    expect(holding(60, 70)).toEqual(['4 celsius']);
    expect(holding(60, 60, 119)).toEqual(['4 outside']);
  });
});
