/**
 * What the referee judges, and what it declines. Inside this scope its optimum is the exact optimum of the rules and points;
 * a problem outside is refused with a reason, never judged roughly.
 *
 * In: alternatives; burners, boards, ovens, grills and drawers with heat runs, changeovers, idling; temperatures on the dial with
 * minutes by temperature; ranges with a best; gaps and keeps in a dish and across dishes; components; courses; lateness; several
 * cooks with `can`, hours and looks every so often; pans that stay with their food, empty early or are washed.
 * On racks and grates: loads of which any two go side by side in halves of the level, and loads that stand there alone.
 * Out: holds, several pans in one step, dishes that branch, round grates, zones with gaps or of uneven depth, steps whose
 * alternatives differ in whether food moves at all, hours in a zone other than UTC.
 */
import type { Footprint, Load, Option, Problem, Step } from '../../src/problem/problem.js';

export class OutOfScope extends Error {}

function decline(why: string): never {
  throw new OutOfScope(why);
}

const SLACK = 1e-9;

/** Takes a pan or a place, so that the food's last pan lets go when it begins. */
export function moves(option: Option): boolean {
  return option.pan !== null || option.place.kind !== 'none';
}

export function assertInScope(problem: Problem): void {
  for (const dish of problem.dishes) if (dish.hold) decline(`${dish.name} may be held`);
  for (const step of problem.steps) {
    if (new Set(step.options.map(moves)).size > 1) decline(`${step.name} may or may not move`);
    if (step.options.some((option) => option.pans > 1)) decline(`${step.name} fills several pans`);
    if (ownAfter(problem, step).length > 1) decline(`${step.name} joins branches`);
    if (ownUsers(problem, step).length > 1) decline(`${step.name} branches`);
    const within = ownUsers(problem, step).length > 0 && !problem.dishes[step.dish]!.served;
    if (within && otherUsers(problem, step).length > 0) decline(`${step.name} is used before its dish is done`);
  }
  for (const cook of problem.cooks) {
    if ((cook.from !== null || cook.to !== null) && problem.zone !== 'UTC')
      decline(`${cook.name}'s hours, in ${problem.zone}`);
  }
}

/** The steps of its own dish that it comes right after. */
export function ownAfter(problem: Problem, step: Step): Step[] {
  return step.after.map((link) => problem.steps[link.step]!).filter((each) => each.dish === step.dish);
}

/** The steps of its own dish that come right after it. */
export function ownUsers(problem: Problem, step: Step): Step[] {
  return problem.steps.filter((each) => each.dish === step.dish && each.after.some((link) => link.step === step.id));
}

/** The steps of other dishes that come right after it. */
export function otherUsers(problem: Problem, step: Step): Step[] {
  return problem.steps.filter((each) => each.dish !== step.dish && each.after.some((link) => link.step === step.id));
}

/** The free rectangle of one level in a mode. */
export function areaOf(problem: Problem, appliance: number, mode: number): { width: number; depth: number } {
  const { surface, modes, name } = problem.kitchen.appliances[appliance]!;
  if (surface.kind === 'racks') return { width: surface.width, depth: surface.depth };
  if (surface.kind === 'burners') decline(`${name} has no level`);
  if (surface.round !== null) decline(`${name} is round`);
  const free = surface.zones.filter((zone) => !modes[mode]!.lit.includes(zone.name));
  const first = free[0] ?? decline(`${name} is lit all over`);
  let edge = first.x;
  for (const zone of free) {
    if (Math.abs(zone.x - edge) > SLACK || Math.abs(zone.depth - first.depth) > SLACK) decline(`${name} has parts`);
    edge = zone.x + zone.width;
  }
  return { width: edge - first.x, depth: first.depth };
}

function sides(footprint: Footprint): [number, number] {
  return footprint.kind === 'round' ? [footprint.diameter, footprint.diameter] : [footprint.width, footprint.depth];
}

function within(footprint: Footprint, width: number, depth: number): boolean {
  const [a, b] = sides(footprint);
  return (a <= width + SLACK && b <= depth + SLACK) || (b <= width + SLACK && a <= depth + SLACK);
}

/** Two axis-parallel boxes that do not overlap are parted by a line, so they fit if and only if they fit beside each other. */
function besideEachOther(one: Footprint, two: Footprint, width: number, depth: number): boolean {
  const turns = (footprint: Footprint): [number, number][] => {
    const [a, b] = sides(footprint);
    return [
      [a, b],
      [b, a],
    ];
  };
  return turns(one).some(([a, b]) =>
    turns(two).some(
      ([c, d]) =>
        (a + c <= width + SLACK && Math.max(b, d) <= depth + SLACK) ||
        (b + d <= depth + SLACK && Math.max(a, c) <= width + SLACK),
    ),
  );
}

/**
 * Which of these loads go into one half of the level, split across its width. All others stand alone; where neither holds
 * for a load, or three might share a level, the problem is out of scope.
 */
export function halves(loads: readonly Load[], area: { width: number; depth: number }): boolean[] {
  const { width, depth } = area;
  const half = loads.map((load) => within(load.footprint, width / 2, depth));
  for (const [i, one] of loads.entries()) {
    if (!within(one.footprint, width, depth)) decline('a load does not fit its level');
    for (const [j, two] of loads.entries()) {
      if (i === j || (half[i] && half[j])) continue;
      if (one.footprint.kind === 'round' || two.footprint.kind === 'round') {
        if (loads.length > 1) decline('a round load beside others');
      } else if (besideEachOther(one.footprint, two.footprint, width, depth))
        decline('a load is neither half nor whole');
    }
  }
  const smallest = loads
    .filter((_, i) => half[i])
    .map((load) => sides(load.footprint).reduce((a, b) => a * b))
    .sort((a, b) => a - b);
  const [first, second, third] = smallest;
  if (third !== undefined && first! + second! + third <= width * depth + SLACK)
    decline('three loads might share a level');
  return half;
}
