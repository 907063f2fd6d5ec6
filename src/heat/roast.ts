/** One temperature history of one piece: how long it stays on the heat, where it is pulled, how far it rises. Minutes, °C. */
import { CALIBRATION } from './calibration.js';
import { fromFew } from './few.js';
import { AS_SAID, type Leg, Prepared, type Pulled, stretchesOf, turnedOften, type Variation } from './heating.js';
import { type Joint, pieceOf } from './joint.js';
import type { Setting } from './setting.js';
import { SLOW, type Spread, spreadOf, VARIATIONS } from './spread.js';
import { type Accuracy, goThrough, TABLE } from './stretch.js';

export type { Leg } from './heating.js';

export interface Question {
  readonly joint: Joint;
  /** What it goes through before, in order. */
  readonly before: readonly Leg[];
  /** What is around it at a temperature of the dial; only temperatures change from one to the next. */
  readonly heat: (celsius: number) => Setting;
  /** Rising. */
  readonly celsius: readonly number[];
  /** It is pulled when its core is at `core`, or so that its core peaks at `target` by the end of the rest. */
  readonly goal: { readonly core: number } | { readonly target: number };
  /** Minutes from the heat to the rest, uncovered in the room. */
  readonly moving: number;
  /** What the core rises in after that; null: nothing but the way from the heat. */
  readonly rest: Leg | null;
}

export interface Answer {
  readonly celsius: number;
  /** On the heat; Infinity where the core never gets there. `low` and `high`: see spread.ts. */
  readonly minutes: { readonly low: number; readonly likely: number; readonly high: number };
  /** °C at the core when it leaves the heat; NaN where it never gets there. */
  readonly pull: number;
  /** The highest °C at the core from the pull to the end of the rest. */
  readonly peak: number;
  /** Minutes after the pull. */
  readonly peakAfter: number;
}

const ROOM = 21;

/**
 * For a table. Beside grids of 40 cells (a brick's 20) and steps so short that they do not count, 40 random questions of each shape at
 * four temperatures each, half of the minutes are within 0.3 % and nine in ten within 0.6 %; pulls within 0.05 and 0.2 K.
 */
const ROUND: Accuracy = { ...TABLE, tolerance: 0.7, instant: 2 };
/** In one direction a fine grid costs little: a ball's minutes within 0.2 % and 0.5 %, a slab's 0.05 % and 0.2 %. */
const LINE: Accuracy = { ...ROUND, cells: 14 };
/** In three a coarser one must do: 0.6 % and 1.1 %, the worst of 160 2 %; pulls 0.2 and 0.4 K, the worst 1.3 K. */
const BRICK: Accuracy = { cells: 5, across: 6, tolerance: 1.5, evens: true, instant: 2 };
/** For how many times longer or shorter: both sides have the same errors, and what is left is 0.4 % of the minutes at most in nine of ten. */
const COARSE: Accuracy = { cells: 4, across: 3, tolerance: 1.5, evens: true, instant: 2 };

/** Minutes of a piece that is there already, at whatever heat. */
const AT_ONCE = 1e-6;

/** Expected minutes so near to those found are believed, and a pull, K. */
const NEAR = 0.001;
const NEAR_PULL = 0.1;

type Found = Omit<Pulled, 'slope'>;

/**
 * One for each of the question's temperatures. The model goes through the histories at a few of them; one over the minutes, the pull
 * and the peak lie on a polynomial of the logarithm of what the heat is above the goal, within 0.5 % and 0.2 K of a history of their own.
 */
export function answersTo(question: Question): Answer[] {
  const { celsius } = question;
  const after = followingOf(question);
  const pulls = pullsAt(question, after);
  const spreads = spreadsAt(question, pulls);
  return celsius.map((degrees, i) => {
    const pulled = pulls[i]!;
    if (pulled === null) {
      const never = Number.POSITIVE_INFINITY;
      const minutes = { low: never, likely: never, high: never };
      return { celsius: degrees, minutes, pull: Number.NaN, peak: Number.NaN, peakAfter: Number.NaN };
    }
    const { minutes: likely, core: pull, peak, peakAfter } = pulled;
    const { less, more } = spreads[i]!;
    const minutes = { low: Math.max(likely - less, 0), likely, high: likely + more };
    return { celsius: degrees, minutes, pull, peak, peakAfter };
  });
}

/** What follows the heat. */
function followingOf({ moving, rest }: Question): Leg[] {
  const room = rest?.around.kind === 'room' ? rest.around.celsius : ROOM;
  const way: Leg = { around: { kind: 'room', celsius: room, covered: false }, minutes: moving };
  return [way, ...(rest === null ? [] : [rest])].filter(({ minutes }) => minutes > 0);
}

const accuracyFor = ({ body: { shape } }: Joint): Accuracy =>
  shape === 'brick' ? BRICK : shape === 'cylinder' ? ROUND : LINE;

