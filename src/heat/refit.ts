/**
 * What thermometer readings say of a piece: how well heat gets into it, and so when its core will be where. Minutes, °C.
 *
 * A piece that heats too slowly is bigger than was said or takes its heat less well, and readings of a core can hardly tell which. So both
 * are free, each with a spread of its own, and every pair of factors counts by how likely it is (Bayes): its prior times the likelihood
 * of the readings with normal errors. Histories are gone through for a few pairs, the others lie between them (Lagrange's polynomials
 * over the logarithms of the factors).
 */
import { CALIBRATION } from './calibration.js';
import { type Leg, stretchesOf, turnedOften } from './heating.js';
import type { History } from './history.js';
import { type Joint, pieceOf } from './joint.js';
import { partsOf, type Setting } from './setting.js';
import { STANDARD_DEVIATIONS } from './spread.js';
import { type Accuracy, goThrough } from './stretch.js';

/** A core, so many minutes after the first leg began. */
export interface CoreReading {
  readonly minutes: number;
  readonly celsius: number;
}

export interface Followed {
  readonly joint: Joint;
  /** What it went through before what is around it now, in order. */
  readonly before: readonly Leg[];
  readonly heat: Setting;
  /** Those in `before` count as well. */
  readonly readings: readonly CoreReading[];
}

/** One day in ten lies below `low` and one above `high`; `likely` is the median. */
export interface Range {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** Standard deviations of the logarithms of the factors. */
interface Prior {
  readonly size: number;
  readonly transfer: number;
}

/** Where nothing was read: the spread of a plan (spread.ts). */
const UNREAD: Prior = { size: 0.05 / STANDARD_DEVIATIONS, transfer: 0.15 / STANDARD_DEVIATIONS };
/** What is read shows also what was said wrongly: a ruler on soft food, an oven that is not as hot as its dial. Our estimates. */
const READ: Prior = { size: 0.1, transfer: 0.2 };
/** Standard deviation of a reading, K: the thermometer's 1 K, and that its tip is not quite in the middle. */
const READING = 1.5;

/** Pairs that are gone through, as multiples of those deviations; and how finely the rest is looked at. */
const NODES = [-2.4, -0.8, 0.8, 2.4];
const LIMIT = 2.6;
const FINE = 27;

const ROUGH: Accuracy = { cells: 6, across: 5, tolerance: 1, evens: true, instant: 5 };
/** In three directions a grid costs much. */
const BRICK: Accuracy = { cells: 4, across: 3, tolerance: 1.5, evens: true, instant: 5 };
/** Minutes after which nothing gets anywhere any more. */
const LONGEST = 30 * 60;

const FACTORS = Array.from({ length: FINE }, (_, k) => -LIMIT + (2 * LIMIT * k) / (FINE - 1));
/** The fine place of both factors at 1. */
const AS_SAID = ((FINE - 1) / 2) * (FINE + 1);
/** By fine place, how much each node counts. */
const WEIGHTS = FACTORS.map((at) =>
  NODES.map((node, i) =>
    NODES.reduce((product, other, j) => (j === i ? product : (product * (at - other)) / (node - other)), 1),
  ),
);

/** A piece after its readings. */
export class Refit {
  /** By node of transfer, then of size. */
  private readonly courses: readonly Course[];
  /** By fine place of transfer, then of size; they sum up to 1. */
  private readonly likelihoods: Float64Array;
  /** Factor on all coefficients of heat transfer. */
  readonly transfer: Range;
  /** Factor on all sizes. */
  readonly size: Range;

  /** `until`: the highest core that will be asked about. */
  constructor(followed: Followed, until: number) {
    const prior = followed.readings.length === 0 ? UNREAD : READ;
    this.courses = NODES.flatMap((f) =>
      NODES.map((s) => courseOf(followed, Math.exp(f * prior.transfer), Math.exp(s * prior.size), until)),
    );
    this.likelihoods = likelihoodsOf(this.courses, followed.readings);
    const along = (pick: (f: number, s: number) => number): Range =>
      this.rangeOf(FACTORS.flatMap((f) => FACTORS.map((s) => pick(f, s))));
    this.transfer = along((f) => Math.exp(f * prior.transfer));
    this.size = along((_, s) => Math.exp(s * prior.size));
  }

  /** When the core is at a temperature, minutes after the first leg began; Infinity: perhaps never. */
  minutesTo(celsius: number): Range {
    const nodes = this.courses.map((course) => Math.log(Math.max(1e-3, Math.min(LONGEST, course.minutesTo(celsius)))));
    const { low, likely, high } = this.rangeOf(between(nodes).map(Math.exp));
    const open = (minutes: number): number => (minutes > 0.97 * LONGEST ? Number.POSITIVE_INFINITY : minutes);
    return { low: open(low), likely: open(likely), high: open(high) };
  }

