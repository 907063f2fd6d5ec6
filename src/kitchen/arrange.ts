/** Pans over a stretch of time on the levels of one appliance: which level and which spot each keeps. */
import { alone, groundOf } from './ground.js';
import { pack, USUAL_EFFORT } from './pack.js';
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
  const placed: (Placed | null)[] = [];
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
    const search = new LevelSearch(shelves, standings, group, placed as Placed[], work);
    if (search.ownLevels()) continue;
    if (search.share()) continue;
    if (search.proven) return { placed: null, proof: true };
    proof = false;
    placed[group[0]!] = null;
  }
  if (!proof) return { placed: null, proof: false };
  return { placed: placed as Placed[] };
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

/** Levels for one group; a level holds what `pack` finds spots for. */
class LevelSearch {
  proven = true;
  private readonly level: Int32Array;
  private readonly known = new Map<string, readonly Spot[] | null>();

  constructor(
    private readonly shelves: Shelves,
    private readonly standings: readonly Standing[],
    private readonly group: readonly number[],
    private readonly placed: Placed[],
    private readonly work: Work,
  ) {
    this.level = new Int32Array(standings.length);
    for (const i of group) this.level[i] = standings[i]!.fixed?.level ?? 0;
  }

  private together(i: number, j: number): boolean {
    const a = this.standings[i]!;
    const b = this.standings[j]!;
    return a.start < b.end && b.start < a.end;
  }

  /** Without packing: each on the lowest level that is empty for its whole time. */
  ownLevels(): boolean {
    const { levels } = this.shelves;
    const { group, standings, level } = this;
    const taken: number[] = [];
    for (const i of group) {
      if (standings[i]!.fixed !== null) continue;
      let own = 1;
      while (own <= levels && group.some((j) => level[j] === own && this.together(i, j))) own++;
      if (own > levels) return this.forget(taken);
      level[i] = own;
      taken.push(i);
      if (!this.low(i)) return this.forget(taken);
    }
    for (const i of taken) this.placed[i] = { level: level[i]!, spot: this.placed[i]!.spot };
    return true;
  }

  private forget(taken: readonly number[]): false {
    for (const i of taken) this.level[i] = 0;
    return false;
  }

  /** Whether the cavity is high enough at every instant of i's stay, for those that have a level. */
  private low(i: number): boolean {
    const { levels, height, clearance } = this.shelves;
    if (height === Number.POSITIVE_INFINITY) return true;
    const own = this.standings[i]!;
    for (const k of this.group) {
      // The sum rises only where something begins.
      const at = Math.max(this.standings[k]!.start, own.start);
      if (this.level[k] === 0 || at >= own.end || at >= this.standings[k]!.end) continue;
      let sum = 0;
      for (let l = 1; l <= levels; l++) {
        let tallest = -1;
        for (const j of this.group) {
          const one = this.standings[j]!;
          if (this.level[j] === l && one.start <= at && at < one.end) tallest = Math.max(tallest, one.height);
        }
        if (tallest >= 0) sum += tallest + clearance;
      }
      if (sum > height + 1e-9) return false;
    }
    return true;
  }

  /** Every assignment of levels, the lowest first; levels on which nothing stands yet are alike. */
  share(): boolean {
    const free = this.group.filter((i) => this.standings[i]!.fixed === null);
    const found = this.assign(free, 0);
    if (!found && this.work.spent) this.proven = false;
    return found;
  }

  private assign(free: readonly number[], k: number): boolean {
    if (k === free.length) return this.keep();
    const i = free[k]!;
    let empty = false;
    for (let l = 1; l <= this.shelves.levels; l++) {
      const used = this.group.some((j) => this.level[j] === l);
      if (!used && empty) continue;
      empty ||= !used;
      if (!this.work.take(COST)) return false;
      this.level[i] = l;
      if (this.low(i) && this.spotsOn(l) !== null && this.assign(free, k + 1)) return true;
      this.level[i] = 0;
    }
    return false;
  }

  /** Spots for those that stand on a level now, in the group's order. */
  private spotsOn(l: number): readonly Spot[] | null {
    const on = this.group.filter((i) => this.level[i] === l);
    const key = on.join(' ');
    let spots = this.known.get(key);
    if (spots === undefined) {
      const footprints = on.map((i) => this.standings[i]!.footprint);
      const fixed = on.map((i) => this.standings[i]!.fixed?.spot ?? null);
      const clash = (a: number, b: number) => this.together(on[a]!, on[b]!);
      const stays = fixed.some((spot) => spot !== null) ? fixed : null;
      const packing = pack(this.shelves.surface, footprints, clash, stays, this.work);
      spots = packing.spots;
      if (packing.spots === null && !packing.proof) this.proven = false;
      this.known.set(key, spots);
    }
    return spots;
  }

  private keep(): boolean {
    for (let l = 1; l <= this.shelves.levels; l++) {
      const spots = this.spotsOn(l)!;
      this.group
        .filter((i) => this.level[i] === l)
        .forEach((i, k) => {
          this.placed[i] = { level: l, spot: spots[k]! };
        });
    }
    return true;
  }
}
