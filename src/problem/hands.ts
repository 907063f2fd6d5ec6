/** The attention that a step needs. */
import { parseDuration } from '../units/duration.js';
import { quote } from '../units/measure.js';
import { nearest } from './nearest.js';
import type { Hands, Work } from './problem.js';
import type { Reading } from './reading.js';
import type { PlaceEntry, StepEntry } from './schema.js';

const NONE: Hands = { all: false, start: 0, end: 0, every: 0, for: 0, cooks: 1 };
const ALL: Hands = { ...NONE, all: true };
const START: Hands = { ...NONE, start: 2 };

const BY_WORK: Readonly<Record<Work, Hands>> = {
  prep: ALL,
  sear: ALL,
  grill: ALL,
  fry: ALL,
  finish: ALL,
  carve: ALL,
  plate: ALL,
  roast: START,
  bake: START,
  braise: START,
  boil: START,
  simmer: START,
  steam: START,
  warm: START,
  rest: NONE,
  chill: NONE,
};

/** The hands of a step in one of its entries; the work's own where nothing is said. */
export function handsOf(reading: Reading, step: StepEntry, entry: PlaceEntry | null): Hands {
  const holder = entry?.hands !== undefined ? entry : step;
  const { hands } = holder;
  const usual = BY_WORK[step.work];
  if (hands === undefined) return usual;
  if (hands === 'all') return ALL;
  if (hands === 'none') return NONE;
  if (typeof hands === 'object') return stretches(reading, hands, usual);
  if (typeof hands === 'string' && /^\s*[a-z]/i.test(hands)) {
    const hint = nearest(hands, ['all', 'none']) ?? 'all, none, 3 min, or { start: 3 min, every: 20 min }';
    reading.error('hands', reading.at(holder, 'hands'), `${quote(hands)} says nothing about hands.`, hint);
    return usual;
  }
  return { ...NONE, start: reading.quantity(holder, 'hands', parseDuration) ?? 0 };
}

function stretches(reading: Reading, hands: Extract<StepEntry['hands'], object>, usual: Hands): Hands {
  const [start, end, every] = (['start', 'end', 'every'] as const).map((key) =>
    reading.quantity(hands, key, parseDuration),
  );
  const look = reading.quantity(hands, 'for', parseDuration);
  const cooks = hands.cooks ?? 1;
  if (hands.every === undefined && hands.for !== undefined) {
    reading.error(
      'hands',
      reading.keyAt(hands, 'for'),
      '`for` says how long each look takes, but no `every` says how often.',
      'every: 20 min',
    );
  }
  if (every === 0)
    reading.error('hands', reading.at(hands, 'every'), 'The time between looks is at least 1 min.', 'every: 20 min');
  if (every !== undefined && every > 0 && (look ?? 1) >= every) {
    reading.error('hands', reading.at(hands, 'every'), 'A look takes as long as the time between looks.', 'hands: all');
  }
  if (hands.start === undefined && hands.end === undefined && hands.every === undefined) return { ...usual, cooks };
  return {
    all: false,
    start: start ?? 0,
    end: end ?? 0,
    every: every ?? 0,
    for: every === undefined ? 0 : (look ?? 1),
    cooks,
  };
}
