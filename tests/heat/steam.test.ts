import { describe, expect, it } from 'vitest';
import type { Surroundings } from '../../src/heat/exchange.js';
import { steamIn } from '../../src/heat/steam.js';
import { saturationPressure, wetBulb } from '../../src/heat/vapour.js';

const still = (celsius: number): Surroundings => ({
  air: celsius,
  coefficient: 7.3,
  walls: { celsius, emissivity: 0.85 },
});
const at = (celsius: number): number => steamIn(celsius, still, 165, 30_000);

describe('the vapour in an oven', () => {
  it('is the usual one at the usual heat', () => {
    expect(Math.abs(at(165) - 30_000)).toBeLessThan(5);
  });

  it('is that of the kitchen in an oven that is hardly warm, and grows with the heat', () => {
    expect(at(20)).toBeLessThan(2000);
    const all = [20, 50, 80, 110, 140, 170, 200, 250, 300].map(at);
    for (let i = 1; i < all.length; i++) expect(all[i]!).toBeGreaterThan(all[i - 1]!);
    expect(all.at(-1)).toBeLessThan(101_325);
  });

  it('leaves a cool oven dry: less than a third of the usual at 70 °C, below saturation everywhere', () => {
    expect(at(70)).toBeLessThan(10_000);
    for (const celsius of [50, 70, 90]) expect(at(celsius)).toBeLessThan(0.5 * saturationPressure(celsius));
  });

  it('balances without radiation: a wet bulb gives off what the air carries away', () => {
    const dry = (celsius: number): Surroundings => ({ air: celsius, coefficient: 10 });
    const [usual, cool] = [30_000, steamIn(90, dry, 165, 30_000)];
    // Heat by convection alone is in proportion to what the air is above the wet bulb; latent heat and the film differ by some per cent.
    const heat = (90 - wetBulb(90, cool)) / (165 - wetBulb(165, usual));
    const humidity = (vapour: number): number => vapour / (101_325 - vapour);
    const carried = (humidity(cool) - humidity(1170)) / (humidity(usual) - humidity(1170));
    expect(Math.abs(heat / carried - 1)).toBeLessThan(0.1);
  });
});
