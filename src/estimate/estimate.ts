/** One piece, one way of cooking it, and what the heat model and the published figures say of that. °C, minutes. */
import { type Answer, answersTo, type Course, historyOf } from '../heat/roast.js';
import { sourceFor, timeAt } from '../safety/core.js';
import { sourceOf } from '../safety/published.js';
import { type SinglePiece, type Standing, standingOf } from '../safety/single-piece.js';
import { isLow, type Predicted } from '../safety/verdict.js';
import { showTemperature } from '../units/show.js';
import type { Asked } from './asked.js';
import type { Estimate, EstimateAnswer } from './document.js';
import { legsOf, MOVING, questionOf } from './question.js';
import { spreadAt } from './spread.js';
import { wouldDo } from './would-do.js';

/** Why there is no estimate, and what would do. */
export interface Refused {
  readonly say: string;
  readonly hint: string;
}

/** Less than this is no time, minutes. */
const AT_ONCE = 0.5;
/** A rise of less is none to wait for, K. */
const HARDLY = 0.5;

/** The estimate, or why there is none: it would not be safe and that is not accepted, or the sear alone goes too far. */
export function estimateOf(asked: Asked): Estimate | Refused {
  const found = answersTo(questionOf(asked, asked.air));
  const reached = found.filter(({ minutes }) => Number.isFinite(minutes.likely));
  const done = reached.find(({ minutes }) => minutes.likely < AT_ONCE);
  if (done !== undefined) return tooSeared(asked, done);
  const parts = reached.map((answer) => reckoned(asked, ...rested(asked, answer)));
  const standing = worstOf(parts.map((part) => part.standing)) ?? standingOf(singleOf(asked, null, 0));
  if (parts.length > 0 && standing.refusal !== null) return standing.refusal;
  const cold = found.filter((answer) => !reached.includes(answer)).map(({ celsius }) => celsius);
  const { piece, joint, inside, moving, on, foil, sear, room, goal, accept } = asked;
  const { figure } = standing.judgement;
  const { shape, thickness, width, length, weight, bone, crust } = piece;
  return {
    format: 'hearthtable-estimate/1',
    food: { asked: piece.food, reckonedAs: joint.food.name },
    piece: { shape, thickness, width, length, weight, from: joint.from, bone, crust },
    heat: { inside, moving, on, foil },
    sear,
    room,
    goal,
    accept: [...accept],
    answers: parts.map((part) => part.answer),
    never: cold.length === 0 ? null : { celsius: cold, would: wouldDo(asked, cold.at(-1)!) },
    spread: reached[0] === undefined ? null : spreadAt(asked, reached[0]),
    published: figure && {
      food: figure.food,
      celsius: figure.celsius,
      fahrenheit: figure.fahrenheit,
      rest: figure.rest,
      or: figure.or,
      source: sourceFor(figure),
    },
    cautions: standing.cautions.map(({ rule, source, say }) => ({ rule, source, say })),
  };
}

interface Reckoned {
  readonly answer: EstimateAnswer;
  readonly standing: Standing;
}

/** Its minutes of rest: as asked, or to its peak; where it hardly rises nobody waits for that, and it is asked about again. */
function rested(asked: Asked, answer: Answer): [answer: Answer, rest: number] {
  if (asked.rest !== null) return [answer, asked.rest];
  const least = Math.max(1, standingOf(singleOf(asked, null, 0)).judgement.figure?.rest ?? 0);
  const { celsius, pull, peak, peakAfter } = answer;
  if (peak - pull >= HARDLY) return [answer, Math.max(least, Math.ceil(peakAfter - MOVING))];
  const [again] = answersTo(questionOf({ ...asked, rest: least }, [celsius]));
  // A core that only ever crept there by the end of its rest keeps its first answer.
  return [Number.isFinite(again!.minutes.likely) ? again! : answer, least];
}

