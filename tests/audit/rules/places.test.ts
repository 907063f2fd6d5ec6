import { describe, expect, it } from 'vitest';
import type { Appliance, Pan } from '../../../src/problem/problem.js';
import {
  circle,
  cooktop,
  grill,
  oven,
  pan,
  problemOf,
  rectangle,
  type StepSpec,
} from '../../support/problem-builder.js';
import { faults, type RowSpec } from '../plan-builder.js';

const PANS = [
  pan('tray', rectangle(0.3, 0.4), { height: 0.1, count: 9 }),
  pan('small tray', rectangle(0.2, 0.3), { height: 0.03, count: 9 }),
  pan('skillet', circle(0.26), { height: 0.05, count: 9 }),
  pan('pot', circle(0.2), { height: 0.22, count: 9 }),
];

/** Dishes A, B, … each roast once in the pan said, at the same heat, from 60 to 90 unless `at` says otherwise. */
function roasting(
  appliance: Appliance,
  mode: string,
  loads: readonly (Omit<RowSpec, 'at' | 'pan'> & { at?: RowSpec['at']; pan: string; pans?: number })[],
  pans: readonly Pan[] = PANS,
): string[] {
  const names = loads.map((_, at) => String.fromCharCode(65 + at));
  const problem = problemOf({
    serve: 120,
    kitchen: { appliances: [appliance], pans },
    dishes: loads.map((load, at) => ({
      dish: names[at]!,
      steps: [
        {
          step: 'roast',
          work: 'roast',
          place: appliance.name,
          mode,
          pan: load.pan,
          pans: load.pans ?? 1,
          takes: 30,
        } satisfies StepSpec,
      ],
    })),
  });
  const celsius = 200;
  return faults(problem, {
    steps: Object.fromEntries(
      loads.map(({ pans: _pans, ...load }, at) => [
        `${names[at]}/roast`,
        { at: [60, 90], in: [appliance.name, mode], celsius, ...load } satisfies RowSpec,
      ]),
    ),
    runs: [{ in: [appliance.name, mode], celsius, at: [30, 120], changeover: 18 }],
  });
}

const rack = (level: number, x: number, y: number, turned = false) => ({
  place: `rack ${level}`,
  level,
  spot: [x, y, turned] as const,
});

