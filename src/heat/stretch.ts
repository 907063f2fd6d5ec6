/**
 * One piece through one stretch after another: seared on one side, then on the other, in the oven's air, at rest. The history is
 * continuous; what surrounds the piece changes at exact instants. °C, seconds (not minutes: these are the solver's), metres, J, kg.
 */
import { Exchange, isInsulated, type Surroundings } from './exchange.js';
import { type Field, fieldOf, type Piece, widened } from './field.js';
import type { Extent, Extents, Fineness, Side } from './grid.js';
import { type History, Recorder } from './history.js';
import { Volume } from './volume.js';

/** What is round the piece on every side. A slab has no `side`, a sphere nothing else. */
export type Around = Readonly<Record<Side, Surroundings>>;

/** The same on every side. */
export function everywhere(surroundings: Surroundings): Around {
  return { bottom: surroundings, top: surroundings, side: surroundings };
}

/** When a stretch ends: after so many seconds; when the core reaches a temperature, from either side; when the core stops rising. */
export type Until =
  | { readonly seconds: number }
  | { readonly core: number; readonly most: number }
  | { readonly peak: true; readonly most: number };

export interface Stretch {
  readonly around: Around;
  /** `most`: seconds after which it ends in any case. */
  readonly until: Until;
}

/** How closely the solver looks. */
export interface Accuracy extends Fineness {
  /** K, root mean square over the piece, by which the first-order part of a step may be off. */
  readonly tolerance: number;
}

/** For tables and plans: the core within 0.5 °C of a much finer grid, the quickest that is. */
export const TABLE: Accuracy = { cells: 10, across: 8, tolerance: 0.4 };
/** For checks. */
export const FINE: Accuracy = { cells: 40, across: 24, tolerance: 0.02 };

export interface StretchEnd {
  /** Since the beginning of the history. */
  readonly seconds: number;
  readonly core: number;
  /** What `until` asks for has come; false where `most` came first. Always true after a given time. */
  readonly reached: boolean;
}

export interface Run {
  readonly history: History;
  /** One for each stretch. */
  readonly ends: readonly StretchEnd[];
  readonly field: Field;
}

/**
 * Takes a fresh piece, or one in the middle of its history, through the stretches in turn. The grid keeps no more of the piece than
 * differs: an eighth of a brick that has the same on all sides. RangeError where a number is out of its range.
 */
export function goThrough(piece: Piece | Field, stretches: readonly Stretch[], accuracy: Accuracy = TABLE): Run {
  const extents = extentsFor(stretches);
  const field = 'grid' in piece ? widened(piece, extents) : fieldOf(piece, accuracy, extents);
  const volume = new Volume(field, exchangesOf(stretches[0]?.around ?? everywhere({ air: 20, coefficient: 0 })));
  const walk = new Walk(volume, accuracy.tolerance);
  const ends = stretches.map(({ around, until }, i) => {
    if (i > 0) volume.surround(exchangesOf(around));
    return walk.through(until);
  });
  return { history: walk.recorder.history(), ends, field: volume.field() };
}

function extentsFor(stretches: readonly Stretch[]): Extents {
  const all = (test: (around: Around) => boolean): boolean => stretches.every(({ around }) => test(around));
  const upright: Extent = all(({ bottom, top }) => isInsulated(bottom) && isInsulated(top))
    ? 'one'
    : all(({ bottom, top }) => alike(bottom, top))
      ? 'half'
      : 'whole';
  return { upright, across: all(({ side }) => isInsulated(side)) ? 'one' : 'half' };
}

function alike(a: Surroundings, b: Surroundings): boolean {
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}

function exchangesOf(around: Around): (side: Side) => Exchange {
  const [bottom, top, side] = [new Exchange(around.bottom), new Exchange(around.top), new Exchange(around.side)];
  const exchanges = { bottom, top, side };
  return (of) => exchanges[of];
}

/** The first step of a stretch, and one that is never too long, as parts of the time that heat takes through the piece. */
const FIRST_STEP = 1e-4;
const LONG_STEP = 0.04;
/** A longer one is no longer than this part of the stretch so far. */
const PART_OF_STRETCH = 0.1;
/** Attempts at a step before the shortest is taken as it is. */
const ATTEMPTS = 30;
/** Below this the core is taken to stand still, K/s. */
const STILL = 1e-7;
/** A core this near to where it shall come is there, K. */
const THERE = 1e-6;
/** How near an end's instant is found, s. */
const INSTANT = 0.02;

/** Goes from step to step, and ends each stretch on its instant. Steps follow the error alone, so the same piece takes the same ones. */
class Walk {
  readonly recorder: Recorder;
  private seconds = 0;
  private readonly first: number;
  private readonly long: number;
  /** When the stretch began, and what the last step's error allows the next to be. */
  private began = 0;
  private next = 0;

  constructor(
    private readonly volume: Volume,
    private readonly tolerance: number,
  ) {
    this.recorder = new Recorder(volume);
    this.recorder.note(0);
    this.first = FIRST_STEP * volume.span;
    this.long = LONG_STEP * volume.span;
  }

  through(until: Until): StretchEnd {
    const end = this.seconds + ('seconds' in until ? until.seconds : until.most);
    if (!(end >= this.seconds && end < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`A stretch lasts 0 seconds or more, and ends: not ${end - this.seconds} s`);
    }
    const left = leftOf(until, this.volume);
    [this.began, this.next] = [this.seconds, this.first];
    let before = left();
    while (before > 0 && this.seconds < end) {
      const from = this.seconds;
      this.take(end);
      const after = left();
      if (after <= 0) this.settle(from, left, before, after);
      this.recorder.note(this.seconds);
      before = after;
    }
    return { seconds: this.seconds, core: this.volume.core, reached: 'seconds' in until || before <= 0 };
  }

  /** One step, as long as its error allows, at most to the end. */
  private take(end: number): void {
    const { volume, tolerance } = this;
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
    this.next = step * Math.min(3, 0.9 * Math.sqrt(tolerance / Math.max(error, tolerance / 100)));
  }

  /** The last step has gone past the end: takes it again, shorter, until it lands (regula falsi, Illinois). */
  private settle(from: number, left: () => number, before: number, after: number): void {
    const { volume } = this;
    let [low, high, leftLow, leftHigh] = [0, this.seconds - from, before, after];
    const near = (INSTANT * (before - after)) / high;
    let kept: 'low' | 'high' | null = null;
    for (let i = 0; i < 30 && Math.abs(left()) > near; i++) {
      const step = low + ((high - low) * leftLow) / (leftLow - leftHigh);
      volume.takeBack();
      volume.attempt(step);
      volume.accept();
      this.seconds = from + step;
      const now = left();
      if (now > 0) {
        if (kept === 'high') leftHigh /= 2;
        [low, leftLow, kept] = [step, now, 'high'];
      } else {
        if (kept === 'low') leftLow /= 2;
        [high, leftHigh, kept] = [step, now, 'low'];
      }
    }
  }
}

/** What is left to the end: above 0 before it, falling. */
function leftOf(until: Until, volume: Volume): () => number {
  if ('seconds' in until) return () => 1;
  if ('peak' in until) return () => volume.coreRate + STILL;
  const { core } = until;
  if (Math.abs(core - volume.core) < THERE) return () => 0;
  const way = core > volume.core ? 1 : -1;
  return () => way * (core - volume.core);
}
