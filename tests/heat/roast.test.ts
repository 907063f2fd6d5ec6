import { describe, expect, it } from 'vitest';
import type { Body } from '../../src/heat/body.js';
import { CALIBRATION } from '../../src/heat/calibration.js';
import { FOODS } from '../../src/heat/composition.js';
import { AS_SAID, Prepared } from '../../src/heat/heating.js';
import type { Joint } from '../../src/heat/joint.js';
import { answersTo, historyOf, type Leg, type Question } from '../../src/heat/roast.js';
import type { Setting } from '../../src/heat/setting.js';

const LOIN: Body = { shape: 'cylinder', thickness: 0.11, length: 0.26 };
const jointOf = (body: Body, food: Joint['food'] = FOODS.pork): Joint => ({
  food,
  body,
  from: 4,
  bone: false,
  crust: 0,
});

const heat = (celsius: number): Setting => ({ kind: 'air', celsius, moving: 'still', on: 'pan' });
const rest: Leg = { around: { kind: 'room', celsius: 21, covered: true }, minutes: 25 };
const carried: Leg = { around: { kind: 'room', celsius: 21, covered: false }, minutes: 2 };
const sear: Leg = { around: { kind: 'sear', celsius: 260, on: 'grate', turns: 'sides' }, minutes: 8 };

const question = (over: Partial<Question> = {}): Question => ({
  joint: jointOf(LOIN),
  before: [sear],
  heat,
  celsius: Array.from({ length: 20 }, (_, i) => 110 + 8 * i),
  goal: { target: 60 },
  moving: 2,
  rest,
  ...over,
});

describe('minutes for each temperature', () => {
  it.each([
    ['loin', jointOf(LOIN), { target: 60 }],
    ['loin, well done', jointOf(LOIN), { core: 74 }],
    ['bird', jointOf({ shape: 'sphere', thickness: 0.22 }, FOODS.turkey), { core: 74 }],
    ['steak', jointOf({ shape: 'slab', thickness: 0.035, width: null, length: null }, FOODS.beef), { target: 57 }],
  ] as const)('are within 0.5 %% and the pull within 0.2 K of a history of their own: %s', (_, joint, goal) => {
    const all = question({ joint, goal });
    for (const { celsius, minutes, pull } of answersTo(all)) {
      const [own] = answersTo({ ...all, celsius: [celsius] });
      expect(Math.abs(minutes.likely / own!.minutes.likely - 1)).toBeLessThan(0.005);
      expect(Math.abs(pull - own!.pull)).toBeLessThan(0.2);
    }
  });

  it.each([
    ['loin', jointOf(LOIN), 1, 0.3],
    ['block', jointOf({ shape: 'brick', thickness: 0.11, width: 0.14, length: 0.2 }), 1.5, 0.7],
    ['fillet', jointOf({ shape: 'brick', thickness: 0.05, width: 0.08, length: 0.16 }, FOODS.salmon), 1.5, 0.7],
    ['bird', jointOf({ shape: 'sphere', thickness: 0.22 }, FOODS.turkey), 1, 0.3],
    ['steak', jointOf({ shape: 'slab', thickness: 0.035, width: null, length: null }, FOODS.beef), 1, 0.3],
  ] as const)('are near those of a much finer grid: %s', (_, joint, percent, kelvin) => {
    const all = question({ joint });
    const fine = new Prepared(joint, all.before, AS_SAID, CALIBRATION, { cells: 16, across: 12, tolerance: 0.1 });
    const answers = answersTo(all);
    for (const at of [0, 10, 19]) {
      const { celsius, minutes, pull } = answers[at]!;
      const found = fine.pulledFor(heat(celsius), 60, [carried, rest])!;
      expect(Math.abs(minutes.likely / found.minutes - 1)).toBeLessThan(percent / 100);
      expect(Math.abs(pull - found.core)).toBeLessThan(kelvin);
    }
  });

  it('fall with the heat, from 24 °C to 24 °C ever more slowly, and the pull falls with them', () => {
    const answers = answersTo(question());
    const likely = answers.map(({ minutes }) => minutes.likely);
    for (let i = 1; i < likely.length; i++) {
      expect(likely[i]!).toBeLessThan(likely[i - 1]!);
      expect(answers[i]!.pull).toBeLessThan(answers[i - 1]!.pull);
      if (i > 5) expect(likely[i - 3]! - likely[i]!).toBeLessThan(likely[i - 6]! - likely[i - 3]!);
    }
  });

  it('have a low and a high end about a tenth away', () => {
    for (const { minutes } of answersTo(question())) {
      expect(minutes.low / minutes.likely).toBeGreaterThan(0.8);
      expect(minutes.low / minutes.likely).toBeLessThan(0.95);
      expect(minutes.high / minutes.likely).toBeGreaterThan(1.05);
      expect(minutes.high / minutes.likely).toBeLessThan(1.25);
    }
  });

  it('are without end where the core never gets there', () => {
    const answers = answersTo(question({ goal: { core: 74 }, celsius: [60, 70, 160, 200] }));
    expect(answers.map(({ minutes }) => Number.isFinite(minutes.likely))).toEqual([false, false, true, true]);
    expect(answers[0]).toMatchObject({ pull: Number.NaN, minutes: { high: Number.POSITIVE_INFINITY } });
    expect(answersTo(question({ celsius: [40] }))[0]!.minutes.likely).toBe(Number.POSITIVE_INFINITY);
  });

  it('are none for no temperatures, and the same when asked again', () => {
    expect(answersTo(question({ celsius: [] }))).toEqual([]);
    expect(answersTo(question())).toEqual(answersTo(question()));
  });

  it('without a rest are those to the target itself', () => {
    const [pulled] = answersTo(question({ rest: null, moving: 0, celsius: [165] }));
    const [cored] = answersTo(question({ rest: null, moving: 0, celsius: [165], goal: { core: 60 } }));
    expect(pulled!.minutes.likely).toBeCloseTo(cored!.minutes.likely, 0);
    expect(pulled!.peakAfter).toBe(0);
  });
});

