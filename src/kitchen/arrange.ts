/** Pans over a stretch of time on the levels of one appliance: which level and which spot each keeps. */
import { alone, groundOf } from './ground.js';
import { type Packing, pack, USUAL_EFFORT } from './pack.js';
import type { Spot, Standing } from './surface.js';
import type { Shelves } from './surface-of.js';
import { Work } from './work.js';

export interface Placed {
  /** Counted from 1 at the bottom; 1 on a grate. */
  readonly level: number;
  readonly spot: Spot;
}

export type Arrangement = { readonly placed: readonly Placed[] } | { readonly placed: null; readonly proof: boolean };

/** Work of trying one level for one standing, in nodes. */
const COST = 2;
/** Of the work that is left, for one packing. */
const SHARE = 0.25;

/**
 * A level and a spot for every standing, kept for its whole time, so that those on one level at once do not overlap and
 * at every instant the loaded levels' tallest loads, each with the clearance, sum to no more than the cavity's height;
 * null where there is none (or none was found: see `arrangement`). Each standing gets a level of its own, the lowest
 * first, where that works; else they share, again the lowest first. Fixed ones stay, and are not judged. Deterministic.
 */
export function arrange(
  shelves: Shelves,
  standings: readonly Standing[],
  effort: number | Work = USUAL_EFFORT,
): readonly Placed[] | null {
  return arrangement(shelves, standings, effort).placed;
}

/** As `arrange`, and says whether a null is proven. */
export function arrangement(
  shelves: Shelves,
  standings: readonly Standing[],
  effort: number | Work = USUAL_EFFORT,
): Arrangement {
  const work = typeof effort === 'number' ? new Work(effort) : effort;
  const ground = groundOf(shelves.surface);
  const placed: Placed[] = [];
  for (const { footprint, height, fixed } of standings) {
    if (fixed !== null) {
      placed.push(fixed);
      continue;
    }
    const spot = alone(ground, footprint);
    if (spot === null || height > shelves.limit + 1e-9 || height + shelves.clearance > shelves.height + 1e-9)
      return { placed: null, proof: true };
    placed.push({ level: 0, spot });
  }
  let proof = true;
  for (const group of inTime(standings)) {
    if (group.length === 1) {
      const i = group[0]!;
      if (standings[i]!.fixed === null) placed[i] = { level: 1, spot: placed[i]!.spot };
      continue;
    }
    const part = placeGroup({ shelves, standings, group, work }, placed);
    if (part === 'placed') continue;
    if (part === 'impossible') return { placed: null, proof: true };
    proof = false;
  }
  return proof ? { placed } : { placed: null, proof: false };
}

/** Some standings that hang together in time, by index and in order of start. */
interface Group {
  readonly shelves: Shelves;
  readonly standings: readonly Standing[];
  readonly group: readonly number[];
  readonly work: Work;
}

type Outcome = 'placed' | 'impossible' | 'unknown';

/** Levels and spots for one group, written into `placed`. */
function placeGroup(task: Group, placed: Placed[]): Outcome {
  const { group, standings } = task;
  const known: Known = new Map();
  const search = new LevelSearch(task, known);
  if (search.ownLevels()) {
    for (const i of group) placed[i] = { level: search.level[i]!, spot: placed[i]!.spot };
    return 'placed';
  }
  // What is on at one instant must find room by itself; that refuses most at once.
  for (const on of instants(standings, group)) {
    if (on.length === group.length) continue;
    const moment = new LevelSearch({ ...task, group: on }, known);
    if (!moment.ownLevels() && moment.share() === 'impossible') return 'impossible';
  }
  const outcome = search.share();
  if (outcome === 'placed') search.keep(placed);
  return outcome;
}

/** Groups that hang together in time, each by start, then as given. */
function inTime(standings: readonly Standing[]): number[][] {
  const order = standings.map((_, i) => i).sort((a, b) => standings[a]!.start - standings[b]!.start || a - b);
  const found: number[][] = [];
  let group: number[] = [];
  let until = Number.NEGATIVE_INFINITY;
  for (const i of order) {
    const { start, end } = standings[i]!;
    if (start >= until && group.length > 0) {
      found.push(group);
      group = [];
    }
    group.push(i);
    until = Math.max(until, end);
  }
  if (group.length > 0) found.push(group);
  return found;
}

/** The largest sets of a group that are on at one instant, by time. */
function instants(standings: readonly Standing[], group: readonly number[]): number[][] {
  const found: number[][] = [];
  let last: readonly number[] = [];
  for (const k of group) {
    const at = standings[k]!.start;
    const on = group.filter((i) => standings[i]!.start <= at && at < standings[i]!.end);
    // A start at the same minute, or after which nothing has ended, gives a larger set.
    if (last.every((i) => on.includes(i))) found.pop();
    found.push(on);
    last = on;
  }
  return found;
}

