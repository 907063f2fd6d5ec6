import { describe, expect, it } from 'vitest';
import { drawLoad } from '../../src/kitchen/draw-load.js';
import { heaviestLoads } from '../../src/kitchen/heaviest-loads.js';
import type { Problem } from '../../src/problem/problem.js';
import { readMeal } from '../support/read-meal.js';

interface Wanted {
  readonly dish: string;
  readonly on: string;
  readonly heat: string;
  readonly pan: string;
  readonly pans?: number;
  readonly course?: string;
}

/** A meal whose dishes are roasted and done. */
function meal(dishes: readonly Wanted[], pans: readonly string[]): Problem {
  const text = `
format: hearthtable/1
title: Test supper
serve: 2026-10-03 18:30
zone: Europe/Lisbon
courses: [{ course: main, at: 0 min }, { course: sweet, at: 40 min }]
cooks: [Ines]
kitchen:
  kitchen: Test kitchen
  appliances:
    - appliance: stove
      kind: oven
      racks: { count: 2, size: 56 x 41 cm, height: 38 cm, clearance: 4 cm }
      modes: { roast: { heat: 75-270C } }
      heats: 11C/min
      cools: 4C/min
    - appliance: fire
      kind: grill
      zones: [{ zone: left, size: 28 x 46 cm }, { zone: right, size: 28 x 46 cm }]
      modes: { roast: { lid: closed, heat: 110-260C, lit: right, height: 22 cm } }
      heats: 14C/min
      cools: 8C/min
    - { appliance: hob, kind: cooktop, burners: [{ burner: front, size: 23 cm }] }
  pans:
${pans.map((pan) => `    - { ${pan} }`).join('\n')}
dishes:
${dishes
  .map(
    ({ dish, on, heat, pan, pans: count = 1, course = 'main' }) => `  - dish: ${dish}
    course: ${course}
    steps: [{ step: roast, work: roast, takes: 40 min, on: [${on}], heat: ${heat}, pan: ${pan}, pans: ${count} }]`,
  )
  .join('\n')}
`;
  return readMeal(text);
}

const STOVE = '{ place: stove }';
const FIRE = '{ place: fire }';
const SHEET = 'pan: half sheet, size: 33 x 41 cm, height: 3 cm, count: 4';
const DISH = 'pan: small dish, size: 20 x 30 cm, height: 6 cm, count: 4';

