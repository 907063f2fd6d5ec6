/** Small meals whose chances can be told by other means, and schedules of meals by a quick search. */
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
