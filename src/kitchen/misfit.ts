/** Why loads do not fit together, in a cook's words, and which other pan would do. */
import type { Appliance, Burners, Load, Mode } from '../problem/problem.js';
import { type LengthUnit, showLength, showList, showSize } from '../units/show.js';
import { type Arrangement, arrangement } from './arrange.js';
import { areaOf, extentX, extentY, turns } from './footprint.js';
import { alone, groundOf } from './ground.js';
import { saySize, sidesOf, unitOf } from './say-size.js';
import type { Standing } from './surface.js';
import { type Shelves, shelvesOf } from './surface-of.js';

/** Something that stands there, with what a cook calls it: `half sheet`, `pork loin`. */
export interface NamedLoad extends Load {
  readonly name: string;
}

/** Work for one arrangement; a message needs many of them. */
const EFFORT = 20_000;

/** How many different pans are tried as a way out. */
const MOST_TRIED = 12;

/**
 * Why these loads cannot all be in the appliance at once, in one sentence without a full stop; null where they can.
 * `others`: pans that are there and might be used instead. Throws a RangeError for burners: see `explainBurners`.
 */
export function explainMisfit(
  appliance: Appliance,
  mode: Mode,
  loads: readonly NamedLoad[],
  others: readonly NamedLoad[] = [],
): string | null {
  const shelves = shelvesOf(appliance, mode);
  const { strips } = shelves.surface;
  const sides = loads.flatMap((load) => sidesOf(load.footprint));
  const unit = unitOf([...sides, ...strips.flatMap((strip) => [strip.width, strip.depth])]);
  const scene: Scene = { appliance, mode, shelves, unit };
  for (const load of loads) {
    const one = explainOne(scene, load);
    if (one !== null) return one;
  }
  const whole = together(shelves, loads);
  if (whole.placed !== null) return null;
  const least = fewest(shelves, loads);
  const reason = tooTall(scene, least) ?? tooWide(scene, least);
  return `${reason.text}${wayOut(scene, least, others, reason.beside)}`;
}

/** Why none of the burners carries a load; null where one does. */
export function explainBurners({ burners }: Burners, load: NamedLoad): string | null {
  const side = Math.min(...sidesOf(load.footprint));
  if (burners.some(({ carries }) => side >= carries.low - 1e-9 && side <= carries.high + 1e-9)) return null;
  const ends = burners.flatMap(({ carries }) => [carries.low, carries.high]).filter((end) => end > 0);
  const unit = unitOf([...sidesOf(load.footprint), ...ends.filter(Number.isFinite)]);
  const spans = burners.map(({ name, carries }) => {
    const high = showLength(carries.high, unit);
    return carries.low > 0 ? `${name} ${showLength(carries.low, unit)} to ${high}` : `${name} up to ${high}`;
  });
  const across = load.footprint.kind === 'round' ? 'across' : 'on its narrower side';
  return `the ${load.name} is ${showLength(side, unit)} ${across}, and no burner carries that: ${showList(spans)}`;
}

interface Scene {
  readonly appliance: Appliance;
  readonly mode: Mode;
  readonly shelves: Shelves;
  readonly unit: LengthUnit;
}

interface Reason {
  readonly text: string;
  /** The first load is the subject of a sentence about two. */
  readonly beside: boolean;
}

const called = (load: NamedLoad, unit: LengthUnit): string => `the ${saySize(load.footprint, unit)} ${load.name}`;

function together(shelves: Shelves, loads: readonly Load[]): Arrangement {
  const standings = loads.map(
    ({ footprint, height }): Standing => ({ footprint, height, start: 0, end: 1, fixed: null }),
  );
  return arrangement(shelves, standings, EFFORT);
}

/** ` while right is lit`, where lit zones take away room. */
function whileLit({ appliance, mode }: Scene): string {
  const lit = appliance.surface.kind === 'grate' ? mode.lit : [];
  return lit.length === 0 ? '' : ` while ${showList(lit)} ${lit.length === 1 ? 'is' : 'are'} lit`;
}

