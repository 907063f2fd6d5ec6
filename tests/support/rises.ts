/** Published rises of a core after the oven, beside what the model says. °C, minutes, kilograms. */
import { CALIBRATION, type Calibration } from '../../src/heat/calibration.js';
import { FOODS } from '../../src/heat/composition.js';
import { Prepared } from '../../src/heat/heating.js';
import type { Joint } from '../../src/heat/joint.js';
import { cutOf } from './cuts.js';

export interface Rise {
  readonly source: string;
  readonly cut: string;
  readonly joint: Joint;
  readonly oven: number;
  /** °C at the core when it is taken out, and the published °C afterwards. */
  readonly pull: number;
  readonly low: number;
  readonly high: number;
  /** For which it stands: the middle of what is published. */
  readonly minutes: number;
}

const POUND = 0.45359237;
const celsius = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;

const TIMETABLE =
  'US beef industry roasting timetable (attribution from memory; three reproductions agree), 10 to 20 min of standing; its weights from memory';

/** `pounds`: the middle of the timetable's weights for the cut. */
function beef(cut: string, pounds: number, oven: number, pull: number, final: number): Rise {
  const { joint } = cutOf('beef', cut, pounds * POUND)!;
  const end = celsius(final);
  return { source: TIMETABLE, cut, joint, oven: celsius(oven), pull: celsius(pull), low: end, high: end, minutes: 15 };
}

const joint = (species: string, cut: string, weight: number): Joint => cutOf(species, cut, weight)!.joint;

/** In the order of carryover.json. Those without an oven, a cut or a time are left out. */
export const RISES: readonly Rise[] = [
  {
    source: 'Gisslen, Professional Cooking (attribution from memory): rare rib out at 115 to 120 F, 130 F after 30 min',
    cut: 'rib roast, 15 lb',
    joint: joint('beef', 'rib roast, bone-in', 15 * POUND),
    oven: celsius(325),
    pull: celsius(117.5),
    low: celsius(130),
    high: celsius(130),
    minutes: 30,
  },
  beef('rib roast, bone-in', 6, 350, 135, 145),
  beef('rib roast, bone-in', 6, 350, 150, 160),
  beef('tenderloin, whole', 4.5, 425, 135, 145),
  beef('tenderloin, whole', 4.5, 425, 150, 160),
  beef('tri-tip', 2, 425, 135, 145),
  beef('tri-tip', 2, 425, 150, 160),
  beef('round tip', 4, 325, 140, 145),
  beef('round tip', 4, 325, 155, 160),
  beef('rump', 3.5, 325, 135, 145),
  {
    source: 'lamb roasting chart of a butchery page (2008): stand 15 min, 5 to 10 F more',
    cut: 'leg, bone-in, 7 lb',
    joint: joint('lamb', 'leg, bone-in', 7 * POUND),
    oven: celsius(325),
    pull: celsius(140),
    low: celsius(145),
    high: celsius(150),
    minutes: 15,
  },
  {
    source: 'Cengel, Heat and Mass Transfer, problem 4-77: about 4 C in 15 min',
    cut: 'rib roast, 3.2 kg',
    joint: joint('beef', 'rib roast, bone-in', 3.2),
    oven: 163,
    pull: 56,
    low: 60,
    high: 60,
    minutes: 15,
  },
];

/** A large roast of beef, 15 cm thick, for the rest after which it is usually carved. */
const large: Joint = {
  food: FOODS.beef,
  body: { shape: 'cylinder', thickness: 0.15, length: 0.33 },
  from: 5,
  bone: false,
  crust: 0,
};

/** Common practice, no source: a large roast out at 53 to 55 °C from 160 to 175 °C is at 57 to 60 °C after 20 to 30 minutes. */
export const PRACTICE: readonly Rise[] = [
  [53, 160],
  [54, 167],
  [55, 175],
].flatMap(([pull, oven]) =>
  [20, 30].map((minutes) => ({
    source: 'common practice, no source',
    cut: 'large roast, 15 cm',
    joint: large,
    oven: oven!,
    pull: pull!,
    low: 57,
    high: 60,
    minutes,
  })),
);

/** °C by which the model is above what is published, or below (negative). */
export function beyond(rise: Rise, calibration: Calibration = CALIBRATION): number {
  const core = coreAfter(rise, calibration);
  return core > rise.high ? core - rise.high : Math.min(core - rise.low, 0);
}

/** °C at the core after so many minutes in the open, by the model. */
export function coreAfter({ joint, oven, pull, minutes }: Rise, calibration: Calibration = CALIBRATION): number {
  const prepared = new Prepared(joint, [], undefined, calibration);
  const heat = { kind: 'air', celsius: oven, moving: 'still', on: 'rack' } as const;
  const rest = { around: { kind: 'room', celsius: 21, covered: false }, minutes } as const;
  const pulled = prepared.pulledAt(heat, pull, [rest]);
  return pulled === null ? Number.NaN : pulled.peak;
}