describe('a history', () => {
  const legs: readonly Leg[] = [sear, { around: heat(165), minutes: 90 }, rest];

  it('goes through the legs, and agrees with the answer', () => {
    const [answer] = answersTo(question({ celsius: [165], moving: 0 }));
    const { minutes, core } = historyOf(jointOf(LOIN), [
      sear,
      { around: heat(165), minutes: answer!.minutes.likely },
      rest,
    ]);
    expect(minutes[0]).toBe(0);
    expect(minutes.at(-1)).toBeCloseTo(8 + answer!.minutes.likely + 25, 6);
    expect(Math.abs(Math.max(...core) - 60)).toBeLessThan(0.3);
  });

  it('has the coldest side as its surface, hotter than the core while roasting', () => {
    const { minutes, core, surface } = historyOf(jointOf(LOIN), legs);
    const at = minutes.findIndex((minute) => minute > 60);
    expect(surface[at]!).toBeGreaterThan(core[at]! + 20);
    expect(surface).toHaveLength(minutes.length);
  });

  it('is behind at the slow end', () => {
    const [likely, slow] = [historyOf(jointOf(LOIN), legs), historyOf(jointOf(LOIN), legs, 'slow')];
    expect(Math.max(...slow.core)).toBeLessThan(Math.max(...likely.core) - 3);
    expect(slow.core[0]).toBeLessThan(likely.core[0]! - 1);
    const [answer] = answersTo(question({ celsius: [165], goal: { core: 55 } }));
    const late = historyOf(jointOf(LOIN), [sear, { around: heat(165), minutes: answer!.minutes.high }], 'slow');
    expect(Math.abs(late.core.at(-1)! - 55)).toBeLessThan(2);
  });
});
