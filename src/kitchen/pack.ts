/** What fits beside what: spots for pans on a surface, exact for up to eight that are on it together. */
import type { Footprint } from '../problem/problem.js';
import { type Bisection, packBisected } from './bisect.js';
import { type Boxes, type BoxSpots, packCorners } from './corners.js';
import { areaOf, bodyAt, extentX, extentY, liesOn, overlaps, reach, TOLERANCE, tidy, turns } from './footprint.js';
import { alone, type Box, type Ground, groundOf, tooLarge } from './ground.js';
import { packRelations } from './relations.js';
import { packRelaxed } from './relax.js';
import type { Spot, Surface } from './surface.js';
import { packTouching } from './touching.js';
import { Work } from './work.js';
import type { Task } from './yard.js';

/** Spots in the order of the footprints, or why there are none: `proof` says that none can exist. */
export type Packing = { readonly spots: readonly Spot[] } | { readonly spots: null; readonly proof: boolean };

/** Whether footprints i and j must not overlap; null: no two may. */
export type Conflicts = ((i: number, j: number) => boolean) | null;

/** Work for one packing where nothing else is said, in nodes of a search: a quarter of a second at the very most. */
export const USUAL_EFFORT = 100_000;

/** Up to so many together the search is exact; beyond, it is a good guess. */
export const EXACT_PANS = 8;

/** Of more than so many in one group the sets that are on at once are not listed. */
const MOST_LISTED = 24;

const NONE: Packing = { spots: null, proof: true };
const UNKNOWN: Packing = { spots: null, proof: false };

/**
 * Spots on the surface for all footprints, so that no two that conflict overlap by more than a micrometre. Those with a
 * spot in `fixed` stay on it; what is fixed is a fact, and not judged itself. Rectangles turn by 90°, round pans are true
 * circles. Without circles a null is proven for up to eight together unless the nodes ran out; with circles only
 * where a simple reason proves it. `effort`: nodes, or work that is shared with other packings. Same input, same spots.
 */
export function pack(
  surface: Surface,
  footprints: readonly Footprint[],
  conflicts: Conflicts = null,
  fixed: readonly (Spot | null)[] | null = null,
  effort: number | Work = USUAL_EFFORT,
): Packing {
  const n = footprints.length;
  const ground = groundOf(surface);
  if (fixed === null && n <= 2) {
    const quick = packFew(ground, footprints, n === 2 && (conflicts === null || conflicts(0, 1)));
    if (quick !== undefined) return quick;
  }
  const work = typeof effort === 'number' ? new Work(effort) : effort;
  const stays = fixed ?? new Array<Spot | null>(n).fill(null);
  const conflict = new Uint8Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      if (conflicts !== null && !conflicts(i, j)) continue;
      conflict[i * n + j] = 1;
      conflict[j * n + i] = 1;
    }
  }
  const spots = [...stays];
  let unknown = false;
  for (const free of groups(n, conflict, stays)) {
    const part = packGroup({ ground, footprints, conflict, fixed: stays, free }, work);
    if (part.spots === null) {
      if (part.proof) return NONE;
      unknown = true;
      continue;
    }
    part.spots.forEach((spot, k) => {
      spots[free[k]!] = tidy(spot);
    });
  }
  return unknown ? UNKNOWN : { spots: spots as Spot[] };
}

/** One footprint anywhere, or two on a plain rack: no search. Undefined where a search is needed. */
function packFew(ground: Ground, footprints: readonly Footprint[], clash: boolean): Packing | undefined {
  const spots: Spot[] = [];
  for (const footprint of footprints) {
    const spot = alone(ground, footprint);
    if (spot === null) return NONE;
    spots.push(spot);
  }
  if (!clash) return { spots };
  if (!ground.plain) return undefined;
  const [a, b] = footprints as [Footprint, Footprint];
  const { left, right, back } = ground.bounds;
  const width = right - left + TOLERANCE / 2;
  const depth = back + TOLERANCE / 2;
  for (let ta = 0; ta < (turns(a) ? 2 : 1); ta++) {
    const aw = extentX(a, ta === 1);
    const ad = extentY(a, ta === 1);
    if (aw > width || ad > depth) continue;
    for (let tb = 0; tb < (turns(b) ? 2 : 1); tb++) {
      const bw = extentX(b, tb === 1);
      const bd = extentY(b, tb === 1);
      if (bw > width || bd > depth) continue;
      const first = { x: left, y: 0, turned: ta === 1 };
      if (aw + bw <= width) return { spots: [first, { x: left + aw, y: 0, turned: tb === 1 }] };
      if (ad + bd <= depth) return { spots: [first, { x: left, y: ad, turned: tb === 1 }] };
      // Opposite corners are as far apart as two can be; only circles gain by it.
      const second = tidy({ x: right - bw, y: back - bd, turned: tb === 1 });
      if (reach(bodyAt(a, first), bodyAt(b, second)) <= TOLERANCE / 2) return { spots: [first, second] };
    }
  }
  return NONE;
}

