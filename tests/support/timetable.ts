/** Published roasting times beside what the model says. Minutes, kilograms, °C. */
import { CALIBRATION, type Calibration } from '../../src/heat/calibration.js';
import { Prepared } from '../../src/heat/heating.js';
import { type Cutting, cutOf } from './cuts.js';

/** A row of a timetable as it is printed. */
export interface Row {
  readonly source: string;
  readonly species: string;
  readonly cut: string;
  readonly method: string;
  readonly weight_lb?: readonly [number, number] | null;
  readonly oven_F?: number | readonly [number, number] | null;
  readonly min_per_lb?: readonly [number, number] | null;
  readonly total_min?: readonly [number, number] | null;
  readonly end_F?: number | null;
  readonly note?: string | null;
}

/** A row that the model can be held to, at the middle of its weights and of its oven's heats. */
export interface Trial {
  readonly row: Row;
  readonly cutting: Cutting;
  readonly weight: number;
  readonly oven: number;
  readonly core: number;
  /** Published minutes at that weight. */
  readonly low: number;
  readonly high: number;
}

const POUND = 0.45359237;
const celsius = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;
const middle = (span: number | readonly [number, number]): number =>
  typeof span === 'number' ? span : (span[0] + span[1]) / 2;

/** The row as a trial, or why it is none. */
export function trialOf(row: Row): Trial | string {
  const { method, weight_lb, oven_F, end_F, min_per_lb, total_min, cut, species } = row;
  if (method !== 'roast') return 'not roasted in an oven';
  if (weight_lb == null) return 'no weight is said';
  if (oven_F == null || end_F == null) return 'no oven or core temperature is said';
  if (/(^|[^n])stuffed/.test(cut)) return 'two foods in one, stuffing and meat';
  if (/tender/.test(row.note ?? '')) return 'cooked until tender, not to a core temperature';
  const pounds = middle(weight_lb);
  const span = min_per_lb?.map((minutes) => minutes * pounds) ?? total_min;
  const cutting = cutOf(species, cut, pounds * POUND);
  if (span == null) return 'no time is said';
  if (cutting === null) return 'a food that the model does not know';
  return {
    row,
    cutting,
    weight: pounds * POUND,
    oven: celsius(middle(oven_F)),
    core: celsius(end_F),
    low: span[0]!,
    high: span[1]!,
  };
}

/** A row printed twice counts once. */
export function distinct(rows: readonly Row[]): Row[] {
  const seen = new Set<string>();
  return rows.filter(({ species, cut, weight_lb, oven_F, min_per_lb, total_min, end_F }) => {
    const key = JSON.stringify([species, cut, weight_lb, oven_F, min_per_lb, total_min, end_F]);
    return !seen.has(key) && seen.add(key);
  });
}

/** Trials, split by a rule that looks at nothing but their order: the first, fourth, seventh and so on are for fitting, the others are held out. */
export function split(rows: readonly Row[]): { fitted: Trial[]; heldOut: Trial[] } {
  const trials = distinct(rows)
    .map(trialOf)
    .filter((trial) => typeof trial !== 'string');
  return { fitted: trials.filter((_, i) => i % 3 === 0), heldOut: trials.filter((_, i) => i % 3 !== 0) };
}

/** What the model says: on a rack in a still oven, taken out at the core temperature. */
export function minutesOf({ cutting, oven, core }: Trial, calibration: Calibration = CALIBRATION): number {
  const prepared = new Prepared(cutting.joint, [], undefined, calibration);
  return prepared.minutesTo({ kind: 'air', celsius: oven, moving: 'still', on: 'rack' }, core);
}

/** Within the published span widened by a tenth on both sides. */
export const isMet = ({ low, high }: Trial, minutes: number): boolean => minutes >= 0.9 * low && minutes <= 1.1 * high;

/**
 * The same with the span of the whole row: at the middle weight a row by the pound is narrower than one that gives minutes for
 * all its weights together.
 */
export function isMetOverRow(trial: Trial, minutes: number): boolean {
  const { weight_lb, min_per_lb } = trial.row;
  if (weight_lb == null || min_per_lb == null) return isMet(trial, minutes);
  return isMet({ ...trial, low: weight_lb[0] * min_per_lb[0], high: weight_lb[1] * min_per_lb[1] }, minutes);
}

/** By what part minutes lie outside of the published span: 0 inside, -0.1 for 10 % below its low end. */
export function offBy({ low, high }: Trial, minutes: number): number {
  return minutes < low ? minutes / low - 1 : minutes > high ? minutes / high - 1 : 0;
}
