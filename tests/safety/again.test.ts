/** Cooked food that is cooled, and heated again. */
import { describe, expect, it } from 'vitest';
import type { DishSpec, StepSpec } from '../support/problem-builder.js';
import { mealWith, rulesOf, said } from './meals.js';

const boil: StepSpec = { step: 'boil', work: 'boil', place: 'range', pan: 'tub' };
const cool: StepSpec = { step: 'cool', work: 'chill', takes: { low: 60, high: 300 } };
const warm: StepSpec = { step: 'warm', work: 'warm', place: 'range', pan: 'tub' };
const rules = (dish: string, steps: readonly StepSpec[], more: Partial<DishSpec> = {}): string[] =>
  rulesOf(mealWith([{ dish, steps, ...more }]));

describe('heated again', () => {
  it('is what is warmed after it was cooked and cooled', () => {
    const [caution] = said(mealWith([{ dish: 'White beans', steps: [boil, cool, warm] }]), 'reheat');
    expect(caution!.say).toBe(
      'Heat it all through (warm): 74 °C (165 °F) is published for food that is heated again. Stir, and measure at the centre.',
    );
    expect(rules('White beans', [boil, warm])).toEqual([]);
    expect(rules('White beans', [cool, boil])).toEqual([]);
    expect(rules('Apple compote', [boil, cool, warm])).toEqual([]);
  });

  it('is what its name or its step says', () => {
    expect(rules('Leftover roast', [warm])).toContain('reheat');
    expect(rules('Tart', [{ ...warm, step: 'reheat' }])).toContain('reheat');
  });

  it('has its own figure where a core is set', () => {
    const again = (core: number) => rules('Lamb shanks', [boil, cool, { ...warm, core }]);
    expect(again(70)).toContain('core-unsafe');
    expect(again(74)).not.toContain('core-unsafe');
    expect(again(74)).not.toContain('reheat');
  });

  it('has two figures for ham that was bought cooked', () => {
    const [caution] = said(mealWith([{ dish: 'Cooked ham', steps: [{ ...warm, step: 'reheat' }] }]), 'reheat');
    expect(caution!.say).toMatch(/74 °C \(165 °F\) .* or 60 °C \(140 °F\) where it was packed cooked/);
  });
});

describe('cooled', () => {
  it('is said of food that spoils, once it has been on the heat', () => {
    const [caution] = said(mealWith([{ dish: 'Lamb shanks', steps: [boil, cool] }]), 'cooling');
    expect(caution!.say).toMatch(/from 57 to 21 °C within 2 h and to 5 °C within 6 h in all/);
    expect(caution!.source).toMatch(/^FDA Food Code 3-501\.14/);
    expect(rules('Poached pears', [boil, cool])).not.toContain('cooling');
    expect(rules('Brined chicken', [cool, boil])).not.toContain('cooling');
  });
});
