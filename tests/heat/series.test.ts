import { describe, expect, it } from 'vitest';
import { EARLY_UNTIL } from '../../src/heat/early.js';
import type { Form } from '../../src/heat/roots.js';
import { oneTerm, profileOf, seriesOf } from '../../src/heat/series.js';

const FORMS: readonly Form[] = ['wall', 'cylinder', 'sphere'];

/**
 * Form, Bi, Fo, position or mean; 1 - theta by numerical inversion of the Laplace transform of the solution (Talbot's contour, 36
 * points, 40 digits): a way that shares nothing with the series.
 */
const EXACT = `
  wall     0.01    1e-09   mean   9.99999762117e-12
  wall     3       1e-09   mean   2.99978591861e-09
  wall     0.4999  1e-09   mean   4.99894055361e-10
  wall     0.5     1e-09   mean   4.99994052982e-10
  wall     50      1e-07   0.999  0.000195733122268
  wall     1000    1e-07   1.0    0.276421561522
  wall     0.01    1e-07   0.9995 5.92182104655e-07
  wall     1       1e-07   0.9995 5.92067773282e-05
  wall     50      1e-05   0.999  0.117350050581
  wall     1.0001  1e-05   0.9995 0.00308251598637
  wall     3       1e-05   mean   2.97872474389e-05
  wall     0.3     1e-05   0.999  0.000796504606505
  wall     0.3     0.001   0.99   0.00790954866001
  wall     0.0001  0.001   0.9995 3.51846142269e-06
  wall     0.5     0.001   1.0    0.0175941837465
  wall     0.01    0.001   0.9995 0.000351748919499
  wall     1       0.0099  0.99   0.0943371005126
  wall     0.4999  0.0099  0.999  0.0532687794778
  wall     1000    0.0099  0.9    0.472906783555
  wall     50      0.0099  1.0    0.88875815247
  wall     0.4999  0.0101  0.999  0.0537858264713
  wall     1.0001  0.0101  0.999  0.103132010278
  wall     3       0.0101  0.9995 0.265329270505
  wall     1000    0.0101  0.999  0.988772948637
  wall     0.3     0.05    0.99   0.0686592595206
  wall     0.5     0.05    0.0    0.00012940729236
  wall     0.01    0.05    0.3    2.97305577217e-05
  wall     1e+06   0.05    mean   0.25231225218
  wall     0.0001  1       0.3    8.78273379761e-05
  wall     0.3     1       0.0    0.20403981906
  wall     1000    1       mean   0.930851221497
  wall     0.4999  1       0.0    0.301573730233
  cylinder 1000    1e-09   mean   1.95340417276e-06
  cylinder 0.4999  1e-09   1.0    1.78376729648e-05
  cylinder 3       1e-09   1.0    0.000107039947424
  cylinder 50      1e-09   mean   9.98811820258e-08
  cylinder 50      1e-07   1.0    0.0175966256353
  cylinder 0.4999  1e-07   1.0    0.000178376735619
  cylinder 0.3     1e-07   0.9995 1.77706343625e-05
  cylinder 3       1e-07   1.0    0.0010697249244
  cylinder 0.3     1e-05   0.99   1.18909490161e-05
  cylinder 3       1e-05   0.9995 0.00921172138927
  cylinder 1000    1e-05   mean   0.00547245215219
  cylinder 0.0001  1e-05   0.99   3.96534943446e-09
  cylinder 0.0001  0.001   0.99   2.70583108628e-06
  cylinder 0.5     0.001   mean   0.000988105233805
  cylinder 0.4999  0.001   0.999  0.0173524764862
  cylinder 1e+06   0.001   0.9    0.0267227509907
  cylinder 1.0001  0.0099  1.0    0.107604650726
  cylinder 0.0001  0.0099  0.999  1.16521710195e-05
  cylinder 3       0.0099  0.9995 0.27359740532
  cylinder 1000    0.0099  0.99   0.943039682555
  cylinder 50      0.0101  0.9995 0.895401047747
  cylinder 1       0.0101  mean   0.0187216003238
  cylinder 1.0001  0.0101  mean   0.0187233342482
  cylinder 0.3     0.0101  0.999  0.0343782273264
  cylinder 0.01    0.05    0.0    1.19730442155e-05
  cylinder 1000    0.05    0.9995 0.997021581414
  cylinder 0.4999  0.05    0.99   0.122439016964
  cylinder 0.5     0.05    0.3    0.00282845297857
  cylinder 0.4999  1       0.99   0.634531974696
  cylinder 1e+06   1       0.999  0.999993832915
  cylinder 0.0001  1       0.999  0.000224869861499
  cylinder 0.5     1       0.0    0.540153995195
  sphere   0.4999  1e-09   1.0    1.78379229163e-05
  sphere   1000    1e-09   mean   2.93010553693e-06
  sphere   0.01    1e-09   mean   2.99999928634e-11
  sphere   50      1e-09   mean   1.49821771167e-07
  sphere   0.0001  1e-07   0.999  3.94715703075e-10
  sphere   0.01    1e-07   mean   2.99999286202e-09
  sphere   1       1e-07   0.999  3.94659303942e-06
  sphere   1e+06   1e-07   0.9995 0.262731518086
  sphere   1       1e-05   1.0    0.00356824823231
  sphere   0.4999  1e-05   0.999  0.00133133537631
  sphere   0.0001  1e-05   0.9995 3.10043237522e-07
  sphere   0.5     1e-05   0.999  0.00133160135042
  sphere   1.0001  0.001   0.9    0.000438115008487
  sphere   0.3     0.001   0.9    0.000132748533447
  sphere   1e+06   0.001   0.9995 0.991558495433
  sphere   1000    0.001   0.9995 0.974696533224
  sphere   1e+06   0.0099  0.99   0.952868479286
  sphere   1.0001  0.0099  0.3    5.74311763215e-08
  sphere   0.01    0.0099  mean   0.00029676223397
  sphere   0.5     0.0099  0.99   0.0541091677657
  sphere   0.3     0.0101  mean   0.00887377295791
  sphere   1e+06   0.0101  0.0    1.99714636422e-10
  sphere   0.5     0.0101  0.9    0.0232421770376
  sphere   50      0.0101  0.3    1.64215786928e-06
  sphere   0.01    0.05    0.0    3.42065413516e-05
  sphere   1       0.05    0.3    0.0099019358222
  sphere   0.0001  0.05    0.3    1.10130143857e-06
  sphere   50      0.05    0.3    0.0780619698367
  sphere   1000    1       mean   0.999967833461
  sphere   50      1       0.0    0.999847448785
  sphere   3       1       0.9995 0.997163965385
  sphere   1e+06   1       mean   0.999968555358`;

