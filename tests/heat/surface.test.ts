import { describe, expect, it } from 'vitest';
import { Exchange } from '../../src/heat/exchange.js';
import { gridOf } from '../../src/heat/grid.js';
import { Lines } from '../../src/heat/lines.js';
import { Surface } from '../../src/heat/surface.js';
import { oven, wet } from '../support/pieces.js';

const grid = gridOf({ shape: 'sphere', thickness: 0.1 }, { cells: 4, across: 1 }, { upright: 'half', across: 'half' });
const volumes = grid.axes[0]!.sizes;
const WARMING = new Float64Array(grid.count).fill(1 / 3.7e6);

/** The one node of a sphere's surface, at 70 °C. */
function surfaceIn(surroundings = oven(160, 12, wet(1, 0.5))) {
  const exchange = new Exchange(surroundings);
  const surface = new Surface(grid, grid.ends[0]!, new Lines(grid, 0).starts, volumes, exchange);
  const celsius = new Float64Array(grid.count).fill(70);
  const gain = new Float64Array(grid.count);
  surface.meet(false, celsius, gain);
  return { surface, exchange, celsius, gain };
}

describe('Surface', () => {
  it('lies where the axis ends', () => {
    const { surface } = surfaceIn();
    expect([...surface.nodes]).toEqual([4]);
    expect(surface.areas[0]).toBeCloseTo(Math.PI * 0.01, 12);
    expect(surface.perVolume).toBeCloseTo((Math.PI * 0.01) / volumes[4]!, 9);
  });

  it('gives its cells what comes in', () => {
    const { surface, exchange, gain } = surfaceIn();
    exchange.at(70, 0);
    expect(gain[4]).toBeCloseTo(surface.perVolume * exchange.heat, 6);
    expect(gain[3]).toBe(0);
  });

  it('falls less steeply the longer the step, for it dries on the way', () => {
    const { surface, exchange } = surfaceIn();
    exchange.at(70, 0);
    surface.prepare(0);
    expect(surface.slope[0]).toBeCloseTo(exchange.slope, 9);
    const slopes = [10, 100, 1000, 1e9].map((part) => {
      surface.prepare(part);
      return surface.slope[0]!;
    });
    for (let i = 1; i < slopes.length; i++) expect(slopes[i]).toBeLessThan(slopes[i - 1]!);
    expect(slopes.at(-1)).toBeGreaterThan(0);
  });

  it('loses water with the steps, and takes a step back', () => {
    const { surface, exchange } = surfaceIn();
    exchange.at(70, 0);
    const expected = exchange.water * 10;
    const rates = new Float64Array(grid.count);
    surface.prepare(1e-6);
    surface.begin(false, 1e-6, rates);
    surface.end(false, 1e-6, WARMING, rates);
    surface.lookAhead(10);
    surface.meet(true, new Float64Array(grid.count).fill(70), new Float64Array(grid.count));
    surface.begin(true, 1e-6, rates);
    surface.end(true, 1e-6, WARMING, rates);
    surface.accept(10);
    // A little less, for it dries meanwhile.
    expect(surface.waterLost / (surface.areas[0]! * expected)).toBeLessThan(1);
    expect(surface.waterLost / (surface.areas[0]! * expected)).toBeGreaterThan(0.95);
    const lacks = new Float64Array(grid.count);
    surface.giveLacks(lacks);
    expect(lacks[4]! * surface.areas[0]!).toBeCloseTo(surface.waterLost, 12);
    surface.takeBack();
    surface.giveLacks(lacks);
    expect([surface.waterLost, lacks[4]]).toEqual([0, 0]);
  });

  it('takes the steeper slope where the way leads near the boiling point', () => {
    const { surface, celsius } = surfaceIn();
    const after = new Float64Array(grid.count).fill(110);
    surface.lookAhead(0);
    surface.meet(true, after, new Float64Array(grid.count));
    surface.prepare(1);
    const gentle = surface.slope[0]!;
    expect(surface.steepen(celsius, after)).toBe(true);
    surface.prepare(1);
    expect(surface.slope[0]).toBeGreaterThan(3 * gentle);
    expect(surface.steepen(celsius, after)).toBe(false);
  });

  it('takes over what an earlier stretch has left lacking', () => {
    const { surface } = surfaceIn();
    const lacks = new Float64Array(grid.count);
    lacks[4] = 0.7;
    surface.takeLacks(lacks);
    const back = new Float64Array(grid.count);
    surface.giveLacks(back);
    expect(back).toEqual(lacks);
  });
});