/** The free ones in groups that share no conflict; each group in rising order. */
function groups(n: number, conflict: Uint8Array, fixed: readonly (Spot | null)[]): number[][] {
  const seen = new Uint8Array(n);
  const found: number[][] = [];
  for (let i = 0; i < n; i++) {
    if (seen[i] === 1 || fixed[i] !== null) continue;
    const group = [i];
    seen[i] = 1;
    for (let k = 0; k < group.length; k++) {
      for (let j = 0; j < n; j++) {
        if (conflict[group[k]! * n + j] === 0 || seen[j] === 1 || fixed[j] !== null) continue;
        seen[j] = 1;
        group.push(j);
      }
    }
    found.push(group.sort((a, b) => a - b));
  }
  return found;
}

/** Spots for the free ones of one group, in their order. */
function packGroup(task: Task, work: Work): Packing {
  const { ground, footprints, free, conflict, fixed } = task;
  const n = footprints.length;
  for (const i of free) if (alone(ground, footprints[i]!) === null) return NONE;
  const near = fixed.flatMap((spot, j) => (spot !== null && free.some((i) => conflict[i * n + j] === 1) ? [j] : []));
  const boxes = boxesOf(task, near);
  const sets = free.length <= MOST_LISTED ? cliques(free, conflict, n) : [free];
  const few = sets.every((set) => set.length <= EXACT_PANS);
  const round = ground.surface.round !== null || [...free, ...near].some((i) => footprints[i]!.kind === 'round');
  const dense = sets.length === 1;
  if (few || dense) {
    const listOf = (set: readonly number[]) => set.map((i) => footprints[i]!);
    if (sets.some((set) => impossible(ground, listOf(set)))) return NONE;
  }
  if (round) return packRound(task, boxes, work);
  if (few) return packBoxes(task, boxes, near, sets, work);
  const share = work.part(0.3);
  const { spots } = packCorners(boxes, share);
  work.settle(share, 0.3);
  return spots === null ? packRound(task, boxes, work) : { spots: listed(spots, free) };
}

/** With circles, or too many: by bounding boxes, then by touching, then by relaxation. */
function packRound(task: Task, boxes: Boxes, work: Work): Packing {
  const { ground, free } = task;
  if (ground.surface.round === null) {
    const share = work.part(0.02);
    const loose = packCorners(boxes, share).spots;
    work.settle(share, 0.02);
    if (loose !== null) return { spots: listed(loose, free) };
  }
  const asked = (spots: readonly (Spot | null)[]): Packing => ({ spots: free.map((i) => spots[i]!) });
  const quick = packTouching(task, 2, work);
  if (quick !== null) return asked(quick);
  const early = bisected(task, work, 0.03);
  if (early.spots !== null) return asked(early.spots);
  if (early.complete) return NONE;
  const spots = packTouching(task, 12, work) ?? packRelaxed(task, 10 * free.length, work);
  if (spots !== null) return asked(spots);
  const late = bisected(task, work, 0.3);
  if (late.spots !== null) return asked(late.spots);
  return late.complete ? NONE : UNKNOWN;
}

/** Halving with a share of the work. */
function bisected(task: Task, work: Work, share: number): Bisection {
  const part = work.part(share);
  const result = packBisected(task, part);
  work.settle(part, share);
  return result;
}

/**
 * Rectangles: corners settle it where all conflict. Else corners find most packings, the sets that are on at once refuse
 * most, and relations settle the rest.
 */
