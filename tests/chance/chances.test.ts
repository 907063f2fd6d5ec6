/** The chances of plans, beside what follows from the spreads by integration. */
import { describe, expect, it } from 'vitest';
import { type Chances, chancesOf } from '../../src/chance/chances.js';
import { chain, chanceOfTwo, scheduled } from './meals.js';

const DRAWS = { draws: 10_000, seed: 1 };
const chancesFor = (text: string): Chances | null => chancesOf(scheduled(text), DRAWS);

describe('a chain of steps', () => {
  const one = { low: 20, likely: 30, high: 38 };
  const two = { low: 35, likely: 40, high: 52 };

  it('of one lands within 5 minutes as often as its spread says', () => {
    // 5 minutes later than likely are half of the way to `high`.
    const alone = chancesFor(chain([{ low: 25, likely: 30, high: 40 }]))!;
    expect(alone.within5).toBeCloseTo(0.7392, 3);
    expect(alone.within10).toBeCloseTo(0.9, 3);
    expect(alone.threats).toEqual([{ dish: 'Chain', step: 's1', by: 0.2608 }]);
  });

  it.each([
    [one, two],
    [two, one],
  ])('of two lands as often as the convolution of both says', (first, second) => {
    const chances = chancesFor(chain([first, second]))!;
    expect(Math.abs(chances.within5 - chanceOfTwo(first, second, 5))).toBeLessThan(0.01);
    expect(Math.abs(chances.within10 - chanceOfTwo(first, second, 10))).toBeLessThan(0.01);
  });

  it('is threatened most by the step without which it would land most often', () => {
    const { threats, within5 } = chancesFor(chain([one, two]))!;
    expect(threats.map(({ step }) => step)).toEqual(['s2', 's1']);
    const sure = chancesFor(chain([one, { low: 40, likely: 40, high: 40 }]))!;
    expect(within5 + threats[0]!.by).toBeCloseTo(sure.within5, 9);
  });

  it('has the same chances with the same seed, and nearly the same with another', () => {
    const schedule = scheduled(chain([one, two]));
    expect(chancesOf(schedule, DRAWS)).toEqual(chancesOf(schedule, DRAWS));
    const other = chancesOf(schedule, { ...DRAWS, seed: 2 })!;
    expect(Math.abs(other.within5 - chancesOf(schedule, DRAWS)!.within5)).toBeLessThan(0.01);
  });
});

describe('food that waits', () => {
  it('too long is told by the step after which it does', () => {
    // An early first step lets its food wait longer than a gap of 3 minutes: one evening in ten by 3 + 1 or more.
    const text = chain([
      { low: 26, likely: 30, high: 30 },
      { low: 20, likely: 20, high: 20 },
    ]).replaceAll('gap: 0-20 min', 'gap: 0-3 min');
    const chances = chancesFor(text)!;
    expect(chances.within5).toBe(1);
    expect(chances.unspoilt).toBeCloseTo(0.9, 3);
    expect(chances.waits[0]).toMatchObject({ dish: 'Chain', step: 's1' });
  });

  it('in a rest does not, as long as the rest may be longer', () => {
    const rest = (takes: string): string =>
      `${chain([{ low: 22, likely: 30, high: 30 }])}      - { step: rest, work: rest, takes: ${takes} }\n`;
    expect(chancesFor(rest('10-60 min'))!.unspoilt).toBe(1);
    expect(chancesFor(rest('10-12 min'))!.unspoilt).toBeLessThan(0.8);
  });
});

describe('a rest after a late step', () => {
  it('gives way down to its least', () => {
    const late = (takes: string): Chances =>
      chancesFor(`${chain([{ low: 30, likely: 30, high: 40 }])}      - { step: rest, work: rest, takes: ${takes} }\n`)!;
    const fixed = late('25 min');
    const free = late('15-25 min, best: 25 min');
    expect(fixed.within5).toBeCloseTo(0.7392, 3);
    // 15 minutes later than likely are one and a half of the way to `high`.
    expect(free.within5).toBeCloseTo(0.9727, 3);
  });
});

describe('a meal in which nothing is unsure', () => {
  it('has no chances to tell', () => {
    expect(chancesFor(chain([{ low: 20, likely: 20, high: 20 }]))).toBeNull();
  });
});