/** `the rack (22 x 16 in)`, `left and middle (56 x 46 cm)`, `the grate (57 cm across)`. */
function groundName({ appliance, mode, shelves, unit }: Scene): string {
  const { bounds, walls } = groundOf(shelves.surface);
  const size = showSize(bounds.right - bounds.left, bounds.back, unit);
  if (appliance.surface.kind === 'racks') return `the rack of the ${appliance.name} (${size})`;
  if (shelves.surface.round !== null)
    return `the ${appliance.name} (${showLength(shelves.surface.round, unit)} across)`;
  const zones =
    appliance.surface.kind === 'grate' ? appliance.surface.zones.filter((z) => !mode.lit.includes(z.name)) : [];
  const names = showList(zones.map((zone) => zone.name));
  return walls.length > 0 || zones.length === 0 ? names : `${names} (${size})`;
}

/** A single load that is too tall or too large. */
function explainOne(scene: Scene, load: NamedLoad): string | null {
  const { appliance, mode, shelves, unit } = scene;
  const { limit, height, clearance } = shelves;
  const tall = unitOf([load.height, ...[limit, height].filter(Number.isFinite)]);
  if (load.height > limit + 1e-9)
    return `the ${load.name} is ${showLength(load.height, tall)} high; the ${appliance.name} takes ${showLength(limit, tall)} in ${mode.name}`;
  if (load.height + clearance > height + 1e-9)
    return `the ${load.name} (${showLength(load.height, tall)} high) needs ${showLength(load.height + clearance, tall)} with the room above it; the cavity of the ${appliance.name} has ${showLength(height, tall)}`;
  if (alone(groundOf(shelves.surface), load.footprint) !== null) return null;
  const free = mode.lit.length > 0 && alone(groundOf(shelvesOf(appliance, null).surface), load.footprint) !== null;
  return `${called(load, unit)} does not go on ${groundName(scene)}${free ? whileLit(scene) : ''}`;
}

/** As few of the loads as will not go together either: each one is left out that can be. */
function fewest(shelves: Shelves, loads: readonly NamedLoad[]): readonly NamedLoad[] {
  let kept = [...loads];
  // Small ones first: what is left are the ones that matter.
  for (const load of [...loads].sort((a, b) => areaOf(a.footprint) - areaOf(b.footprint))) {
    const without = kept.filter((one) => one !== load);
    if (without.length > 0 && together(shelves, without).placed === null) kept = without;
  }
  return kept;
}

/** They would fit if the cavity were higher. */
function tooTall({ appliance, shelves }: Scene, loads: readonly NamedLoad[]): Reason | null {
  if (shelves.height === Number.POSITIVE_INFINITY) return null;
  const needed = leastHeight(shelves, loads);
  if (needed === null) return null;
  const unit = unitOf([...loads.map((load) => load.height), shelves.height, shelves.clearance]);
  const names = loads.map((load) => `the ${load.name} (${showLength(load.height, unit)} high)`);
  const above = shelves.clearance > 0 ? `, with ${showLength(shelves.clearance, unit)} free above each level,` : '';
  const need = loads.length === 1 ? 'needs' : 'need';
  const text = `${showList(names)}${above} ${need} ${showLength(needed, unit)}; the cavity of the ${appliance.name} has ${showLength(shelves.height, unit)}`;
  return { text, beside: false };
}

/** The lowest cavity that would do; null where none would. */
function leastHeight(shelves: Shelves, loads: readonly NamedLoad[]): number | null {
  if (together({ ...shelves, height: Number.POSITIVE_INFINITY }, loads).placed === null) return null;
  // What as many of them as there are levels add up to.
  const byCount: Set<number>[] = Array.from({ length: shelves.levels + 1 }, () => new Set<number>());
  byCount[0]!.add(0);
  for (const { height } of loads) {
    for (let count = shelves.levels; count > 0; count--) {
      for (const sum of byCount[count - 1]!) byCount[count]!.add(sum + height + shelves.clearance);
    }
  }
  const sums = [...new Set(byCount.flatMap((set) => [...set]))].sort((a, b) => a - b);
  let low = 0;
  let high = sums.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (together({ ...shelves, height: sums[middle]! }, loads).placed === null) low = middle + 1;
    else high = middle;
  }
  return sums[low]!;
}

/** Each by its size and name, equal ones counted: `3 of the 13 x 18 in half sheet and the 9 in pie dish`. */
function calledAll(loads: readonly NamedLoad[], unit: LengthUnit): string {
  const counts = new Map<string, number>();
  for (const load of loads) counts.set(called(load, unit), (counts.get(called(load, unit)) ?? 0) + 1);
  return showList([...counts].map(([name, count]) => (count === 1 ? name : `${count} of ${name}`)));
}

