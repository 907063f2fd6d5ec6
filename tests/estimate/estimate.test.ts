/** What an estimate must keep to, whatever the heat model's figures are. */
import { describe, expect, it } from 'vitest';
import { askedOf } from '../../src/estimate/asked.js';
import { estimate as document, type Estimate } from '../../src/estimate/document.js';
import { estimateOf, type Refused } from '../../src/estimate/estimate.js';
import type { Words } from '../../src/estimate/words.js';
import { withHeat } from '../../src/heat/meal.js';
import { readProblem } from '../../src/problem/read.js';
import { jointMeal } from '../support/joint-meal.js';

const LOIN: Words = { food: 'pork', thickness: '11cm', weight: '3.2kg', from: '4C', air: '165C', target: '60C' };

function answer(words: Words): Estimate | Refused {
  const asked = askedOf(words);
  if ('mistakes' in asked) throw new Error(JSON.stringify(asked.mistakes));
  return estimateOf(asked);
}

function estimated(words: Words): Estimate {
  const found = answer(words);
  if ('say' in found) throw new Error(found.say);
  return document.parse(found);
}

function refused(words: Words): Refused {
  const found = answer(words);
  if (!('say' in found)) throw new Error('not refused');
  return found;
}

const KINDS: readonly (readonly [string, Words])[] = [
  ['a loin', LOIN],
  ['a loin with 25 minutes of rest', { ...LOIN, rest: '25min' }],
  [
    'a leg in a fan oven',
    { food: 'leg of lamb', bone: true, thickness: '5in', weight: '6lb', air: '325F', pull: '130F', fan: true },
  ],
  [
    'a seared steak on the grill',
    { food: 'rib eye steak', thickness: '4cm', grill: true, sear: '4 min 280C', air: '130C', target: '55C' },
  ],
  ['a bird', { food: 'chicken', weight: '1.8kg', air: '190C', target: '75C' }],
  [
    'a block in foil',
    {
      food: 'salmon',
      shape: 'brick',
      thickness: '4cm',
      width: '12cm',
      length: '30cm',
      air: '120C',
      pull: '52C',
      rest: '0 min',
      foil: true,
    },
  ],
  [
    'a potato in a crust',
    { food: 'potato', weight: '300g', shape: 'sphere', crust: '5mm', air: '200C', target: '95C' },
  ],
];

describe.each(KINDS)('the estimate of %s', (_, words) => {
  const found = estimated(words);
  const [one] = found.answers;
  const { minutes, pull, peak, peakAfter, rise, rest, atEnd, parts, course, celsius } = one!;

  it('has one answer whose figures go together', () => {
    expect(found.answers).toHaveLength(1);
    expect(found.never).toBeNull();
    expect(minutes.low).toBeLessThan(minutes.likely);
    expect(minutes.high!).toBeGreaterThan(minutes.likely);
    expect(rise).toBeCloseTo(peak - pull, 1);
    expect(peak).toBeGreaterThanOrEqual(pull);
    expect(peak).toBeLessThan(celsius);
    const { kind, celsius: goal } = found.goal;
    expect(Math.abs((kind === 'target' ? peak : pull) - goal)).toBeLessThan(0.1);
    expect(atEnd.core).toBeLessThanOrEqual(peak + 0.005);
    expect(peakAfter).toBeLessThanOrEqual(rest + 1.1);
  });

  it('has a course from the beginning to the end of the rest, through pull and peak', () => {
    expect(parts.map(({ from }) => from)).toEqual([0, ...parts.slice(0, -1).map(({ to }) => to)]);
    expect(course.minutes[0]).toBe(0);
    expect(course.minutes.at(-1)!).toBeCloseTo(parts.at(-1)!.to, 0);
    expect(
      new Set([course.minutes, course.core, course.surface, course.hottest].map(({ length }) => length)).size,
    ).toBe(1);
    expect(course.core[0]).toBe(found.piece.from);
    expect(Math.abs(Math.max(...course.core) - peak)).toBeLessThan(0.5);
    const heat = parts.find(({ part }) => part === 'heat')!;
    const off = course.minutes.findIndex((minute) => minute >= heat.to - 0.06);
    expect(Math.abs(course.core[off]! - pull)).toBeLessThan(0.5);
    expect(course.hottest.every((hot, at) => hot >= course.surface[at]!)).toBe(true);
  });

  it('says from what its range comes', () => {
    const { size, transfer, start } = found.spread!;
    for (const { by, later, sooner } of [size, transfer, start]) {
      expect(by).toBeGreaterThan(0);
      expect(later!).toBeGreaterThanOrEqual(0);
      expect(sooner).toBeLessThanOrEqual(0);
    }
    // None alone reaches further than all together.
    expect(Math.max(size.later!, transfer.later!, start.later!)).toBeLessThan(minutes.high! - minutes.likely + 1);
  });

  it('warns, at least to use a thermometer, and gives sources', () => {
    expect(found.cautions.map(({ rule }) => rule)).toContain('thermometer');
    for (const { source } of found.cautions) expect(source).not.toBe('');
  });

  it('is the same again', () => expect(estimated(words)).toEqual(found));
});

