import { describe, expect, it } from 'vitest';
import { erfc, erfcx, erfcxFall, ierfc, inverseErfc, surfaceSum } from '../../src/heat/error-function.js';

const expectNear = (got: number, exact: number, relative: number): void => {
  expect(Math.abs(got - exact)).toBeLessThanOrEqual(relative * Math.abs(exact));
};

// All exact figures by a program for any number of digits.
describe('erfc and erfcx', () => {
  it.each([
    [0.1, 0.8875370839817152, 0.8964569799691267],
    [0.5, 0.4795001221869535, 0.6156903441929259],
    [1, 0.15729920705028513, 0.427583576155807],
    [1.49, 0.03510213515679579, 0.3232292938008238],
    [1.51, 0.03272325187128836, 0.31995676958333286],
    [3, 2.209049699858544e-5, 0.17900115118138996],
    [10, 2.088487583762545e-45, 0.05614099274382259],
    [-0.5, 1.5204998778130465, 1.952360489182557],
    [-2, 1.9953222650189528, 108.94090438997797],
  ])('at %d', (x, complement, scaled) => {
    expectNear(erfc(x), complement, 1e-14);
    expectNear(erfcx(x), scaled, 1e-14);
  });

  it('are 1 at 0, and erfcx goes as 1 / (sqrt(pi) x) far out, where erfc is nothing', () => {
    expect(erfc(0)).toBe(1);
    expect(erfcx(0)).toBe(1);
    expect(erfc(40)).toBe(0);
    expectNear(erfcx(1e9), 1 / (Math.sqrt(Math.PI) * 1e9), 1e-14);
  });
});

describe('the integral of erfc', () => {
  it('is 1 / sqrt(pi) at 0, and has minus erfc as its slope', () => {
    expectNear(ierfc(0), 1 / Math.sqrt(Math.PI), 1e-15);
    for (const x of [-1, -0.2, 0.3, 1, 2]) {
      expectNear((ierfc(x - 1e-5) - ierfc(x + 1e-5)) / 2e-5, erfc(x), 1e-6);
    }
  });
});

describe('the inverse of erfc', () => {
  it.each([
    [1e-300, 26.209469960516124],
    [0.01, 1.8213863677184496],
    [0.3, 0.7328690779592169],
    [0.9, 0.08885599049425769],
  ])('at %d', (y, x) => {
    expectNear(inverseErfc(y), x, 1e-13);
  });

  it('undoes erfc, and is refused where erfc has no such value', () => {
    expect(inverseErfc(1)).toBe(0);
    for (const x of [1e-3, 0.2, 1, 4, 20]) expectNear(inverseErfc(erfc(x)), x, 1e-11);
    expect(() => inverseErfc(0)).toThrow(RangeError);
    expect(() => inverseErfc(1.5)).toThrow(RangeError);
  });
});

describe('the fall of erfcx', () => {
  it.each([
    [0, 0.06, 1.070983051072528],
    [0, 0.04, 1.089551525126029],
    [0.7, 1e-6, 0.3920764433297885],
    [2, 0.049, 0.1047846182640829],
    [2, 0.051, 0.1047040250604889],
    [2, -0.6, 0.1389131072820481],
    [5, 0.03, 0.02121224299603013],
    [1, 1000, 0.0004270199504794666],
  ])('from %d over %d', (x, z, fall) => {
    expectNear(erfcxFall(x, z), fall, 3e-14);
  });

  it('over nothing is minus its slope', () => {
    expectNear(erfcxFall(0, 0), 2 / Math.sqrt(Math.PI), 1e-15);
    expectNear(erfcxFall(1, 0), 2 / Math.sqrt(Math.PI) - 2 * erfcx(1), 1e-13);
  });
});

describe('the sums for what has come in through a surface', () => {
  // Inverse Laplace transforms by Talbot's contour, 40 digits.
  it.each([
    [3, -0.5, 1.552683622539203],
    [3, 0.3, 0.8123676077367658],
    [3, 0.99, 0.5585415656450421],
    [3, 1.01, 0.5534063063206232],
    [3, 1000, 0.001127379731284814],
    [4, -0.5, 1.105367245078406],
    [4, 0.3, 0.6254413075441143],
    [4, 0.99, 0.4459176104595535],
    [4, 1.01, 0.4421719739399771],
    [4, 1000, 0.0009988726202687151],
  ] as const)('k = %d, z = %d', (k, z, sum) => {
    expectNear(surfaceSum(k, z), sum, 1e-14);
  });
});