/** What follows from one answer: its course, how it stands to the published figures. */
function reckoned(asked: Asked, { celsius, minutes, pull, peak, peakAfter }: Answer, rest: number): Reckoned {
  const high = Number.isFinite(minutes.high) ? minutes.high : null;
  const course = historyOf(asked.joint, legsOf(asked, celsius, minutes.likely, rest));
  // Pulled by the thermometer as well, only later.
  const slow = historyOf(asked.joint, legsOf(asked, celsius, high ?? minutes.likely, rest), 'slow');
  const standing = { likely: standingBy(asked, course, rest), slow: standingBy(asked, slow, rest) };
  const along = worstOf([standing.likely, standing.slow]) === standing.likely ? 'likely' : 'slow';
  const { judgement } = standing[along];
  const lastCore = course.core.at(-1)!;
  return {
    standing: standing[along],
    answer: {
      celsius,
      minutes: { low: tenth(minutes.low), likely: tenth(minutes.likely), high: high && tenth(high) },
      pull: hundredth(pull),
      rise: hundredth(peak - pull),
      peak: hundredth(peak),
      peakAfter: tenth(peakAfter),
      rest,
      atEnd: {
        core: hundredth(Math.min(peak, lastCore)),
        surface: hundredth(course.surface.at(-1)!),
        rising: asked.rest !== null && peakAfter > rest + MOVING - AT_ONCE,
      },
      meets: judgement.met ? 'goal' : (judgement.predicted?.satisfies ?? null),
      lethality: lethalityWords(asked, judgement.predicted?.held ?? null, along),
      parts: partsOf(asked, minutes.likely, rest),
      course: {
        minutes: Array.from(course.minutes, hundredth),
        core: Array.from(course.core, hundredth),
        surface: Array.from(course.surface, hundredth),
        hottest: Array.from(course.hottest, hundredth),
      },
    },
  };
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
const hundredth = (value: number): number => Math.round(value * 100) / 100;

function partsOf({ sear }: Asked, minutes: number, rest: number): EstimateAnswer['parts'] {
  const lasting = [
    { part: 'sear' as const, minutes: sear?.minutes ?? 0 },
    { part: 'heat' as const, minutes },
    { part: 'moving' as const, minutes: MOVING },
    { part: 'rest' as const, minutes: rest },
  ].filter((part) => part.minutes > 0);
  let from = 0;
  return lasting.map(({ part, minutes: own }) => {
    const begun = from;
    from += own;
    return { part, from: tenth(begun), to: tenth(from) };
  });
}

const standingBy = (asked: Asked, { minutes, core, surface }: Course, rest: number): Standing =>
  standingOf(singleOf(asked, { minutes, celsius: core, surface }, rest));

const singleOf = (asked: Asked, curve: SinglePiece['curve'], rest: number): SinglePiece => ({
  piece: asked.piece,
  goal: asked.goal.celsius,
  curve,
  rest,
  grill: asked.inside === 'grill',
  sear: asked.sear?.on ?? null,
  accept: asked.accept,
  degree: asked.units.core,
});

/** The one that meets the published figure least: not at all, or by the smallest part of the published times, or by the lowest peak. */
function worstOf(standings: readonly Standing[]): Standing | null {
  const rank = ({ judgement }: Standing): readonly number[] => {
    const { predicted } = judgement;
    return [isLow(judgement) ? 0 : 1, predicted?.held?.lethality.share ?? 0, predicted?.peak ?? 0];
  };
  return standings.reduce<Standing | null>((worst, one) => {
    if (worst === null) return one;
    const [a, b] = [rank(one), rank(worst)];
    const at = a.findIndex((value, i) => value !== b[i]);
    return at >= 0 && a[at]! < b[at]! ? one : worst;
  }, null);
}

function lethalityWords(
  { goal }: Asked,
  held: Predicted['held'],
  along: 'likely' | 'slow',
): EstimateAnswer['lethality'] {
  if (held === null) return null;
  const { lethality, times } = held;
  const { celsius, minutes } = lethality.equivalent;
  return {
    logs: hundredth(lethality.logs),
    required: lethality.required,
    share: Math.round(lethality.share * 1e4) / 1e4,
    equivalent: { celsius: hundredth(celsius), minutes: hundredth(minutes) },
    published: timeAt(times, goal.celsius),
    source: sourceOf([times.publication]),
    along,
  };
}

function tooSeared({ goal, units, sear }: Asked, { peak, celsius }: Answer): Refused {
  const [core, air] = [showTemperature(goal.celsius, units.core), showTemperature(celsius, units.air)];
  const far = goal.kind === 'target' ? ` and rises to ${showTemperature(peak, units.core)}` : '';
  return {
    say: `The sear alone takes the core to its goal of ${core}${far}: no minutes are left for the air of ${air}.`,
    hint: `a sear of less than ${sear?.minutes ?? 0} min, or cooler iron`,
  };
}