/** `: 468 sq in on 396 sq in`, where that alone tells it. */
function areas({ shelves, unit }: Scene, loads: readonly NamedLoad[]): string {
  const { area } = groundOf(shelves.surface);
  const sum = loads.reduce((total, load) => total + areaOf(load.footprint), 0);
  if (sum <= area) return '';
  const say = (square: number) =>
    unit === 'in' ? `${Math.round(square / 0.0254 ** 2)} sq in` : `${Math.round(square * 1e4)} cm²`;
  return `: ${say(sum)} on ${say(area)}`;
}

/** Too much for the area. */
function tooWide(scene: Scene, loads: readonly NamedLoad[]): Reason {
  const { shelves, unit, appliance } = scene;
  const { levels } = shelves;
  if (levels === 1 && loads.length === 2) return { text: besideText(scene, loads[0]!, loads[1]!), beside: true };
  const names = calledAll(loads, unit);
  const found = together(shelves, loads);
  if (found.placed === null && !found.proof) {
    const where = levels > 1 ? `the ${levels} racks of the ${appliance.name}` : groundName(scene);
    return { text: `no room was found for ${names} together on ${where}${whileLit(scene)}`, beside: false };
  }
  if (levels > 1)
    return { text: `${names} need more than the ${levels} racks of the ${appliance.name}`, beside: false };
  const text = `${names} will not go together on ${groundName(scene)}${areas(scene, loads)}${whileLit(scene)}`;
  return { text, beside: false };
}

/** `the 13 x 18 in half sheet will not go beside the 14 in skillet: 27 in on 22 in`. */
function besideText(scene: Scene, one: NamedLoad, other: NamedLoad): string {
  const { unit } = scene;
  const second = one.name === other.name ? 'a second one' : called(other, unit);
  const lack = narrowest(scene, one, other);
  const sums = lack === null ? '' : `: ${showLength(lack.need, unit)} on ${showLength(lack.have, unit)}`;
  return `${called(one, unit)} will not go beside ${second}${sums}${whileLit(scene)}`;
}

/** The sum of two sides that lacks least of the length that is there; null where the lengths do not tell. */
function narrowest({ shelves }: Scene, one: NamedLoad, other: NamedLoad): { need: number; have: number } | null {
  const { bounds, plain } = groundOf(shelves.surface);
  if (!plain) return null;
  const width = bounds.right - bounds.left;
  let best: { need: number; have: number } | null = null;
  for (const ta of turns(one.footprint) ? [false, true] : [false]) {
    for (const tb of turns(other.footprint) ? [false, true] : [false]) {
      const [aw, bw] = [extentX(one.footprint, ta), extentX(other.footprint, tb)];
      const [ad, bd] = [extentY(one.footprint, ta), extentY(other.footprint, tb)];
      const ways = [
        { need: aw + bw, have: width, ok: Math.max(ad, bd) <= bounds.back + 1e-6 },
        { need: ad + bd, have: bounds.back, ok: Math.max(aw, bw) <= width + 1e-6 },
      ];
      for (const { need, have, ok } of ways) {
        if (ok && (best === null || need - have < best.need - best.have)) best = { need, have };
      }
    }
  }
  return best;
}

/** `; the 9 x 13 in quarter sheet does`: the largest other pan that fits in the place of one of them. */
function wayOut(scene: Scene, loads: readonly NamedLoad[], others: readonly NamedLoad[], beside: boolean): string {
  const sorted = [...others].sort((a, b) => areaOf(b.footprint) - areaOf(a.footprint)).slice(0, MOST_TRIED);
  for (const [i, load] of loads.entries()) {
    for (const other of sorted) {
      if (areaOf(other.footprint) >= areaOf(load.footprint) && other.height >= load.height) continue;
      const instead = loads.map((one, k) => (k === i ? other : one));
      if (together(scene.shelves, instead).placed === null) continue;
      const name = called(other, scene.unit);
      if (beside && i === 0) return `; ${name} does`;
      return `; it goes with ${name} instead of the ${load.name}`;
    }
  }
  return '';
}
