/** One piece on its way through one temperature of the heat: when its core gets somewhere, and where it must leave to rest up to a target. °C, minutes, seconds inside. */
import { CALIBRATION, type Calibration } from './calibration.js';
import type { Field } from './field.js';
import { type Joint, pieceOf } from './joint.js';
import { partsOf, type Setting } from './setting.js';
import { type Accuracy, goBriefly, type Stretch, TABLE } from './stretch.js';

/** A setting and how long. */
export interface Leg {
  readonly around: Setting;
  readonly minutes: number;
}

/** How one piece may differ from what was said. */
export interface Variation {
  /** All sizes times this. */
  readonly thicker: number;
  /** All coefficients of transfer times this. */
  readonly transfer: number;
  /** K on top of the start temperature. */
  readonly warmer: number;
}

export const AS_SAID: Variation = { thicker: 1, transfer: 1, warmer: 0 };

/** A piece that left the heat. */
export interface Pulled {
  /** On the heat. */
  readonly minutes: number;
  /** °C at the core when it left. */
  readonly core: number;
  /** The highest °C at the core from there to the end of the rest, and how many minutes after the pull. */
  readonly peak: number;
  readonly peakAfter: number;
  /** By how much the peak is higher for each degree at which it is pulled later; NaN where it was not looked for. */
  readonly slope: number;
}

/** Where a piece is expected to be pulled for its target, °C, and the slope there. */
export interface Expected {
  readonly core: number;
  readonly slope: number;
}

/** A core that is nowhere near after this long never gets there, s. */
const LONGEST = 48 * 3600;
/** How near the peak comes to its target, K. */
const NEAR = 0.03;
/** A peak so near to its target, K, is taken there in a straight line where the slope is known: from two pulls so far apart, K. */
const STRAIGHT = 0.7;
const APART = 0.3;
/** A rise after the heat where none is expected, and what a pull a degree higher does to the peak. */
const RISE = 9.5;
const SLOPE = 0.8;

interface Moment {
  readonly seconds: number;
  readonly core: number;
  /** K/s at the core, on the heat; 0 at the beginning. */
  readonly rate: number;
  readonly field: Field;
}

/** A piece after all that comes before the heat. */
export class Prepared {
  private readonly begin: Moment;

  constructor(
    readonly joint: Joint,
    before: readonly Leg[],
    private readonly variation: Variation = AS_SAID,
    private readonly calibration: Calibration = CALIBRATION,
    private readonly accuracy: Accuracy = TABLE,
  ) {
    const { thicker, warmer } = variation;
    const piece = { ...pieceOf(joint, calibration, thicker), celsius: joint.from + warmer };
    const { field, ends } = goBriefly(piece, this.through(before), accuracy);
    this.begin = { seconds: 0, core: ends.at(-1)?.core ?? piece.celsius, rate: 0, field: field() };
  }

  /** Minutes on the heat until the core is `core`; Infinity where it never is. */
  minutesTo(heat: Setting, core: number): number {
    const end = this.heated(heat, this.begin, core, true);
    return end === null ? Number.POSITIVE_INFINITY : end.seconds / 60;
  }

  /** Pulled at a core temperature, and what follows; null where it never gets there. */
  pulledAt(heat: Setting, core: number, after: readonly Leg[]): Pulled | null {
    const end = this.heated(heat, this.begin, core);
    if (end === null) return null;
    return end === this.begin ? this.followed(end, after) : later(this.followed(end, after), core - end.core, end.rate);
  }

