/** From step to step through a stretch, each as long as its error allows, to the instant at which it ends. °C, seconds. */
import type { Fineness } from './grid.js';
import type { Volume } from './volume.js';

/**
 * When a stretch ends: after so many seconds; when the core reaches a temperature, from either side; when the core stops rising. `past`:
 * only the instant is wanted; the piece itself goes on to the end of the step in which it comes.
 */
export type Until =
  | { readonly seconds: number }
  | { readonly core: number; readonly most: number; readonly past?: boolean }
  | { readonly peak: true; readonly most: number };

/** How closely the solver looks. */
export interface Accuracy extends Fineness {
  /** K, root mean square over the piece, by which the first-order part of a step may be off. */
  readonly tolerance: number;
  /** Whether what top and bottom differ by is evened out where from now on they meet the same; absent: no. */
  readonly evens?: boolean;
  /** How near the instant is found at which a stretch ends, s; absent: 0.02. */
  readonly instant?: number;
}

export interface StretchEnd {
  /** Since the beginning of the history. */
  readonly seconds: number;
  readonly core: number;
  /** K/s at the core; where only the instant was wanted, a little later. */
  readonly rate: number;
  /** What `until` asks for has come; false where `most` came first. Always true after a given time. */
  readonly reached: boolean;
}

/** Whoever takes down where the piece is after each step. */
export interface Rows {
  note(seconds: number): void;
}

/** The first step of a stretch, and one that is never too long, as parts of the time that heat takes through the piece. */
const FIRST_STEP = 4e-4;
const LONG_STEP = 0.05;
/** A longer one is no longer than this part of the stretch so far. */
const PART_OF_STRETCH = 0.1;
/** A step is at most so many times as long as the one before. */
const LONGER = 5;
/** Attempts at a step before the shortest is taken as it is. */
const ATTEMPTS = 30;
/** Below this the core is taken to stand still, K/s. */
const STILL = 1e-7;
/** A core this near to where it shall come is there, K. */
const THERE = 1e-6;
/** How near an end's instant is found where nothing else is said, s. */
const INSTANT = 0.02;

/** Goes from step to step, and ends each stretch on its instant. Steps follow the error alone, so the same piece takes the same ones. */
export class Walk {
  private seconds = 0;
  private readonly first: number;
  private readonly long: number;
  /** When the stretch began, and what the last step's error allows the next to be. */
  private began = 0;
  private next = 0;

  constructor(
    private readonly volume: Volume,
    private readonly rows: Rows,
    private readonly accuracy: Accuracy,
  ) {
    rows.note(0);
    this.first = FIRST_STEP * volume.span;
    this.long = LONG_STEP * volume.span;
  }

  through(until: Until): StretchEnd {
    const end = this.seconds + ('seconds' in until ? until.seconds : until.most);
    if (!(end >= this.seconds && end < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`A stretch lasts 0 seconds or more, and ends: not ${end - this.seconds} s`);
    }
    const goal = goalOf(until, this.volume);
    [this.began, this.next] = [this.seconds, this.first];
    let before = goal();
    while (before.left > 0 && this.seconds < end) {
      const from = this.seconds;
      this.take(end);
      const after = goal();
      if (after.left <= 0 && 'past' in until && until.past === true) {
        this.rows.note(this.seconds);
        return {
          seconds: from + crossing(this.seconds - from, before, after),
          core: until.core,
          rate: this.volume.coreRate,
          reached: true,
        };
      }
      if (after.left <= 0) this.settle(from, goal, before, after);
      this.rows.note(this.seconds);
      before = after;
    }
    const { core, coreRate: rate } = this.volume;
    return { seconds: this.seconds, core, rate, reached: 'seconds' in until || before.left <= 0 };
  }

  /** One step, as long as its error allows, at most to the end. */
  private take(end: number): void {
    const { volume } = this;
    const { tolerance } = this.accuracy;
    const room = end - this.seconds;
    const wanted = Math.min(this.next, Math.max(this.long, PART_OF_STRETCH * (this.seconds - this.began)));
    // The last two steps of a stretch share what is left, rather than leave a sliver.
    let step = wanted >= room ? room : wanted * 2 > room ? room / 2 : wanted;
    let error = volume.attempt(step);
    for (let i = 0; i < ATTEMPTS && error > tolerance; i++) {
      step *= Math.max(0.2, 0.9 * Math.sqrt(tolerance / error));
      error = volume.attempt(step);
    }
    volume.accept();
    this.seconds = step === room ? end : this.seconds + step;
    this.next = step * Math.min(LONGER, 0.9 * Math.sqrt(tolerance / Math.max(error, tolerance / 100)));
  }

  /** The last step has gone past the end: takes it again, shorter, until it lands (regula falsi, Illinois). */
  private settle(from: number, goal: () => Left, before: Left, after: Left): void {
    const { volume } = this;
    let [low, high, leftLow, leftHigh] = [0, this.seconds - from, before.left, after.left];
    const near = ((this.accuracy.instant ?? INSTANT) * (leftLow - leftHigh)) / high;
    let kept: 'low' | 'high' | null = null;
    let now = after;
    for (let i = 0; i < 30 && Math.abs(now.left) > near; i++) {
      const step = i === 0 ? crossing(high, before, after) : low + ((high - low) * leftLow) / (leftLow - leftHigh);
      volume.takeBack();
      volume.attempt(step);
      volume.accept();
      this.seconds = from + step;
      now = goal();
      if (now.left > 0) {
        if (kept === 'high') leftHigh /= 2;
        [low, leftLow, kept] = [step, now.left, 'high'];
      } else {
        if (kept === 'low') leftLow /= 2;
        [high, leftHigh, kept] = [step, now.left, 'low'];
      }
    }
  }
}

/** What is left to the end, above 0 before it, and how fast that changes, 1/s; NaN where that is not known. */
interface Left {
  readonly left: number;
  readonly rate: number;
}

function goalOf(until: Until, volume: Volume): () => Left {
  if ('seconds' in until) return () => ({ left: 1, rate: Number.NaN });
  if ('peak' in until) return () => ({ left: volume.coreRate + STILL, rate: Number.NaN });
  const { core } = until;
  if (Math.abs(core - volume.core) < THERE) return () => ({ left: 0, rate: Number.NaN });
  const way = core > volume.core ? 1 : -1;
  return () => ({ left: way * (core - volume.core), rate: -way * volume.coreRate });
}

/** After how many seconds of a step nothing is left: where Hermite's cubic through both ends crosses 0, or else the line. */
function crossing(step: number, before: Left, after: Left): number {
  const drop = after.left - before.left;
  const [up, down] = [step * before.rate - drop, drop - step * after.rate];
  const line = before.left / -drop;
  if (!Number.isFinite(up + down)) return step * line;
  let [low, high, part] = [0, 1, line];
  for (let i = 0; i < 40 && high - low > 1e-9; i++) {
    const rest = 1 - part;
    const bend = up * rest + down * part;
    const value = before.left + part * drop + part * rest * bend;
    if (value > 0) low = part;
    else high = part;
    const slope = drop + (1 - 2 * part) * bend + part * rest * (down - up);
    const next = part - value / slope;
    if (Math.abs(next - part) < 1e-9) break;
    part = next > low && next < high ? next : (low + high) / 2;
  }
  return step * part;
}
