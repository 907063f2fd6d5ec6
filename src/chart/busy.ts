/**
 * Where in a plan something happens. A brine from the morning must not squash the evening: hours in which nothing is done
 * and nothing stands on the heat are left out of the first look.
 */
import { HEAT_WORKS } from '../problem/problem.js';
import type { Stretch } from './scale.js';
import type { View } from './view.js';

/** Minutes of nothing that are worth a fold. */
const EMPTY = 90;
/** Minutes shown around what happens. */
const MARGIN = 5;

/** Stretches in which hands or heat are busy, rising, with less than `EMPTY` minutes of nothing inside each. */
export function busyStretches(view: View): Stretch[] {
  const busy: Stretch[] = [];
  for (const step of view.steps) {
    if (step.work === 'hold' || HEAT_WORKS.has(step.work)) busy.push({ from: step.from, to: step.to });
    else busy.push({ from: step.from, to: step.from + 1 }, { from: step.to - 1, to: step.to });
    busy.push(...step.hands);
  }
  for (const run of view.runs) busy.push({ from: run.ready, to: run.to });
  for (const landing of view.landings) busy.push({ from: landing.at, to: landing.at });
  busy.sort((a, b) => a.from - b.from || a.to - b.to);

  const stretches: { from: number; to: number }[] = [];
  for (const { from, to } of busy) {
    const last = stretches.at(-1);
    if (last && from - last.to < EMPTY) last.to = Math.max(last.to, to);
    else stretches.push({ from, to });
  }
  return stretches.map(({ from, to }) => ({ from: from - MARGIN, to: to + MARGIN }));
}

/** The stretch that a screen shows first: the busy one in which the first course lands, to the last landing. */
export function mainStretch(view: View): Stretch {
  const stretches = busyStretches(view);
  const first = view.landings[0]?.at ?? view.last;
  const main = stretches.find((stretch) => first >= stretch.from && first <= stretch.to) ?? stretches.at(-1);
  if (!main) return { from: view.first - MARGIN, to: view.last + MARGIN };
  const last = view.landings.at(-1)?.at ?? first;
  return { from: main.from, to: Math.max(main.to, last + MARGIN) };
}

/** Everything from the first changeover or step to the last landing. */
export const wholeStretch = (view: View): Stretch => ({ from: view.first - MARGIN, to: view.last + MARGIN });
