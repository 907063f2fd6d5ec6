/** How plans answer to changes of the problem: none at all, another day, other names, a better kitchen. */
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import type { PlanDocument } from '../../src/plan/document.js';
import type { Fields } from '../support/random-kitchen.js';
import { randomProblem, randomProblemText } from '../support/random-problem.js';
import { readMeal } from '../support/read-meal.js';
import { solveQuickly } from './right-plans.js';

const planOf = (meal: Fields): PlanDocument | null => solveQuickly(readMeal(stringify(meal))).plan;

const seeds = (count: number): number[] => Array.from({ length: count }, (_, k) => 1 + k);

/** The same with every string changed. */
function mapped(value: unknown, change: (text: string) => string): unknown {
  if (typeof value === 'string') return change(value);
  if (Array.isArray(value)) return value.map((each) => mapped(each, change));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, mapped(each, change)]));
}

/** Without the digest of the file's text, which any change of the text changes. */
const withoutDigest = (plan: PlanDocument | null): unknown =>
  plan && { ...plan, problem: { ...plan.problem, digest: '' } };

describe('a plan', () => {
  it('is the same for the same file and seed, whatever was planned in between', () => {
    const texts = seeds(40).map((seed) => randomProblemText(seed, { dishes: 1 + (seed % 10) }));
    const plans = (): string[] => texts.map((text) => JSON.stringify(solveQuickly(readMeal(text))));
    const first = plans();
    expect(plans()).toEqual(first);
    expect(new Set(first).size).toBeGreaterThan(30);
  });

  it('moves by a day when the meal does', () => {
    let moved = 0;
    for (const seed of seeds(60)) {
      const meal = randomProblem(seed, { dishes: 1 + (seed % 8) });
      // The clocks change near the other days.
      if (!['UTC', 'Asia/Kolkata', 'Europe/Brussels'].includes(String(meal.zone))) continue;
      const later = { ...meal, serve: addDays(String(meal.serve), 1) };
      if (meal.start !== undefined) Object.assign(later, { start: addDays(String(meal.start), 1) });
      const plan = withoutDigest(planOf(meal));
      expect(mapped(withoutDigest(planOf(later)), (text) => addDays(text, -1))).toEqual(plan);
      if (plan !== null) moved++;
    }
    expect(moved).toBeGreaterThan(20);
  });

  it('changes nothing but names when dishes are renamed', () => {
    let renamed = 0;
    for (const seed of seeds(40)) {
      const meal = randomProblem(seed, { dishes: 1 + (seed % 8) });
      // The new names sort the other way round.
      const there = (text: string): string =>
        text.replace(/\b(Dish|Component) (\d+)/g, (_, kind, k) => `${kind}s ${90 - k}`);
      const back = (text: string): string =>
        text.replace(/\b(Dish|Component)s (\d+)/g, (_, kind, k) => `${kind} ${90 - k}`);
      const plan = withoutDigest(planOf(meal));
      const other = withoutDigest(planOf(mapped(meal, there) as Fields));
      expect(mapped(other, back)).toEqual(plan);
      if (plan === null) continue;
      expect(other).not.toEqual(plan);
      renamed++;
    }
    expect(renamed).toBeGreaterThan(20);
  });
});

/** Every date in a text moved by some days; a time after it stays. */
function addDays(text: string, days: number): string {
  return text.replace(/\b(\d{4}-\d{2}-\d{2})(?=[T ]\d{2}:)/g, (date) =>
    new Date(Date.parse(`${date}T00:00Z`) + days * 86_400_000).toISOString().slice(0, 10),
  );
}
