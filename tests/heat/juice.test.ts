import { describe, expect, it } from 'vitest';
import { FOODS } from '../../src/heat/composition.js';
import { pressedBetween, pressedOut } from '../../src/heat/contraction.js';
import { Exchange } from '../../src/heat/exchange.js';
import { fieldOf } from '../../src/heat/field.js';
import { type Matter, matterOf } from '../../src/heat/properties.js';
import { Volume } from '../../src/heat/volume.js';
import { oven, wet } from '../support/pieces.js';

describe('what meat has pressed out', () => {
  it('is a half by 66 °C and nine tenths by 74 °C (Feyissa et al., 2013: 1/(1 + 30 exp(−(T − 52)/4)))', () => {
    for (const celsius of [20, 50, 58, 65.6, 74, 90])
      expect(pressedOut(celsius).share).toBeCloseTo(1 / (1 + 30 * Math.exp(-0.25 * (celsius - 52))), 12);
    expect(pressedOut(65.6).share).toBeCloseTo(0.5, 2);
    expect(pressedOut(74.4).share).toBeCloseTo(0.9, 2);
  });

  it('adds up over temperature', () => {
    for (const celsius of [40, 60, 66, 80, 120]) {
      const [below, above] = [pressedOut(celsius - 0.01), pressedOut(celsius + 0.01)];
      expect((above.sum - below.sum) / 0.02).toBeCloseTo(pressedOut(celsius).share, 6);
    }
  });

  it('is the mean between two temperatures, either way round, also where they meet', () => {
    expect(pressedBetween(40, 90)).toBe(pressedBetween(90, 40));
    const steps = Array.from({ length: 1000 }, (_, i) => pressedOut(40 + 0.05 * (i + 0.5)).share);
    expect(pressedBetween(40, 90)).toBeCloseTo(steps.reduce((sum, one) => sum + one, 0) / 1000, 5);
    expect(pressedBetween(65.5, 66.499)).toBeCloseTo(pressedBetween(65.5, 66.501), 3);
  });
});

const SHARE = 0.2;
const pork: Matter = { ...matterOf(FOODS.pork.composition, SHARE), seeps: 900 };
const dry: Matter = { ...pork, juice: 0 };

function roasted(matter: Matter, steps: number, seconds: number, celsius = 165): Volume {
  const body = { shape: 'cylinder', thickness: 0.1, length: 0.25 } as const;
  const field = fieldOf({ body, matter, celsius: 5 }, { cells: 8, across: 4 }, { upright: 'half', across: 'half' });
  const exchange = new Exchange(oven(celsius, 8, { ...wet(1, 0.1), vapour: 20_000 }));
  const volume = new Volume(field, () => exchange);
  for (let i = 0; i < steps; i++) {
    volume.attempt(seconds);
    volume.accept();
  }
  return volume;
}

describe('a roast that gives juice', () => {
  const mass = (volume: Volume): number => volume.volumes.reduce((sum, each) => sum + each, 0) * pork.density;

  it('stays wetter and cooler outside than one that gives none', () => {
    const [juicy, without] = [roasted(pork, 120, 60), roasted(dry, 120, 60)];
    expect(juicy.waterLost).toBeGreaterThan(1.2 * without.waterLost);
    expect(juicy.celsius.at(-1)).toBeLessThan(without.celsius.at(-1)! - 10);
    expect(juicy.core).toBeLessThan(without.core);
  });

  it('gives off no more than its juice and what its surface lacks', () => {
    for (const celsius of [80, 165, 220]) {
      const volume = roasted(pork, 400, 60, celsius);
      const { lacks, pressed } = volume.field();
      const lacking = volume.surfaces.reduce(
        (sum, { nodes, areas }, s) => sum + nodes.reduce((more, i, l) => more + areas[l]! * lacks[s]![i]!, 0),
        0,
      );
      expect(volume.waterLost / (SHARE * pressed * mass(volume) + lacking)).toBeLessThan(1.02);
    }
  });

  it('has pressed out all of it in the end, and less in a cool oven', () => {
    expect(roasted(pork, 400, 120).field().pressed).toBeGreaterThan(0.97);
    const cool = roasted(pork, 400, 120, 75).field().pressed;
    expect(cool).toBeGreaterThan(0.1);
    expect(cool).toBeLessThan(0.6);
  });

  it('takes none back when it cools, and gives none anew until it is hotter than before', () => {
    const volume = roasted(pork, 60, 60);
    const { pressed } = volume.field();
    const cold = new Exchange({ air: 5, coefficient: 30 });
    volume.surround(() => cold);
    for (let i = 0; i < 120; i++) {
      volume.attempt(60);
      volume.accept();
    }
    const chilled = volume.field();
    // What was on its way still comes.
    expect(chilled.pressed).toBeGreaterThanOrEqual(pressed);
    expect(chilled.pressed).toBeLessThan(pressed + 0.1);
    const warm = new Exchange(oven(50));
    volume.surround(() => warm);
    volume.attempt(600);
    volume.accept();
    expect(volume.field().pressed).toBe(chilled.pressed);
  });

  it('goes back a step with all that it was', () => {
    const volume = roasted(pork, 60, 60);
    const [before, lost] = [volume.field(), volume.waterLost];
    volume.attempt(300);
    volume.accept();
    expect(volume.field().pressed).toBeGreaterThan(before.pressed);
    volume.takeBack();
    expect(volume.field()).toEqual(before);
    expect(volume.waterLost).toBe(lost);
  });

  it('errs by about a quarter where the step is halved (second order)', () => {
    const coreAfter = (steps: number): number => roasted(pork, steps, 4800 / steps).core;
    const exact = coreAfter(1024);
    const errors = [32, 64, 128].map((steps) => Math.abs(coreAfter(steps) - exact));
    expect(errors[1]! / errors[0]!).toBeLessThan(0.4);
    expect(errors[2]! / errors[1]!).toBeLessThan(0.4);
  });
});
