import { describe, expect, it } from 'vitest';
import { transitionTime } from '../../src/kernel/model.js';
import type { Problem } from '../../src/problem/problem.js';
import { compile, minutesAt } from '../../src/solve/compile.js';
import { circle, cooktop, oven, pan, problemOf, rectangle } from '../support/problem-builder.js';

const columns = [
  { celsius: 160, minutes: 47 },
  { celsius: 185, minutes: 37 },
  { celsius: 210, minutes: 30 },
];

describe('minutesAt', () => {
  it('is what the columns say at the columns', () => {
    expect(columns.map(({ celsius }) => minutesAt(columns, celsius))).toEqual([47, 37, 30]);
  });

  it('is linear between two columns, rounded up', () => {
    expect(minutesAt(columns, 170)).toBe(43);
    // 47 - 10 x 5/25 and 37 - 7 x 5/25.
    expect(minutesAt(columns, 165)).toBe(45);
    expect(minutesAt(columns, 190)).toBe(36);
  });

  it('is not rounded up by an error in the last digit', () => {
    const fahrenheit = [
      { celsius: ((325 - 32) * 5) / 9, minutes: 60 },
      { celsius: ((375 - 32) * 5) / 9, minutes: 50 },
    ];
    expect(minutesAt(fahrenheit, ((350 - 32) * 5) / 9)).toBe(55);
    expect(minutesAt(fahrenheit, ((330 - 32) * 5) / 9)).toBe(59);
  });

  it('is one value of a table with one column', () => {
    expect(minutesAt([{ celsius: 180, minutes: 20 }], 180)).toBe(20);
  });
});

const kitchen = {
  appliances: [oven('oven', { heats: 10, cools: 4 }), cooktop()],
  boards: 2,
  pans: [
    pan('tray', rectangle(0.33, 0.46), { count: 2, wash: 5 }),
    pan('big pot', circle(0.27), { count: 1 }),
    pan('small pot', circle(0.16), { count: 1 }),
  ],
};

const meal: Problem = problemOf({
  serve: 300,
  courses: [
    { name: 'main', at: 0 },
    { name: 'sweet', at: 40 },
  ],
  kitchen,
  cooks: ['Ines', { name: 'Tomas', can: ['oven', 'board'] }],
  dishes: [
    {
      dish: 'Loin',
      keeps: 10,
      fades: 'fast',
      steps: [
        { step: 'trim', place: 'board', takes: 10, hands: { all: true } },
        {
          step: 'roast',
          work: 'roast',
          takes: { '160C': 47, '185C': 37 },
          on: [
            { place: 'oven', pan: 'tray', heat: [160, 185], ideal: 170 },
            { place: 'range', pan: 'big pot', takes: 60 },
          ],
        },
        { step: 'rest', work: 'rest', gap: [0, 2], takes: { low: 15, high: 35, best: [18, 26] } },
      ],
    },
    {
      dish: 'Oil',
      served: false,
      steps: [{ step: 'warm', work: 'simmer', place: 'range', pan: 'small pot', takes: 15 }],
    },
    {
      dish: 'Tart',
      course: 'sweet',
      steps: [
        { step: 'fill', takes: 5, hands: { all: true }, after: [{ step: 'Oil/warm', gap: [0, 360] }] },
        { step: 'bake', work: 'bake', place: 'oven', pan: 'tray', takes: 30, heat: [180, 180], empties: true },
      ],
    },
  ],
});

describe('compile', () => {
  const { model, kit } = compile(meal);
  const [trim, roast, rest, warm, fill, bake] = model.activities;

  it('makes an activity of every step, a job of every dish and a group of every course', () => {
    expect(model.activities.map((a) => a.job)).toEqual([0, 0, 0, 1, 2, 2]);
    expect(model.jobs.map((job) => [job.group, job.rate, job.keeps])).toEqual([
      [0, 4, 10],
      [-1, 1, Number.POSITIVE_INFINITY],
      [1, 1, Number.POSITIVE_INFINITY],
    ]);
    expect(model.groups).toEqual([
      { due: 300, jobs: [0] },
      { due: 340, jobs: [2] },
    ]);
    expect(model.jobs[1]!.users).toEqual([4]);
    expect([trim, roast, rest, warm, fill, bake].map((a) => a!.sink)).toEqual([false, false, true, true, false, true]);
    expect(bake!.empties).toBe(true);
    expect([model.serve, model.horizon >= 340 + 120]).toEqual([300, true]);
  });

  it('makes a lag of every link, with what waiting costs', () => {
    const free = Number.POSITIVE_INFINITY;
    expect(model.lags).toEqual([
      { from: 0, to: 1, low: 0, high: free, rate: 0.02, part: 'gap' },
      { from: 1, to: 2, low: 0, high: 2, rate: 4, part: 'wait' },
      { from: 3, to: 4, low: 0, high: 360, rate: 1, part: 'wait' },
      { from: 4, to: 5, low: 0, high: free, rate: 0.02, part: 'gap' },
    ]);
  });

  it('makes a setting of every temperature, with its minutes and its points', () => {
    const [inOven, onRange] = roast!.modes;
    const { states } = model.machines[0]!;
    expect(inOven!.settings.map(({ state, minutes, cost }) => [states[state]!.level, minutes, cost])).toEqual([
      [160, 47, 0.5],
      [165, 45, 0.25],
      [170, 43, 0],
      [175, 41, 0.25],
      [180, 39, 0.5],
      [185, 37, 0.75],
    ]);
    expect(onRange!.settings).toEqual([{ state: -1, minutes: 60, cost: 0 }]);
    expect([roast!.shortest, roast!.longest]).toEqual([37, 60]);
    expect(rest!.modes[0]!.range).toEqual({ low: 15, high: 35, bestLow: 18, bestHigh: 26, rate: 0.5 });
  });

  it('knows which burners carry a pan, and which cooks may do what', () => {
    // 27 cm on a burner of 23 cm, but not on one of 18 cm.
    expect(roast!.modes[1]!.units.map((unit) => kit.units[unit]!.burner)).toEqual([0]);
    expect(warm!.modes[0]!.units.map((unit) => kit.units[unit]!.burner)).toEqual([0, 1]);
    expect([trim, fill].map((a) => a!.modes[0]!.able)).toEqual([3, 1]);
    expect(roast!.modes.map((mode) => mode.able)).toEqual([3, 1]);
  });

  it('takes boards, pans and loads from the kitchen', () => {
    expect(model.renewables).toEqual([
      { capacity: 2, tail: 0 },
      { capacity: 2, tail: 5 },
      { capacity: 1, tail: 0 },
      { capacity: 1, tail: 0 },
    ]);
    expect([trim!.modes[0]!.bench, roast!.modes[0]!.vessel, fill!.modes[0]!.vessel]).toEqual([
      kit.boards,
      kit.panOf(0),
      -1,
    ]);
    expect(roast!.modes[0]!.load).toBe(bake!.modes[0]!.load);
    expect([trim, roast, rest].map((a) => a!.modes[0]!.transparent)).toEqual([false, false, true]);
  });

  it('needs whole minutes to heat and to cool', () => {
    const [machine] = model.machines;
    const at = (level: number): number => machine!.states.findIndex((state) => state.level === level);
    // From 20 °C at 10 a minute; 185 to 160 at 4 a minute is 6.25.
    expect(transitionTime(machine!, -1, at(185))).toBe(17);
    expect(transitionTime(machine!, at(160), at(185))).toBe(3);
    expect(transitionTime(machine!, at(185), at(160))).toBe(7);
    expect(transitionTime(machine!, at(170), at(170))).toBe(0);
  });
});
