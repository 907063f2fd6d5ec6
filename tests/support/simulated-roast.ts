/** Roasts that are not quite what was said, and a thermometer that is not quite right: what a refit has to cope with. */
import { CALIBRATION } from '../../src/heat/calibration.js';
import { FOODS } from '../../src/heat/composition.js';
import { type Leg, stretchesOf } from '../../src/heat/heating.js';
import { valueAt } from '../../src/heat/history.js';
import { type Joint, pieceOf } from '../../src/heat/joint.js';
import type { CoreReading, Followed } from '../../src/heat/refit.js';
import { partsOf, type Setting } from '../../src/heat/setting.js';
import { goThrough } from '../../src/heat/stretch.js';
import type { Rng } from '../../src/kernel/rng.js';

export interface SimulatedRoast {
  /** As it was said; its readings are of what it is. */
  readonly followed: Followed;
  readonly pull: number;
  /** Minutes after the first leg began at which the core really is at `pull`, and at which it would be if all were as said. */
  readonly truth: number;
  readonly said: number;
}

const normal = (rng: Rng): number => Math.sqrt(-2 * Math.log(1 - rng.real())) * Math.cos(2 * Math.PI * rng.real());

/** A reading's error, K (standard deviation). */
const NOISE = 1;
/** All sizes are this share more or less than was said. */
const WRONG = 0.15;

export function simulatedRoast(rng: Rng, at: number): SimulatedRoast {
  const joint: Joint = { food: FOODS.pork, body: bodyOf(rng, at), from: 4, bone: false, crust: 0 };
  const before: Leg[] =
    at % 3 === 0
      ? []
      : [
          { around: { kind: 'sear', celsius: 270, on: 'pan', turns: 'sides' }, minutes: 10 },
          { around: { kind: 'room', celsius: 20, covered: false }, minutes: 8 },
        ];
  const heat: Setting = {
    kind: 'air',
    celsius: 140 + 60 * rng.real(),
    moving: at % 2 === 0 ? 'fan' : 'still',
    on: 'rack',
  };
  const pull = 55;
  const go = (transfer: number, size: number, from: number) =>
    goThrough({ ...pieceOf(joint, CALIBRATION, size), celsius: from }, [
      ...stretchesOf(joint, before, CALIBRATION, transfer),
      { around: partsOf(heat, joint, CALIBRATION, transfer)[0]!.around, until: { core: pull, most: 48 * 3600 } },
    ]);
  const size = 1 + (rng.real() < 0.5 ? -WRONG : WRONG);
  const real = go(Math.exp(0.1 * normal(rng)), size, 4 + 1.3 * normal(rng));
  const truth = real.ends.at(-1)!.seconds / 60;
  const begins = before.reduce((sum, { minutes }) => sum + minutes, 0);
  const readings = [0.5, 0.7, 0.85].map((share): CoreReading => {
    const minutes = begins + share * (truth - begins);
    return { minutes, celsius: valueAt(real.history, real.history.core, minutes * 60) + NOISE * normal(rng) };
  });
  return { followed: { joint, before, heat, readings }, pull, truth, said: go(1, 1, 4).ends.at(-1)!.seconds / 60 };
}

function bodyOf(rng: Rng, at: number): Joint['body'] {
  const thickness = 0.08 + 0.06 * rng.real();
  const length = thickness * (1.5 + 2 * rng.real());
  switch (at % 4) {
    case 0:
      return { shape: 'cylinder', thickness, length };
    case 1:
      return { shape: 'brick', thickness, width: thickness * (1 + rng.real()), length };
    case 2:
      return { shape: 'sphere', thickness };
    default:
      return { shape: 'slab', thickness: thickness * 0.6, width: null, length: null };
  }
}