describe('rule 3: on a rack', () => {
  const onRack = (...loads: Parameters<typeof roasting>[2]): string[] => roasting(oven(), 'roast', loads);

  it('takes pans that touch, and the same spot one after the other', () => {
    expect(onRack({ pan: 'tray', ...rack(1, 0, 0) }, { pan: 'small tray', ...rack(1, 0.3, 0) })).toEqual([]);
    expect(onRack({ pan: 'tray', ...rack(1, 0, 0), at: [30, 60] }, { pan: 'tray', ...rack(1, 0, 0) })).toEqual([]);
    expect(onRack({ pan: 'tray', ...rack(1, 0, 0) }, { pan: 'tray', ...rack(2, 0, 0) })).toEqual([]);
  });

  it('tells pans that overlap by more than rounding', () => {
    expect(onRack({ pan: 'tray', ...rack(1, 0, 0) }, { pan: 'small tray', ...rack(1, 0.2999999, 0) })).toEqual([]);
    expect(onRack({ pan: 'tray', ...rack(1, 0, 0) }, { pan: 'small tray', ...rack(1, 0.299, 0) })).toEqual([
      '3 overlap',
    ]);
    expect(onRack({ pan: 'tray', ...rack(1, 0, 0), at: [31, 61] }, { pan: 'tray', ...rack(1, 0, 0) })).toEqual([
      '3 overlap',
    ]);
  });

  it('turns rectangles by a right angle', () => {
    expect(onRack({ pan: 'tray', ...rack(1, 0.1, 0.1, true) })).toEqual([]);
    expect(onRack({ pan: 'tray', ...rack(1, 0.1, 0.1, false) })).toEqual(['3 outside']);
    expect(onRack({ pan: 'tray', ...rack(1, 0.17, 0, true) })).toEqual(['3 outside']);
    expect(onRack({ pan: 'tray', ...rack(1, -0.01, 0) })).toEqual(['3 outside']);
    expect(onRack({ pan: 'tray', ...rack(1, 0, -0.01) })).toEqual(['3 outside']);
  });

  it('measures circles truly: the corner of a box beside them may be used', () => {
    // Centre (0.13, 0.13), radius 0.13. A corner at (0.225, 0.225) is 0.134 away, one at (0.22, 0.22) 0.127.
    expect(onRack({ pan: 'skillet', ...rack(1, 0, 0) }, { pan: 'small tray', ...rack(1, 0.225, 0.205, true) })).toEqual(
      ['3 overlap'],
    );
    const low = oven('oven', { depth: 0.5 });
    const beside = (x: number, y: number): string[] =>
      roasting(low, 'roast', [
        { pan: 'skillet', ...rack(1, 0, 0) },
        { pan: 'small tray', ...rack(1, x, y, true) },
      ]);
    expect(beside(0.225, 0.225)).toEqual([]);
    expect(beside(0.22, 0.22)).toEqual(['3 overlap']);
  });

  it('measures circle against circle by their middles', () => {
    // Radii 0.13 and 0.1: middles 0.23 apart touch. (0.13, 0.13) to (0.3, 0.29) is 0.2335, to (0.29, 0.29) 0.2263.
    expect(onRack({ pan: 'skillet', ...rack(1, 0, 0) }, { pan: 'pot', ...rack(1, 0.2, 0.19) })).toEqual([]);
    expect(onRack({ pan: 'skillet', ...rack(1, 0, 0) }, { pan: 'pot', ...rack(1, 0.19, 0.19) })).toEqual(['3 overlap']);
  });

  it('adds the tallest loads of the loaded levels, each with its clearance, at every instant', () => {
    // Cavity 38 cm: 22 + 4 on one level leaves 12, so a load of 8 cm fits on the other.
    const pans = [...PANS, pan('low', circle(0.2), { height: 0.08 }), pan('high', circle(0.2), { height: 0.081 })];
    const both = (other: string, at: RowSpec['at'] = [60, 90]): string[] =>
      roasting(
        oven(),
        'roast',
        [
          { pan: 'pot', ...rack(1, 0, 0) },
          { pan: other, ...rack(2, 0, 0), at },
        ],
        pans,
      );
    expect(both('low')).toEqual([]);
    expect(both('high')).toEqual(['3 heights']);
    expect(both('high', [90, 120])).toEqual([]);
    expect(both('high', [31, 61])).toEqual(['3 heights']);
    const level = [
      { pan: 'pot', ...rack(1, 0, 0) },
      { pan: 'high', ...rack(1, 0.2, 0) },
    ];
    expect(roasting(oven(), 'roast', level, pans)).toEqual([]);
  });

  it('keeps to a mode’s own height', () => {
    const low = (height: number) => oven('oven', { modes: { roast: { heat: { low: 50, high: 270 }, height } } });
    expect(roasting(low(0.1), 'roast', [{ pan: 'tray', ...rack(1, 0, 0) }])).toEqual([]);
    expect(roasting(low(0.09), 'roast', [{ pan: 'tray', ...rack(1, 0, 0) }])).toEqual(['3 height']);
  });

  it('wants the level, its name and the spot to agree', () => {
    expect(onRack({ pan: 'tray', place: 'rack 2', level: 1, spot: [0, 0] })).toEqual(['3 place']);
    expect(onRack({ pan: 'tray', place: 'rack 3', level: 3, spot: [0, 0] })).toEqual(['3 level']);
    expect(onRack({ pan: 'tray', place: 'rack 1', level: 1 })).toEqual(['3 spot']);
    expect(onRack({ pan: 'tray', place: 'rack 1', spot: [0, 0] })).toEqual(['3 spot']);
  });

  it('places each of several pans', () => {
    const two = (spots: RowSpec['spot'], level: number[], place: string[]): string[] =>
      onRack({ pan: 'small tray', pans: 2, place, level, spot: spots! });
    expect(
      two(
        [
          [0, 0],
          [0.2, 0],
        ],
        [1, 1],
        ['rack 1', 'rack 1'],
      ),
    ).toEqual([]);
    expect(
      two(
        [
          [0, 0],
          [0, 0],
        ],
        [1, 2],
        ['rack 1', 'rack 2'],
      ),
    ).toEqual([]);
    expect(
      two(
        [
          [0, 0],
          [0.1, 0],
        ],
        [1, 1],
        ['rack 1', 'rack 1'],
      ),
    ).toEqual(['3 overlap']);
    expect(two([[0, 0]], [1, 1], ['rack 1', 'rack 1'])).toEqual(['3 spot']);
    expect(onRack({ pan: 'small tray', pans: 2, ...rack(1, 0, 0) })).toContain('1 alternative');
    expect(onRack({ pan: 'small tray', place: ['rack 1'], level: [1], spot: [[0, 0]] })).toEqual(['3 form']);
  });
});

