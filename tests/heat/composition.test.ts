import { describe, expect, it } from 'vitest';
import { FOODS, foodNamed } from '../../src/heat/composition.js';

describe('FOODS', () => {
  it('hold everything but a hundredth or two, as the source prints them', () => {
    for (const { composition } of Object.values(FOODS)) {
      const total = Object.values(composition).reduce((sum, share) => sum + share, 0);
      expect(total).toBeGreaterThan(0.98);
      expect(total).toBeLessThan(1.011);
      for (const share of Object.values(composition)) expect(share).toBeGreaterThanOrEqual(0);
    }
  });

  it('have words of their own', () => {
    const words = Object.values(FOODS).flatMap((food) => food.words);
    expect(new Set(words).size).toBe(words.length);
  });

  it('keep fibre apart from carbohydrate', () => {
    expect(FOODS.carrot.composition.carbohydrate).toBeCloseTo(0.0714, 9);
    expect(FOODS.carrot.composition.fibre).toBe(0.03);
  });
});

describe('foodNamed', () => {
  it.each([
    ['beef', 'beef sirloin, lean'],
    ['Leg of lamb', 'lamb leg, whole, lean'],
    ['potatoes', 'potatoes, main crop'],
    ['Carrots', 'carrots'],
    ['pork loin', 'pork shoulder, whole, lean'],
    ['smoked ham', 'ham, whole, lean'],
    ['beef round', 'beef round, full cut, lean'],
    ['rib roast', 'beef sirloin, lean'],
    ['sea bass', 'cod, whole'],
  ])('%s is %s', (name, food) => {
    expect(foodNamed(name)?.name).toBe(food);
  });

  it.each(['bread', '', '12'])('knows no %s', (name) => {
    expect(foodNamed(name)).toBeNull();
  });
});
