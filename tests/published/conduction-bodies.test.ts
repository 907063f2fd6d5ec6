/** Bodies made of crossed walls and cylinders, and half-infinite solids, against exact answers by another program and books. */
import { describe, expect, it } from 'vitest';
import type { Body } from '../../src/heat/body.js';
import { conductionIn, temperatureOf, thetaOf } from '../../src/heat/product.js';
import type { Form } from '../../src/heat/roots.js';
import { depthReached, effusivityOf, touchTemperature, underConvection } from '../../src/heat/semi-infinite.js';
import { seriesOf } from '../../src/heat/series.js';
import { CENGEL, expectComputed, expectPrinted, INCROPERA, oneTermTheta } from '../support/conduction.js';

describe('products of walls and a cylinder (conduction-examples.json, 200 terms in each direction, computed)', () => {
  const material = { conductivity: 0.47, diffusivity: 0.47 / (1060 * 3500) };
  const [start, oven, h] = [4.4, 163, 18];
  const half = { x: 0.05, y: 0.06, z: 0.12 };
  const series = (form: Form, size: number, minutes: number) => {
    const one = seriesOf(form, (h * size) / material.conductivity);
    const fourier = (material.diffusivity * minutes * 60) / size ** 2;
    const byOneTerm = oneTermTheta(form, one.biot, fourier, 0);
    return { theta: one.theta(fourier), byOneTerm };
  };
  /** Six decimals are recorded. */
  const expectTheta = (got: number, computed: number): void => {
    expect(Math.abs(got - computed)).toBeLessThanOrEqual(0.51e-6);
  };

  it.each([
    [30, [0.991569, 0.998039, 1], 0.989625, 6.045, -59.383, 0.751988, 43.735],
    [60, [0.93474, 0.970993, 0.99997], 0.907599, 19.055, -17.445, 0.59157, 69.177],
    [90, [0.855641, 0.919436, 0.999346], 0.786193, 38.31, 16.585, 0.472005, 88.14],
    [120, [0.775526, 0.858966, 0.996704], 0.663955, 57.697, 44.196, 0.379037, 102.885],
    [150, [0.700618, 0.797593, 0.990964], 0.553759, 75.174, 66.601, 0.305398, 114.564],
  ] as const)(
    'newman-brick: lean meat 10 x 12 x 24 cm after %d min',
    (minutes, thetas, product, core, oneTermCore, mean, meanTemperature) => {
      const body: Body = { shape: 'brick', thickness: 2 * half.x, width: 2 * half.y, length: 2 * half.z };
      const conduction = conductionIn(body, material, h);
      const directions = Object.values(half).map((size) => series('wall', size, minutes));
      for (const [index, { theta }] of directions.entries()) expectTheta(theta, thetas[index]!);
      expectTheta(conduction.theta(minutes * 60), product);
      expectComputed(temperatureOf(conduction.theta(minutes * 60), start, oven), core);
      const byOneTerm = directions.reduce((all, { byOneTerm }) => all * byOneTerm, 1);
      expectComputed(temperatureOf(byOneTerm, start, oven), oneTermCore);
      expectTheta(conduction.mean(minutes * 60), mean);
      expect(conduction.heatFraction(minutes * 60)).toBeCloseTo(1 - mean, 6);
      expectComputed(temperatureOf(conduction.mean(minutes * 60), start, oven), meanTemperature);
      expectComputed(conduction.secondsTo(thetaOf(core, start, oven)) / 60, minutes);
    },
  );

  it('newman-brick: finite volumes by another program, 24 x 24 x 24 cells on one octant, 90 min: within 0.1 °C', () => {
    const body: Body = { shape: 'brick', thickness: 2 * half.x, width: 2 * half.y, length: 2 * half.z };
    const conduction = conductionIn(body, material, h);
    const nearest = 0.5 / 24;
    const cell = conduction.theta(90 * 60, [nearest, nearest, nearest]);
    expect(Math.abs(temperatureOf(cell, start, oven) - 38.384)).toBeLessThanOrEqual(0.1);
    expect(Math.abs(temperatureOf(conduction.mean(90 * 60), start, oven) - 88.103)).toBeLessThanOrEqual(0.1);
  });

  it.each([
    [30, [0.970924, 1], 0.970924, 9.011, -39.241, 0.730473, 47.147],
    [60, [0.827025, 0.99997], 0.827, 31.838, 6.087, 0.554749, 75.017],
    [90, [0.66931, 0.999346], 0.668873, 56.917, 41.256, 0.425327, 95.543],
    [120, [0.53525, 0.996704], 0.533486, 78.389, 68.543, 0.32735, 111.082],
    [150, [0.426846, 0.990964], 0.422989, 95.914, 89.714, 0.252463, 122.959],
  ] as const)(
    'newman-finite-cylinder: rolled roast 10 cm across, 24 cm long, after %d min',
    (minutes, thetas, product, core, oneTermCore, mean, meanTemperature) => {
      const conduction = conductionIn({ shape: 'cylinder', thickness: 2 * half.x, length: 2 * half.z }, material, h);
      const [across, along] = [series('cylinder', half.x, minutes), series('wall', half.z, minutes)];
      expectTheta(across.theta, thetas[0]);
      expectTheta(along.theta, thetas[1]);
      expectTheta(conduction.theta(minutes * 60), product);
      expectComputed(temperatureOf(conduction.theta(minutes * 60), start, oven), core);
      expectComputed(temperatureOf(across.byOneTerm * along.byOneTerm, start, oven), oneTermCore);
      expectTheta(conduction.mean(minutes * 60), mean);
      expectComputed(temperatureOf(conduction.mean(minutes * 60), start, oven), meanTemperature);
      expectComputed(conduction.secondsTo(thetaOf(core, start, oven)) / 60, minutes);
    },
  );
});