function pullsAt({ joint, before, heat, celsius, goal }: Question, after: readonly Leg[]): (Found | null)[] {
  const accuracy = accuracyFor(joint);
  const prepared = new Prepared(joint, before, AS_SAID, CALIBRATION, accuracy);
  // By the logarithm of what it is above the goal: where that is little, minutes change most. What is not above it only keeps its order.
  const core = 'core' in goal ? goal.core : goal.target;
  const placeOf = (degrees: number, i: number): number =>
    degrees > core + 1 ? Math.log(degrees - core) : (i - celsius.length) / 1000;
  const places = celsius.map(placeOf);
  const rows = fromFew(places, {
    find: (i, row) => {
      const around = heat(celsius[i]!);
      if ('core' in goal) {
        const pulled = prepared.pulledAt(around, goal.core, after);
        return pulled && [1 / Math.max(pulled.minutes, AT_ONCE), pulled.core, pulled.peak, pulled.peakAfter];
      }
      const { target } = goal;
      // The rise is more or less as what the heat is above the target.
      const above = Math.max(celsius[i]! - target, 1);
      const expected = row && { core: target - row[5]! * above, slope: row[4]! };
      const pulled = prepared.pulledFor(around, target, after, expected);
      if (pulled === null) return null;
      const { minutes, core, peak, peakAfter, slope } = pulled;
      return [1 / Math.max(minutes, AT_ONCE), core, peak, peakAfter, slope, (target - core) / above];
    },
    off: ([rate, core], [wanted, wantedCore]) =>
      Math.max(Math.abs(wanted! / rate! - 1) / NEAR, Math.abs(wantedCore! - core!) / NEAR_PULL),
  });
  return rows.map((row) => {
    if (row === null) return null;
    const [rate, core, peak, peakAfter] = row;
    const minutes = 1 / rate! <= 2 * AT_ONCE ? 0 : 1 / rate!;
    return { minutes, core: core!, peak: Math.max(peak!, core!), peakAfter: Math.max(peakAfter!, 0) };
  });
}

/** Found at both ends of what can be reached, and between them in a straight line of the minutes. */
function spreadsAt({ joint, before, heat, celsius }: Question, pulls: readonly (Found | null)[]): (Spread | null)[] {
  // One differs from the other about as much when both faces are seared at once, on half the grid.
  const evenly = before.map(({ around, minutes }) => ({ around: turnedOften(around), minutes }));
  const prepared = VARIATIONS.map((variation) => new Prepared(joint, evenly, variation, CALIBRATION, COARSE));
  const found = (i: number): Spread =>
    spreadOf(prepared.map((one) => one.minutesTo(heat(celsius[i]!), pulls[i]!.core)));
  const reached = [...pulls.keys()].filter((i) => pulls[i] !== null);
  const [first, last] = [reached[0], reached.at(-1)];
  if (first === undefined || last === undefined) return pulls.map(() => null);
  const cold = found(first);
  const hot = first === last ? cold : found(last);
  const [most, least] = [pulls[first]!.minutes, pulls[last]!.minutes];
  return pulls.map((pulled, i) => {
    if (pulled === null) return null;
    if (i === first || most <= least) return cold;
    // Where the slowest piece never gets there, another one a little hotter may.
    if (!Number.isFinite(cold.more)) return found(i);
    const share = (pulled.minutes - least) / (most - least);
    const between = (a: number, b: number): number => a + share * (b - a);
    return { less: between(hot.less, cold.less), more: between(hot.more, cold.more) };
  });
}

/** A history of a piece; equal rows. */
export interface Course {
  /** Since the beginning of the first leg. */
  readonly minutes: Float64Array;
  /** °C where a probe goes. */
  readonly core: Float64Array;
  /** °C, mean of the side that is coldest at the time. */
  readonly surface: Float64Array;
  /** The same of the side that is hottest: the seared one. */
  readonly hottest: Float64Array;
}

/** A finished plan's own curve: as the piece was said to be, or at the slow end of the spread (bigger, colder, less heat). */
export function historyOf(joint: Joint, legs: readonly Leg[], pace: 'likely' | 'slow' = 'likely'): Course {
  const { thicker, transfer, warmer }: Variation = pace === 'slow' ? SLOW : AS_SAID;
  const piece = { ...pieceOf(joint, CALIBRATION, thicker), celsius: joint.from + warmer };
  const { history } = goThrough(piece, stretchesOf(joint, legs, CALIBRATION, transfer));
  const sides = Object.values(history.surface);
  return {
    minutes: history.seconds.map((seconds) => seconds / 60),
    core: history.core,
    surface: history.core.map((_, i) => Math.min(...sides.map((side) => side[i]!))),
    hottest: history.core.map((_, i) => Math.max(...sides.map((side) => side[i]!))),
  };
}
