/**
 * Which of a step's alternatives a row is. The document names no alternative, so the row is matched by what it shows:
 * appliance, mode, pan, kind of place and number of pans. Where several are alike in these (two entries for one oven that
 * differ in heat or minutes), the one that the row keeps best is meant, then the cheapest, then the first.
 */
import type { StepRow } from '../plan/document.js';
import type { Hands, Option, Problem, Step } from '../problem/problem.js';
import { compareHands, type Stretch } from './stretches.js';

/** What rounding may do to a temperature. */
export const DEGREE_SLACK = 1e-6;
/** What rounding may do to a quotient before it is rounded up to a whole minute. */
export const CEIL_SLACK = 1e-9;

export interface RowTimes {
  readonly raw: StepRow;
  readonly start: number;
  readonly end: number;
  readonly hands: readonly (Stretch & { readonly cook: string })[];
}

/** A value that is a list with several pans, as a list. */
export function asList<T>(each: T | T[] | null): T[] {
  if (each === null) return [];
  return Array.isArray(each) ? each : [each];
}

/** Whether the row shows this alternative, apart from times, temperature and hands. */
export function looksLike(option: Option, raw: StepRow, problem: Problem): boolean {
  const panName = option.pan === null ? null : problem.kitchen.pans[option.pan]?.name;
  if (raw.pan !== panName) return false;
  const places = asList(raw.place);
  const { place } = option;
  if (place.kind === 'none') {
    return raw.appliance === null && raw.mode === null && raw.celsius === null && places.length === 0;
  }
  if (place.kind === 'board') {
    // A board step with several pans may use one board or several; the design leaves it open.
    const asMany = places.length === 1 || places.length === option.pans;
    const bare = raw.appliance === null && raw.mode === null && raw.celsius === null;
    return bare && asMany && places.every((name) => name.startsWith('board'));
  }
  const appliance = problem.kitchen.appliances[place.appliance];
  if (appliance === undefined || raw.appliance !== appliance.name || places.length !== option.pans) return false;
  if (place.kind === 'burner') return raw.mode === null && raw.celsius === null;
  return raw.mode === appliance.modes[place.mode]?.name && raw.celsius !== null;
}

/** The minutes that an alternative may take at a temperature; null where the temperature lies outside its columns. */
export function minutesAsked(option: Option, celsius: number | null): { low: number; high: number } | null {
  const { duration } = option;
  if (duration.kind === 'fixed') return { low: duration.minutes, high: duration.minutes };
  if (duration.kind === 'range') return duration;
  if (celsius === null) return null;
  const { columns } = duration;
  const exact = columns.find((column) => Math.abs(column.celsius - celsius) <= DEGREE_SLACK);
  if (exact !== undefined) return whole(exact.minutes);
  const above = columns.findIndex((column) => column.celsius > celsius);
  const left = columns[above - 1];
  const right = columns[above];
  if (left === undefined || right === undefined) return null;
  const share = (celsius - left.celsius) / (right.celsius - left.celsius);
  return whole(left.minutes + share * (right.minutes - left.minutes));
}

function whole(minutes: number): { low: number; high: number } {
  const up = Math.ceil(minutes - CEIL_SLACK);
  return { low: up, high: up };
}

export function lastsAsAsked(option: Option, row: RowTimes): boolean {
  const asked = minutesAsked(option, row.raw.celsius);
  const length = row.end - row.start;
  return asked !== null && length >= asked.low && length <= asked.high;
}

/** Within the lowest and highest temperature that may be set; alternatives without heat runs have none. */
export function isHeatAsked(option: Option, celsius: number | null): boolean {
  const low = option.settings[0];
  const high = option.settings.at(-1);
  if (option.place.kind !== 'heated') return celsius === null;
  if (celsius === null || low === undefined || high === undefined) return false;
  return celsius >= low - DEGREE_SLACK && celsius <= high + DEGREE_SLACK;
}

/**
 * Whether the row's `minutes` are those of the alternative: its columns on a rack or grate, its minutes where it has no
 * columns. They must be there when the step is done to a core temperature, unless an entry with its own minutes took
 * that away, which only a table or a burner's number would show.
 */
export function areMinutesAsked(option: Option, row: RowTimes, step: Step): boolean {
  const { minutes } = row.raw;
  const { duration, place } = option;
  if (minutes === undefined) {
    return step.core === null || (duration.kind !== 'table' && place.kind !== 'burner');
  }
  if (typeof minutes === 'number') return duration.kind !== 'table' && minutes === row.end - row.start;
  if (duration.kind !== 'table') return false;
  const given = Object.entries(minutes).map(([celsius, value]) => ({ celsius: Number(celsius), minutes: value }));
  return (
    given.length === duration.columns.length &&
    duration.columns.every((column) =>
      given.some((each) => Math.abs(each.celsius - column.celsius) <= DEGREE_SLACK && each.minutes === column.minutes),
    )
  );
}

function isBurnerAsked(option: Option, raw: StepRow, problem: Problem): boolean {
  const { place } = option;
  if (place.kind !== 'burner') return true;
  const surface = problem.kitchen.appliances[place.appliance]?.surface;
  if (surface?.kind !== 'burners') return false;
  const names = place.burners.map((index) => surface.burners[index]?.name);
  return asList(raw.place).every((name) => names.includes(name));
}

function areHandsAsked(hands: Hands, row: RowTimes): boolean {
  const { missing, extra, doubled } = compareHands(hands, row.start, row.end, row.hands);
  return missing.length + extra.length + doubled.length === 0;
}

/** Minutes outside `best` of a free duration; 0 otherwise. */
export function minutesOutsideBest(option: Option, length: number): number {
  if (option.duration.kind !== 'range') return 0;
  const { best } = option.duration;
  return Math.max(0, best.low - length, length - best.high);
}

/** °C away from the ideal; 0 where there is none. */
export function degreesFromIdeal(option: Option, celsius: number | null): number {
  return option.ideal === null || celsius === null ? 0 : Math.abs(celsius - option.ideal);
}

/** Cooks on the row beyond the number that the alternative asks for at once. */
export function cooksBeyond(option: Option, row: RowTimes): number {
  return Math.max(0, new Set(row.hands.map((entry) => entry.cook)).size - option.hands.cooks);
}

/** The alternative that a row is, or null where it is none. */
export function optionOf(step: Step, row: RowTimes, problem: Problem): Option | null {
  const { rates } = problem;
  const judged = step.options
    .filter((option) => looksLike(option, row.raw, problem))
    .map((option) => ({
      option,
      misses: [
        isHeatAsked(option, row.raw.celsius),
        lastsAsAsked(option, row),
        areMinutesAsked(option, row, step),
        isBurnerAsked(option, row.raw, problem),
        areHandsAsked(option.hands, row),
      ].filter((kept) => !kept).length,
      points:
        rates.heat * degreesFromIdeal(option, row.raw.celsius) +
        rates.rest * minutesOutsideBest(option, row.end - row.start) +
        rates.swap * cooksBeyond(option, row),
    }));
  judged.sort((one, two) => one.misses - two.misses || one.points - two.points);
  return judged[0]?.option ?? null;
}
