/**
 * Published roasting times beside those of the model, whose three figures are fitted to a third of the first timetable.
 * Sources stand with every row of roasting-times.json and roasting-times-beef.json; shapes of cuts in tests/support/cuts.ts.
 */
import { describe, expect, it } from 'vitest';
import { CALIBRATION, type Calibration } from '../../src/heat/calibration.js';
import { FOODS } from '../../src/heat/composition.js';
import { Prepared } from '../../src/heat/heating.js';
import type { Joint } from '../../src/heat/joint.js';
import type { Setting } from '../../src/heat/setting.js';
import { BEEF_TIMES, FITTED, GRID, HELD_OUT, misfit, TIMES } from '../support/fit.js';
import { distinct, isMet, isMetOverRow, minutesOf, offBy, type Trial, trialOf } from '../support/timetable.js';

const nameOf = ({ row, core }: Trial): string => `${row.species}: ${row.cut}, ${core.toFixed(0)} °C`;
const metOf = (trials: readonly Trial[]): Trial[] => trials.filter((trial) => isMet(trial, minutesOf(trial)));
const farOf = (trials: readonly Trial[]): Trial[] =>
  trials.filter((trial) => Math.abs(offBy(trial, minutesOf(trial))) > 0.25);

const air = (celsius: number, over: Partial<Extract<Setting, { kind: 'air' }>> = {}): Setting => ({
  kind: 'air',
  celsius,
  moving: 'still',
  on: 'rack',
  ...over,
});

describe('government timetables: FSIS, foodsafety.gov, and the National Live Stock and Meat Board (roasting-times.json)', () => {
  it('are 61 rows of roasting, 53 of them different and with all that is needed; every third is for fitting', () => {
    expect(TIMES).toHaveLength(61);
    expect(distinct(TIMES).filter((row) => typeof trialOf(row) !== 'string')).toHaveLength(53);
    expect([FITTED.length, HELD_OUT.length]).toEqual([18, 35]);
    expect(FITTED[0]!.row.cut).toBe('rib roast, bone-in');
    expect(HELD_OUT.slice(0, 2).map(({ row }) => row.cut)).toEqual(['leg, bone-in', 'leg, bone-in']);
  });

  it('have the figures of the model as the best of their neighbours, on the fitted rows alone', () => {
    const now = misfit(CALIBRATION);
    for (const name of Object.keys(GRID) as (keyof Calibration)[]) {
      const tried: readonly number[] = GRID[name];
      const at = tried.indexOf(CALIBRATION[name]);
      expect(at).toBeGreaterThan(0);
      expect(at).toBeLessThan(tried.length - 1);
      for (const neighbour of [tried[at - 1]!, tried[at + 1]!])
        expect(misfit({ ...CALIBRATION, [name]: neighbour })).toBeGreaterThan(now);
    }
  });

  it('are met by 22 of the 35 held-out rows within 10 %: the aim of 80 % is not reached, and these are the ones that miss', () => {
    const met = metOf(HELD_OUT);
    expect(HELD_OUT.filter((trial) => !met.includes(trial)).map(nameOf)).toEqual([
      // Two tables of one government disagree: the other row of this leg is met.
      'lamb: leg, bone-in, 63 °C',
      'beef: tenderloin roast, half, 63 °C',
      'pheasant: young, whole, 74 °C',
      'pork: loin roast, bone-in, 63 °C',
      'turkey: whole, unstuffed, 74 °C',
      'ham: smoked, cook before eating: half, bone-in, 63 °C',
      'ham: smoked, cooked: half, bone-in, 60 °C',
      'ham: fresh, uncooked: whole leg, bone-in, 63 °C',
      'ham: fresh, uncooked: whole leg, boneless, 63 °C',
      // The oldest chart has the slowest oven.
      'beef: standing ribs, 71 °C',
      'beef: standing ribs, 77 °C',
      'veal: rib (rack), 77 °C',
      'veal: shoulder, bone in, 77 °C',
    ]);
    expect(farOf(HELD_OUT).map(nameOf)).toEqual(['lamb: leg, bone-in, 63 °C', 'pheasant: young, whole, 74 °C']);
  });

  it('are off by a fifth, root mean square of the logarithms', () => {
    const errors = HELD_OUT.map((trial) => Math.log(minutesOf(trial) / Math.sqrt(trial.low * trial.high)));
    expect(Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length)).toBeLessThan(0.19);
  });

  it('are met by more than 80 % of the held-out rows if a row’s lightest and heaviest piece span its minutes', () => {
    const met = HELD_OUT.filter((trial) => isMetOverRow(trial, minutesOf(trial)));
    expect(met.length / HELD_OUT.length).toBeGreaterThan(0.8);
  });

  it('are a little long on average, by 8 to 9 %', () => {
    const errors = HELD_OUT.map((trial) => Math.log(minutesOf(trial) / Math.sqrt(trial.low * trial.high)));
    const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
    expect(mean).toBeGreaterThan(0);
    expect(mean).toBeLessThan(0.085);
  });
});

