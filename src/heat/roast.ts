/** One temperature history of one piece: how long it stays on the heat, where it is pulled, how far it rises. Minutes, °C. */
import type { Field, Piece } from './field.js';
import { type Joint, matterFor } from './joint.js';
import { partsOf, type Setting } from './setting.js';
import { goThrough, type Stretch } from './stretch.js';

export interface Leg {
  readonly around: Setting;
  readonly minutes: number;
}

export interface Question {
  readonly joint: Joint;
  /** What it goes through before, in order. */
  readonly before: readonly Leg[];
  /** What is around it at a temperature of the dial. */
  readonly heat: (celsius: number) => Setting;
  readonly celsius: readonly number[];
  /** It is pulled when its core is at `core`, or so that its core peaks at `target` by the end of the rest. */
  readonly goal: { readonly core: number } | { readonly target: number };
  /** Minutes from the heat to the rest, in the room. */
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

/** One for each of the question's temperatures. */
export function answersTo(question: Question): Answer[] {
  return question.celsius.map((celsius) => answerAt(question, celsius));
}

/** Minutes since the beginning of the first leg; °C at the core, and the mean of the surface. */
export function historyOf(
  joint: Joint,
  legs: readonly Leg[],
): { minutes: Float64Array; core: Float64Array; surface: Float64Array } {
  const { history } = goThrough(
    pieceOf(joint),
    legs.flatMap((leg) => stretchesOf(joint, leg)),
  );
  const sides = Object.values(history.surface);
  return {
    minutes: history.seconds.map((seconds) => seconds / 60),
    core: history.core,
    surface: history.core.map((_, i) => sides.reduce((sum, side) => sum + side[i]!, 0) / sides.length),
  };
}

const LONGEST = 24 * 3600;
const ROOM = 21;

const pieceOf = (joint: Joint): Piece => ({ body: joint.body, matter: matterFor(joint), celsius: joint.from });

function stretchesOf(joint: Joint, { around, minutes }: Leg, transfer = 1): Stretch[] {
  return partsOf(around, joint, transfer).map((part) => ({
    around: part.around,
    until: { seconds: part.share * minutes * 60 },
  }));
}

interface Pulled {
  readonly seconds: number;
  readonly core: number;
  readonly peak: number;
  readonly peakAfter: number;
}

function answerAt(question: Question, celsius: number): Answer {
  const pulled = pulledAt(question, question.joint, celsius, 1);
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
  const likely = pulled.seconds / 60;
  return {
    celsius,
    minutes: { low: likely * 0.88, likely, high: likely * 1.15 },
    pull: pulled.core,
    peak: pulled.peak,
    peakAfter: pulled.peakAfter / 60,
  };
}

function pulledAt(question: Question, joint: Joint, celsius: number, transfer: number): Pulled | null {
  const before = goThrough(
    pieceOf(joint),
    question.before.flatMap((leg) => stretchesOf(joint, leg, transfer)),
  );
  const around = partsOf(question.heat(celsius), joint, transfer)[0]!.around;
  const heated = (from: Field, core: number): { seconds: number; field: Field } | null => {
    const { ends, field } = goThrough(from, [{ around, until: { core, most: LONGEST } }]);
    return ends[0]!.reached ? { seconds: ends[0]!.seconds, field } : null;
  };
  const rested = (from: Field): { peak: number; after: number } => {
    const room = question.rest?.around.celsius ?? ROOM;
    const legs: Leg[] = [{ around: { kind: 'room', celsius: room, covered: false }, minutes: question.moving }];
    if (question.rest !== null) legs.push(question.rest);
    const { history } = goThrough(
      from,
      legs.flatMap((leg) => stretchesOf(joint, leg, transfer)),
    );
    const at = history.core.reduce((best, core, i) => (core > history.core[best]! ? i : best), 0);
    return { peak: history.core[at]!, after: history.seconds[at]! };
  };
  if ('core' in question.goal) {
    const hot = heated(before.field, question.goal.core);
    if (hot === null) return null;
    const { peak, after } = rested(hot.field);
    return { seconds: hot.seconds, core: question.goal.core, peak, peakAfter: after };
  }
  const { target } = question.goal;
  let best: Pulled | null = null;
  let [low, high] = [before.ends.at(-1)?.core ?? joint.from, target];
  for (let i = 0; i < 12 && high - low > 0.05; i++) {
    const core = (low + high) / 2;
    const hot = heated(before.field, core);
    const end = hot === null ? null : rested(hot.field);
    if (hot !== null && end !== null) best = { seconds: hot.seconds, core, peak: end.peak, peakAfter: end.after };
    if (end !== null && end.peak > target) high = core;
    else low = core;
  }
  return best;
}
