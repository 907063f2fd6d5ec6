/** Clashes are named by what clashes, in a cook's words, and every way out that is told leads to a right plan. */
import { describe, expect, it } from 'vitest';
import { audit } from '../../src/audit/audit.js';
import type { Problem } from '../../src/problem/problem.js';
import { compile } from '../../src/solve/compile.js';
import { type Explanation, explainNone, explanationOf } from '../../src/solve/explain/explain.js';
import { FAMILIES, loosened } from '../../src/solve/explain/loosen.js';
import type { Needs } from '../../src/solve/explain/needs.js';
import { refute } from '../../src/solve/explain/refute.js';
import { solve } from '../../src/solve/solve.js';
import {
  ALL_HANDS,
  circle,
  cooktop,
  type DishSpec,
  oven,
  type ProblemSpec,
  pan,
  problemOf,
  rectangle,
  type StepSpec,
} from '../support/problem-builder.js';
import { readMealFile } from '../support/read-meal.js';

/** Enough for a proof, in distances followed. */
const EFFORT = 1_000_000;

/** Enough for a first plan of a small meal. */
const WORK = 100_000;

const explained = (problem: Problem): Explanation => explanationOf(problem, { seed: 1, suspects: [], proven: true });

function meal(name: string): Problem {
  return readMealFile(`problems/${name}.yaml`);
}

/** The meal has no plan; what is told about it; and each way out, solved and audited. */
function clashOf(problem: Problem): Explanation & { readonly why: string; readonly told: string } {
  const solved = solve(problem, { effort: 'quick', seed: 1, work: WORK });
  expect(solved.plan).toBeNull();
  const explanation = explained(problem);
  expect(solved.reasons.map(({ say }) => say).sort()).toEqual(
    [...explanation.whys, ...explanation.ways.map(({ say }) => say)].sort(),
  );
  const { clash, needs } = explanation;
  expect(clash!.certain).toBe(true);
  expect(refute(clash!.part.problem, compile(clash!.part.problem).model, EFFORT).proven).toBe(true);
  expect(isLeast(needs[0]!)).toBe(true);
  for (const way of explanation.ways) {
    const { plan } = solve(way.problem, { effort: 'quick', seed: 1, work: WORK });
    expect(plan, way.say).not.toBeNull();
    expect(audit(way.problem, plan!).violations, way.say).toEqual([]);
    expect(way.say).toMatch(/: then everything fits(, but .+ late)? \([\d.]+ points?\)\.$/);
  }
  return { ...explanation, why: explanation.whys.join('\n'), told: explanation.ways.map(({ say }) => say).join('\n') };
}

/** With any one of the needs taken away there is no contradiction in what is left of the kinds that clash. */
function isLeast({ compiled: { problem, model }, families, needs }: Needs): boolean {
  const others = new Set(FAMILIES.filter((family) => !families.includes(family)));
  return needs.every((need) => !refute(problem, loosened(model, { families: others, needs: [need] }), EFFORT).proven);
}

const families = (explanation: Explanation): string[][] => explanation.needs.map((one) => [...one.families]);

const HANDS = { hands: ALL_HANDS };

/** Two dishes of one step each that must both end just before a third plates them. */
function joined(first: StepSpec, second: StepSpec, within = 5): DishSpec[] {
  return [
    { dish: 'Left', served: false, steps: [first] },
    { dish: 'Right', served: false, steps: [second] },
    {
      dish: 'Platter',
      steps: [
        {
          step: 'arrange',
          work: 'plate',
          takes: 3,
          after: [
            { step: `Left/${first.step}`, gap: [0, within] },
            { step: `Right/${second.step}`, gap: [0, within] },
          ],
        },
      ],
    },
  ];
}

const SALAD: DishSpec = { dish: 'Salad', steps: [{ step: 'toss', takes: 5 }] };

const platter = (
  first: StepSpec,
  second: StepSpec,
  kitchen: NonNullable<ProblemSpec['kitchen']>,
  more: Partial<ProblemSpec> = {},
): Problem => problemOf({ serve: 180, kitchen, dishes: [...joined(first, second), SALAD], ...more });

