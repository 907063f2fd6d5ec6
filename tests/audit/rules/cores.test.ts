/** What a plan says of the cores of its pieces. */
import { describe, expect, it } from 'vitest';
import type { DishRow, PlanDocument, StepRow } from '../../../src/plan/document.js';
import type { Forecast } from '../../../src/problem/problem.js';
import { oven, pan, problemOf, rectangle } from '../../support/problem-builder.js';
import { faultsOf, isoAt, planOf } from '../plan-builder.js';

const FORECAST: Forecast = { celsius: 160, low: 26, likely: 30, high: 36, pull: 55, peak: 60, peakAfter: 12 };

const mealOf = (core: number | undefined, atPeak: boolean, forecasts: readonly Forecast[] | null = [FORECAST]) =>
  problemOf({
    serve: 110,
    kitchen: { appliances: [oven()], pans: [pan('dish', rectangle(0.2, 0.3))] },
    dishes: [
      {
        dish: 'Loin',
        steps: [
          {
            step: 'roast',
            work: 'roast',
            place: 'oven',
            pan: 'dish',
            takes: { '160C': 30, '180C': 26 },
            heat: [160, 180],
            ...(core === undefined ? {} : { core }),
            atPeak,
            forecasts,
          },
          { step: 'rest', work: 'rest', takes: 20 },
        ],
      },
    ],
  });

interface Claim {
  readonly pull?: number;
  /** Minutes. */
  readonly window?: readonly [from: number, to: number, late: number];
  readonly core?: { readonly pull: number; readonly peak: number; readonly atServe: number };
}

function saying(problem: ReturnType<typeof mealOf>, { pull, window, core }: Claim): string[] {
  const roast = {
    at: [60, 90] as const,
    in: ['oven', 'roast'] as const,
    place: 'rack 1',
    level: 1,
    spot: [0, 0] as const,
  };
  const minutes = problem.steps[0]!.core === null ? {} : { minutes: { 160: 30, 180: 26 } };
  const plan = planOf(problem, {
    steps: { 'Loin/roast': { ...roast, pan: 'dish', celsius: 160, ...minutes }, 'Loin/rest': { at: [90, 110] } },
    runs: [{ in: ['oven', 'roast'], celsius: 160, at: [60, 90], changeover: 14 }],
  });
  const iso = (minute: number): string => isoAt(problem, minute);
  const [first, second] = plan.steps as [StepRow, StepRow];
  const row: StepRow = {
    ...first,
    ...(pull === undefined ? {} : { pull }),
    ...(window ? { window: { from: iso(window[0]), to: iso(window[1]), late: window[2] } } : {}),
  };
  const dish: DishRow = { ...plan.dishes[0]!, ...(core ? { core: { ...core, peakAt: iso(105) } } : {}) };
  const claimed: PlanDocument = { ...plan, steps: [row, second], dishes: [dish] };
  return faultsOf(problem, claimed);
}

const window = [86, 96, 6] as const;
const core = { pull: 60, peak: 64, atServe: 63 };

describe('a core that is asked for', () => {
  const until = mealOf(60, false);

  it('is pulled where the file says', () => {
    expect(saying(until, {})).toEqual([]);
    expect(saying(until, { pull: 60, window, core })).toEqual([]);
    expect(saying(until, { pull: 60.1 })).toEqual([]);
    expect(saying(until, { pull: 58 })).toEqual(['0 core']);
    expect(saying(mealOf(undefined, false, null), { pull: 60 })).toEqual(['0 core']);
  });

  it('is pulled below a target, and rises to it', () => {
    const target = mealOf(60, true);
    const rising = { pull: 55, peak: 60.2, atServe: 59 };
    expect(saying(target, { pull: 55, window, core: rising })).toEqual([]);
    expect(saying(target, { pull: 61 })).toEqual(['0 core']);
    expect(saying(target, { pull: 55, window, core: { ...rising, peak: 56.5, atServe: 56 } })).toEqual(['0 core']);
  });

  it('comes within its window, which comes from a model', () => {
    expect(saying(until, { pull: 60, window: [91, 96, 0] })).toEqual(['0 core']);
    expect(saying(until, { pull: 60, window: [86, 89, 0] })).toEqual(['0 core']);
    expect(saying(until, { pull: 60, window: [50, 96, 0] })).toEqual(['0 core']);
    expect(saying(until, { pull: 60, window: [86, 96, 7] })).toEqual(['0 core']);
    expect(saying(mealOf(60, false, null), { pull: 60, window })).toEqual(['0 core']);
  });

  it('has a peak that nothing passes, and one temperature at which it is pulled', () => {
    expect(saying(until, { pull: 60, core })).toEqual(['0 core']);
    expect(saying(until, { pull: 60, window, core: { ...core, pull: 59 } })).toEqual(['0 core']);
    expect(saying(until, { pull: 60, window, core: { ...core, peak: 59 } })).toEqual(['0 core']);
    expect(saying(until, { pull: 60, window, core: { ...core, atServe: 65 } })).toEqual(['0 core']);
  });
});
