/** A step that was begun in another place than any that the file lists. */
import type { Appliance, Option, OptionPlace, Problem, Step } from '../../problem/problem.js';
import { loadOf } from '../../problem/stand.js';

/** Where a name of the kitchen is: an appliance, one of its burners, zones or racks, a kind of appliance, or the boards. */
function placesNamed(
  { kitchen }: Problem,
  name: string,
): { kind: 'board' | 'appliance'; appliance: number; burner: number }[] {
  if (/^board( \d+)?$/.test(name)) return [{ kind: 'board', appliance: -1, burner: -1 }];
  const within = ({ surface }: Appliance): boolean => {
    if (surface.kind === 'racks') return /^rack \d+$/.test(name);
    return surface.kind === 'grate' && name.split(' + ').every((zone) => surface.zones.some((z) => z.name === zone));
  };
  return kitchen.appliances
    .map((appliance, a) => {
      const { surface } = appliance;
      const burner = surface.kind === 'burners' ? surface.burners.findIndex((b) => b.name === name) : -1;
      const rank =
        appliance.name === name ? 0 : burner >= 0 ? 1 : appliance.kind === name ? 2 : within(appliance) ? 3 : 4;
      return { kind: 'appliance' as const, appliance: a, burner, rank };
    })
    .filter(({ rank }) => rank < 4)
    .sort((x, y) => x.rank - y.rank);
}

/**
 * The way in which a step is done in a place: one of its own where it has one there, else `base` put there; null where the kitchen has no
 * such place.
 */
export function elsewhere(problem: Problem, step: Step, base: Option, name: string): Option | null {
  const found = placesNamed(problem, name);
  for (const { kind, appliance, burner } of found) {
    const own = [base, ...step.options].find(({ place }) => {
      if (kind === 'board' || place.kind === 'none' || place.kind === 'board') return kind === place.kind;
      if (place.appliance !== appliance) return false;
      return burner < 0 || (place.kind === 'burner' && place.burners.includes(burner));
    });
    if (own === undefined) continue;
    if (own.place.kind !== 'burner' || burner < 0 || own.pans > 1) return own;
    return { ...own, place: { ...own.place, burners: [burner] } };
  }
  const first = found[0];
  if (first === undefined) return null;
  if (first.kind === 'board') return { ...base, place: { kind: 'board' }, settings: [], ideal: null, flame: null };
  const appliance = problem.kitchen.appliances[first.appliance]!;
  const { surface } = appliance;
  const dish = problem.dishes[step.dish]!;
  const load = base.load ?? loadOf(base.pan === null ? null : problem.kitchen.pans[base.pan]!, dish.piece);
  if (surface.kind === 'burners') {
    const burners = first.burner >= 0 ? [first.burner] : surface.burners.map((_, b) => b);
    const place: OptionPlace = { kind: 'burner', appliance: first.appliance, burners };
    return { ...base, place, settings: [], ideal: null, flame: base.flame ?? 'medium', load };
  }
  const mode = Math.max(
    0,
    appliance.modes.findIndex((each) => each.name === step.work),
  );
  const { heat } = appliance.modes[mode]!;
  const wanted = base.settings[0] ?? base.ideal ?? heat.low;
  const celsius = Math.min(heat.high, Math.max(heat.low, wanted));
  const place: OptionPlace = { kind: 'heated', appliance: first.appliance, mode };
  return { ...base, place, settings: [celsius], ideal: null, flame: null, load };
}