/** Spots for sets of standings on one level, by the set. */
type Known = Map<string, Packing>;

/** Levels for one group; a level holds what `pack` finds spots for. */
class LevelSearch {
  /** Of each standing; 0: none yet. */
  readonly level: Int32Array;
  /** For each standing those that are on at some instant with it, itself included. */
  private readonly beside: number[][] = [];
  private unsure = false;

  constructor(
    private readonly task: Group,
    private readonly known: Known,
  ) {
    const { group, standings } = task;
    this.level = new Int32Array(standings.length);
    for (const i of group) {
      this.level[i] = standings[i]!.fixed?.level ?? 0;
      this.beside[i] = group.filter((j) => this.together(i, j));
    }
  }

  private together(i: number, j: number): boolean {
    const a = this.task.standings[i]!;
    const b = this.task.standings[j]!;
    return a.start < b.end && b.start < a.end;
  }

  /** Without packing: each on the lowest level that is empty for its whole time. */
  ownLevels(): boolean {
    const { group, standings, shelves } = this.task;
    const free = group.filter((i) => standings[i]!.fixed === null);
    const fits = free.every((i) => {
      let own = 1;
      while (own <= shelves.levels && this.beside[i]!.some((j) => this.level[j] === own)) own++;
      this.level[i] = own;
      return own <= shelves.levels && this.low(i);
    });
    if (!fits) for (const i of free) this.level[i] = 0;
    return fits;
  }

  /** Whether the cavity is high enough at every instant of i's stay, for those that have a level. */
  private low(i: number): boolean {
    const { shelves, standings } = this.task;
    const { levels, height, clearance } = shelves;
    if (height === Number.POSITIVE_INFINITY) return true;
    const near = this.beside[i]!;
    for (const k of near) {
      // The sum rises only where something begins.
      const at = Math.max(standings[k]!.start, standings[i]!.start);
      if (this.level[k] === 0) continue;
      let sum = 0;
      for (let l = 1; l <= levels; l++) {
        let tallest = -1;
        for (const j of near) {
          const one = standings[j]!;
          if (this.level[j] === l && one.start <= at && at < one.end) tallest = Math.max(tallest, one.height);
        }
        if (tallest >= 0) sum += tallest + clearance;
      }
      if (sum > height + 1e-9) return false;
    }
    return true;
  }

  /** Every assignment of levels, the lowest first; levels on which nothing stands yet are alike. */
  share(): Outcome {
    const free = this.task.group.filter((i) => this.task.standings[i]!.fixed === null);
    if (this.assign(free, 0)) return 'placed';
    return this.unsure || this.task.work.spent ? 'unknown' : 'impossible';
  }

  private assign(free: readonly number[], k: number): boolean {
    if (k === free.length) return true;
    const { group, shelves, work } = this.task;
    const i = free[k]!;
    let empty = false;
    for (let l = 1; l <= shelves.levels; l++) {
      const used = group.some((j) => this.level[j] === l);
      if (!used && empty) continue;
      empty ||= !used;
      if (!work.take(COST)) return false;
      this.level[i] = l;
      if (this.low(i) && this.spotsAround(i).spots !== null && this.assign(free, k + 1)) return true;
      this.level[i] = 0;
    }
    return false;
  }

  /** Those on i's level that hang together with it, in rising order. */
  private around(i: number): number[] {
    const found = [i];
    for (const k of found) {
      for (const j of this.beside[k]!) if (this.level[j] === this.level[i] && !found.includes(j)) found.push(j);
    }
    return found.sort((a, b) => a - b);
  }

  private spotsAround(i: number): Packing {
    const { shelves, standings, work } = this.task;
    const on = this.around(i);
    const key = on.join(' ');
    let packing = this.known.get(key);
    if (packing === undefined) {
      const footprints = on.map((j) => standings[j]!.footprint);
      const fixed = on.map((j) => standings[j]!.fixed?.spot ?? null);
      const stays = fixed.some((spot) => spot !== null) ? fixed : null;
      const part = work.part(SHARE);
      packing = pack(shelves.surface, footprints, (a, b) => this.together(on[a]!, on[b]!), stays, part);
      work.settle(part, SHARE);
      this.known.set(key, packing);
    }
    if (packing.spots === null && !packing.proof) this.unsure = true;
    return packing;
  }

  /** Writes levels and spots. */
  keep(placed: Placed[]): void {
    const { group } = this.task;
    const done = new Set<number>();
    for (const i of group) {
      if (done.has(i)) continue;
      const { spots } = this.spotsAround(i);
      this.around(i).forEach((j, k) => {
        placed[j] = { level: this.level[j]!, spot: spots![k]! };
        done.add(j);
      });
    }
  }
}
