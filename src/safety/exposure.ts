/**
 * How long food is neither cold nor hot: by its temperatures where they are known, elsewhere by what is done to it.
 *
 * Surface or core: germs are on the surface of a whole muscle that nothing has opened, and the inside of such a muscle is as
 * good as sterile (the FDA Food Code 3-401.11(C) lets a steak be seared only, for that; from memory). FSIS, Cooking Guideline
 * (2021), lets the minutes of coming up to heat be counted at the surface of intact pieces, and asks for the centre of all
 * others. So an intact piece counts by its surface. Everything else counts as long as any part of it, from surface to core,
 * is between the limits. What must be killed in the core, `lethality.ts`, is never judged by the surface.
 */
import type { Window } from '../problem/hours.js';
import { celsiusOfFahrenheit } from '../units/temperature.js';
import { type DishCurve, minutesBetween, stretchesBetween } from './curve.js';
import { heatBegins, isHeat, type Meal, type Row, type Timetable } from './meal.js';
import { COME_UP, DANGER_ZONE, LONGEST_OUT, meets, type Printed } from './published.js';

/** Temperatures between which germs grow; the ends are outside. */
export interface Zone {
  readonly low: Printed;
  readonly high: Printed;
}

/** Minutes that a dish is out of the cold and not hot. */
export interface Exposure {
  /** Until it has last been on the heat. */
  readonly before: number;
  /** From then on. */
  readonly after: number;
}

/** Minutes for which perishable food may be out, in a room of so many °C. */
export const longestOut = (room: number): number =>
  room >= LONGEST_OUT.hotRoom.celsius ? LONGEST_OUT.inHotRoom : LONGEST_OUT.minutes;

/** When a piece is in the zone along its curve; null where the surface is not known, which cools and warms first. */
export function zoneStretches(curve: DishCurve, intact: boolean, { low, high }: Zone): Window[] | null {
  if (curve.surface === undefined) return null;
  const parts = intact ? [curve.surface] : [curve.surface, curve.celsius];
  return stretchesBetween(curve.minutes, parts, low.celsius, high.celsius);
}

/**
 * Minutes in the zone from the first step of a perishable dish to its landing, without those on the heat: coming up to heat
 * has a limit of its own. Where the dish's curve is known they go by its temperatures. Elsewhere every minute counts but those
 * in the cold: a dish counts as cold before its first step and from a chill step until its next, and a rest counts from its
 * first minute, however hot the food comes to it.
 */
export function exposureOf(meal: Meal, timetable: Timetable, at: number, zone: Zone = DANGER_ZONE): Exposure {
  const { ofDish, lands } = timetable;
  const rows = ofDish[at]!;
  const { perishable } = meal.foods[at]!;
  const heats = rows.filter((row) => row.step !== null && isHeat(row.step.work));
  if (rows.length === 0 || perishable === null || (perishable === 'cooked' && heats.length === 0))
    return { before: 0, after: 0 };
  const done = heats.length === 0 ? Number.POSITIVE_INFINITY : Math.max(...heats.map((row) => row.end));
  const from = perishable === 'cooked' ? heats[0]!.end : rows[0]!.start;
  const to = perishable === 'raw' && heats.length > 0 ? heats.at(-1)!.start : lands[at]!;
  const safe = rows.flatMap((row): Window[] => {
    if (isHot(row, zone)) return [{ start: row.start, end: row.end }];
    if (row.step?.work !== 'chill') return [];
    const next = rows.find((other) => other !== row && other.start >= row.end);
    return [{ start: row.start, end: next?.start ?? lands[at]! }];
  });
  const inZone = knownOf(meal, timetable, at, zone);
  let before = 0;
  let after = 0;
  let reached = from;
  const count = (start: number, end: number): void => {
    before += inZone(start, Math.min(end, done));
    after += inZone(Math.max(start, done), end);
  };
  for (const { start, end } of safe.sort((a, b) => a.start - b.start)) {
    count(reached, Math.min(start, to));
    reached = Math.max(reached, end);
  }
  count(reached, to);
  return { before, after };
}

/** On a burner, or in an appliance that is warm enough to hold hot food. */
function isHot({ step, celsius }: Row, { high }: Zone): boolean {
  if (celsius !== null) return meets(celsius, high);
  return step !== null && isHeat(step.work);
}

/** Minutes of a stretch of the plan that are, or may be, in the zone. */
function knownOf(meal: Meal, timetable: Timetable, at: number, zone: Zone): (start: number, end: number) => number {
  const curve = meal.curves.get(at);
  const zero = heatBegins(timetable, at);
  const stretches = curve === undefined ? null : zoneStretches(curve, meal.foods[at]!.intact, zone);
  if (curve === undefined || zero === null || stretches === null) return (start, end) => Math.max(0, end - start);
  const { minutes } = curve;
  const known = { start: zero + minutes[0]!, end: zero + minutes[minutes.length - 1]! };
  const moved = stretches.map(({ start, end }) => ({ start: zero + start, end: zero + end }));
  return (start, end) => {
    if (end <= start) return 0;
    const stretch = { start, end };
    const unknown = end - start - shared(stretch, known);
    return moved.reduce((sum, one) => sum + shared(stretch, one), unknown);
  };
}

const shared = (one: Window, other: Window): number =>
  Math.max(0, Math.min(one.end, other.end) - Math.max(one.start, other.start));

/** Minutes that a piece takes from the lower to the upper limit of coming up to heat: the surface of an intact one, else the core. */
export function comeUpOf({ minutes, celsius, surface }: DishCurve, intact: boolean): number {
  const [low, high] = [COME_UP.low, COME_UP.high].map((limit) => celsiusOfFahrenheit(limit.fahrenheit));
  const counted = Array.from(intact ? (surface ?? celsius) : celsius);
  const up = counted.findIndex((one) => one >= high!);
  const until = up < 0 ? counted.length : up + 1;
  return minutesBetween(
    { minutes: Array.from(minutes).slice(0, until), celsius: counted.slice(0, until) },
    low!,
    high!,
  );
}
