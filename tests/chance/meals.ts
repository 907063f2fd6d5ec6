/** Small meals whose chances can be told by other means, and schedules of meals by a quick search. */

import { WRITTEN_DEVIATIONS } from '../../src/chance/draws.js';
import { erfc } from '../../src/heat/error-function.js';
import type { Schedule } from '../../src/solve/schedule.js';
import { solve } from '../../src/solve/solve.js';
import { readMeal } from '../support/read-meal.js';

export interface ChainStep {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** One dish that fades fast, its steps one after the other without a break, each in nobody's hands, so that it lands with its last. */
export function chain(steps: readonly ChainStep[], more = ''): string {
  const rows = steps.map(
    ({ low, likely, high }, k) =>
      `      - { step: s${k + 1}, work: plate, on: none, hands: { start: 1 min }, gap: 0-20 min, takes: { low: ${low} min, likely: ${likely} min, high: ${high} min } }`,
  );
  return `format: hearthtable/1
title: A chain
serve: 2026-10-03 18:30
start: 2026-10-03 09:00
zone: Europe/Lisbon
kitchen: family-oven
care: { gap: 5 }
${more}dishes:
  - dish: Chain
    fades: fast
    steps:
${rows.join('\n')}
`;
}

export function scheduled(text: string): Schedule {
  const { schedule } = solve(readMeal(text), { effort: 'quick', seed: 1, work: 20_000 });
  if (schedule === null) throw new Error('this meal has no plan');
  return schedule;
}

/** Chance that a step takes at most so many minutes. */
function chanceOf({ low, likely, high }: ChainStep, minutes: number): number {
  const side = minutes < likely ? likely - low : high - likely;
  return erfc((-WRITTEN_DEVIATIONS * (minutes - likely)) / side / Math.SQRT2) / 2;
}

/**
 * That a chain of two ends within so many minutes: the second begins as planned, `between` minutes after the first, or later. Simpson's
 * rule over the first one's deviates from -6 to 6; the halves of the spread meet at the end of a piece.
 */
export function chanceOfTwo(one: ChainStep, two: ChainStep, within: number, between = 0): number {
  const [parts, span] = [200, 12];
  let chance = 0;
  for (let i = 0; i <= parts; i++) {
    const z = -span / 2 + (span * i) / parts;
    const weight = i === 0 || i === parts ? 1 : i % 2 === 1 ? 4 : 2;
    const density = Math.exp(-z * z * 0.5) / Math.sqrt(2 * Math.PI);
    const minutes = (z * (z < 0 ? one.likely - one.low : one.high - one.likely)) / WRITTEN_DEVIATIONS;
    const late = Math.max(0, minutes - between);
    chance += ((weight * density * span) / parts / 3) * chanceOf(two, two.likely + within - late);
  }
  return chance;
}
