/** From what the range of the minutes comes: each cause by itself. */
import { AS_SAID, Prepared, type Variation } from '../heat/heating.js';
import type { Answer } from '../heat/roast.js';
import { VARIATIONS } from '../heat/spread.js';
import type { Asked } from './asked.js';
import type { Estimate } from './document.js';
import { heatOf, searLegs } from './question.js';

type Spread = NonNullable<Estimate['spread']>;

/** The part of a variation that each cause is. */
const CAUSES: Readonly<Record<keyof Spread, keyof Variation>> = {
  size: 'thicker',
  transfer: 'transfer',
  start: 'warmer',
};

/** How much later and sooner the core of an answer is where it is to be pulled, with one thing at a time at the ends of its spread. */
export function spreadAt(asked: Asked, { celsius, pull, minutes }: Answer): Spread {
  const before = searLegs(asked);
  const heat = heatOf(asked, celsius);
  const minutesWith = (variation: Variation): number =>
    new Prepared(asked.joint, before, variation).minutesTo(heat, pull) - minutes.likely;
  const cause = (name: keyof Spread): Spread[keyof Spread] => {
    const of = CAUSES[name];
    const own = VARIATIONS.filter((variation) => variation[of] !== AS_SAID[of]);
    const apart = own.map(minutesWith);
    const later = Math.max(...apart);
    return {
      by: Math.round(Math.abs(own[0]![of] - AS_SAID[of]) * 1e4) / 1e4,
      later: Number.isFinite(later) ? tenth(later) : null,
      sooner: tenth(Math.min(...apart)),
    };
  };
  return { size: cause('size'), transfer: cause('transfer'), start: cause('start') };
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