  /**
   * Pulled so that the core's peak is `target`; null where it never gets there. The heating is gone through once, with a stop wherever a
   * rest is tried; each rest goes on from what was kept there.
   */
  pulledFor(heat: Setting, target: number, after: readonly Leg[], expected: Expected | null = null): Pulled | null {
    // Stops in the order of their temperature: what is tried next goes on from the warmest below.
    const stops: Moment[] = [this.begin];
    const tried: Pulled[] = [];
    let [low, high] = [this.begin.core, target];
    let next = Math.min(Math.max(low, expected?.core ?? target - RISE), high);
    for (let i = 0; i < 20; i++) {
      const from = stops.findLast(({ core }) => core <= next)!;
      const end = next <= this.begin.core ? this.begin : this.heated(heat, from, next);
      if (end === null) return null;
      if (end !== from) stops.splice(stops.indexOf(from) + 1, 0, end);
      const pulled = this.followed(end, after);
      tried.push(pulled);
      const over = pulled.peak - target;
      const slope = slopeOf(tried) ?? expected?.slope ?? Number.NaN;
      const straight = -over / slope;
      const core = pulled.core + straight;
      if (Math.abs(over) <= STRAIGHT && end !== this.begin && core > this.begin.core && core <= target)
        return { ...later(pulled, straight, end.rate), peak: target, slope };
      if (Math.abs(over) <= NEAR || high - low <= NEAR || (over > 0 && end === this.begin)) return { ...pulled, slope };
      if (over > 0) high = next;
      else low = next;
      next = pulled.core - over / (slope > 0.05 ? slope : SLOPE);
      if (!(next > low && next < high)) next = (low + high) / 2;
    }
    return tried.at(-1)!;
  }

  /** On the heat from a moment until the core is `core`; null where it never is. `past`: only the instant is wanted. */
  private heated(heat: Setting, from: Moment, core: number, past = false): Moment | null {
    if (core <= from.core) return from;
    // When the other face's turn comes is not known before the end is.
    const [part] = partsOf(turnedOften(heat), this.joint, this.calibration, this.variation.transfer);
    const until = { core, most: Math.max(LONGEST - from.seconds, 0), past };
    const { ends, field } = goBriefly(from.field, [{ around: part!.around, until }], this.accuracy);
    const [end] = ends;
    if (!end!.reached) return null;
    const { core: there, rate } = end!;
    return { seconds: from.seconds + end!.seconds, core: there, rate, field: past ? from.field : field() };
  }

  private followed({ seconds, core, field }: Moment, after: readonly Leg[]): Pulled {
    let [peak, peakAfter] = [core, 0];
    const stretches = this.through(after);
    if (stretches.length > 0) {
      // The last leg needs to be followed no further than to its peak.
      const last = stretches.at(-1)!;
      const most = 'seconds' in last.until ? last.until.seconds : 0;
      const all = [...stretches.slice(0, -1), { ...last, until: { peak: true, most } as const }];
      const { highest } = goBriefly(field, all, this.accuracy);
      if (highest.core > peak) [peak, peakAfter] = [highest.core, highest.seconds / 60];
    }
    return { minutes: seconds / 60, core, peak, peakAfter, slope: Number.NaN };
  }

  private through(legs: readonly Leg[]): Stretch[] {
    return stretchesOf(this.joint, legs, this.calibration, this.variation.transfer);
  }
}

/** As if it were turned all the time, which takes about as long. */
export const turnedOften = (around: Setting): Setting =>
  around.kind === 'sear' ? { ...around, turns: 'often' } : around;

/** The legs as the solver takes them. */
export function stretchesOf(joint: Joint, legs: readonly Leg[], calibration: Calibration, transfer = 1): Stretch[] {
  return legs.flatMap(({ around, minutes }) =>
    partsOf(around, joint, calibration, transfer).map((part) => ({
      around: part.around,
      until: { seconds: part.share * minutes * 60 },
    })),
  );
}

/** The same pulled a little later, at a core by `more` K warmer that rises at `rate` K/s. */
function later(pulled: Pulled, more: number, rate: number): Pulled {
  const minutes = pulled.minutes + more / rate / 60;
  return { ...pulled, minutes: Math.max(minutes, 0), core: pulled.core + more, peak: pulled.peak + SLOPE * more };
}

/** By the last two tries; null where they are too near to each other to tell. */
function slopeOf(tried: readonly Pulled[]): number | null {
  const [before, last] = [tried.at(-2), tried.at(-1)!];
  if (before === undefined || Math.abs(last.core - before.core) < APART) return null;
  return (last.peak - before.peak) / (last.core - before.core);
}
