import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Body, bodyOf, type Sizes, surfaceOf, volumeOf } from '../../src/heat/body.js';
import { conductionIn, thetaOf } from '../../src/heat/product.js';
import { DIRECTIONS, type Form } from '../../src/heat/roots.js';
import { seriesOf } from '../../src/heat/series.js';

/** Fixed, so that every run tries the same pieces. */
const SEED = 20261004;
const RUNS = { seed: SEED, numRuns: 300 };

/** What rounding and the ends of series add. */
const NOISE = 1e-9;

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
/** Spread evenly over the powers of ten. */
const overPowers = (low: number, high: number): fc.Arbitrary<number> => between(low, high).map((power) => 10 ** power);

const form = fc.constantFrom<Form>('wall', 'cylinder', 'sphere');
const biot = fc.oneof(overPowers(-4, 6), fc.constantFrom(0.5, 1, Infinity));
const fourier = overPowers(-7, 1);
const position = fc.oneof(between(0, 1), fc.constantFrom(0, 1));

const size = between(0.01, 0.35);
const body: fc.Arbitrary<Body> = fc.oneof(
  fc.record({ shape: fc.constant('slab' as const), thickness: size, width: size, length: size }),
  fc.record({ shape: fc.constant('cylinder' as const), thickness: size, length: size }),
  fc.record({ shape: fc.constant('sphere' as const), thickness: size }),
  fc.record({ shape: fc.constant('brick' as const), thickness: size, width: size, length: size }),
);
const material = fc.record({ conductivity: between(0.2, 0.7), diffusivity: between(0.9e-7, 1.7e-7) });
const coefficient = overPowers(0.5, 3.7);

describe('theta', () => {
  it('lies between 0 and 1, falls with time and outwards, and the mean lies between core and surface', () => {
    fc.assert(
      fc.property(form, biot, fourier, between(1, 3), position, between(0, 1), (name, bi, fo, later, at, share) => {
        const series = seriesOf(name, bi);
        const theta = series.theta(fo, at);
        expect(theta).toBeGreaterThanOrEqual(-NOISE);
        expect(theta).toBeLessThanOrEqual(1 + NOISE);
        expect(series.theta(fo * later, at)).toBeLessThanOrEqual(theta + NOISE);
        expect(series.theta(fo, at * share)).toBeGreaterThanOrEqual(theta - NOISE);
        expect(series.mean(fo)).toBeLessThanOrEqual(series.theta(fo) + NOISE);
        expect(series.mean(fo)).toBeGreaterThanOrEqual(series.theta(fo, 1) - NOISE);
      }),
      RUNS,
    );
  });

  it('falls faster with a greater Biot number', () => {
    fc.assert(
      fc.property(form, overPowers(-4, 5), between(1, 10), fourier, position, (name, bi, times, fo, at) => {
        const greater = seriesOf(name, bi * times).theta(fo, at);
        expect(greater).toBeLessThanOrEqual(seriesOf(name, bi).theta(fo, at) + NOISE);
      }),
      RUNS,
    );
  });

  it('takes up just the heat that comes through the surface', () => {
    fc.assert(
      fc.property(form, overPowers(-3, 2), overPowers(-4, 0.5), between(1, 1.5), (name, bi, from, times) => {
        const series = seriesOf(name, bi);
        // Simpson's rule: over so short a time the flux bends little.
        const steps = 40;
        const step = (from * (times - 1)) / steps;
        let flux = 0;
        for (let index = 0; index <= steps; index++) {
          const weight = index === 0 || index === steps ? 1 : index % 2 === 1 ? 4 : 2;
          flux += (weight * series.theta(from + index * step, 1) * step) / 3;
        }
        const gained = series.mean(from) - series.mean(from * times);
        expect(Math.abs(gained - DIRECTIONS[name] * bi * flux)).toBeLessThanOrEqual(1e-6 * gained + NOISE);
      }),
      RUNS,
    );
  });
});

describe('a piece', () => {
  it('is at the core temperature when it is said to be', () => {
    fc.assert(
      fc.property(body, material, coefficient, between(0.001, 0.999), (piece, stuff, h, theta) => {
        const conduction = conductionIn(piece, stuff, h);
        expect(Math.abs(conduction.theta(conduction.secondsTo(theta)) - theta)).toBeLessThanOrEqual(1e-10);
      }),
      RUNS,
    );
  });

  it('never takes longer in hotter air, with a greater coefficient, from a warmer start or to a lower core', () => {
    const celsius = (low: number, high: number): fc.Arbitrary<number> => between(low, high);
    fc.assert(
      fc.property(
        body,
        material,
        coefficient,
        celsius(1, 20),
        celsius(40, 75),
        celsius(90, 250),
        fc.record({ air: between(0, 50), core: between(0, 15), start: between(0, 15), h: between(1, 3) }),
        (piece, stuff, h, start, core, air, more) => {
          const conduction = conductionIn(piece, stuff, h);
          const seconds = conduction.secondsTo(thetaOf(core, start, air));
          const least = seconds * (1 + 1e-9);
          expect(conduction.secondsTo(thetaOf(core, start, air + more.air))).toBeLessThanOrEqual(least);
          expect(conduction.secondsTo(thetaOf(core - more.core, start, air))).toBeLessThanOrEqual(least);
          expect(conduction.secondsTo(thetaOf(core, start + more.start, air))).toBeLessThanOrEqual(least);
          const windier = conductionIn(piece, stuff, h * more.h);
          expect(windier.secondsTo(thetaOf(core, start, air))).toBeLessThanOrEqual(least);
        },
      ),
      RUNS,
    );
  });

  it('never takes less for being larger in any direction', () => {
    fc.assert(
      fc.property(
        body,
        material,
        coefficient,
        between(0.3, 0.95),
        fc.constantFrom('thickness', 'width', 'length'),
        between(1, 2),
        (piece, stuff, h, theta, side, times) => {
          fc.pre(side in piece);
          const before = (piece as Readonly<Record<string, unknown>>)[side] as number;
          const larger = { ...piece, [side]: before * times } as Body;
          const seconds = conductionIn(piece, stuff, h).secondsTo(theta);
          expect(conductionIn(larger, stuff, h).secondsTo(theta)).toBeGreaterThanOrEqual(seconds * (1 - 1e-9));
        },
      ),
      RUNS,
    );
  });

  it('begins to warm as its surface over its volume says', () => {
    fc.assert(
      fc.property(body, material, between(1, 30), (piece, stuff, h) => {
        // For so short a time the surface has not warmed by more than a few per cent.
        const seconds = 1e-4 * ((stuff.conductivity / h) ** 2 / stuff.diffusivity);
        const rate = ((surfaceOf(piece)! / volumeOf(piece)!) * h * stuff.diffusivity) / stuff.conductivity;
        const fraction = conductionIn(piece, stuff, h).heatFraction(seconds);
        fc.pre(fraction < 0.01);
        expect(fraction / (rate * seconds)).toBeLessThanOrEqual(1);
        expect(fraction / (rate * seconds)).toBeGreaterThan(0.97);
      }),
      RUNS,
    );
  });

  it('has the size that its weight says, and the weight that its size says', () => {
    fc.assert(
      fc.property(body, between(600, 1100), (piece, density) => {
        const sizes: Sizes = { width: null, length: null, ...piece, weight: volumeOf(piece)! * density };
        expect(bodyOf(sizes, density)).toEqual({ ok: true, value: piece });
        const parsed = bodyOf({ ...sizes, thickness: null }, density);
        expect(parsed.ok && parsed.value.thickness / piece.thickness).toBeCloseTo(1, 12);
      }),
      RUNS,
    );
  });
});
