/**
 * The first moments: a body whose surface has begun to warm while its middle has not noticed. There the series would need thousands of
 * terms, and the body is as good as half-infinite under each face.
 *
 * `gain` is (T - start) / (medium - start). Positions and the depth below the surface are in half thicknesses or radii.
 * Source: the Laplace transforms of the exact solutions (Carslaw and Jaeger, 12.4 and 13.3), kept to the waves that go once from the
 * surface inwards, which leaves out less than erfc(1 / sqrt(Fo)); in the cylinder, by the asymptotic form of its Bessel functions,
 * to a relative error of about Fo^1.5.
 */
import { erfcxFall, surfaceSum } from './error-function.js';
import { checkedBiot, DIRECTIONS, type Form } from './roots.js';

/** Up to these Fourier numbers the forms below hold to better than 1e-9. */
export const EARLY_UNTIL: Readonly<Record<Form, number>> = { wall: 0.01, cylinder: 2e-6, sphere: 0.01 };

/** Gain at `position`, 0 the middle to 1 the surface, at a Fourier number up to `EARLY_UNTIL`. */
export function earlyGain(form: Form, biot: number, fourier: number, position: number): number {
  if (fourier === 0) return 0;
  const bi = checkedBiot(biot);
  const wave = (depth: number, b: number): number => bi * surfaceWave(b, fourier, depth);
  if (form === 'wall') return wave(1 - position, bi) + wave(1 + position, bi);
  if (form === 'sphere') {
    // Across so little of the middle the gain does not change.
    const r = Math.max(position, 1e-4);
    return (wave(1 - r, bi - 1) - wave(1 + r, bi - 1)) / r;
  }
  // Deeper than this nothing has come.
  if (1 - position > 14 * Math.sqrt(fourier)) return 0;
  const b = bi - 1 / 2;
  const wave0 = wave(1 - position, b);
  // Curvature makes the surface wave grow by exp(Fo / 4), less what the steady source would have grown.
  const curved = wave0 * (1 + fourier / 4) - (bi / 4) * overTime((time) => surfaceWave(b, time, 1 - position), fourier);
  return curved / Math.sqrt(position);
}

/** Gain of the mean temperature, which is the heat taken up over the most that can be, up to `EARLY_UNTIL`. */
export function earlyMeanGain(form: Form, biot: number, fourier: number): number {
  if (fourier === 0) return 0;
  const bi = checkedBiot(biot);
  const bend = (DIRECTIONS[form] - 1) / 2;
  const root = Math.sqrt(fourier);
  const z = (bi - bend) * root;
  return DIRECTIONS[form] * bi * fourier * (surfaceSum(3, z) - bend * root * surfaceSum(4, z));
}

/** The inverse transform of exp(-q depth) / (s (q + b)), q = sqrt(s), at time `fourier`. */
function surfaceWave(b: number, fourier: number, depth: number): number {
  const root = Math.sqrt(fourier);
  const eta = depth / (2 * root);
  return eta > 7 ? 0 : root * Math.exp(-eta * eta) * erfcxFall(eta, b * root);
}

/** Gauss and Legendre's five points on [0, 1], each with its weight. */
const FIVE_POINTS = [
  [0.046910077030668, 0.1184634425280945],
  [0.2307653449471585, 0.2393143352496832],
  [0.5, 0.2844444444444444],
  [0.7692346550528415, 0.2393143352496832],
  [0.953089922969332, 0.1184634425280945],
] as const;

/** The integral from 0 to `end`, over the root of time, in which waves are smooth: enough for what is itself a small correction. */
function overTime(value: (time: number) => number, end: number): number {
  return FIVE_POINTS.reduce((sum, [root, weight]) => sum + weight * 2 * root * end * value(end * root * root), 0);
}
