/** What the list of the cook's screen has, from top to bottom: steps under way, then the calls that are still open. */

import type { Day } from '../../../src/live/journal/day.js';
import type { Body } from '../../../src/live/journal/entries.js';
import type { Call } from '../../../src/live/state/calls.js';
import { marksOf } from '../../../src/live/state/marks.js';
import type { State, StepState } from '../../../src/live/state/state.js';
import { stepKey } from '../../../src/problem/hours.js';

export type Item =
  | { readonly kind: 'step'; readonly key: string; readonly step: StepState }
  | { readonly kind: 'call'; readonly key: string; readonly call: Call };

export function itemsOf({ steps, calls }: State): Item[] {
  const underWay = steps.filter(({ standing }) => standing === 'under way');
  return [
    ...underWay.map((step): Item => ({ kind: 'step', key: `step ${step.id}`, step })),
    ...calls.map((call): Item => ({ kind: 'call', key: `call ${call.key}`, call })),
  ];
}

/** What ticking it off notes. */
export const marksFor = (day: Day, item: Item): Body[] =>
  item.kind === 'call' ? marksOf(day, item.call) : [{ kind: 'done', step: stepKey(day.problem, item.step.id) }];

/** The one with this key; the first open call where there is none such, or else the first. */
export function chosenOf(items: readonly Item[], key: string | null): number {
  const found = items.findIndex((item) => item.key === key);
  if (found >= 0) return found;
  return Math.max(
    0,
    items.findIndex(({ kind }) => kind === 'call'),
  );
}
