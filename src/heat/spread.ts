/**
 * How far minutes may be off, because no piece is just as it was said to be and no oven is like another:
 *
 * - sizes by 5 % either way (a ruler on soft, uneven food);
 * - heat transfer by 15 % (where it stands, how the oven keeps its heat, how wet the surface is);
 * - temperature at the beginning by 2 °C.
 *
 * Each is about one and a half standard deviations (`STANDARD_DEVIATIONS`) by our estimate, and they have nothing to do with each other, so the minutes that
 * each adds or takes count together as the root of their squares. What a cook pulls by is the thermometer: the core's goal is the same for all.
 */
import { AS_SAID, type Variation } from './heating.js';

export const STANDARD_DEVIATIONS = 1.5;

const SIZE = 0.05;
const TRANSFER = 0.15;
const START = 2;

const SLOWER: readonly Variation[] = [
  { ...AS_SAID, thicker: 1 + SIZE },
  { ...AS_SAID, transfer: 1 - TRANSFER },
  { ...AS_SAID, warmer: -START },
];
const FASTER: readonly Variation[] = [
  { ...AS_SAID, thicker: 1 - SIZE },
  { ...AS_SAID, transfer: 1 + TRANSFER },
  { ...AS_SAID, warmer: START },
];

/** As they are asked about: as said, then the slower ones, then the faster ones. */
export const VARIATIONS: readonly Variation[] = [AS_SAID, ...SLOWER, ...FASTER];

/** How much of each makes about the end of the spread when all come together. */
const TOGETHER = 1 / Math.sqrt(3);

/** All three at once, each so far that together they reach about as far as the spread does. */
export const SLOW: Variation = {
  thicker: 1 + TOGETHER * SIZE,
  transfer: 1 - TOGETHER * TRANSFER,
  warmer: -TOGETHER * START,
};

/** A spread in minutes. */
export interface Spread {
  /** That it may take less, 0 or more. */
  readonly less: number;
  /** That it may take more; Infinity: perhaps it never gets there. */
  readonly more: number;
}

/** From the minutes of the VARIATIONS. */
export function spreadOf(minutes: readonly number[]): Spread {
  const [likely, ...others] = minutes;
  if (likely === Number.POSITIVE_INFINITY) return { less: 0, more: likely };
  const root = (some: readonly number[]): number => Math.hypot(...some.map((one) => one - likely!));
  return { less: root(others.slice(SLOWER.length)), more: root(others.slice(0, SLOWER.length)) };
}
