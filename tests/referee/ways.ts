/** The ways in which a step can be done: an alternative, a setting, a number of minutes, a level or a burner. */
import type { Option, Problem, Step } from '../../src/problem/problem.js';
import { areaOf, halves } from './scope.js';

export interface Way {
  readonly option: number;
  /** °C of the heat run; null outside heat runs. */
  readonly celsius: number | null;
  readonly minutes: number;
  /** Level of a rack (from 1), where it matters which; else null. */
  readonly level: number | null;
  /** Index of a burner; null elsewhere. */
  readonly burner: number | null;
  /** Points of the way as such: `heat` and `rest`. */
  readonly points: number;
}

/** A level's tallest load and its clearance, or null where levels do not differ and a count is enough. */
export type Levels = ReadonlyMap<number, 'counted' | 'apart'>;

export function minutesOf(option: Option, celsius: number | null): number[] {
  const { duration } = option;
  if (duration.kind === 'fixed') return [duration.minutes];
  if (duration.kind === 'range') {
    return Array.from({ length: duration.high - duration.low + 1 }, (_, k) => duration.low + k);
  }
  if (celsius === null) throw new Error('minutes by temperature need a temperature');
  const { columns } = duration;
  const right = columns.findIndex((column) => column.celsius >= celsius - 1e-9);
  const b = columns[right];
  if (b === undefined) throw new Error('a setting lies beyond the columns');
  const a = columns[right - 1];
  if (a === undefined) return [b.minutes];
  const share = (celsius - a.celsius) / (b.celsius - a.celsius);
  return [Math.ceil(a.minutes + share * (b.minutes - a.minutes) - 1e-9)];
}

/**
 * For each appliance with levels, whether loads can be counted (each stands alone and any loads of all levels are low
 * enough together) or each load's level must be told apart.
 */
export function levelsOf(problem: Problem): Levels {
  const found = new Map<number, 'counted' | 'apart'>();
  for (const [a, appliance] of problem.kitchen.appliances.entries()) {
    const { surface } = appliance;
    if (surface.kind !== 'racks') continue;
    const options = problem.steps.flatMap((step) => step.options).filter((option) => standsOn(option, a));
    if (options.length === 0) continue;
    const area = areaOf(problem, a, 0);
    const half = halves(
      options.map((option) => option.load!),
      area,
    );
    const tallest = Math.max(...options.map((option) => option.load!.height));
    const low = surface.count * (tallest + surface.clearance) <= surface.height + 1e-9;
    found.set(a, low && half.every((each) => !each) ? 'counted' : 'apart');
  }
  return found;
}

export function standsOn(option: Option, appliance: number): boolean {
  return option.place.kind === 'heated' && option.place.appliance === appliance;
}

export function waysOf(problem: Problem, step: Step, levels: Levels): Way[] {
  return step.options.flatMap((option, index) => {
    const { place, ideal, duration } = option;
    const settings = place.kind === 'heated' ? option.settings : [null];
    const surface = place.kind === 'heated' ? problem.kitchen.appliances[place.appliance]!.surface : null;
    const apart = place.kind === 'heated' && levels.get(place.appliance) === 'apart';
    const count = apart && surface?.kind === 'racks' ? surface.count : 0;
    const spots: { level: number | null; burner: number | null }[] =
      place.kind === 'burner'
        ? place.burners.map((burner) => ({ level: null, burner }))
        : count > 0
          ? Array.from({ length: count }, (_, k) => ({ level: k + 1, burner: null }))
          : [{ level: null, burner: null }];
    return settings.flatMap((celsius) =>
      minutesOf(option, celsius).flatMap((minutes) => {
        let points = 0;
        if (celsius !== null && ideal !== null) points += problem.rates.heat * Math.abs(celsius - ideal);
        if (duration.kind === 'range') {
          const away = Math.max(duration.best.low - minutes, minutes - duration.best.high, 0);
          points += problem.rates.rest * away;
        }
        return spots.map((spot) => ({ option: index, celsius, minutes, points, ...spot }));
      }),
    );
  });
}
