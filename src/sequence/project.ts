/**
 * Resource-constrained project scheduling in the words of the kernel: activities with modes, least time lags from an end to a
 * start, renewable and nonrenewable resources; the makespan is to be short. Whole minutes from 0, half-open intervals.
 */
export interface ProjectMode {
  readonly minutes: number;
  /** Units of each renewable while the activity is under way. */
  readonly uses: readonly number[];
  /** Units of each nonrenewable, once. */
  readonly consumes: readonly number[];
}

export interface ProjectLag {
  readonly from: number;
  readonly to: number;
  /** start(to) - end(from) is at least this; not negative. */
  readonly low: number;
}

export interface Project {
  /** Modes of each activity, at least one. */
  readonly activities: readonly (readonly ProjectMode[])[];
  readonly lags: readonly ProjectLag[];
  /** Capacities. */
  readonly renewables: readonly number[];
  /** What there is of each for the whole project. */
  readonly nonrenewables: readonly number[];
}

/** Neighbours of each activity in one row: those of j are `to[first[j]]` up to before `to[first[j + 1]]`. */
export interface Arcs {
  readonly first: Int32Array;
  readonly to: Int32Array;
  readonly low: Int32Array;
}

/** Who comes before and after whom. */
export interface Network {
  readonly size: number;
  readonly before: Arcs;
  readonly after: Arcs;
  /** All activities, each after those before it. */
  readonly order: Int32Array;
}

/** Throws where lags are negative or make a circle. */
export function networkOf({ activities, lags }: Project): Network {
  const size = activities.length;
  if (lags.some(({ low }) => !(low >= 0))) throw new Error('a time lag must not be negative');
  const before = arcsOf(
    size,
    lags.map(({ from, to, low }) => [to, from, low]),
  );
  const after = arcsOf(
    size,
    lags.map(({ from, to, low }) => [from, to, low]),
  );
  return { size, before, after, order: topological(size, before, after) };
}

function arcsOf(size: number, rows: readonly (readonly [number, number, number])[]): Arcs {
  const first = new Int32Array(size + 1);
  for (const [at] of rows) first[at + 1]!++;
  for (let j = 0; j < size; j++) first[j + 1]! += first[j]!;
  const next = first.slice();
  const to = new Int32Array(rows.length);
  const low = new Int32Array(rows.length);
  for (const [at, other, least] of rows) {
    const place = next[at]!++;
    to[place] = other;
    low[place] = least;
  }
  return { first, to, low };
}

function topological(size: number, before: Arcs, after: Arcs): Int32Array {
  const waits = Int32Array.from({ length: size }, (_, j) => before.first[j + 1]! - before.first[j]!);
  const order = new Int32Array(size);
  let known = 0;
  for (let j = 0; j < size; j++) if (waits[j] === 0) order[known++] = j;
  for (let at = 0; at < known; at++) {
    const j = order[at]!;
    for (let e = after.first[j]!; e < after.first[j + 1]!; e++) {
      const next = after.to[e]!;
      if (--waits[next]! === 0) order[known++] = next;
    }
  }
  if (known < size) throw new Error('the time lags make a circle');
  return order;
}

/** Longest paths: for each activity from the beginning of everything to its start, and from its end to the end of everything. */
export function pathsOf(network: Network, minutes: ArrayLike<number>): { heads: Int32Array; tails: Int32Array } {
  const { size, before, after, order } = network;
  const heads = new Int32Array(size);
  const tails = new Int32Array(size);
  const follow = (j: number, { first, to, low }: Arcs, paths: Int32Array): void => {
    let most = 0;
    for (let e = first[j]!; e < first[j + 1]!; e++) {
      const other = to[e]!;
      most = Math.max(most, paths[other]! + minutes[other]! + low[e]!);
    }
    paths[j] = most;
  };
  for (const j of order) follow(j, before, heads);
  for (let at = size - 1; at >= 0; at--) follow(order[at]!, after, tails);
  return { heads, tails };
}