describe('half-infinite solids (conduction-examples.json)', () => {
  it(`water-pipe-cengel: ${CENGEL}, Minimum Burial Depth of Water Pipes, from memory: 0.80 m by the formula (0.77 m by its chart)`, () => {
    const depth = depthReached({ conductivity: 1, diffusivity: 1.5e-7 }, (0 - 15) / (-10 - 15), 7_776_000);
    expectComputed(depth, 0.8009);
    expectPrinted(depth, 0.8);
  });

  it(`water-main-incropera: ${INCROPERA}, example on water mains, from memory: 0.68 m`, () => {
    const depth = depthReached({ conductivity: 1, diffusivity: 1.38e-7 }, (0 - 20) / (-15 - 20), 5_184_000);
    expectComputed(depth, 0.677);
    expectPrinted(depth, 0.68);
  });

  it.each([
    [20, 600, 0.005, 33.7399],
    [20, 600, 0, 53.832],
    [500, 120, 0.005, 50.0814],
    [500, 120, 0, 142.0063],
  ])(
    'semi-infinite-convection: Carslaw and Jaeger 2.7, computed: h = %d, %d s, %d m: %d °C',
    (h, seconds, depth, computed) => {
      const meat = { conductivity: 0.47, diffusivity: 1.266846e-7 };
      expectComputed(underConvection(meat, 4.4, 163, h, depth, seconds), computed);
    },
  );

  it(`contact-temperature: ${INCROPERA}, 5.7, computed: meat at 4.4 °C on cast iron at 230 °C`, () => {
    const meat = { conductivity: 0.47, diffusivity: 0.47 / (1060 * 3500), temperature: 4.4 };
    const iron = { conductivity: 52, diffusivity: 52 / (7200 * 460), temperature: 230 };
    expectComputed(effusivityOf(meat), 1320.5);
    expectComputed(effusivityOf(iron), 13123.4);
    expectComputed(touchTemperature(meat, iron), 209.38);
  });
});
