/** One temperature history of one piece: how long it stays on the heat, where it is pulled, how far it rises. Minutes, °C. */
import { CALIBRATION } from './calibration.js';
import { type Leg, Prepared, stretchesOf } from './heating.js';
import { type Joint, pieceOf } from './joint.js';
import type { Setting } from './setting.js';
import { goThrough } from './stretch.js';

export type { Leg } from './heating.js';

export interface Question {
  readonly joint: Joint;
  /** What it goes through before, in order. */
  readonly before: readonly Leg[];
  /** What is around it at a temperature of the dial. */
  readonly heat: (celsius: number) => Setting;
  readonly celsius: readonly number[];
  /** It is pulled when its core is at `core`, or so that its core peaks at `target` by the end of the rest. */
  readonly goal: { readonly core: number } | { readonly target: number };
  /** Minutes from the heat to the rest, uncovered in the room. */
  readonly moving: number;
  readonly rest: Leg | null;
}

export interface Answer {
  readonly celsius: number;
  /** On the heat; Infinity where the core never gets there. */
  readonly minutes: { readonly low: number; readonly likely: number; readonly high: number };
  /** °C at the core. */
  readonly pull: number;
  readonly peak: number;
  /** Minutes after the pull. */
  readonly peakAfter: number;
}

const ROOM = 21;

/** One for each of the question's temperatures. */
export function answersTo(question: Question): Answer[] {
  const { joint, before, goal, rest, moving } = question;
  const prepared = new Prepared(joint, before);
  const room = rest?.around.kind === 'room' ? rest.around.celsius : ROOM;
  const after: Leg[] = [
    { around: { kind: 'room' as const, celsius: room, covered: false }, minutes: moving },
    ...(rest === null ? [] : [rest]),
  ].filter(({ minutes }) => minutes > 0);
  return question.celsius.map((celsius) => {
    const heat = question.heat(celsius);
    const pulled =
      'core' in goal ? prepared.pulledAt(heat, goal.core, after) : prepared.pulledFor(heat, goal.target, after);
    if (pulled === null) {
      const never = Number.POSITIVE_INFINITY;
      return {
        celsius,
        minutes: { low: never, likely: never, high: never },
        pull: Number.NaN,
        peak: Number.NaN,
        peakAfter: 0,
      };
    }
    const { minutes: likely, core: pull, peak, peakAfter } = pulled;
    return { celsius, minutes: { low: likely * 0.88, likely, high: likely * 1.15 }, pull, peak, peakAfter };
  });
}

/** Minutes since the beginning of the first leg; °C at the core, and the mean of the surface. */
export function historyOf(
  joint: Joint,
  legs: readonly Leg[],
): { minutes: Float64Array; core: Float64Array; surface: Float64Array } {
  const { history } = goThrough(pieceOf(joint, CALIBRATION), stretchesOf(joint, legs, CALIBRATION));
  const sides = Object.values(history.surface);
  return {
    minutes: history.seconds.map((seconds) => seconds / 60),
    core: history.core,
    surface: history.core.map((_, i) => sides.reduce((sum, side) => sum + side[i]!, 0) / sides.length),
  };
}