describe('rule 3: on a grate', () => {
  const strips = (...zones: [string, number, number, number][]) =>
    zones.map(([name, x, width, depth]) => ({ name, x, width, depth }));
  const lid = (lit: string[]) => ({ roast: { heat: { low: 100, high: 260 }, lit } });

  it('joins zones that touch, and names them from left to right', () => {
    expect(roasting(grill(), 'roast', [{ pan: 'tray', place: 'left + middle', spot: [0.1, 0] }])).toEqual([]);
    expect(roasting(grill(), 'roast', [{ pan: 'tray', place: 'middle + left', spot: [0.1, 0] }])).toEqual(['3 place']);
    expect(roasting(grill(), 'roast', [{ pan: 'tray', place: 'left', spot: [0.1, 0] }])).toEqual(['3 place']);
    expect(roasting(grill(), 'roast', [{ pan: 'small tray', place: 'middle', spot: [0.28, 0] }])).toEqual([]);
    expect(roasting(grill(), 'roast', [{ pan: 'tray', place: 'right', spot: [0.6, 0] }])).toEqual(['3 outside']);
  });

  it('keeps lit zones free', () => {
    const lit = grill('grill', { modes: lid(['right']) });
    expect(roasting(lit, 'roast', [{ pan: 'tray', place: 'left + middle', spot: [0.26, 0] }])).toEqual([]);
    expect(roasting(lit, 'roast', [{ pan: 'tray', place: 'middle + right', spot: [0.3, 0] }])).toEqual(['3 lit']);
  });

  it('does not bridge a space between zones', () => {
    const apart = grill('grill', { zones: strips(['left', 0, 0.28, 0.46], ['right', 0.29, 0.28, 0.46]) });
    expect(roasting(apart, 'roast', [{ pan: 'tray', place: 'left + right', spot: [0.1, 0] }])).toEqual(['3 outside']);
    expect(roasting(apart, 'roast', [{ pan: 'small tray', place: 'right', spot: [0.29, 0] }])).toEqual([]);
  });

  it('knows zones of different depths', () => {
    const uneven = grill('grill', { zones: strips(['deep', 0, 0.28, 0.46], ['low', 0.28, 0.28, 0.3]) });
    expect(roasting(uneven, 'roast', [{ pan: 'small tray', place: 'deep + low', spot: [0.2, 0] }])).toEqual([]);
    expect(roasting(uneven, 'roast', [{ pan: 'small tray', place: 'deep + low', spot: [0.2, 0.01] }])).toEqual([
      '3 outside',
    ]);
    // A circle's back may lie above the deep zone while its side is above the low one: at 0.28 its section is shorter.
    // Middle (0.16, 0.2), radius 0.13: above the low zone it reaches back to 0.2 + sqrt(0.13² − 0.12²) = 0.25.
    expect(roasting(uneven, 'roast', [{ pan: 'skillet', place: 'deep + low', spot: [0.03, 0.07] }])).toEqual([]);
    expect(roasting(uneven, 'roast', [{ pan: 'skillet', place: 'deep + low', spot: [0.03, 0.12] }])).toEqual([]);
    expect(roasting(uneven, 'roast', [{ pan: 'skillet', place: 'deep + low', spot: [0.03, 0.13] }])).toEqual([
      '3 outside',
    ]);
  });

  it('keeps pans within a round grate', () => {
    const kettle = grill('grill', {
      zones: strips(['left', 0, 0.285, 0.57], ['right', 0.285, 0.285, 0.57]),
      round: 0.57,
    });
    // The diagonal of the tray is 0.5, so it fits in the middle; a corner leaves the circle when moved aside.
    expect(roasting(kettle, 'roast', [{ pan: 'tray', place: 'left + right', spot: [0.135, 0.085] }])).toEqual([]);
    expect(roasting(kettle, 'roast', [{ pan: 'tray', place: 'left + right', spot: [0.06, 0.085] }])).toEqual([
      '3 outside',
    ]);
    expect(roasting(kettle, 'roast', [{ pan: 'skillet', place: 'left', spot: [0, 0.155] }])).toEqual([]);
    expect(roasting(kettle, 'roast', [{ pan: 'skillet', place: 'left', spot: [0, 0.1] }])).toEqual(['3 outside']);
  });

  it('has no levels', () => {
    expect(roasting(grill(), 'roast', [{ pan: 'small tray', place: 'middle', spot: [0.28, 0], level: 1 }])).toEqual([
      '3 form',
    ]);
  });
});

