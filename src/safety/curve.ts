/** Temperatures over time, taken as linear between their points. */
import type { Window } from '../problem/hours.js';

/** Points in the order of time: minutes never fall, as many °C as minutes, at least one point, all of them finite. */
export interface Curve {
  readonly minutes: ArrayLike<number>;
  /** °C. */
  readonly celsius: ArrayLike<number>;
}

/**
 * What is predicted, or was measured, of one dish's piece: `celsius` at the core, which is its coldest point while it is
 * heated. Minute 0 is when its first step on the heat begins; what comes before has minutes below 0. Give the slowest core
 * that is to be reckoned with, not the likeliest: what is decided from it is whether the food is safe. It ends when the food
 * is cut or eaten; where a plan is known, nothing after the landing counts.
 */
export interface DishCurve extends Curve {
  /** °C at the coldest part of the surface, at the same minutes. */
  readonly surface?: ArrayLike<number> | undefined;
}

/** By index of the dish. */
export type Curves = ReadonlyMap<number, DishCurve>;

/** A stretch of a curve that crosses none of some temperatures within. */
interface Piece {
  readonly from: number;
  readonly to: number;
  /** °C at both ends. */
  readonly first: number;
  readonly last: number;
}

/** Throws a RangeError where the points make no curve. */
export function checkCurve({ minutes, celsius, surface }: DishCurve): void {
  const count = minutes.length;
  if (count === 0 || celsius.length !== count || (surface !== undefined && surface.length !== count))
    throw new RangeError('A curve has one temperature for each of its minutes, and at least one.');
  for (let k = 0; k < count; k++) {
    const known = Number.isFinite(minutes[k]) && Number.isFinite(celsius[k]) && Number.isFinite(surface?.[k] ?? 0);
    if (!known) throw new RangeError(`The curve's point ${k} is not finite.`);
    if (k > 0 && minutes[k]! < minutes[k - 1]!) throw new RangeError(`The curve runs backwards at its point ${k}.`);
  }
}

/** The curve in stretches that each lie wholly on one side of every temperature of `levels` (°C, rising). */
export function* piecesOf({ minutes, celsius }: Curve, levels: readonly number[]): Generator<Piece> {
  for (let k = 1; k < minutes.length; k++) {
    const [start, end] = [minutes[k - 1]!, minutes[k]!];
    const [low, high] = [celsius[k - 1]!, celsius[k]!];
    if (end <= start) continue;
    const crossed = levels.filter((level) => level > Math.min(low, high) && level < Math.max(low, high));
    if (high < low) crossed.reverse();
    let [from, first] = [start, low];
    for (const level of crossed) {
      const to = start + ((level - low) / (high - low)) * (end - start);
      yield { from, to, first, last: level };
      [from, first] = [to, level];
    }
    yield { from, to: end, first, last: high };
  }
}

/**
 * When something of a piece is between two temperatures, which themselves are outside: `parts` are its temperatures at the
 * same minutes, and what lies between two parts has all temperatures between theirs. Stretches in order, apart from each other.
 */
export function stretchesBetween(
  minutes: ArrayLike<number>,
  parts: readonly ArrayLike<number>[],
  low: number,
  high: number,
): Window[] {
  const all: Window[] = [];
  for (let k = 1; k < minutes.length; k++) {
    const [from, to] = [minutes[k - 1]!, minutes[k]!];
    if (to <= from) continue;
    const shares = parts.flatMap((part) => crossings(part[k - 1]!, part[k]!, [low, high])).sort((a, b) => a - b);
    for (const [at, share] of [...shares, 1].entries()) {
      const before = shares[at - 1] ?? 0;
      const middle = (before + share) / 2;
      const here = parts.map((part) => part[k - 1]! + middle * (part[k]! - part[k - 1]!));
      if (share <= before || Math.max(...here) <= low || Math.min(...here) >= high) continue;
      const [start, end] = [from + before * (to - from), from + share * (to - from)];
      const last = all.at(-1);
      if (last !== undefined && last.end >= start) all[all.length - 1] = { start: last.start, end };
      else all.push({ start, end });
    }
  }
  return all;
}

/** The shares of a straight way at which it crosses the levels. */
const crossings = (first: number, last: number, levels: readonly number[]): number[] =>
  levels.map((level) => (level - first) / (last - first)).filter((share) => share > 0 && share < 1);

/** Minutes spent between two temperatures, which themselves are outside. */
export const minutesBetween = ({ minutes, celsius }: Curve, low: number, high: number): number =>
  stretchesBetween(minutes, [celsius], low, high).reduce((sum, { start, end }) => sum + end - start, 0);

/** The highest temperature, °C. */
export const peakOf = ({ celsius }: Curve): number => Array.from(celsius).reduce((most, one) => Math.max(most, one));

/** The curve from its beginning to a minute; null where it begins later. */
export function curveUntil(curve: DishCurve, minute: number): DishCurve | null {
  const { minutes, celsius, surface } = curve;
  if (minute < minutes[0]!) return null;
  const kept = Array.from(minutes).findIndex((one) => one > minute);
  if (kept < 0) return curve;
  const share = (minute - minutes[kept - 1]!) / (minutes[kept]! - minutes[kept - 1]!);
  const cut = (all: ArrayLike<number>): number[] => [
    ...Array.from(all).slice(0, kept),
    all[kept - 1]! + share * (all[kept]! - all[kept - 1]!),
  ];
  return { minutes: cut(minutes), celsius: cut(celsius), ...(surface === undefined ? {} : { surface: cut(surface) }) };
}
