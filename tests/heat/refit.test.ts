import { describe, expect, test } from 'vitest';
import { FOODS } from '../../src/heat/composition.js';
import type { Joint } from '../../src/heat/joint.js';
import { Refit } from '../../src/heat/refit.js';
import type { Setting } from '../../src/heat/setting.js';
import { Rng } from '../../src/kernel/rng.js';
import { simulatedRoast } from '../support/simulated-roast.js';

const JOINT: Joint = {
  food: FOODS.pork,
  body: { shape: 'cylinder', thickness: 0.09, length: 0.25 },
  from: 4,
  bone: false,
  crust: 0,
};
const HEAT: Setting = { kind: 'air', celsius: 165, moving: 'still', on: 'rack' };
const refit = (...readings: (readonly [minutes: number, celsius: number])[]) =>
  new Refit(
    {
      joint: JOINT,
      before: [],
      heat: HEAT,
      readings: readings.map(([minutes, celsius]) => ({ minutes, celsius })),
    },
    60,
  );

describe('a piece refitted by its readings', () => {
  test('two or three readings bring the pull of wrongly said roasts within five minutes', () => {
    const rng = new Rng(1);
    const roasts = Array.from({ length: 24 }, (_, at) => simulatedRoast(rng, at));
    const within = (readings: number): number =>
      roasts.filter(({ followed, pull, truth }) => {
        const some = new Refit({ ...followed, readings: followed.readings.slice(0, readings) }, pull + 3);
        return Math.abs(some.minutesTo(pull).likely - truth) <= 5;
      }).length;
    // Without a reading they are a quarter of an hour off in the middle.
    expect(roasts.filter(({ truth, said }) => Math.abs(truth - said) <= 5).length).toBeLessThanOrEqual(2);
    expect(within(2)).toBeGreaterThanOrEqual(22);
    expect(within(3)).toBeGreaterThanOrEqual(23);
  });

  test('what is read as expected narrows the range and moves nothing', () => {
    const before = refit();
    const at = 50;
    const after = refit([at, before.coreAt(at).likely]);
    const [wide, narrow] = [before.minutesTo(55), after.minutesTo(55)];
    expect(Math.abs(narrow.likely - wide.likely)).toBeLessThan(2.5);
    expect(narrow.high - narrow.low).toBeLessThan(wide.high - wide.low);
    expect(after.transfer.low).toBeLessThan(1);
    expect(after.transfer.high).toBeGreaterThan(1);
  });

  test('hotter than expected is sooner, and heats faster; colder is later', () => {
    const at = 50;
    const core = refit().coreAt(at).likely;
    const [fast, same, slow] = [refit([at, core + 6]), refit([at, core]), refit([at, core - 6])];
    expect(fast.minutesTo(55).likely).toBeLessThan(same.minutesTo(55).likely - 3);
    expect(slow.minutesTo(55).likely).toBeGreaterThan(same.minutesTo(55).likely + 3);
    expect(fast.paceTo(55)!.low).toBeGreaterThan(1);
    expect(slow.paceTo(55)!.high).toBeLessThan(1);
    // Whether it is smaller or takes its heat better can hardly be told.
    expect(fast.transfer.high).toBeGreaterThan(slow.transfer.high);
    expect(fast.size.likely).toBeLessThan(slow.size.likely);
  });

  test('ranges are in order, and the core rises', () => {
    const one = refit([30, 22], [50, 38]);
    const { low, likely, high } = one.minutesTo(55);
    expect(low).toBeLessThanOrEqual(likely);
    expect(likely).toBeLessThanOrEqual(high);
    const cores = [0, 20, 40, 60].map((minutes) => one.coreAt(minutes).likely);
    expect(cores).toEqual([...cores].sort((a, b) => a - b));
    expect(one.coreAt(50).likely).toBeCloseTo(38, -0.5);
  });

  test('a core above what is around it never comes', () => {
    const cool = new Refit(
      { joint: JOINT, before: [], heat: { kind: 'air', celsius: 50, moving: 'still', on: 'rack' }, readings: [] },
      64,
    );
    expect(cool.minutesTo(60).likely).toBe(Number.POSITIVE_INFINITY);
  });
});
