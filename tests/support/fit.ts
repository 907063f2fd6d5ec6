/** How far the model with three figures is from the rows that it may be fitted to, and the figures with which it is nearest. */
import { readFileSync } from 'node:fs';
import type { Calibration } from '../../src/heat/calibration.js';
import { beyond, coreAfter, PRACTICE, RISES } from './rises.js';
import { minutesOf, type Row, split } from './timetable.js';

const rowsOf = (name: string): readonly Row[] =>
  (JSON.parse(readFileSync(new URL(`../published/${name}`, import.meta.url), 'utf8')) as { records: Row[] }).records;

/** Government timetables of several animals, of which a third is for fitting. */
export const TIMES = rowsOf('roasting-times.json');
/** A timetable of beef, none of which is. */
export const BEEF_TIMES = rowsOf('roasting-times-beef.json');

export const { fitted: FITTED, heldOut: HELD_OUT } = split(TIMES);
/** Of the rises, too, the first, fourth, seventh and so on. */
export const FITTED_RISES = RISES.filter((_, i) => i % 3 === 0);
export const HELD_OUT_RISES = RISES.filter((_, i) => i % 3 !== 0);

/** Figures that were tried, all with all. */
export const GRID = {
  vapour: [15_000, 20_000, 22_500, 25_000, 27_500, 30_000, 35_000],
  wets: [0.6, 0.7, 0.8, 0.85, 0.9, 0.95, 1],
  bird: [0.68, 0.7, 0.72, 0.74, 0.76, 0.78, 0.8],
} as const;

/**
 * Errors that count alike: a tenth of a time, and a degree of a rise, be it published or beyond the span of what is practised. A time counts no
 * more than five such.
 */
const TENTH = 0.1;
const DEGREE = 1;
const MOST = 5;

/** The sum of the squares of all errors from the middle of what is published, and from the span of what is practised. */
export function misfit(calibration: Calibration): number {
  let sum = 0;
  for (const trial of FITTED) {
    const error = Math.log(minutesOf(trial, calibration) / Math.sqrt(trial.low * trial.high)) / TENTH;
    sum += Math.min(error * error, MOST * MOST);
  }
  for (const rise of FITTED_RISES) sum += ((coreAfter(rise, calibration) - (rise.low + rise.high) / 2) / DEGREE) ** 2;
  for (const rise of PRACTICE) sum += (beyond(rise, calibration) / DEGREE) ** 2;
  return sum;
}

export function bestFigures(): Calibration {
  const all = GRID.vapour.flatMap((vapour) =>
    GRID.wets.flatMap((wets) => GRID.bird.map((bird) => ({ vapour, wets, bird }))),
  );
  return all
    .map((calibration) => ({ calibration, sum: misfit(calibration) }))
    .reduce((best, one) => (one.sum < best.sum ? one : best)).calibration;
}