describe('rule 3: burners and boards', () => {
  const range = cooktop('range', { front: 0.23, back: 0.18 });
  const frying = (one: RowSpec, two: RowSpec): string[] => {
    const problem = problemOf({
      serve: 120,
      kitchen: { appliances: [range], pans: PANS },
      dishes: ['A', 'B'].map((dish) => ({
        dish,
        steps: [{ step: 'fry', work: 'fry', place: 'range', pan: 'skillet', takes: 10 }],
      })),
    });
    return faults(problem, {
      steps: { 'A/fry': { in: ['range'], pan: 'skillet', ...one }, 'B/fry': { in: ['range'], pan: 'skillet', ...two } },
    });
  };

  it('gives a burner one pan at a time', () => {
    expect(frying({ at: [60, 70], place: 'front' }, { at: [70, 80], place: 'front' })).toEqual([]);
    expect(frying({ at: [60, 70], place: 'front' }, { at: [69, 79], place: 'front' })).toEqual(['3 burner']);
  });

  it('gives a burner only what it carries', () => {
    expect(frying({ at: [60, 70], place: 'front' }, { at: [70, 80], place: 'back' })).toEqual(['3 burner']);
  });

  it('gives a board one step at a time', () => {
    const problem = problemOf({
      serve: 120,
      kitchen: { boards: 2 },
      dishes: ['A', 'B'].map((dish) => ({ dish, steps: [{ step: 'cut', place: 'board', takes: 10 }] })),
    });
    const cutting = (one: string, two: string, at = 60): string[] =>
      faults(problem, { steps: { 'A/cut': { at: [60, 70], place: one }, 'B/cut': { at: [at, at + 10], place: two } } });
    expect(cutting('board 1', 'board 2')).toEqual([]);
    expect(cutting('board 2', 'board 2', 70)).toEqual([]);
    expect(cutting('board 2', 'board 2', 69)).toEqual(['3 board']);
    expect(cutting('board 1', 'board 3')).toEqual(['3 board']);
    expect(cutting('board 1', 'board 0')).toEqual(['3 board']);
    expect(cutting('board 1', 'board 02')).toEqual(['3 board']);
  });
});
