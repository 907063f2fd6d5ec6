/** One piece on its way through one temperature of the heat: when its core gets somewhere, and where it must leave to rest up to a target. °C, minutes, seconds inside. */
import { CALIBRATION, type Calibration } from './calibration.js';
import type { Field } from './field.js';
import { type Joint, pieceOf } from './joint.js';
import { partsOf, type Setting } from './setting.js';
import { type Accuracy, goThrough, type Stretch, TABLE } from './stretch.js';

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
}

/** A core that is nowhere near after this long never gets there, s. */
const LONGEST = 48 * 3600;
/** How near the peak comes to its target, K. */
const NEAR = 0.03;
/** A rise after the heat where none is expected more closely, how much earlier the first try is, and what a pull a degree higher does to the peak. */
const EXPECTED = 9;
const EARLY = 0.5;
const SLOPE = 0.8;

interface Moment {
  readonly seconds: number;
  readonly core: number;
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
    const { field, history } = goThrough(piece, this.through(before), accuracy);
    this.begin = { seconds: 0, core: history.core.at(-1)!, field };
  }

  /** Minutes on the heat until the core is `core`; Infinity where it never is. */
  minutesTo(heat: Setting, core: number): number {
    const end = this.heated(heat, this.begin, core);
    return end === null ? Number.POSITIVE_INFINITY : end.seconds / 60;
  }

  /** Pulled at a core temperature, and what follows; null where it never gets there. */
  pulledAt(heat: Setting, core: number, after: readonly Leg[]): Pulled | null {
    const end = this.heated(heat, this.begin, core);
    return end === null ? null : this.followed(end, after);
  }

  /**
   * Pulled so that the core's peak is `target`; null where it never gets there. The heating is gone through once, with a stop wherever a
   * rest is tried; each rest goes on from what was kept there. `about`: where the core is expected to be then.
   */
  pulledFor(heat: Setting, target: number, after: readonly Leg[], about = target - EXPECTED): Pulled | null {
    // Stops in the order of their temperature: what is tried next goes on from the warmest below.
    const stops: Moment[] = [this.begin];
    const tried: Pulled[] = [];
    let [low, high] = [this.begin.core, target];
    // Rather too early at first: from there the heating goes on, and need not begin again.
    let next = Math.min(Math.max(low, about - EARLY), high);
    for (let i = 0; i < 20; i++) {
      const from = stops.findLast(({ core }) => core <= next)!;
      const end = next <= this.begin.core ? this.begin : this.heated(heat, from, next);
      if (end === null) return null;
      if (end !== from) stops.splice(stops.indexOf(from) + 1, 0, end);
      const pulled = this.followed(end, after);
      const over = pulled.peak - target;
      if (Math.abs(over) <= NEAR || high - low <= NEAR || (over > 0 && end === this.begin)) return pulled;
      if (over > 0) high = next;
      else low = next;
      tried.push(pulled);
      next = Math.min(Math.max(secant(tried, target), low + NEAR / 4), high - NEAR / 4);
      if (!(next > low && next < high)) next = (low + high) / 2;
    }
    return tried.at(-1)!;
  }

  private heated(heat: Setting, from: Moment, core: number): Moment | null {
    if (core <= from.core) return from;
    // When the other face's turn comes is not known before the end is: as if it were turned all the time, which takes about as long.
    const steady: Setting = heat.kind === 'sear' ? { ...heat, turns: 'often' } : heat;
    const [part] = partsOf(steady, this.joint, this.calibration, this.variation.transfer);
    const until = { core, most: LONGEST };
    const { ends, field } = goThrough(from.field, [{ around: part!.around, until }], this.accuracy);
    const [end] = ends;
    return end!.reached ? { seconds: from.seconds + end!.seconds, core: end!.core, field } : null;
  }

  private followed({ seconds, core, field }: Moment, after: readonly Leg[]): Pulled {
    let [peak, peakAfter] = [core, 0];
    const stretches = this.through(after);
    if (stretches.length > 0) {
      // The last leg needs to be followed no further than to its peak.
      const last = stretches.at(-1)!;
      const most = 'seconds' in last.until ? last.until.seconds : 0;
      const all = [...stretches.slice(0, -1), { ...last, until: { peak: true, most } as const }];
      const { history } = goThrough(field, all, this.accuracy);
      for (const [i, celsius] of history.core.entries()) {
        if (celsius > peak) [peak, peakAfter] = [celsius, history.seconds[i]! / 60];
      }
    }
    return { minutes: seconds / 60, core, peak, peakAfter };
  }

  private through(legs: readonly Leg[]): Stretch[] {
    return stretchesOf(this.joint, legs, this.calibration, this.variation.transfer);
  }
}

/** The legs as the solver takes them. */
export function stretchesOf(joint: Joint, legs: readonly Leg[], calibration: Calibration, transfer = 1): Stretch[] {
  return legs.flatMap(({ around, minutes }) =>
    partsOf(around, joint, calibration, transfer).map((part) => ({
      around: part.around,
      until: { seconds: part.share * minutes * 60 },
    })),
  );
}

/** Where a peak of `target` lies by the last two tries; with one try, by the slope that is usual. */
function secant(tried: readonly Pulled[], target: number): number {
  const [before, last] = [tried.at(-2), tried.at(-1)!];
  const apart = before === undefined ? 0 : last.core - before.core;
  const slope = before === undefined || Math.abs(apart) < 1e-6 ? SLOPE : (last.peak - before.peak) / apart;
  return last.core + (target - last.peak) / (slope > 0.05 ? slope : SLOPE);
}