describe('the US beef industry’s timetable, to which nothing was fitted (roasting-times-beef.json)', () => {
  const trials = BEEF_TIMES.map(trialOf).filter((trial) => typeof trial !== 'string');

  it('is met within 10 % by at least 90 % of its 43 rows, none of which is off by more than 25 %', () => {
    expect(trials).toHaveLength(43);
    expect(metOf(trials).length / trials.length).toBeGreaterThanOrEqual(0.9);
    expect(farOf(trials)).toEqual([]);
  });
});

describe('common practice, no source', () => {
  const minutes = (joint: Omit<Joint, 'bone' | 'crust'>, heat: Setting, core: number): number =>
    new Prepared({ ...joint, bone: false, crust: 0 }, []).minutesTo(heat, core);
  const roast = {
    food: FOODS.beef,
    body: { shape: 'cylinder', thickness: 0.11, length: 0.3 } as const,
    from: 8,
  };

  it('a fan oven is set 20 °C lower than a still one', () => {
    for (const core of [50, 60])
      expect(
        Math.abs(minutes(roast, air(180, { moving: 'fan' }), core) / minutes(roast, air(200), core) - 1),
      ).toBeLessThan(0.05);
  });

  it('a roast of 2.8 kg at 80 °C takes 4 to 6 hours to 58 °C; at 120 to 135 °C 2 to 3 and a half; at 70 °C it gets there within a day', () => {
    const large = { ...roast, body: { ...roast.body, length: 0.28 }, from: 5 };
    expect(minutes(large, air(80), 58) / 60).toBeGreaterThan(4);
    expect(minutes(large, air(80), 58) / 60).toBeLessThan(6);
    for (const celsius of [120, 135]) {
      expect(minutes(large, air(celsius), 58) / 60).toBeGreaterThan(2.4);
      expect(minutes(large, air(celsius), 58) / 60).toBeLessThan(3.5);
    }
    expect(minutes(large, air(70), 60) / 60).toBeLessThan(14);
  });

  it('a shoulder of 3.6 kg at 110 °C stands still about 70 °C, and comes to 90 °C within 10 to 18 hours', () => {
    const shoulder = {
      ...roast,
      food: FOODS.pork,
      body: { shape: 'cylinder', thickness: 0.13, length: 0.26 } as const,
    };
    const [begins, ends, done] = [65, 75, 90].map((core) => minutes(shoulder, air(110), core) / 60);
    expect(ends! - begins!).toBeGreaterThan(2);
    expect(done).toBeGreaterThan(10);
    expect(done).toBeLessThan(18);
  });

  it('vegetables cut on a sheet are done in about 30 minutes at a heat that takes a roast of 3 kg about an hour', () => {
    const hot = 230;
    expect(minutes(roast, air(hot), 48)).toBeGreaterThan(50);
    expect(minutes(roast, air(hot), 48)).toBeLessThan(80);
    for (const size of [0.02, 0.025, 0.03]) {
      const cut = { food: FOODS.carrot, body: { shape: 'cylinder', thickness: size, length: 0.06 } as const, from: 20 };
      expect(minutes(cut, air(hot, { on: 'pan' }), 93)).toBeGreaterThan(20);
      expect(minutes(cut, air(hot, { on: 'pan' }), 93)).toBeLessThan(40);
    }
  });

  it('whole heads of garlic in foil take 30 to 45 minutes', () => {
    for (const thickness of [0.045, 0.05, 0.055]) {
      const head = { food: FOODS.potato, body: { shape: 'sphere', thickness } as const, from: 20 };
      const taken = minutes(head, air(200, { covered: true }), 90);
      expect(taken).toBeGreaterThan(30);
      expect(taken).toBeLessThan(46);
    }
  });
});
