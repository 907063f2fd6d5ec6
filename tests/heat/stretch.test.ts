import { describe, expect, it } from 'vitest';
import type { Body } from '../../src/heat/body.js';
import { FOODS } from '../../src/heat/composition.js';
import { Exchange, type Surroundings } from '../../src/heat/exchange.js';
import { valueAt } from '../../src/heat/history.js';
import { matterOf } from '../../src/heat/properties.js';
import { type Accuracy, everywhere, FINE, goThrough, type Stretch, TABLE } from '../../src/heat/stretch.js';
import { air, onPlate, oven, wet } from '../support/pieces.js';

const pork = matterOf(FOODS.pork.composition);
const LOIN: Body = { shape: 'cylinder', thickness: 0.1, length: 0.34 };
const STEAK: Body = { shape: 'slab', thickness: 0.04, width: 0.1, length: 0.15 };
const BLOCK: Body = { shape: 'brick', thickness: 0.08, width: 0.12, length: 0.2 };
const room = everywhere(oven(21, 6, { ...wet(), vapour: 1200 }));

const searEachSide: readonly Stretch[] = [
  { around: { ...everywhere(oven(25, 5)), bottom: onPlate(230) }, until: { seconds: 240 } },
  { around: { ...everywhere(oven(25, 5)), top: onPlate(230) }, until: { seconds: 240 } },
];

describe('stretches', () => {
  it('end on their instants', () => {
    const { ends, history } = goThrough({ body: STEAK, matter: pork, celsius: 8 }, [
      ...searEachSide,
      { around: room, until: { seconds: 600 } },
    ]);
    expect(ends.map(({ seconds }) => seconds)).toEqual([240, 480, 1080]);
    expect(ends.every(({ reached }) => reached)).toBe(true);
    for (const { seconds, core } of ends) expect(history.core[history.seconds.indexOf(seconds)]).toBe(core);
    expect(history.seconds[0]).toBe(0);
    for (let row = 1; row < history.seconds.length; row++)
      expect(history.seconds[row]).toBeGreaterThan(history.seconds[row - 1]!);
  });

  it('sear one side, then the other', () => {
    const { history, ends } = goThrough({ body: STEAK, matter: pork, celsius: 8 }, searEachSide);
    const at = (column: Float64Array | undefined, seconds: number): number => valueAt(history, column!, seconds);
    const { bottom, top } = history.surface;
    expect(at(bottom, 240)).toBeGreaterThan(90);
    expect(at(top, 240)).toBeLessThan(30);
    expect(at(top, 480)).toBeGreaterThan(90);
    expect(at(bottom, 480)).toBeLessThan(at(bottom, 240) - 20);
    expect(ends[1]!.core).toBeGreaterThan(ends[0]!.core);
  });

  it('pull at a core temperature, found to a tenth of a second', () => {
    const piece = { body: LOIN, matter: pork, celsius: 4 };
    const roast = { around: everywhere(oven(165)), until: { core: 52, most: 20_000 } };
    const { ends, history } = goThrough(piece, [roast]);
    expect(ends[0]!.reached).toBe(true);
    expect(Math.abs(ends[0]!.core - 52)).toBeLessThan(0.1 * history.coreRate.at(-1)!);
    // Stopped by the clock at the same instant, it is as warm.
    const byClock = goThrough(piece, [{ ...roast, until: { seconds: ends[0]!.seconds } }]);
    expect(Math.abs(byClock.ends[0]!.core - 52)).toBeLessThan(0.01);
  });

  it('tell the instant without going back to it, or go near enough', () => {
    const piece = { body: LOIN, matter: pork, celsius: 4 };
    const around = everywhere(oven(165));
    const roast = { around, until: { core: 52, most: 20_000 } };
    const [exact] = goThrough(piece, [roast]).ends;
    const past = goThrough(piece, [{ around, until: { ...roast.until, past: true } }]);
    expect(past.ends[0]).toMatchObject({ core: 52, reached: true });
    expect(Math.abs(past.ends[0]!.seconds / exact!.seconds - 1)).toBeLessThan(1e-3);
    expect(past.history.core.at(-1)).toBeGreaterThan(52);
    const [near] = goThrough(piece, [roast], { ...TABLE, instant: 5 }).ends;
    expect(Math.abs(near!.seconds - exact!.seconds)).toBeLessThan(5);
  });

  it('wait for a core to cool down, too', () => {
    const { ends } = goThrough({ body: STEAK, matter: pork, celsius: 60 }, [
      { around: room, until: { core: 40, most: 20_000 } },
    ]);
    expect(ends[0]!.reached).toBe(true);
    expect(ends[0]!.core).toBeCloseTo(40, 2);
  });

  it('rest to the peak, where the core stands still', () => {
    const { ends, history } = goThrough({ body: LOIN, matter: pork, celsius: 4 }, [
      { around: everywhere(oven(165)), until: { core: 52, most: 20_000 } },
      { around: room, until: { peak: true, most: 20_000 } },
      { around: room, until: { seconds: 900 } },
    ]);
    const [pull, peak, after] = ends;
    expect(peak!.reached).toBe(true);
    expect(peak!.core).toBeGreaterThan(pull!.core + 3);
    expect(after!.core).toBeLessThan(peak!.core);
    const row = history.seconds.indexOf(peak!.seconds);
    expect(Math.abs(history.coreRate[row]!)).toBeLessThan(1e-5);
    expect(history.core.reduce((most, core) => Math.max(most, core))).toBeCloseTo(peak!.core, 2);
  });

  it('say so where the end does not come in time', () => {
    const { ends } = goThrough({ body: LOIN, matter: pork, celsius: 4 }, [
      { around: everywhere(oven(165)), until: { core: 52, most: 600 } },
      { around: everywhere(oven(165)), until: { peak: true, most: 600 } },
    ]);
    expect(ends).toMatchObject([
      { seconds: 600, reached: false },
      { seconds: 1200, reached: false },
    ]);
  });

  it('end at once where the end is already there, or lasts no time', () => {
    const piece = { body: LOIN, matter: pork, celsius: 60 };
    expect(goThrough(piece, [{ around: room, until: { core: 60, most: 100 } }]).ends[0]).toMatchObject({
      seconds: 0,
      reached: true,
    });
    expect(goThrough(piece, [{ around: room, until: { seconds: 0 } }]).history.seconds).toHaveLength(1);
    expect(goThrough(piece, []).ends).toEqual([]);
  });

  it('leave an insulated piece as it is', () => {
    for (const body of [LOIN, STEAK, BLOCK]) {
      const { ends, history } = goThrough({ body, matter: pork, celsius: 40 }, [
        { around: air(200, 0), until: { seconds: 5000 } },
      ]);
      expect(ends[0]!.core).toBeCloseTo(40, 9);
      expect(history.heatIn.at(-1)).toBe(0);
    }
  });

  it('refuse to go on for ever', () => {
    const piece = { body: LOIN, matter: pork, celsius: 4 };
    for (const seconds of [Number.POSITIVE_INFINITY, Number.NaN, -1]) {
      expect(() => goThrough(piece, [{ around: room, until: { seconds } }])).toThrow(RangeError);
    }
  });
});