function packBoxes(
  task: Task,
  boxes: Boxes,
  near: readonly number[],
  sets: readonly (readonly number[])[],
  work: Work,
): Packing {
  const { free, conflict, footprints } = task;
  const n = footprints.length;
  const all = sets.length === 1 && near.every((j) => free.every((i) => conflict[i * n + j] === 1));
  const share = all ? 1 : 0.1;
  const part = work.part(share);
  const found = packCorners(boxes, part);
  work.settle(part, share);
  if (found.spots !== null) return { spots: listed(found.spots, free) };
  if (all) return found.complete ? NONE : UNKNOWN;
  if (sets.length > 1) {
    for (const set of sets) {
      const one = packGroup({ ...task, free: set }, work);
      if (one.spots === null && one.proof) return NONE;
    }
  }
  const related = packRelations(boxes, work);
  if (related.spots !== null) return { spots: listed(related.spots, free) };
  return related.complete ? NONE : UNKNOWN;
}

const narrowest = (footprint: Footprint): number => Math.min(extentX(footprint, false), extentY(footprint, false));

/** Simple reasons why footprints never stand together: too much area, or two of them that are too much already. */
function impossible(ground: Ground, together: readonly Footprint[]): boolean {
  if (tooLarge(ground, together)) return true;
  const { round } = ground.surface;
  if (round !== null) {
    // Two discs in a third: their diameters add up to no more than its own. A rectangle holds a disc as wide as it is narrow.
    const [a = 0, b = 0] = together.map(narrowest).sort((c, d) => d - c);
    if (a + b > round + 2 * TOLERANCE) return true;
  }
  if (!ground.plain || together.length === 2) return false;
  return together.some((a, i) => together.some((b, j) => j < i && packFew(ground, [a, b], true)?.spots === null));
}

function listed(spots: BoxSpots, free: readonly number[]): Spot[] {
  return free.map((_, k) => ({ x: spots.x[k]!, y: spots.y[k]!, turned: spots.turned[k] === 1 }));
}

/** The free ones by their bounding boxes, with walls and what is fixed as obstacles. */
function boxesOf(task: Task, near: readonly number[]): Boxes {
  const { ground, footprints, free, conflict, fixed } = task;
  const n = footprints.length;
  const walls = ground.walls.length;
  const stand: Box[] = near.map((j) => {
    const spot = fixed[j]!;
    const w = extentX(footprints[j]!, spot.turned);
    const d = extentY(footprints[j]!, spot.turned);
    return { left: spot.x, front: spot.y, right: spot.x + w, back: spot.y + d };
  });
  const own = new Uint8Array(free.length * free.length);
  free.forEach((i, a) => {
    free.forEach((j, b) => {
      own[a * free.length + b] = conflict[i * n + j]!;
    });
  });
  // What stands partly outside, or on something else, takes an area that is not known: then none is taken off.
  const sound = near.every(
    (j, a) =>
      liesOn(ground.surface, footprints[j]!, fixed[j]!) &&
      near.every((k, b) => b <= a || !overlaps(footprints[j]!, fixed[j]!, footprints[k]!, fixed[k]!)),
  );
  const taken = sound ? near.reduce((sum, j) => sum + areaOf(footprints[j]!), 0) : 0;
  return {
    bounds: ground.bounds,
    obstacles: [...ground.walls, ...stand],
    hits: (a, k) => k < walls || conflict[free[a]! * n + near[k - walls]!] === 1,
    width: free.map((i) => extentX(footprints[i]!, false)),
    depth: free.map((i) => extentY(footprints[i]!, false)),
    turnable: free.map((i) => turns(footprints[i]!)),
    conflict: own,
    area: ground.area - taken,
  };
}

/** The largest sets in which every two conflict. */
function cliques(free: readonly number[], conflict: Uint8Array, n: number): number[][] {
  const found: number[][] = [];
  const grow = (clique: number[], open: number[], done: number[]) => {
    if (open.length === 0) {
      if (done.length === 0) found.push(clique);
      return;
    }
    const next = [...open];
    const shut = [...done];
    for (const i of open) {
      const beside = (j: number) => conflict[i * n + j] === 1;
      next.shift();
      grow([...clique, i], next.filter(beside), shut.filter(beside));
      shut.push(i);
    }
  };
  grow([], [...free], []);
  return found;
}
