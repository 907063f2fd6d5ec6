/** The drawings of an appliance's heaviest load: one for the grate, or one for each rack with something on it. */
import type { Problem } from '../problem/problem.js';
import { type DrawnLoad, type DrawnZone, drawSurface, type Look } from './draw-surface.js';
import type { HeaviestLoad } from './heaviest-loads.js';
import { saySize, sidesOf, unitOf } from './say-size.js';
import { surfaceOf } from './surface-of.js';

export interface Drawing {
  /** `rack 2`; null for a grate. */
  readonly title: string | null;
  readonly lines: readonly string[];
}

/** From the highest rack down. `letterOf` gives the letters that stand for a dish. */
export function drawLoad(
  problem: Problem,
  { appliance: index, mode, loads }: HeaviestLoad,
  letterOf: (dish: number) => string,
  look: Look,
): Drawing[] {
  const appliance = problem.kitchen.appliances[index]!;
  const used = appliance.modes[mode]!;
  const surface = surfaceOf(appliance, used);
  const unit = unitOf(loads.flatMap(({ footprint }) => sidesOf(footprint)));
  const drawn = (level: number): DrawnLoad[] =>
    loads.flatMap(({ placed, dish, name, footprint }) => {
      if (placed?.level !== level) return [];
      const dishName = problem.dishes[dish]!.name;
      const pan = name === dishName ? saySize(footprint, unit) : `${saySize(footprint, unit)} ${name}`;
      return [{ letter: letterOf(dish), label: `${dishName}: ${pan}`, footprint, spot: placed.spot }];
    });
  if (appliance.surface.kind === 'grate') {
    const zones: DrawnZone[] = appliance.surface.zones.map((zone) => ({ ...zone, lit: used.lit.includes(zone.name) }));
    return [{ title: null, lines: drawSurface(surface, drawn(1), look, zones) }];
  }
  const levels = [...new Set(loads.flatMap(({ placed }) => (placed === null ? [] : [placed.level])))].sort(
    (a, b) => b - a,
  );
  return levels.map((level) => ({ title: `rack ${level}`, lines: drawSurface(surface, drawn(level), look) }));
}
