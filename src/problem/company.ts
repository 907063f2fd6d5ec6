/** Who cooks, which courses land when, how dear things are, and in which units they are told. */
import { parseTimeOfDay } from '../units/clock.js';
import { parseDuration } from '../units/duration.js';
import { quote } from '../units/measure.js';
import type { KitchenNames } from './kitchen.js';
import { nearest } from './nearest.js';
import { APPLIANCE_KINDS, type Cook, type Course, type Rates, type ShownUnits, WORKS } from './problem.js';
import { listed, type Reading } from './reading.js';
import type { CookEntry, MealFile } from './schema.js';
import { isYes } from './schema-parts.js';
import { checkName } from './words.js';

/** Section "what a good plan is": the rates of the objective. */
export const USUAL_RATES: Rates = {
  late: 60,
  wait: { fast: 4, steady: 1, slow: 0.25, never: 0 },
  over: 10,
  gap: 0.02,
  heat: 0.05,
  runs: 5,
  idle: 0.01,
  rest: 0.5,
  swap: 0.5,
  day: 0.02,
};

export function readRates(meal: MealFile): Rates {
  const { wait, ...others } = meal.care ?? {};
  return { ...USUAL_RATES, ...said(others), wait: { ...USUAL_RATES.wait, ...said(wait ?? {}) } };
}

export const USUAL_UNITS: ShownUnits = { clock: '24h', heat: null, both: false };

export const readUnits = ({ units = {} }: MealFile): ShownUnits => ({
  clock: units.clock ?? USUAL_UNITS.clock,
  heat: units.heat ?? USUAL_UNITS.heat,
  both: isYes(units.both),
});

/** Without the keys whose value is undefined. */
const said = <T extends object>(thing: T) =>
  Object.fromEntries(Object.entries(thing).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: NonNullable<T[K]>;
  };

/** The courses in the file's order, or null where some of them are lost. */
export function readCourses(reading: Reading, meal: MealFile): Course[] | null {
  const entries = meal.courses;
  if (!entries) return reading.isBroken(meal, 'courses') ? null : [{ name: 'meal', at: 0 }];
  const seen = new Set<string>();
  const courses = entries.map((entry, index): Course => {
    const thing = typeof entry === 'object' ? entry : { course: entry };
    const spot = typeof entry === 'object' ? reading.at(entry, 'course') : reading.at(entries, index);
    checkName(reading, thing, 'course');
    if (seen.has(thing.course))
      reading.error('twice', spot, `Two courses have the name ${quote(thing.course)}.`, 'give each a name of its own');
    seen.add(thing.course);
    const at = typeof entry === 'object' ? (reading.quantity(entry, 'at', parseDuration) ?? 0) : 0;
    return { name: thing.course, at };
  });
  return reading.isHurt(entries) ? null : courses;
}

export function readCooks(reading: Reading, meal: MealFile, names: KitchenNames | null): Cook[] {
  const entries = meal.cooks;
  if (!entries) return [{ name: 'cook', can: null, from: null, to: null }];
  const seen = new Set<string>();
  return entries.map((entry, index): Cook => {
    const thing = typeof entry === 'object' ? entry : { name: entry };
    const spot = typeof entry === 'object' ? reading.at(entry, 'name') : reading.at(entries, index);
    checkName(reading, thing, 'name');
    if (seen.has(thing.name))
      reading.error('twice', spot, `Two cooks have the name ${quote(thing.name)}.`, 'give each a name of its own');
    seen.add(thing.name);
    return typeof entry === 'object' ? cookOf(reading, entry, names) : { name: entry, can: null, from: null, to: null };
  });
}

function cookOf(reading: Reading, entry: CookEntry, names: KitchenNames | null): Cook {
  const from = reading.quantity(entry, 'from', parseTimeOfDay);
  const to = reading.quantity(entry, 'to', parseTimeOfDay);
  if (from === 1440) reading.error('hours', reading.at(entry, 'from'), 'Nobody begins at 24:00.', '00:00');
  if (from !== undefined && from === to)
    reading.error('hours', reading.at(entry, 'to'), `The hours of ${quote(entry.name)} end when they begin.`);
  const can = entry.can === undefined ? null : Array.isArray(entry.can) ? entry.can : [entry.can];
  if (can && names) sayUnknown(reading, entry, can, names);
  if (can?.length === 0)
    reading.error(
      'can',
      reading.at(entry, 'can'),
      `${quote(entry.name)} can do nothing.`,
      'leave `can` out: everything',
    );
  return { name: entry.name, can, from: from ?? null, to: to ?? null };
}

function sayUnknown(reading: Reading, entry: CookEntry, can: readonly string[], names: KitchenNames): void {
  const known = [...WORKS, ...names.appliances, ...APPLIANCE_KINDS, 'board'];
  for (const [index, word] of can.entries()) {
    if (known.includes(word)) continue;
    const spot = Array.isArray(entry.can) ? reading.at(entry.can, index) : reading.at(entry, 'can');
    reading.error(
      'can',
      spot,
      `${quote(word)} is no kind of work, no appliance and no board.`,
      nearest(word, known) ?? listed(WORKS),
    );
  }
}
