/** The entries of `on`, each with what holds in it: its own words, else those of the step. */
import { quote } from '../units/measure.js';
import { handsOf } from './hands.js';
import { type Heat, heatOf } from './heat.js';
import type { KitchenNames } from './kitchen.js';
import type { Spot } from './message.js';
import { nearest } from './nearest.js';
import { checkPlaceWord, meaningOf } from './places.js';
import type { Hands, Kitchen, Work } from './problem.js';
import { listed, type Reading } from './reading.js';
import type { PlaceEntry, StepEntry } from './schema.js';
import { type Time, timeOf } from './times.js';

/** One entry of `on` with what holds in it, the step's own words included. */
export interface Way {
  readonly index: number;
  readonly place: string;
  readonly work: Work;
  readonly spot: Spot;
  readonly time: Time;
  readonly heat: Heat | undefined;
  readonly heatSpot: Spot;
  /** Whether the entry itself says the heat. */
  readonly ownHeat: boolean;
  readonly mode: string | undefined;
  readonly modeSpot: Spot;
  readonly ownMode: boolean;
  readonly pan: number | null;
  readonly panSpot: Spot;
  readonly pans: number;
  readonly hands: Hands;
  readonly handsSpot: Spot;
}

/** Reads every entry and says what is wrong in it; wrong ones are left out. */
export function waysOf(reading: Reading, step: StepEntry, kitchen: Kitchen | null, names: KitchenNames | null): Way[] {
  if (reading.isBroken(step, 'on')) return [];
  const entries = entriesOf(step);
  if (entries.length === 0) {
    if (!reading.isHurt(step.on as object))
      reading.error('no-place', reading.at(step, 'on'), '`on` names no place.', 'on: none');
    return [];
  }
  const ways: Way[] = [];
  for (const [index, one] of entries.entries()) {
    const entry = typeof one === 'object' ? one : null;
    const place = entry ? entry.place : (one as string);
    const holder = Array.isArray(step.on)
      ? reading.at(step.on, index)
      : reading.at(step, step.on === undefined ? 'step' : 'on');
    const spot = entry ? reading.at(entry, 'place') : holder;
    if (place === 'none' && entries.length > 1) {
      reading.error(
        'no-place',
        spot,
        '`none` stands alone in `on`: a step has a place or it has none.',
        'leave `none` out',
      );
    }
    const known = names ? checkPlaceWord(reading, spot, place, names) : true;
    const absent = kitchen !== null && meaningOf(place, kitchen).kind === 'absent';
    const way = wayOf(reading, step, entry, absent ? null : names, index, place, spot);
    if (way && known) ways.push(way);
  }
  return ways;
}

/** The words or maps of `on`; where it is absent prep and carve use a board, the others no place. */
export function entriesOf(step: StepEntry): (string | PlaceEntry)[] {
  if (step.on === undefined) return [step.work === 'prep' || step.work === 'carve' ? 'board' : 'none'];
  return Array.isArray(step.on) ? step.on : [step.on];
}

/** `names` is null where the pan is not held to this kitchen: it is in doubt, or the place is not in it. */
function wayOf(
  reading: Reading,
  step: StepEntry,
  entry: PlaceEntry | null,
  names: KitchenNames | null,
  index: number,
  place: string,
  spot: Spot,
): Way | undefined {
  const time = timeOf(reading, step, entry);
  const ownHeat = entry?.heat !== undefined;
  const heat = heatOf(reading, ownHeat ? entry : step);
  const hands = handsOf(reading, step, entry);
  const handsHolder = entry?.hands !== undefined ? entry : step;
  const panHolder = entry?.pan !== undefined ? entry : step;
  const pansHolder = entry?.pans !== undefined ? entry : step;
  const pan = panHolder.pan === undefined || panHolder.pan === 'none' ? null : panHolder.pan;
  if (pan !== null && names && !names.pans.includes(pan)) {
    const hint = nearest(pan, names.pans) ?? listed(names.pans);
    reading.error('unknown-pan', reading.at(panHolder, 'pan'), `There is no pan ${quote(pan)} in this kitchen.`, hint);
  }
  const panless = pan === null && (panHolder.pan === undefined || pansHolder === entry);
  if (panless && pansHolder.pans !== undefined && !reading.isHurt(pansHolder)) {
    reading.error(
      'pan',
      reading.keyAt(pansHolder, 'pans'),
      '`pans` counts a pan, but none is named.',
      'pan: half sheet',
    );
  }
  if (!time) return undefined;
  const ownMode = entry?.mode !== undefined;
  return {
    index,
    place,
    work: step.work,
    spot,
    time,
    heat,
    heatSpot: reading.at(ownHeat ? entry : step, 'heat'),
    ownHeat,
    mode: entry?.mode ?? step.mode,
    modeSpot: ownMode ? reading.at(entry!, 'mode') : reading.at(step, 'mode'),
    ownMode,
    pan: pan === null || !names ? null : names.pans.indexOf(pan),
    panSpot: pan === null ? spot : reading.at(panHolder, 'pan'),
    pans: pan === null ? 1 : (pansHolder.pans ?? 1),
    hands,
    handsSpot: reading.at(handsHolder, handsHolder.hands === undefined ? 'step' : 'hands'),
  };
}
