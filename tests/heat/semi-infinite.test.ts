import { describe, expect, it } from 'vitest';
import {
  depthReached,
  effusivityOf,
  fluxIntoHeldFace,
  touchTemperature,
  underConvection,
  underFlux,
  underHeldFace,
} from '../../src/heat/semi-infinite.js';

const MEAT = { conductivity: 0.47, diffusivity: 1.27e-7 };

describe('under a face held at a temperature', () => {
  it('half of the rise has come where depth / (2 sqrt(diffusivity x time)) is 0.4769', () => {
    const depth = 2 * 0.476936276204 * Math.sqrt(MEAT.diffusivity * 300);
    expect(underHeldFace(MEAT, 10, 90, depth, 300)).toBeCloseTo(50, 8);
    expect(depthReached(MEAT, 0.5, 300)).toBeCloseTo(depth, 12);
  });

  it('nothing has come at first, all at the face, and heat flows in with the root of time', () => {
    expect(underHeldFace(MEAT, 10, 90, 0.001, 0)).toBe(10);
    expect(underHeldFace(MEAT, 10, 90, 0, 0)).toBe(90);
    const slope = (90 - underHeldFace(MEAT, 10, 90, 1e-7, 60)) / 1e-7;
    expect(fluxIntoHeldFace(MEAT, 10, 90, 60) / (MEAT.conductivity * slope)).toBeCloseTo(1, 6);
    expect(fluxIntoHeldFace(MEAT, 10, 90, 60) / fluxIntoHeldFace(MEAT, 10, 90, 240)).toBeCloseTo(2, 12);
  });
});

describe('under a steady flux', () => {
  it('the slope at the face is the flux over the conductivity', () => {
    const at = (depth: number): number => underFlux(MEAT, 5, 4000, depth, 120);
    expect((at(0) - at(1e-7)) / 1e-7 / (4000 / MEAT.conductivity)).toBeCloseTo(1, 4);
  });

  it('the face warms as 2 flux sqrt(time / pi) / effusivity, and the solid holds the heat that came', () => {
    const face = 5 + (2 * 4000 * Math.sqrt(120 / Math.PI)) / effusivityOf(MEAT);
    expect(underFlux(MEAT, 5, 4000, 0, 120)).toBeCloseTo(face, 9);
    expect(underFlux(MEAT, 5, 4000, 0.01, 0)).toBe(5);
    let stored = 0;
    const step = 1e-5;
    for (let depth = step / 2; depth < 0.05; depth += step) stored += (underFlux(MEAT, 5, 4000, depth, 120) - 5) * step;
    const capacity = MEAT.conductivity / MEAT.diffusivity;
    expect((stored * capacity) / (4000 * 120)).toBeCloseTo(1, 5);
  });
});

describe('under convection', () => {
  it('what conducts to the face is what the medium gives', () => {
    for (const [coefficient, seconds] of [
      [15, 600],
      [400, 30],
    ] as const) {
      const at = (depth: number): number => underConvection(MEAT, 5, 180, coefficient, depth, seconds);
      const conducted = (MEAT.conductivity * (at(0) - at(1e-7))) / 1e-7;
      expect(conducted / (coefficient * (180 - at(0)))).toBeCloseTo(1, 4);
    }
  });

  it('has no coefficient’s limit wrong: none is no heat, a boundless one holds the face', () => {
    expect(underConvection(MEAT, 5, 180, 0, 0.001, 60)).toBe(5);
    expect(underConvection(MEAT, 5, 180, 20, 0.001, 0)).toBe(5);
    const held = underHeldFace(MEAT, 5, 180, 0.001, 60);
    expect(underConvection(MEAT, 5, 180, Infinity, 0.001, 60)).toBe(held);
    expect(underConvection(MEAT, 5, 180, 1e9, 0.001, 60)).toBeCloseTo(held, 3);
  });

  it('is refused for numbers that mean nothing', () => {
    expect(() => underConvection(MEAT, 5, 180, -1, 0, 60)).toThrow(RangeError);
    expect(() => underConvection(MEAT, 5, 180, 20, -0.001, 60)).toThrow(RangeError);
    expect(() => underHeldFace(MEAT, 5, 180, 0.001, Number.NaN)).toThrow(RangeError);
  });
});

describe('two solids that touch', () => {
  it('meet nearer to the one of the greater effusivity, and in the middle when they are alike', () => {
    const iron = { conductivity: 52, diffusivity: 1.57e-5, temperature: 230 };
    const meat = { ...MEAT, temperature: 5 };
    const touch = touchTemperature(meat, iron);
    expect(touch).toBe(touchTemperature(iron, meat));
    expect(touch).toBeGreaterThan(200);
    expect(touch).toBeLessThan(230);
    expect(touchTemperature(meat, { ...meat, temperature: 65 })).toBeCloseTo(35, 12);
    // Heat that leaves one comes into the other.
    const [out, into] = [fluxIntoHeldFace(iron, 230, touch, 1), fluxIntoHeldFace(meat, 5, touch, 1)];
    expect(out + into).toBeCloseTo(0, 6);
  });
});
