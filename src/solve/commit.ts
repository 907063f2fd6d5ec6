/** Puts a planned path into the state, choosing workers and units, and checks what the programme could not see. */
import { blocksOf, sinceOf, transitionsHold } from '../kernel/blocks.js';
import { custodiesHold } from '../kernel/holds.js';
import type { ActivityMode, Model } from '../kernel/model.js';
import { MOST_WORKERS, stretchesOf } from '../kernel/model.js';
import { standingOn } from '../kernel/standing.js';
import type { State } from '../kernel/state.js';
import { type Profiles, popcount } from './profiles.js';

export interface Placement {
  readonly start: number;
  readonly minutes: number;
  readonly mode: number;
  readonly setting: number;
}

export function commitPath(
  state: State,
  profiles: Profiles,
  path: readonly number[],
  chosen: readonly Placement[],
): void {
  path.forEach((a, i) => {
    const at = chosen[i]!;
    const mode = state.model.activities[a]!.modes[at.mode]!;
    const usual = state.model.progress?.usual[a] ?? null;
    const hands = chooseHands(state.model, profiles, mode, at, usual?.hands ?? 0);
    state.place(a, at, hands, chooseUnits(profiles, mode, at, usual?.units ?? NO_UNITS));
  });
}

const NO_UNITS: readonly number[] = [];

/** The workers for each stretch, the same ones throughout where that can be; the usual ones, then those who can do least, go first. */
function chooseHands(model: Model, profiles: Profiles, mode: ActivityMode, at: Placement, usual: number): number[] {
  const flat = stretchesOf(mode.attention, at.minutes);
  if (flat.length === 0) return [];
  const { crew } = mode.attention;
  const masks: number[] = [];
  let all = mode.able;
  for (let k = 0; k < flat.length; k += 2) {
    const free = profiles.freeMask(flat[k + 1]!)[at.start + flat[k]!]! & mode.able;
    masks.push(free);
    all &= free;
  }
  const order = rankOf(model);
  const out: number[] = [];
  let used = popcount(all) >= crew ? pickBits(all, crew, order, usual) : 0;
  const steady = used !== 0;
  for (const mask of masks) {
    const bits = steady ? used : pickBits(mask, crew, order, used | usual);
    used |= bits;
    for (const w of order) if ((bits >> w) & 1) out.push(w);
  }
  return out;
}

function pickBits(mask: number, crew: number, order: readonly number[], preferred: number): number {
  let bits = 0;
  let left = crew;
  for (const wanted of [mask & preferred, mask & ~preferred]) {
    for (const w of order) {
      if (left === 0) return bits;
      if ((wanted >> w) & 1) {
        bits |= 1 << w;
        left--;
      }
    }
  }
  return bits;
}

const ranks = new WeakMap<Model, number[]>();

/** Workers, those able to do the fewest activities first. */
function rankOf(model: Model): number[] {
  let rank = ranks.get(model);
  if (rank === undefined) {
    const able = model.workers.slice(0, MOST_WORKERS).map(() => 0);
    for (const activity of model.activities) {
      for (const mode of activity.modes) for (let w = 0; w < able.length; w++) able[w]! += (mode.able >> w) & 1;
    }
    rank = able.map((_, w) => w).sort((x, y) => able[x]! - able[y]! || x - y);
    ranks.set(model, rank);
  }
  return rank;
}

function chooseUnits(profiles: Profiles, mode: ActivityMode, at: Placement, usual: readonly number[]): number[] {
  if (mode.unitCount === 0) return [];
  const end = at.start + at.minutes;
  const free = mode.units.filter((u) => profiles.unit(u)[at.start]! >= end);
  if (usual.length > 0) free.sort((u, v) => Number(usual.includes(v)) - Number(usual.includes(u)));
  return free.slice(0, mode.unitCount);
}

/** When the group of a path's job lands; -1 without a group. */
export function landingOf(state: State, path: readonly number[]): number {
  const { group } = state.model.jobs[state.model.activities[path[0]!]!.job]!;
  return group < 0 ? -1 : state.landing(group);
}

/**
 * Checks placed activities against what one path can do to itself and to custodies elsewhere. `landing`: of the path's group
 * before it was placed, since a later one prolongs what others hold.
 */
export function pathHolds(state: State, path: readonly number[], landing: number): boolean {
  const { model } = state;
  const onMachine = new Map<number, number>();
  for (const a of path) {
    const mode = state.modeOf(a);
    if (mode.machine >= 0) onMachine.set(mode.machine, (onMachine.get(mode.machine) ?? 0) + 1);
    for (const lag of model.activities[a]!.ins) {
      if (!state.isPlaced(lag.from)) continue;
      const gap = state.start[a]! - state.end(lag.from);
      if (gap < lag.low || gap > lag.high) return false;
    }
  }
  for (const [m, count] of onMachine) {
    if (count < 2) continue;
    const machine = model.machines[m]!;
    if (!transitionsHold(machine, blocksOf(state, m), sinceOf(state, m))) return false;
    if (!machine.fits(standingOn(state, m))) return false;
  }
  if (landingOf(state, path) !== landing) return custodiesHold(state, null);
  const touched = new Set<number>();
  for (const a of path) {
    const mode = state.modeOf(a);
    if (mode.vessel >= 0) touched.add(mode.vessel);
    for (const lag of model.activities[a]!.ins) {
      if (state.isPlaced(lag.from)) touchCustodies(state, lag.from, touched);
    }
  }
  return touched.size === 0 || custodiesHold(state, touched);
}

/** The renewables that the job of `a` holds: a follower's start can prolong any of them. */
function touchCustodies(state: State, a: number, touched: Set<number>): void {
  const { model } = state;
  for (const b of model.jobs[model.activities[a]!.job]!.activities) {
    if (!state.isPlaced(b)) continue;
    const mode = state.modeOf(b);
    if (mode.vessel >= 0) touched.add(mode.vessel);
  }
}
