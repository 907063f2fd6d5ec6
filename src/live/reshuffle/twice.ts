/** Cooks who are wanted at two things at once, since both have begun and nobody else is free: it is said, so that they can ask for a hand. */
import type { PlanDocument } from '../../plan/document.js';
import { clockAt, minuteAt, stepKey } from '../../problem/hours.js';
import type { Problem } from '../../problem/problem.js';
import type { Happened } from '../happened.js';

export interface Twice {
  readonly cook: string;
  readonly at: number;
  /** Ids of two steps that have begun. */
  readonly steps: readonly [number, number];
}

/** In the order of their times; only what is still to come. */
export function twiceIn(
  problem: Problem,
  plan: PlanDocument,
  { now, steps }: Pick<Happened, 'now' | 'steps'>,
): Twice[] {
  const idOf = new Map([...steps.keys()].map((id) => [stepKey(problem, id), id]));
  const wanted = plan.steps
    .flatMap(({ dish, step, hands }) => {
      const id = idOf.get(`${dish}/${step}`);
      if (id === undefined) return [];
      return hands.map(({ cook, start, end }) => ({
        id,
        cook,
        start: minuteAt(problem, start),
        end: minuteAt(problem, end),
      }));
    })
    .filter(({ end }) => end > now)
    .sort((a, b) => a.start - b.start);
  return wanted.flatMap((one, k) =>
    wanted
      .slice(k + 1)
      .filter((two) => two.cook === one.cook && two.id !== one.id && two.start < one.end)
      .map((two): Twice => ({ cook: one.cook, at: Math.max(now, two.start), steps: [one.id, two.id] })),
  );
}

/** A sentence for the first of each two. */
export function sayTwice(problem: Problem, list: readonly Twice[]): string[] {
  const told = new Set<string>();
  return list.flatMap(({ cook, at, steps }) => {
    const key = steps.toSorted((a, b) => a - b).join(' ');
    if (told.has(key)) return [];
    told.add(key);
    const names = steps.map((id) => stepKey(problem, id)).join(' and ');
    return [`${cook} is wanted at ${names} at once, at ${clockAt(problem, at)}: somebody has to lend a hand.`];
  });
}