describe('the meals that cannot be done', () => {
  it('names the hands at risotto and scallops, and that there is one cook', () => {
    const clash = clashOf(meal('cannot-no-hands'));
    expect(families(clash)[0]).toEqual(['hands', 'gap']);
    expect(clash.whys[0]).toBe('Scallops on risotto and Risotto cannot be done together.');
    expect(clash.whys[1]).toMatch(
      /^Scallops on risotto\/sear and Risotto\/stir each need hands the whole time at the same time \(19:53 to 19:57 when served at 20:00\), and there is one cook\.$/,
    );
    expect(clash.whys[2]).toBe(
      'Scallops on risotto/plate must begin at most 1 min after Scallops on risotto/sear and at most 1 min after Risotto/stir.',
    );
    expect(clash.why).not.toContain('Leaf salad');
    expect(clash.told).toContain('Have one more cook');
    expect(clash.ways.map((way) => way.kind)).toEqual(['gap', 'cook', 'dish', 'dish', 'gap']);
  });

  it('names the one oven, both heats and the time', () => {
    const clash = clashOf(meal('cannot-two-heats'));
    expect(families(clash)).toEqual([['heat', 'gap']]);
    expect(clash.whys[0]).toBe('Slow duck legs and Popovers cannot be done together.');
    expect(clash.whys[1]).toBe(
      'Slow duck legs/roast at 135-150 °C and Popovers/bake at 215-230 °C both need the wall oven at the same time (19:24 to 19:56 when served at 20:00), and it has one heat at a time; from one to the other it takes at least 6 min.',
    );
    expect(clash.told).toContain('Let Slow duck legs/plate begin up to 40 min after Slow duck legs/roast');
    expect(clash.told).toContain('Have a second wall oven');
    // No temperature is proposed that is 65 degrees from the written ones.
    expect(clash.ways.map((way) => way.kind)).not.toContain('heat');
  });

  it('says the same every time, whys first, and leaves the problem as it is', () => {
    const problem = meal('cannot-two-heats');
    const before = JSON.stringify(problem);
    const [one, two] = [1, 2].map(() => explainNone(problem, { seed: 1, suspects: [], proven: true }));
    expect(one).toEqual(two);
    expect(JSON.stringify(problem)).toBe(before);
    expect(one!.map((reason) => reason.kind)).toEqual(['why', 'why', 'why', 'way', 'way', 'way', 'way']);
  });
});

