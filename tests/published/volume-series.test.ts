/** The finite-volume solver against the analytic series, as coarse as tables and plans use it. */
import { describe, expect, it } from 'vitest';
import type { Body } from '../../src/heat/body.js';
import { conductionIn, temperatureOf, thetaOf } from '../../src/heat/product.js';
import { goThrough } from '../../src/heat/stretch.js';
import { air, airRoundOnly, MEAT, MEAT_DIFFUSIVITY, meat } from '../support/pieces.js';
import { Random } from '../support/random.js';

const material = { conductivity: MEAT.conductivity, diffusivity: MEAT_DIFFUSIVITY };
const [START, OVEN] = [4.4, 163];

interface Sample {
  readonly body: Body;
  /** The ends of a cylinder are closed. */
  readonly long: boolean;
  readonly coefficient: number;
  readonly seconds: number;
}

/** 200 pieces of each form; Biot 0.05 to 50 and Fourier 0.1 to 1 by the half thickness, evenly in their logarithms. */
const SAMPLES: Readonly<Record<string, readonly Sample[]>> = Object.fromEntries(
  ['slab', 'long cylinder', 'sphere', 'finite cylinder', 'brick'].map((form, index) => {
    const random = new Random(100 + index);
    const between = (low: number, high: number): number => low + ((high - low) * random.int(0, 1_000_000)) / 1_000_000;
    return [
      form,
      Array.from({ length: 200 }, (): Sample => {
        const half = between(0.01, 0.1);
        const [biot, fourier] = [0.05 * 1000 ** between(0, 1), 0.1 * 10 ** between(0, 1)];
        const [width, length] = [2 * half * between(1, 2.5), 2 * half * between(1, 4)];
        return {
          body: bodyOf(form, 2 * half, width, length),
          long: form === 'long cylinder',
          coefficient: (biot * material.conductivity) / half,
          seconds: (fourier * half * half) / material.diffusivity,
        };
      }),
    ];
  }),
);

function bodyOf(form: string, thickness: number, width: number, length: number): Body {
  if (form === 'slab') return { shape: 'slab', thickness, width: null, length: null };
  if (form === 'sphere') return { shape: 'sphere', thickness };
  if (form === 'brick') return { shape: 'brick', thickness, width, length };
  return { shape: 'cylinder', thickness, length };
}

/** A cylinder whose length no heat has crossed. */
const stretched = (body: Body): Body => (body.shape === 'cylinder' ? { ...body, length: 1e4 } : body);

describe('the solver and the series (Carslaw and Jaeger; Newman 1936), 200 random pieces each', () => {
  it.each(Object.keys(SAMPLES))(
    '%s: the core within 0.005 of the whole difference, the balance within 0.001',
    (form) => {
      for (const { body, long, coefficient, seconds } of SAMPLES[form]!) {
        const around = long ? airRoundOnly(OVEN, coefficient) : air(OVEN, coefficient);
        const { ends, history } = goThrough({ body, matter: meat, celsius: START }, [{ around, until: { seconds } }]);
        const exact = conductionIn(long ? stretched(body) : body, material, coefficient);
        const theta = thetaOf(ends[0]!.core, START, OVEN);
        expect(Math.abs(theta - exact.theta(seconds))).toBeLessThan(0.005);
        const last = history.seconds.length - 1;
        const mean = thetaOf(history.mean[last]!, START, OVEN);
        expect(Math.abs(mean - exact.mean(seconds))).toBeLessThan(0.0075);
        expect(Math.abs(history.heatIn[last]! - history.stored[last]!)).toBeLessThan(0.001 * history.stored[last]!);
      }
    },
  );
});

describe('walls and cylinders across each other (conduction-examples.json, newman-*, 200 terms, computed)', () => {
  const minutes = [30, 60, 90, 120, 150];
  const brick: Body = { shape: 'brick', thickness: 0.1, width: 0.12, length: 0.24 };
  const rolled: Body = { shape: 'cylinder', thickness: 0.1, length: 0.24 };
  it.each([
    ['newman-brick', brick, [6.045, 19.055, 38.31, 57.697, 75.174], [43.735, 69.177, 88.14, 102.885, 114.564]],
    [
      'newman-finite-cylinder',
      rolled,
      [9.011, 31.838, 56.917, 78.389, 95.914],
      [47.147, 75.017, 95.543, 111.082, 122.959],
    ],
  ] as const)('%s: core within 0.5 °C, mean within 0.8 °C', (_, body, cores, means) => {
    const stretches = minutes.map(() => ({ around: air(OVEN, 18), until: { seconds: 1800 } }));
    const { ends, history } = goThrough({ body, matter: meat, celsius: START }, stretches);
    for (const [i, { core, seconds }] of ends.entries()) {
      expect(Math.abs(core - cores[i]!)).toBeLessThan(0.5);
      const row = history.seconds.indexOf(seconds);
      expect(Math.abs(history.mean[row]! - means[i]!)).toBeLessThan(0.8);
    }
    const exact = conductionIn(body, material, 18);
    expect(temperatureOf(exact.theta(3600), START, OVEN)).toBeCloseTo(cores[1], 2);
  });
});
