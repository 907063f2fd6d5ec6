/** Cautions about fire and burns, each once for the whole meal. */
import { clockAt, stays } from '../problem/hours.js';
import type { Appliance, Flame, Work } from '../problem/problem.js';
import type { Caution } from './caution.js';
import { isHeat, type Meal } from './meal.js';
import { LOCAL_FIRE_RULES, PUBLICATIONS, sourceOf } from './published.js';

/** One thing done on the heat: as planned, or, without a plan, as it may be done. */
interface Use {
  readonly work: Work;
  readonly appliance: Appliance;
  readonly mode: string | null;
  readonly flame: Flame | null;
}

export function fireCautions(meal: Meal): Caution[] {
  const uses = usesOf(meal);
  return [...grill(uses), ...aloneCautions(meal), ...fat(uses), ...iron(uses)];
}

function usesOf({ problem, timetable }: Meal): Use[] {
  const { appliances } = problem.kitchen;
  const planned = new Map(timetable?.rows.map((row) => [row.step, row]));
  return problem.steps.flatMap((step): Use[] => {
    const row = planned.get(step);
    if (timetable !== null && row === undefined) return [];
    return step.options.flatMap(({ place, flame }): Use[] => {
      if (place.kind !== 'heated' && place.kind !== 'burner') return [];
      const appliance = appliances[place.appliance]!;
      const mode = place.kind === 'heated' ? appliance.modes[place.mode]!.name : null;
      if (row !== undefined && (row.appliance !== appliance.name || row.mode !== mode)) return [];
      return [{ work: step.work, appliance, mode, flame }];
    });
  });
}

function grill(uses: readonly Use[]): Caution[] {
  const burning = uses
    .map((use) => use.appliance)
    .filter(({ kind, name }) => kind === 'grill' && !/electric/i.test(name));
  if (burning.length === 0) return [];
  return [grillCaution([...new Set(burning.map((appliance) => appliance.name))].join(' and '))];
}

/** Of grills that burn something, by their names. */
export function grillCaution(names: string): Caution {
  const gas = /charcoal|coal|wood/i.test(names) ? '' : ' Gas is lit with the lid open.';
  const say = `${upper(names)}: outdoors only, never in a house, garage or tent (carbon monoxide). Clear of walls, rails and branches; never left lit unattended.${gas}`;
  const source = sourceOf([PUBLICATIONS.charcoal, PUBLICATIONS.grilling], LOCAL_FIRE_RULES);
  return { rule: 'grill-outdoors', source, dish: null, say };
}

function fat(uses: readonly Use[]): Caution[] {
  return uses.some(({ work, flame }) => flame !== null && (work === 'fry' || work === 'sear')) ? [FAT_CAUTION] : [];
}

export const FAT_CAUTION: Caution = {
  rule: 'hot-fat',
  source: sourceOf([PUBLICATIONS.fire], LOCAL_FIRE_RULES),
  dish: null,
  say: 'Hot fat: stay with the pan, its lid at hand. If it burns: lid on, heat off, leave it covered until cold. Never water, never carry it.',
};

function iron(uses: readonly Use[]): Caution[] {
  const fierce = uses.some(
    ({ work, mode, flame }) =>
      work === 'sear' ||
      work === 'grill' ||
      mode === 'sear' ||
      mode === 'broil' ||
      (work === 'fry' && flame === 'high'),
  );
  return fierce ? [IRON_CAUTION] : [];
}

export const IRON_CAUTION: Caution = {
  rule: 'hot-iron',
  source: sourceOf([PUBLICATIONS.fire, PUBLICATIONS.burns], LOCAL_FIRE_RULES),
  dish: null,
  say: 'Iron from fierce heat burns long after it looks cold: dry mitts, handles turned in, children well away, and say that it is hot.',
};

/** Heat that goes on while, by their hours, no cook is there. */
function aloneCautions({ problem, timetable }: Meal): Caution[] {
  if (timetable === null) return [];
  const hot = timetable.rows.filter((row) => row.appliance !== null && (row.step === null || isHeat(row.step.work)));
  const end = Math.max(0, ...hot.map((row) => row.end));
  const there = problem.cooks.flatMap((_, cook) => stays(problem, cook, end)).sort((a, b) => a.start - b.start);
  for (const row of hot) {
    let from = row.start;
    for (const stay of there) if (stay.start <= from) from = Math.max(from, stay.end);
    if (from >= row.end) continue;
    const until = Math.min(row.end, ...there.filter((stay) => stay.start > from).map((stay) => stay.start));
    const say = `The ${row.appliance!} is on from ${clockAt(problem, from)} to ${clockAt(problem, until)}, when no cook is there. Somebody awake stays in the house and looks in on it; the smoke alarm works.`;
    const source = sourceOf([PUBLICATIONS.fire], LOCAL_FIRE_RULES);
    return [{ rule: 'heat-alone', source, dish: problem.dishes[row.dish]!.name, say }];
  }
  return [];
}

const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
