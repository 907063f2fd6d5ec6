import { describe, expect, it } from 'vitest';
import type { Body } from '../../src/heat/body.js';
import { surfaceOf, volumeOf } from '../../src/heat/body.js';
import { FOODS } from '../../src/heat/composition.js';
import { Exchange, type Surroundings } from '../../src/heat/exchange.js';
import { fieldOf } from '../../src/heat/field.js';
import { matterOf } from '../../src/heat/properties.js';
import { Volume } from '../../src/heat/volume.js';
import { meat, onPlate, oven } from '../support/pieces.js';

const pork = matterOf(FOODS.pork.composition);
const BRICK: Body = { shape: 'brick', thickness: 0.06, width: 0.09, length: 0.12 };

function volumeFor(body: Body, surroundings: Surroundings, matter = pork): Volume {
  const field = fieldOf({ body, matter, celsius: 5 }, { cells: 6, across: 4 }, { upright: 'whole', across: 'half' });
  const exchange = new Exchange(surroundings);
  return new Volume(field, () => exchange);
}

function walk(volume: Volume, steps: number, seconds: number): void {
  for (let i = 0; i < steps; i++) {
    volume.attempt(seconds);
    volume.accept();
  }
}

const stored = ({ volumes, heat }: Volume): number => volumes.reduce((sum, volume, i) => sum + volume * heat[i]!, 0);

describe('Volume', () => {
  it('has the volume and the surface of the body', () => {
    const volume = volumeFor(BRICK, oven(160));
    expect(volume.volumes.reduce((sum, each) => sum + each, 0)).toBeCloseTo(volumeOf(BRICK)!, 12);
    const areas = volume.surfaces.flatMap(({ areas }) => [...areas]);
    expect(areas.reduce((sum, each) => sum + each, 0)).toBeCloseTo(surfaceOf(BRICK)!, 12);
  });

  it('stores what comes in, in steps of any length', () => {
    for (const seconds of [0.1, 5, 300, 5000]) {
      const volume = volumeFor(BRICK, onPlate(250, 600, 0.5));
      const before = stored(volume);
      walk(volume, 6, seconds);
      expect((stored(volume) - before) / volume.heatIn).toBeCloseTo(1, 9);
    }
  });

  it('settles at the temperature of dry surroundings', () => {
    const volume = volumeFor(BRICK, { air: 120, coefficient: 25, walls: { celsius: 120, emissivity: 0.9 } });
    walk(volume, 200, 300);
    for (const celsius of volume.celsius) expect(celsius).toBeCloseTo(120, 3);
    expect(volume.coreRate).toBeCloseTo(0, 6);
  });

  it('errs by a quarter where the step is halved (second order)', () => {
    const coreAfter = (steps: number): number => {
      const volume = volumeFor({ shape: 'sphere', thickness: 0.08 }, oven(165), pork);
      walk(volume, steps, 2400 / steps);
      return volume.core;
    };
    const exact = coreAfter(2048);
    const errors = [32, 64, 128].map((steps) => Math.abs(coreAfter(steps) - exact));
    for (let i = 1; i < errors.length; i++) {
      expect(errors[i - 1]! / errors[i]!).toBeGreaterThan(3);
      expect(errors[i - 1]! / errors[i]!).toBeLessThan(5.5);
    }
  });

  it('is as it was when a step is taken back', () => {
    const volume = volumeFor(BRICK, oven(160));
    walk(volume, 3, 30);
    const [heat, heatIn, lost, core] = [volume.heat.slice(), volume.heatIn, volume.waterLost, volume.core];
    walk(volume, 1, 60);
    expect(volume.core).not.toBe(core);
    volume.takeBack();
    expect(volume.heat).toEqual(heat);
    expect([volume.heatIn, volume.waterLost, volume.core]).toEqual([heatIn, lost, core]);
    walk(volume, 1, 60);
    const again = volume.core;
    volume.takeBack();
    walk(volume, 1, 60);
    expect(volume.core).toBe(again);
  });

  it('finds a short step nearer than a long one', () => {
    const volume = volumeFor(BRICK, oven(160));
    walk(volume, 5, 20);
    expect(volume.attempt(10)).toBeLessThan(volume.attempt(60));
  });

  it('knows how long heat takes through it', () => {
    const volume = volumeFor({ shape: 'sphere', thickness: 0.1 }, oven(160), meat);
    expect(volume.span).toBeCloseTo((0.05 ** 2 * 1060 * 3500) / 0.47, 6);
  });
});
