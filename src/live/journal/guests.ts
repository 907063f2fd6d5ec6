/** A dish for more or fewer people than the file says. */
import type { Duration, Option, Problem, Work } from '../../problem/problem.js';

/** What takes longer the more there is of it: the work of hands. On the heat more stands beside, not longer. */
const BY_HAND: ReadonlySet<Work> = new Set<Work>(['prep', 'finish', 'carve', 'plate']);

/** The problem with some dishes so many times as large: more or fewer pans, and longer or shorter work of hands; pieces stay as they are. */
export function forGuests(problem: Problem, times: ReadonlyMap<number, number>): Problem {
  if (times.size === 0) return problem;
  const steps = problem.steps.map((step) => {
    const by = times.get(step.dish) ?? 1;
    if (by === 1) return step;
    const hand = BY_HAND.has(step.work);
    const scaled = (option: Option): Option => ({
      ...option,
      pans: option.pan === null ? option.pans : Math.max(1, Math.ceil(option.pans * by - 1e-9)),
      duration: hand ? longer(option.duration, by) : option.duration,
    });
    return { ...step, options: step.options.map(scaled) };
  });
  return { ...problem, steps };
}

const whole = (minutes: number): number => Math.max(1, Math.ceil(minutes - 1e-9));

function longer(duration: Duration, by: number): Duration {
  if (duration.kind !== 'fixed') return duration;
  const { minutes, low, high } = duration;
  return { kind: 'fixed', minutes: whole(minutes * by), low: whole(low * by), high: whole(high * by) };
}

/** A pan of which a dish would need more than there are, or null. */
export function panShort(problem: Problem, dish: number): { pan: string; wants: number; has: number } | null {
  for (const id of problem.dishes[dish]!.steps) {
    const { options } = problem.steps[id]!;
    const lacks = ({ pan, pans }: Option): boolean => pan !== null && pans > problem.kitchen.pans[pan]!.count;
    if (!options.every(lacks)) continue;
    const { pan, pans } = options[0]!;
    const { name, count } = problem.kitchen.pans[pan!]!;
    return { pan: name, wants: pans, has: count };
  }
  return null;
}