describe('heaviestLoads', () => {
  it('takes what shares a temperature, one step of each dish, and places it', () => {
    const problem = meal(
      [
        { dish: 'Roots', on: STOVE, heat: '160-210C', pan: 'half sheet' },
        { dish: 'Gratin', on: STOVE, heat: '150-180C', pan: 'small dish' },
        { dish: 'Flatbread', on: STOVE, heat: '240-250C', pan: 'half sheet' },
      ],
      [SHEET, DISH],
    );
    const [load, ...others] = heaviestLoads(problem);
    expect(others).toEqual([]);
    expect(load).toMatchObject({ appliance: 0, mode: 0, course: 0, misfit: null });
    expect(load!.celsius).toBeGreaterThanOrEqual(160);
    expect(load!.celsius).toBeLessThanOrEqual(180);
    expect(load!.loads.map(({ dish, name }) => [problem.dishes[dish]!.name, name])).toEqual([
      ['Roots', 'half sheet'],
      ['Gratin', 'small dish'],
    ]);
    expect(load!.loads.every(({ placed }) => placed !== null)).toBe(true);
  });

  it('says why not all fit, and still places what does', () => {
    const problem = meal(
      [
        { dish: 'Roots', on: STOVE, heat: '180C', pan: 'half sheet', pans: 2 },
        { dish: 'Squash', on: STOVE, heat: '180C', pan: 'half sheet' },
      ],
      [SHEET, DISH],
    );
    const [load] = heaviestLoads(problem);
    expect(load!.misfit).toBe(
      '3 of the 33 x 41 cm half sheet need more than the 2 racks of the stove; it goes with the 20 x 30 cm small dish instead of the half sheet',
    );
    expect(load!.loads.filter(({ placed }) => placed === null).map(({ dish }) => dish)).toEqual([1]);
  });

  it('leaves to another place what does not fit and may go there', () => {
    const problem = meal(
      [
        { dish: 'Roots', on: STOVE, heat: '180C', pan: 'half sheet', pans: 2 },
        { dish: 'Squash', on: `${STOVE}, ${FIRE}`, heat: '180C', pan: 'small dish' },
        { dish: 'Corn', on: `${FIRE}, ${STOVE}`, heat: '180C', pan: 'small dish' },
      ],
      [SHEET, DISH],
    );
    const [oven, grill] = heaviestLoads(problem);
    // Beside a sheet of 33 cm a dish of 20 cm still goes on each rack.
    expect(oven).toMatchObject({ appliance: 0, misfit: null });
    expect(oven!.loads.map(({ dish }) => dish)).toEqual([0, 0, 1, 2]);
    expect(grill).toBeUndefined();
    const fuller = meal(
      [
        { dish: 'Roots', on: STOVE, heat: '180C', pan: 'half sheet', pans: 2 },
        { dish: 'Onions', on: STOVE, heat: '180C', pan: 'small dish', pans: 2 },
        { dish: 'Corn', on: `${STOVE}, ${FIRE}`, heat: '180C', pan: 'small dish' },
      ],
      [SHEET, DISH],
    );
    const [full, rest] = heaviestLoads(fuller);
    expect(full!.loads.map(({ dish }) => dish)).toEqual([0, 0, 1, 1]);
    expect(rest).toMatchObject({ appliance: 1, misfit: null });
    expect(rest!.loads.map(({ dish }) => dish)).toEqual([2]);
  });

  it('asks for no more of a pan than there is, and looks at one course', () => {
    const problem = meal(
      [
        { dish: 'Roots', on: STOVE, heat: '180C', pan: 'half sheet' },
        { dish: 'Squash', on: STOVE, heat: '180C', pan: 'half sheet' },
        { dish: 'Crumble', on: STOVE, heat: '180C', pan: 'small dish', course: 'sweet' },
      ],
      ['pan: half sheet, size: 33 x 41 cm, height: 3 cm, count: 1', DISH],
    );
    const [load] = heaviestLoads(problem);
    expect(load!.loads.map(({ dish }) => dish)).toEqual([0]);
  });

  it('has nothing for a meal that roasts nothing', () => {
    const text = `
format: hearthtable/1
title: Cold plate
serve: 2026-10-03 18:30
zone: Europe/Lisbon
cooks: [Ines]
kitchen: { kitchen: Bare, appliances: [{ appliance: hob, kind: cooktop, burners: [{ burner: front, size: 23 cm }] }] }
dishes: [{ dish: Salad, steps: [{ step: toss, work: prep, takes: 10 min }] }]
`;
    expect(heaviestLoads(readMeal(text))).toEqual([]);
  });
});

describe('drawLoad', () => {
  it('draws each loaded rack from the top down, with dishes and pans', () => {
    const problem = meal(
      [
        { dish: 'Roots', on: STOVE, heat: '180C', pan: 'half sheet' },
        { dish: 'Gratin', on: STOVE, heat: '180C', pan: 'small dish' },
      ],
      [SHEET, DISH],
    );
    const drawings = drawLoad(problem, heaviestLoads(problem)[0]!, (dish) => 'RG'.charAt(dish), {
      columns: 40,
      ascii: true,
    });
    expect(drawings.map(({ title }) => title)).toEqual(['rack 2', 'rack 1']);
    const last = drawings.map(({ lines }) => lines.at(-1));
    expect(last).toContain('R  Roots: 33 x 41 cm half sheet');
    expect(last).toContain('G  Gratin: 20 x 30 cm small dish');
  });

  it('draws a grate once, with its zones', () => {
    const problem = meal([{ dish: 'Corn', on: FIRE, heat: '180C', pan: 'small dish' }], [SHEET, DISH]);
    const drawings = drawLoad(problem, heaviestLoads(problem)[0]!, () => 'C', { columns: 40, ascii: true });
    expect(drawings).toHaveLength(1);
    expect(drawings[0]!.title).toBeNull();
    expect(drawings[0]!.lines.some((line) => line.includes('//') && line.includes('|'))).toBe(true);
    expect(drawings[0]!.lines.at(-2)).toMatch(/left +right/);
  });
});
