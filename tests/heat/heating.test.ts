import { describe, expect, it } from 'vitest';
import { FOODS } from '../../src/heat/composition.js';
import { AS_SAID, type Leg, Prepared } from '../../src/heat/heating.js';
import type { Joint } from '../../src/heat/joint.js';
import type { Setting } from '../../src/heat/setting.js';

const LOIN: Joint = {
  food: FOODS.pork,
  body: { shape: 'cylinder', thickness: 0.11, length: 0.26 },
  from: 4,
  bone: false,
  crust: 0,
};
const OVEN: Setting = { kind: 'air', celsius: 165, moving: 'still', on: 'rack' };
const REST: Leg = { around: { kind: 'room', celsius: 21, covered: true }, minutes: 30 };

describe('a piece on the heat', () => {
  const loin = new Prepared(LOIN, []);

  it('takes longer to a higher core, and forever to one above the air', () => {
    expect(loin.minutesTo(OVEN, 50)).toBeLessThan(loin.minutesTo(OVEN, 60));
    expect(loin.minutesTo(OVEN, 170)).toBe(Number.POSITIVE_INFINITY);
    expect(loin.minutesTo(OVEN, 4)).toBe(0);
    expect(loin.pulledAt(OVEN, 170, [])).toBeNull();
    expect(loin.pulledFor(OVEN, 170, [])).toBeNull();
  });

  it('pulled at a core rises further, to a peak within the rest', () => {
    const { minutes, core, peak, peakAfter } = loin.pulledAt(OVEN, 52, [REST])!;
    // Read off the curve between two steps.
    expect(Math.abs(minutes / loin.minutesTo(OVEN, 52) - 1)).toBeLessThan(0.002);
    expect(core).toBeCloseTo(52, 2);
    expect(peak).toBeGreaterThan(55);
    expect(peakAfter).toBeGreaterThan(5);
    expect(peakAfter).toBeLessThanOrEqual(30);
  });

  it('pulled for a target peaks there, as one does that is pulled at the same core', () => {
    const found = loin.pulledFor(OVEN, 60, [REST])!;
    expect(Math.abs(found.peak - 60)).toBeLessThan(0.05);
    const again = loin.pulledAt(OVEN, found.core, [REST])!;
    expect(Math.abs(again.minutes - found.minutes)).toBeLessThan(0.002 * found.minutes);
    expect(Math.abs(again.peak - found.peak)).toBeLessThan(0.1);
  });

  it('is pulled for a target wherever the search begins', () => {
    const found = loin.pulledFor(OVEN, 60, [REST])!;
    for (const core of [-10, 20, 45, 59, 80]) {
      const other = loin.pulledFor(OVEN, 60, [REST], { core, slope: found.slope })!;
      expect(Math.abs(other.core - found.core)).toBeLessThan(0.12);
    }
  });

  it('without anything to follow is pulled at its target', () => {
    const { core, peak, peakAfter } = loin.pulledFor(OVEN, 60, [])!;
    expect(core).toBeCloseTo(60, 1);
    expect([peak, peakAfter]).toEqual([core, 0]);
  });

  it('that is too hot already comes off at once', () => {
    const warm = new Prepared({ ...LOIN, from: 50 }, []);
    const pulled = warm.pulledFor(OVEN, 45, [REST])!;
    expect(pulled.minutes).toBe(0);
    expect(pulled.core).toBeCloseTo(50, 9);
  });

  it('is sooner there after a sear, and a tempered one sooner still', () => {
    const sear: Leg = { around: { kind: 'sear', celsius: 260, on: 'grate', turns: 'sides' }, minutes: 10 };
    const temper: Leg = { around: { kind: 'room', celsius: 21, covered: false }, minutes: 120 };
    const seared = new Prepared(LOIN, [sear]).minutesTo(OVEN, 55);
    expect(seared).toBeLessThan(loin.minutesTo(OVEN, 55) - 3);
    expect(new Prepared(LOIN, [temper, sear]).minutesTo(OVEN, 55)).toBeLessThan(seared - 3);
  });

  it('varies: bigger, colder and with less heat it takes longer', () => {
    const likely = loin.minutesTo(OVEN, 55);
    for (const slower of [{ thicker: 1.05 }, { transfer: 0.85 }, { warmer: -2 }])
      expect(new Prepared(LOIN, [], { ...AS_SAID, ...slower }).minutesTo(OVEN, 55)).toBeGreaterThan(1.008 * likely);
  });

  it('is fried up to a core on both sides', () => {
    const steak: Joint = {
      ...LOIN,
      food: FOODS.beef,
      body: { shape: 'slab', thickness: 0.03, width: null, length: null },
    };
    const pan = (turns: 'sides' | 'often'): Setting => ({ kind: 'sear', celsius: 200, on: 'pan', turns });
    const minutes = new Prepared(steak, []).minutesTo(pan('sides'), 50);
    expect(minutes).toBe(new Prepared(steak, []).minutesTo(pan('often'), 50));
    expect(minutes).toBeGreaterThan(5);
    expect(minutes).toBeLessThan(16);
  });
});
