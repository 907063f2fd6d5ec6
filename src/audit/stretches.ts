/** The stretches of hands that a step asks for, and how those of a plan differ from them. */
import type { Hands } from '../problem/problem.js';

/** Half-open, minutes after `start`. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/**
 * The stretches of a step from `start` to `end`, in order. A look (every so often, counted from the step's start) that
 * would run into the start or end stretch, or past the end, falls away. Where the step is shorter than its start and
 * end stretches together, the start stretch comes first and the end stretch is what is left: nobody is asked for before
 * or after the step, nor twice for the same minute.
 */
export function stretchesAsked(hands: Hands, start: number, end: number): Stretch[] {
  if (!(end > start)) return [];
  if (hands.all) return [{ start, end }];
  const begun = Math.min(start + hands.start, end);
  const closing = Math.max(end - hands.end, begun);
  const looks: Stretch[] = [];
  if (hands.every > 0) {
    for (let at = start + hands.every; at + hands.for <= closing; at += hands.every) {
      if (at >= begun) looks.push({ start: at, end: at + hands.for });
    }
  }
  return [{ start, end: begun }, ...looks, { start: closing, end }].filter((each) => each.end > each.start);
}

export interface HandsDifference<T extends Stretch> {
  /** Stretches with too few different cooks, and how many are wanting. */
  readonly missing: readonly { readonly stretch: Stretch; readonly wanting: number }[];
  /** Entries that no stretch asks for: at other times, or one cook too many. */
  readonly extra: readonly T[];
  /** Entries that name a cook a second time for the same stretch. */
  readonly doubled: readonly T[];
}

/** One stretch stays with its cook, so an entry must have exactly the times of a stretch. */
export function compareHands<T extends Stretch & { readonly cook: string }>(
  hands: Hands,
  start: number,
  end: number,
  given: readonly T[],
): HandsDifference<T> {
  const left = new Set(given);
  const missing: { stretch: Stretch; wanting: number }[] = [];
  const doubled: T[] = [];
  for (const stretch of stretchesAsked(hands, start, end)) {
    const cooks = new Set<string>();
    for (const entry of given) {
      if (!left.has(entry) || entry.start !== stretch.start || entry.end !== stretch.end) continue;
      if (cooks.has(entry.cook)) doubled.push(entry);
      else if (cooks.size === hands.cooks) continue;
      cooks.add(entry.cook);
      left.delete(entry);
    }
    if (cooks.size < hands.cooks) missing.push({ stretch, wanting: hands.cooks - cooks.size });
  }
  return { missing, extra: [...left], doubled };
}
