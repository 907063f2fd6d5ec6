/** Who does a step at a time at which the plan did not have it. */
import { type ActivityMode, stretchesOf } from '../../kernel/model.js';
import type { State } from '../../kernel/state.js';
import type { Doing } from './doing.js';

/** When something is done. */
export interface Span {
  readonly start: number;
  readonly minutes: number;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
  /** Those who can, those first who were to do it, then who were to do another stretch. */
  readonly able: readonly number[];
}

/** Those who were to do it, for each stretch in turn; where one of them is busy or gone, somebody else who is not; null where nobody is. */
export function handsAsPlanned(state: State, mode: ActivityMode, at: Span, planned: Doing): number[] | null {
  const out: number[] = [];
  for (const { from, to, able } of stretchesFor(state, mode, at, planned)) {
    const free = able.filter((w) => !state.busy[w]!.subarray(from, to).includes(1));
    if (free.length < mode.attention.crew) return null;
    out.push(...free.slice(0, mode.attention.crew));
  }
  return out;
}

/** The same, where nobody is free those who are there and busy for the shortest time; null where too few can do it at all. */
export function handsOrBusy(state: State, mode: ActivityMode, at: Span, planned: Doing | null): number[] | null {
  const out: number[] = [];
  for (const { from, to, able } of stretchesFor(state, mode, at, planned)) {
    if (able.length < mode.attention.crew) return null;
    const busy = able.map((w) => {
      const isThere = state.model.workers[w]!.stays.some((stay) => stay.from <= from && to <= stay.to);
      return { w, minutes: isThere ? minutesBusy(state, w, from, to) : Number.POSITIVE_INFINITY };
    });
    busy.sort((one, two) => (one.minutes === two.minutes ? 0 : one.minutes - two.minutes));
    out.push(...busy.slice(0, mode.attention.crew).map(({ w }) => w));
  }
  return out;
}

const minutesBusy = (state: State, w: number, from: number, to: number): number =>
  state.busy[w]!.subarray(from, to).reduce((sum, each) => sum + each, 0);

function stretchesFor(
  { model }: State,
  { attention, able }: ActivityMode,
  { start, minutes }: Span,
  planned: Doing | null,
): Stretch[] {
  const flat = stretchesOf(attention, minutes);
  const usual = planned?.hands.map((hand) => hand.cook) ?? [];
  const steady = usual.length === (flat.length / 2) * attention.crew;
  const everybody = model.workers.map((_, w) => w);
  return Array.from({ length: flat.length / 2 }, (_, k) => {
    const own = steady ? usual.slice(k * attention.crew, (k + 1) * attention.crew) : usual;
    const from = start + flat[2 * k]!;
    const to = from + flat[2 * k + 1]!;
    const list = [...new Set([...own, ...usual, ...everybody])].filter((w) => w >= 0 && (able >> w) % 2 === 1);
    return { from, to, able: list };
  });
}