describe('the heat that comes in', () => {
  /** Added up by trapezia from the surface's own temperatures: not the way the solver counts it. */
  function countedAgain(body: Body, surroundings: Surroundings, seconds: number, accuracy: Accuracy) {
    const { history, field } = goThrough(
      { body, matter: pork, celsius: 5 },
      [{ around: everywhere(surroundings), until: { seconds } }],
      accuracy,
    );
    const exchange = new Exchange(surroundings);
    const surface = history.surface.side ?? history.surface.top!;
    const area = field.grid.copies * field.grid.axes[0]!.high;
    const watts = Array.from(surface, (celsius, row) => {
      exchange.at(celsius, history.waterLost[row]! / area);
      return area * exchange.heat;
    });
    let sum = 0;
    for (let row = 1; row < watts.length; row++)
      sum += ((watts[row]! + watts[row - 1]!) / 2) * (history.seconds[row]! - history.seconds[row - 1]!);
    return { sum, stored: history.stored.at(-1)!, heatIn: history.heatIn.at(-1)! };
  }

  it.each([
    ['dry', { air: 165, coefficient: 12 }],
    ['with walls', { air: 165, coefficient: 12, walls: { celsius: 165, emissivity: 0.9 } }],
    ['wet', oven(165, 12, wet(1, 3))],
    ['drying fast', oven(200, 25, wet(0.6, 0.4))],
  ] as const)('is what its surface takes, within 0.1 per cent: %s', (_, surroundings) => {
    for (const body of [{ shape: 'sphere', thickness: 0.12 }, STEAK] as const) {
      const { sum, stored, heatIn } = countedAgain(body, surroundings, 2400, { ...FINE, tolerance: 0.005 });
      expect(Math.abs(sum / stored - 1)).toBeLessThan(0.001);
      expect(heatIn / stored).toBeCloseTo(1, 9);
    }
  });
});

describe('as tables and plans look, against a much finer grid', () => {
  const roast: readonly Stretch[] = [
    { around: everywhere(oven(165)), until: { seconds: 4200 } },
    { around: room, until: { seconds: 1500 } },
  ];
  const FINER: Accuracy = { cells: 24, across: 16, tolerance: 0.05 };
  it.each([
    [
      'a loin, seared and roasted',
      LOIN,
      [{ around: everywhere(onPlate(260, 300, 0.25)), until: { seconds: 600 } }, ...roast],
    ],
    ['a ball', { shape: 'sphere', thickness: 0.14 }, roast],
    ['a steak in a pan', STEAK, [...searEachSide, { around: room, until: { seconds: 600 } }]],
    [
      'a patty in a pan',
      { shape: 'cylinder', thickness: 0.1, length: 0.03 },
      [...searEachSide, { around: room, until: { seconds: 300 } }],
    ],
    ['a block, seared and roasted', BLOCK, [...searEachSide, ...roast]],
    [
      'a loin that dries in a hot fan oven',
      LOIN,
      [{ around: everywhere(oven(220, 25, wet(0.5, 2))), until: { seconds: 3600 } }, roast[1]!],
    ],
  ] as readonly (readonly [string, Body, readonly Stretch[]])[])('%s: the core within 0.5 °C', (_, body, stretches) => {
    const piece = { body, matter: pork, celsius: 4 };
    const [coarse, fine] = [goThrough(piece, stretches, TABLE), goThrough(piece, stretches, FINER)];
    for (const [i, { core }] of coarse.ends.entries()) expect(Math.abs(core - fine.ends[i]!.core)).toBeLessThan(0.5);
    expect(Math.abs(coarse.history.waterLost.at(-1)! / fine.history.waterLost.at(-1)! - 1)).toBeLessThan(0.02);
  });
});