  /** How many times as fast as was said it gets to a core, once it is where it is; null where it perhaps never does. */
  paceTo(celsius: number): Range | null {
    const nodes = this.courses.map((course) => course.minutesTo(celsius) - course.last);
    if (!nodes.every((minutes) => minutes > 0 && minutes < LONGEST)) return null;
    const minutes = between(nodes.map(Math.log));
    return this.rangeOf(minutes.map((log) => Math.exp(minutes[AS_SAID]! - log)));
  }

  /** Where the core is at a minute, if it stays where it is. */
  coreAt(minutes: number): Range {
    return this.rangeOf(between(this.courses.map((course) => course.coreAt(minutes))));
  }

  private rangeOf(values: readonly number[]): Range {
    const order = values.map((_, k) => k).sort((a, b) => values[a]! - values[b]!);
    const at = (share: number): number => {
      let sum = 0;
      for (const k of order) {
        sum += this.likelihoods[k]!;
        if (sum >= share) return values[k]!;
      }
      return values[order.at(-1)!]!;
    };
    return { low: at(0.1), likely: at(0.5), high: at(0.9) };
  }
}

/** A node's values at every fine place. */
function between(nodes: readonly number[]): number[] {
  const n = NODES.length;
  return WEIGHTS.flatMap((f) =>
    WEIGHTS.map((s) => {
      let sum = 0;
      for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) sum += f[i]! * s[j]! * nodes[i * n + j]!;
      return sum;
    }),
  );
}

function likelihoodsOf(courses: readonly Course[], readings: readonly CoreReading[]): Float64Array {
  const errors = new Float64Array(FINE * FINE);
  for (const { minutes, celsius } of readings) {
    const cores = between(courses.map((course) => course.coreAt(minutes)));
    for (const [k, core] of cores.entries()) errors[k]! += ((core - celsius) / READING) ** 2;
  }
  for (const [a, f] of FACTORS.entries())
    for (const [b, s] of FACTORS.entries()) errors[a * FINE + b]! += f * f + s * s;
  const least = Math.min(...errors);
  const likelihoods = errors.map((error) => Math.exp((least - error) / 2));
  const sum = likelihoods.reduce((total, one) => total + one, 0);
  return likelihoods.map((one) => one / sum);
}

/** A core's way at one pair of factors. */
class Course {
  constructor(
    private readonly history: History,
    /** Minutes at which the last leg begins. */
    readonly last: number,
  ) {}

  coreAt(minutes: number): number {
    const { seconds, core } = this.history;
    const time = minutes * 60;
    const last = seconds.length - 1;
    if (time >= seconds[last]!) return core[last]!;
    let k = 1;
    while (seconds[k]! < time) k++;
    return this.hermite(k, time);
  }

  /** The first time in the last leg at which the core is there. */
  minutesTo(celsius: number): number {
    const { seconds, core } = this.history;
    for (let k = 1; k < seconds.length; k++) {
      if (seconds[k]! / 60 < this.last || core[k]! < celsius) continue;
      let [low, high] = [Math.max(seconds[k - 1]!, this.last * 60), seconds[k]!];
      if (this.hermite(k, low) >= celsius) return low / 60;
      while (high - low > 1) {
        const middle = (low + high) / 2;
        if (this.hermite(k, middle) < celsius) low = middle;
        else high = middle;
      }
      return high / 60;
    }
    return Number.POSITIVE_INFINITY;
  }

  /** Cubic between two rows, by their cores and slopes. */
  private hermite(k: number, time: number): number {
    const { seconds, core, coreRate } = this.history;
    const step = seconds[k]! - seconds[k - 1]!;
    if (step <= 0) return core[k]!;
    const x = (time - seconds[k - 1]!) / step;
    const [a, b] = [core[k - 1]!, core[k]!];
    const [da, db] = [coreRate[k - 1]! * step, coreRate[k]! * step];
    return a + x * (da + x * (3 * (b - a) - 2 * da - db + x * (2 * (a - b) + da + db)));
  }
}

/** Up to a core, and at least to the last reading. */
function courseOf({ joint, before, heat, readings }: Followed, transfer: number, size: number, core: number): Course {
  const piece = { ...pieceOf(joint, CALIBRATION, size), celsius: joint.from };
  const legs = before.map(({ around, minutes }) => ({ around: turnedOften(around), minutes }));
  const begins = before.reduce((sum, { minutes }) => sum + minutes, 0);
  const [part] = partsOf(turnedOften(heat), joint, CALIBRATION, transfer);
  const { around } = part!;
  const stretches = stretchesOf(joint, legs, CALIBRATION, transfer);
  const read = Math.max(0, ...readings.map(({ minutes }) => minutes)) - begins;
  const most = LONGEST * 60;
  const accuracy = joint.body.shape === 'brick' ? BRICK : ROUGH;
  const { history } = goThrough(
    piece,
    [...stretches, ...(read > 0 ? [{ around, until: { seconds: read * 60 } }] : []), { around, until: { core, most } }],
    accuracy,
  );
  return new Course(history, begins);
}
