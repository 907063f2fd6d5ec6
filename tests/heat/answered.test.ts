import { describe, expect, it } from 'vitest';
import { answersKept } from '../../src/heat/answered.js';
import { FOODS } from '../../src/heat/composition.js';
import type { Joint } from '../../src/heat/joint.js';
import { answersTo, type Question } from '../../src/heat/roast.js';
import type { Setting } from '../../src/heat/setting.js';

/** A cylinder of so many centimetres. */
const loin = (thickness: number): Joint => ({
  food: FOODS.pork,
  body: { shape: 'cylinder', thickness: thickness / 100, length: 0.26 },
  from: 4,
  bone: false,
  crust: 0,
});
const ovenAt = (celsius: number): Setting => ({ kind: 'air', celsius, moving: 'still', on: 'pan' });

describe('answers that are kept', () => {
  const question: Question = {
    joint: loin(9),
    before: [],
    heat: ovenAt,
    celsius: [160, 180],
    goal: { core: 60 },
    moving: 1,
    rest: null,
  };

  it('are those of the heat model, the same ones when asked again', () => {
    const found = answersKept(question);
    expect(found).toEqual(answersTo(question));
    expect(answersKept({ ...question, joint: loin(9) })).toBe(found);
  });

  it('are others as soon as anything is asked otherwise', () => {
    const [found] = answersKept(question);
    const others: Question[] = [
      { ...question, joint: loin(8) },
      { ...question, celsius: [170, 180] },
      { ...question, heat: (celsius) => ovenAt(celsius + 20) },
      { ...question, goal: { core: 58 } },
    ];
    for (const other of others) expect(answersKept(other)[0]!.minutes.likely).not.toBe(found!.minutes.likely);
    expect(answersKept({ ...question, moving: 8 })).not.toBe(answersKept(question));
  });

  it('are forgotten, the oldest first, when there are many', () => {
    const many = Array.from({ length: 501 }, (_, k) => answersKept({ ...question, celsius: [160], moving: k / 100 }));
    expect(answersKept({ ...question, celsius: [160], moving: 5 })).toBe(many[500]);
    expect(answersKept({ ...question, celsius: [160], moving: 0 })).not.toBe(many[0]);
    expect(answersKept({ ...question, celsius: [160], moving: 0 })).toEqual(many[0]);
  });
});
