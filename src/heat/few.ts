/** A row of values that are dear to find, from a few of them: the others lie on the polynomial through those. */

export interface Few {
  /**
   * Numbers that all depend smoothly on x; null: there is nothing to be had at this place. `expected`: what is known so far lets
   * one expect; null where that is nothing.
   */
  readonly find: (at: number, expected: readonly number[] | null) => readonly number[] | null;
  /** How far what was found is from what was expected, as a part of what may be. */
  readonly off: (found: readonly number[], expected: readonly number[]) => number;
}

/** It ends when two one after the other are found near enough to where they were expected, or of so many the last so near that it is no chance. */
const TWICE = 2;
const MANY = 6;
const NO_CHANCE = 0.2;

/**
 * The values at all places `xs` (rising). Where there is nothing at one place, there is nothing at those below. What is found next is
 * where the places found so far leave the widest room (Leja's rule, under which the polynomial stays tame).
 */
export function fromFew(xs: readonly number[], { find, off }: Few): (readonly number[] | null)[] {
  const found = new Map<number, readonly number[] | null>();
  const known: number[] = [];
  const expectedAt = (place: number): number[] | null => (known.length === 0 ? null : valueAt(xs, known, found, place));
  const learn = (place: number, expected: readonly number[] | null): readonly number[] | null => {
    if (!found.has(place)) found.set(place, find(place, expected));
    return found.get(place)!;
  };
  const first = firstThat(xs.length, (place) => learn(place, null) !== null);
  let right = 0;
  for (
    let place = first < xs.length ? first : null;
    place !== null && right < TWICE;
    place = widest(xs, first, known)
  ) {
    const expected = expectedAt(place);
    const value = learn(place, expected)!;
    known.push(place);
    const error = expected === null ? Number.POSITIVE_INFINITY : off(value, expected);
    right = error <= NO_CHANCE && known.length >= MANY ? TWICE : error <= 1 ? right + 1 : 0;
  }
  return xs.map((_, place) => (place < first ? null : (found.get(place) ?? expectedAt(place))));
}

/** The first place at which it holds, if it holds at all further ones; `count` where it holds at none. */
function firstThat(count: number, holds: (place: number) => boolean): number {
  if (count === 0 || holds(0)) return 0;
  if (!holds(count - 1)) return count;
  let [low, high] = [0, count - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}

function widest(xs: readonly number[], first: number, known: readonly number[]): number | null {
  let [best, most] = [null as number | null, 0];
  for (let place = first; place < xs.length; place++) {
    const room = known.reduce((product, k) => product * Math.abs(xs[place]! - xs[k]!), 1);
    if (room > most) [best, most] = [place, room];
  }
  return best;
}

/** Lagrange's polynomial through the known places. */
function valueAt(
  xs: readonly number[],
  known: readonly number[],
  found: ReadonlyMap<number, readonly number[] | null>,
  place: number,
): number[] {
  const weights = known.map((i) =>
    known.reduce((product, j) => (j === i ? product : (product * (xs[place]! - xs[j]!)) / (xs[i]! - xs[j]!)), 1),
  );
  const { length } = found.get(known[0]!)!;
  return Array.from({ length }, (_, n) => known.reduce((sum, i, k) => sum + weights[k]! * found.get(i)![n]!, 0));
}
