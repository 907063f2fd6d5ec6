/** Cooks who stay somewhat longer than their hours say, where the meal would otherwise have to wait for them to come again. */
import type { PlanDocument } from '../../plan/document.js';
import { clockAt, minuteAt, stays } from '../../problem/hours.js';
import type { Cook, Problem } from '../../problem/problem.js';

const DAY = 24 * 60;

/** The same meal with cooks who stay so many minutes longer; nobody's stay goes on beyond midnight, or into their next. */
export function withStay(problem: Problem, minutes: number): Problem {
  const longer = (cook: Cook): Cook => {
    const { from, to } = cook;
    if (to === null || to >= DAY) return cook;
    const limit = from !== null && from > to ? from - 1 : DAY;
    return { ...cook, to: Math.min(to + minutes, limit) };
  };
  return { ...problem, cooks: problem.cooks.map(longer) };
}

/** Who stays until when, of what is still to come; nothing where all keep their hours. */
export function sayStays(problem: Problem, plan: PlanDocument, now: number): string[] {
  const hands = plan.steps.flatMap((row) => row.hands);
  return problem.cooks.flatMap((cook, c) => {
    const own = hands
      .filter((hand) => hand.cook === cook.name)
      .map(({ start, end }) => ({ start: minuteAt(problem, start), end: minuteAt(problem, end) }))
      .filter(({ end }) => end > now);
    const there = stays(problem, c, Math.max(0, ...own.map(({ end }) => end)) + 1);
    const beyond = own.filter(({ start, end }) => !there.some((window) => window.start <= start && end <= window.end));
    const until = Math.max(...beyond.map(({ end }) => end));
    return beyond.length === 0 ? [] : [`${cook.name} stays until ${clockAt(problem, until)}.`];
  });
}