describe('what clashes', () => {
  const tray = pan('tray', rectangle(0.3, 0.4));
  const dish = pan('dish', rectangle(0.25, 0.3));

  it('is heat, with a temperature that would do', () => {
    const kitchen = { appliances: [oven()], pans: [tray, dish] };
    const roast: StepSpec = { step: 'roast', work: 'roast', takes: 40, place: 'oven', heat: [180, 190], pan: 'tray' };
    const bake: StepSpec = { step: 'bake', work: 'bake', takes: 30, place: 'oven', heat: [150, 160], pan: 'dish' };
    const clash = clashOf(platter(roast, bake, kitchen));
    expect(families(clash)).toEqual([['heat', 'gap']]);
    expect(clash.why).toContain('Left/roast at 180-190 °C and Right/bake at 150-160 °C both need the oven');
    expect(clash.told).toContain('Do Left/roast at 160 °C instead of 180-190 °C, if 40 min there are right');
    expect(clash.told).toContain('Do Right/bake at 180 °C instead of 150-160 °C, if 30 min there are right');
    expect(clash.ways[0]!.trouble).toBeLessThanOrEqual(clash.ways.at(-1)!.trouble);
  });

  it('is heat, told in the degrees of the dial', () => {
    const appliance = oven('range oven', { dial: { unit: 'F', step: 25 } });
    const roast: StepSpec = {
      step: 'roast',
      work: 'roast',
      takes: 40,
      place: 'range oven',
      heat: [190, 205],
      pan: 'tray',
    };
    const bake: StepSpec = {
      step: 'bake',
      work: 'bake',
      takes: 30,
      place: 'range oven',
      heat: [120, 136],
      pan: 'dish',
    };
    const clash = clashOf(platter(roast, bake, { appliances: [appliance], pans: [tray, dish] }));
    expect(clash.why).toContain('Left/roast at 375-400 °F and Right/bake at 250-275 °F');
  });

  it('never proposes another temperature for a step that is done to a core', () => {
    const kitchen = { appliances: [oven()], pans: [tray, dish] };
    const roast: StepSpec = {
      step: 'roast',
      work: 'roast',
      takes: { '180C': 50, '190C': 45 },
      core: 74,
      place: 'oven',
      pan: 'tray',
    };
    const bake: StepSpec = { step: 'bake', work: 'bake', takes: 30, place: 'oven', heat: [150, 160], pan: 'dish' };
    const clash = clashOf(platter(roast, bake, kitchen));
    expect(clash.told).not.toContain('Do Left/roast');
    expect(clash.told).toContain('Do Right/bake at 180 °C');
  });

  it('is heat in two ovens for three', () => {
    const kitchen = {
      appliances: [oven('left oven'), oven('right oven')],
      pans: [pan('tin', rectangle(0.2, 0.2), { count: 3 })],
    };
    const bake = (step: string, heat: readonly [number, number]): StepSpec => ({
      step,
      work: 'bake',
      takes: 30,
      pan: 'tin',
      on: [
        { place: 'left oven', heat },
        { place: 'right oven', heat },
      ],
    });
    const [first, second, platterDish] = joined(bake('cake', [100, 110]), bake('tart', [160, 170])) as [
      DishSpec,
      DishSpec,
      DishSpec,
    ];
    const [arrange] = platterDish.steps as [StepSpec];
    const third: DishSpec = { dish: 'Middle', served: false, steps: [bake('bread', [220, 230])] };
    const after = [...arrange.after!, { step: 'Middle/bread', gap: [0, 5] as const }];
    const all = [first, second, third, { ...platterDish, steps: [{ ...arrange, after }] }];
    const clash = clashOf(problemOf({ serve: 180, kitchen, dishes: all }));
    expect(clash.why).toContain(
      'Left/cake at 100-110 °C, Right/tart at 160-170 °C and Middle/bread at 220-230 °C all need the left oven or the right oven',
    );
  });

  it('is more cooks at once than there are', () => {
    const cooks = ['Ines', 'Tomas'];
    const lift: StepSpec = { step: 'lift', work: 'finish', takes: 10, hands: { ...ALL_HANDS, cooks: 2 } };
    const whisk: StepSpec = { step: 'whisk', work: 'finish', takes: 10, ...HANDS };
    const clash = clashOf(platter(lift, whisk, {}, { cooks }));
    expect(families(clash)).toEqual([['hands', 'gap']]);
    expect(clash.why).toMatch(
      /Left\/lift and Right\/whisk each need hands .*, three cooks in all, and there are two cooks\./,
    );
  });

  it('is room in the oven', () => {
    const large = pan('large tray', rectangle(0.5, 0.38), { count: 2 });
    const kitchen = { appliances: [oven('oven', { count: 1 })], pans: [large] };
    const bake = (name: string): StepSpec => ({
      step: name,
      work: 'bake',
      takes: 30,
      place: 'oven',
      heat: [170, 190],
      pan: 'large tray',
    });
    const clash = clashOf(platter(bake('fish'), bake('roots'), kitchen));
    expect(families(clash)).toEqual([['space', 'gap']]);
    expect(clash.why).toMatch(
      /Left\/fish and Right\/roots need room in the oven .*: the 50 x 38 cm large tray will not go beside a second one/,
    );
    expect(clash.told).toContain('Have a second oven');
  });

  it('is a pan that stays with its dish until it is served', () => {
    const roast = (name: string): DishSpec => ({
      dish: name,
      steps: [{ step: 'roast', work: 'roast', takes: 30, place: 'oven', heat: [170, 190], pan: 'tray' }],
    });
    const kitchen = { appliances: [oven()], pans: [tray] };
    const clash = clashOf(problemOf({ serve: 120, kitchen, dishes: [roast('Roots'), roast('Beans'), SALAD] }));
    expect(families(clash)).toEqual([['pan']]);
    expect(clash.whys[0]).toBe('Roots and Beans cannot be done together.');
    expect(clash.why).toMatch(
      /Roots\/roast and Beans\/roast each need the tray.* and keep it until they are served; there is one\./,
    );
    expect(clash.told).toContain('Have a second tray: then everything fits (');
    expect(clash.told).toContain('Leave Roots out, or have it made ahead');
    expect(clash.told).not.toContain('Salad');
  });

  it('is a burner', () => {
    const pot = pan('pot', circle(0.22), { count: 2 });
    const kitchen = { appliances: [cooktop('range', { front: 0.2, back: 0.14 })], pans: [pot] };
    const boil = (name: string): StepSpec => ({ step: name, work: 'boil', takes: 20, place: 'range', pan: 'pot' });
    const clash = clashOf(platter(boil('pasta'), boil('beans'), kitchen));
    expect(families(clash)).toEqual([['burner', 'gap']]);
    expect(clash.why).toContain('Left/pasta and Right/beans each need a burner');
    expect(clash.why).toContain('there is one that carries their pans');
    expect(clash.told).toContain('Have one more burner beside the range');
  });

  it('is a board', () => {
    const carve = (name: string): StepSpec => ({ step: name, work: 'carve', takes: 12, place: 'board', ...HANDS });
    const clash = clashOf(platter(carve('duck'), carve('ham'), {}, { cooks: ['Ines', 'Tomas'] }));
    expect(families(clash)).toEqual([['board', 'gap']]);
    expect(clash.why).toMatch(/Left\/duck and Right\/ham each need a board .*, and there is one\./);
    expect(clash.told).toContain('Have a second board');
  });

  it('is the hands of those who are able, and somebody may learn', () => {
    const cooks = [{ name: 'Ines' }, { name: 'Paulo', can: ['prep', 'plate'] }];
    const fry = (name: string): StepSpec => ({ step: name, work: 'fry', takes: 10, ...HANDS });
    const clash = clashOf(platter(fry('squid'), fry('peppers'), {}, { cooks }));
    expect(families(clash)[0]).toEqual(['skill', 'hands', 'gap']);
    expect(clash.why).toMatch(
      /Left\/squid and Right\/peppers each need hands the whole time.*, and only Ines can do them\./,
    );
    expect(clash.told).toContain('Let Paulo do fry too (Left/squid)');
    expect(clash.told).toContain('Have one more cook');
  });

  it("is a cook's hours", () => {
    const cooks = [
      { name: 'Ines', can: ['prep', 'braise', 'plate'] },
      { name: 'Paulo', can: ['grill'], to: 18 * 60 },
    ];
    const braise: StepSpec = { step: 'braise', work: 'braise', takes: 180 };
    const grill: StepSpec = { step: 'grill', work: 'grill', takes: 10, ...HANDS };
    const problem = problemOf({
      start: '2026-10-03T16:00:00+01:00',
      serve: 195,
      cooks,
      dishes: [...joined(braise, grill), SALAD],
    });
    const clash = clashOf(problem);
    expect(families(clash)[0]).toContain('hours');
    expect(clash.why).toContain('only Paulo can do it');
    expect(clash.why).toContain('Paulo leaves at 18:00.');
    expect(clash.told).toMatch(/Paulo until 1[89]:\d\d instead of 18:00: then everything fits/);
    expect(clash.told).toContain('Begin at ');
  });

  it('is a cook who comes late', () => {
    const cooks = [
      { name: 'Ines', can: ['prep', 'finish', 'plate'] },
      { name: 'Paulo', can: ['grill'], from: 16 * 60 },
    ];
    const steak: DishSpec = { dish: 'Steak', steps: [{ step: 'grill', work: 'grill', takes: 10, ...HANDS }] };
    const problem = problemOf({ start: '2026-10-03T11:00:00+01:00', serve: 60, cooks, dishes: [steak, SALAD] });
    const clash = clashOf(problem);
    expect(clash.whys.slice(0, 3)).toEqual([
      'Steak cannot be done, even with the kitchen to itself, even served as late as 14:00.',
      'Steak/grill needs hands the whole time, and only Paulo can do it.',
      'Paulo comes at 16:00.',
    ]);
    expect(clash.told).toContain('Let Ines do grill too (Steak/grill): then everything fits (');
    expect(clash.told).toMatch(/Serve at 16:\d\d \(4 h .*later\): then everything fits \(/);
  });

  it('is the clock', () => {
    const cure: DishSpec = {
      dish: 'Cured trout',
      steps: [
        { step: 'salt', takes: 10 },
        { step: 'slice', work: 'carve', takes: 10, gap: [720, 780] },
      ],
    };
    const problem = problemOf({ start: '2026-10-03T16:00:00+01:00', serve: 180, dishes: [cure, SALAD] });
    const clash = clashOf(problem);
    expect(families(clash)).toEqual([['clock']]);
    expect(clash.whys[0]).toBe(
      'Cured trout cannot be done, even with the kitchen to itself, even served as late as 21:00.',
    );
    expect(clash.why).toContain(
      'From the start at 16:00 to the end of Cured trout/slice it takes at least 12 h 20 min, and serving is asked for 19:00.',
    );
    expect(clash.told).toMatch(/Begin at 06:\d\d \(9 h 30 min earlier\)/);
    expect(clash.told).toMatch(/Serve at 04:30 on 2026-10-04 \(9 h 30 min later\)/);
  });

  it('is gaps alone', () => {
    const dough: DishSpec = {
      dish: 'Flatbread',
      steps: [
        { step: 'mix', takes: 5 },
        { step: 'rest', work: 'rest', takes: 30, after: ['mix'] },
        { step: 'roll', takes: 5, after: ['rest', { step: 'mix', gap: [0, 10] }] },
      ],
    };
    const clash = clashOf(problemOf({ serve: 120, dishes: [dough, SALAD] }));
    expect(families(clash)).toEqual([['gap']]);
    expect(clash.whys).toEqual([
      'Flatbread cannot be done, even with the kitchen to itself.',
      'Flatbread/roll must begin at most 10 min after Flatbread/mix.',
    ]);
    expect(clash.ways[0]!.say).toContain(
      'Let Flatbread/roll begin up to 30 min after Flatbread/mix (now at most 10 min): then everything fits (',
    );
  });
});

describe('several clashes at once', () => {
  it('tells each, and changes that undo them together', () => {
    const pot = pan('pot', circle(0.22), { count: 2 });
    const kitchen = { appliances: [cooktop('range', { front: 0.2, back: 0.14 })], pans: [pot] };
    const stir = (name: string): StepSpec => ({
      step: name,
      work: 'fry',
      takes: 10,
      place: 'range',
      pan: 'pot',
      ...HANDS,
    });
    const clash = clashOf(platter(stir('squid'), stir('peppers'), kitchen));
    expect(families(clash)).toEqual([
      ['hands', 'gap'],
      ['burner', 'gap'],
    ]);
    expect(clash.why).toContain('Even if that were solved: Left/squid and Right/peppers each need a burner');
    expect(clash.told).toContain('Have one more cook, and have one more burner beside the range');
  });
});

describe('honesty', () => {
  it('does not call impossible what was only not found', () => {
    const problem = meal('cannot-two-heats');
    const stopped = explanationOf(problem, { seed: 1, suspects: [1], proven: false, shouldStop: () => true });
    expect(stopped.clash).toBeNull();
    expect(stopped.ways).toEqual([]);
    expect(stopped.whys).toEqual([
      'No time was found for Popovers beside everything else with this much search; it is not proven that there is none.',
    ]);
  });

  it('does not call open what is proven, where nobody is found to blame', () => {
    const asked = { seed: 1, proven: true, shouldStop: () => true };
    const told = (suspects: number[]) => explanationOf(meal('cannot-two-heats'), { ...asked, suspects }).whys;
    const unknown = 'whatever the order; which dishes alone are to blame was not found.';
    expect(told([1])).toEqual([`There is no time for Popovers beside everything else, ${unknown}`]);
    expect(told([])).toEqual([`There is no time for all dishes, ${unknown}`]);
  });

  it('plans a meal in which a component needs the cook while its user is prepared', () => {
    const squid: DishSpec = {
      dish: 'Squid',
      fades: 'fast',
      steps: [
        { step: 'clean', takes: 8, keeps: 60, ...HANDS },
        { step: 'sear', work: 'fry', takes: 4, gap: [0, 60] },
        {
          step: 'plate',
          work: 'plate',
          takes: 3,
          after: [
            { step: 'sear', gap: [0, 1] },
            { step: 'Rice/stir', gap: [0, 1] },
          ],
          ...HANDS,
        },
      ],
    };
    const rice: DishSpec = {
      dish: 'Rice',
      served: false,
      steps: [{ step: 'stir', work: 'simmer', takes: 18, ...HANDS }],
    };
    const problem = problemOf({ serve: 90, dishes: [squid, rice] });
    const { plan } = solve(problem, { effort: 'quick', seed: 1, work: WORK });
    expect(audit(problem, plan!).violations).toEqual([]);
    expect(plan!.status).not.toBe('late');
  });
});