describe('theta', () => {
  const rows = EXACT.trim()
    .split('\n')
    .map((row) => row.trim().split(/\s+/));

  it.each(rows)('%s, Bi = %s, Fo = %s, at %s: 1 - theta = %s', (form, biot, fourier, at, gain) => {
    const series = seriesOf(form as Form, Number(biot));
    const theta = at === 'mean' ? series.mean(Number(fourier)) : series.theta(Number(fourier), Number(at));
    expect(Math.abs(1 - theta - Number(gain))).toBeLessThanOrEqual(1e-9);
  });

  it.each(FORMS)('begins at 1 everywhere and ends at 0: %s', (form) => {
    for (const biot of [1e-4, 0.5, 1, 30, 1e6, Infinity]) {
      const series = seriesOf(form, biot);
      for (const position of [0, 0.3, 1]) {
        expect(series.theta(0, position)).toBe(1);
        expect(Math.abs(series.theta(1e6, position))).toBeLessThan(1e-12);
      }
      expect(series.mean(0)).toBe(1);
      expect(series.heatFraction(0)).toBe(0);
      expect(series.heatFraction(1e6)).toBe(1);
    }
  });

  it.each(FORMS)('has no step where the early form gives way to the series: %s', (form) => {
    const before = EARLY_UNTIL[form];
    const after = before * (1 + 1e-12);
    for (const biot of [1e-4, 0.4, 0.5, 1, 8, 1e3, 1e6, Infinity]) {
      const series = seriesOf(form, biot);
      for (const position of [0, 0.5, 0.95, 0.999, 0.9998, 1]) {
        expect(Math.abs(series.theta(before, position) - series.theta(after, position))).toBeLessThan(1e-9);
      }
      expect(Math.abs(series.mean(before) - series.mean(after))).toBeLessThan(1e-9);
    }
  });

  it.each(FORMS)('stays at 1 for good with an insulated surface: %s', (form) => {
    const series = seriesOf(form, 0);
    for (const fourier of [0, 1e-8, 0.1, 100]) {
      expect(series.theta(fourier, 0.7)).toBe(1);
      expect(series.mean(fourier)).toBe(1);
    }
  });

  it.each(FORMS)('of a surface held at the medium’s temperature is 0 at the surface: %s', (form) => {
    const series = seriesOf(form, Infinity);
    for (const fourier of [1e-7, 1e-3, 0.1, 1]) expect(Math.abs(series.theta(fourier, 1))).toBeLessThan(1e-8);
    // Where convection is as strong as can be written, it comes to the same.
    expect(seriesOf(form, 1e14).theta(0.1)).toBeCloseTo(series.theta(0.1), 12);
  });

  it.each(FORMS)('of a small Biot number is that of a lump, exp(-directions x Bi x Fo): %s', (form) => {
    const directions = FORMS.indexOf(form) + 1;
    expect(seriesOf(form, 1e-4).theta(5000)).toBeCloseTo(Math.exp(-directions * 0.5), 4);
  });

  it('is refused for numbers that mean nothing', () => {
    expect(() => seriesOf('wall', -1)).toThrow(RangeError);
    expect(() => seriesOf('wall', Number.NaN)).toThrow(RangeError);
    const series = seriesOf('wall', 1);
    expect(() => series.theta(-0.1)).toThrow(RangeError);
    expect(() => series.theta(0.1, 1.1)).toThrow(RangeError);
    expect(() => series.mean(Number.NaN)).toThrow(RangeError);
  });
});

describe('one term', () => {
  it.each(FORMS)('is what is left of the series later on: %s', (form) => {
    for (const biot of [0.01, 1, 100]) {
      const { zeta, amplitude } = oneTerm(form, biot);
      const series = seriesOf(form, biot);
      expect(series.root(1)).toBe(zeta);
      expect(series.amplitude(1)).toBe(amplitude);
      const theta = (fourier: number): number =>
        amplitude * Math.exp(-zeta * zeta * fourier) * profileOf(form, zeta * 0.6);
      expect(theta(2) / series.theta(2, 0.6)).toBeCloseTo(1, 8);
      // The books allow it from 0.2 on.
      expect(Math.abs(theta(0.2) - series.theta(0.2, 0.6))).toBeLessThan(0.02);
    }
  });

  it.each(FORMS)('amplitudes add up to the start temperature in the middle: %s', (form) => {
    const series = seriesOf(form, 2);
    let sum = 0;
    // The terms fall off slowly and change sign: the mean of two partial sums.
    for (let n = 1; n <= 400; n++) sum += series.amplitude(n) * (n === 400 ? 0.5 : 1);
    expect(sum).toBeCloseTo(1, 3);
  });
});
