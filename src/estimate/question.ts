/** What is asked, as the heat model takes it. °C, minutes. */
import type { Leg, Question } from '../heat/roast.js';
import type { Setting } from '../heat/setting.js';
import type { Asked } from './asked.js';

/** Minutes from the heat to the rest, as plans expect them. */
export const MOVING = 1;
/** A core that is to come to its peak gets so long, minutes. */
const PATIENCE = 240;

/** About some temperatures of the air, rising. */
export function questionOf(asked: Asked, celsius: readonly number[]): Question {
  const { joint, goal, rest } = asked;
  return {
    joint,
    before: searLegs(asked),
    heat: (at) => heatOf(asked, at),
    celsius,
    goal: goal.kind === 'target' ? { target: goal.celsius } : { core: goal.celsius },
    moving: MOVING,
    rest: rest === 0 ? null : restLeg(asked, rest ?? PATIENCE),
  };
}

export const heatOf = ({ moving, on, foil }: Asked, celsius: number): Setting => ({
  kind: 'air',
  celsius,
  moving,
  on,
  covered: foil,
});

export const searLegs = ({ sear }: Asked): Leg[] =>
  sear === null
    ? []
    : [{ around: { kind: 'sear', celsius: sear.celsius, on: sear.on, turns: 'sides' }, minutes: sear.minutes }];

/** Under a loose tent, as rests in plans are. */
const restLeg = ({ room }: Asked, minutes: number): Leg => ({
  around: { kind: 'room', celsius: room, covered: true },
  minutes,
});

/** All that a piece goes through, with so many minutes on the heat and of rest. */
export function legsOf(asked: Asked, celsius: number, minutes: number, rest: number): Leg[] {
  const way: Leg = { around: { kind: 'room', celsius: asked.room, covered: false }, minutes: MOVING };
  const still = rest > 0 ? [restLeg(asked, rest)] : [];
  return [...searLegs(asked), { around: heatOf(asked, celsius), minutes }, way, ...still];
}