describe('an estimate', () => {
  it('rests to the peak where no rest is said, and stops short where one is', () => {
    const [whole] = estimated(LOIN).answers;
    expect(whole!.atEnd.rising).toBe(false);
    expect(whole!.rest).toBeGreaterThanOrEqual(whole!.peakAfter - 1);
    const [short] = estimated({ ...LOIN, rest: '10min' }).answers;
    expect(short!.atEnd.rising).toBe(true);
    expect(short!.pull).toBeGreaterThan(whole!.pull);
    expect(
      estimated({ ...LOIN, target: '63C', thickness: '2cm', length: '10cm', weight: undefined as never }).answers[0]!
        .rest,
    ).toBeGreaterThanOrEqual(3);
  });

  it('does not rest for a rise that is hardly any', () => {
    const [slow] = estimated({ ...LOIN, air: '70C' }).answers;
    expect(slow!.rise).toBeLessThan(0.5);
    expect(slow!.rest).toBe(3);
    expect(slow!.peak).toBeCloseTo(60, 1);
  });

  it('compares airs: hotter takes no longer, and is pulled no later to rise further', () => {
    const { answers } = estimated({ ...LOIN, air: '150C,165C,180C' });
    expect(answers.map(({ celsius }) => celsius)).toEqual([150, 165, 180]);
    for (const [at, one] of answers.slice(1).entries()) {
      expect(one.minutes.likely).toBeLessThan(answers[at]!.minutes.likely);
      expect(one.pull).toBeLessThan(answers[at]!.pull);
    }
  });

  it('tells which air is too cold, and which would do', () => {
    const { answers, never } = estimated({ ...LOIN, air: '62C,90C' });
    expect(answers.map(({ celsius }) => celsius)).toEqual([90]);
    expect(never!.celsius).toEqual([62]);
    const would = never!.would!;
    expect([would % 5, would > 62]).toEqual([0, true]);
    expect(estimated({ ...LOIN, air: `${would}C` }).answers).toHaveLength(1);
    // On a dial of °F it is a mark of that.
    const fahrenheit = estimated({ ...LOIN, air: '142F' }).never!.would! * 1.8 + 32;
    expect(fahrenheit % 10).toBeCloseTo(0, 6);
    expect(estimated({ ...LOIN, air: '62C' })).toMatchObject({ answers: [], spread: null });
  });

  it('refuses what a plan refuses, unless it is accepted, and then warns', () => {
    const pink: Words = { food: 'minced beef', shape: 'slab', thickness: '25mm', air: '200C', target: '55C' };
    expect(refused(pink).say).toMatch(/published for ground meat: 71 °C \(160 °F\)/);
    const accepted = estimated({ ...pink, accept: ['core-unsafe'] });
    expect(accepted.cautions[0]!.rule).toBe('core-unsafe');
    expect(accepted.answers[0]!.meets).toBeNull();
  });

  it('tells by what the published figure is met', () => {
    const meets = (words: Partial<Words>) => estimated({ ...LOIN, ...words }).answers[0]!.meets;
    expect(meets({ target: '65C' })).toBe('goal');
    expect(meets({ target: undefined as never, pull: '58C' })).toBe('peak');
    expect(meets({ target: '61C' })).toBe('times');
    expect(meets({ target: '54C', rest: '5min' })).toBeNull();
    expect(estimated({ ...LOIN, food: 'carrot', shape: 'cylinder', target: '85C' })).toMatchObject({ published: null });
  });

  it('says when a sear leaves nothing to do', () => {
    const { say, hint } = refused({
      ...LOIN,
      shape: 'slab',
      thickness: '2cm',
      weight: undefined as never,
      sear: '40 min 280C',
    });
    expect(say).toMatch(/^The sear alone takes the core to its goal of 60 °C and rises to .* °C: no minutes are left/);
    expect(hint).toMatch(/less than 40 min/);
  });

  it('and a plan say the same of the same piece', () => {
    const piece = 'piece: { food: pork, thickness: 11 cm, weight: 3.2 kg, from: 4C }';
    const roast = '- { step: roast, work: roast, target: 60C, heat: 165C, on: oven }';
    const rest = '- { step: rest, work: rest, takes: 25 min }';
    const result = withHeat(readProblem(jointMeal(piece, [roast, rest]), { name: 'test.yaml' }));
    if (!result.ok) throw new Error(JSON.stringify(result.messages));
    const [option] = result.problem.steps.find(({ name }) => name === 'roast')!.options;
    const [forecast] = option!.forecasts!;
    const [one] = estimated({ ...LOIN, rest: '25min' }).answers;
    expect(one!.minutes.likely).toBeCloseTo(forecast!.likely, 0);
    expect(one!.pull).toBeCloseTo(forecast!.pull, 1);
    expect(one!.minutes.high!).toBeCloseTo(forecast!.high, 0);
  });
});
