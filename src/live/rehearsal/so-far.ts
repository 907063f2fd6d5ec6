/** What a rehearsal that begins in the middle of a plan takes as having happened: all of it, as planned. Minutes after `start`. */
import { minuteAt, stepKey } from '../../problem/hours.js';
import { type Day, plannedSteps } from '../journal/day.js';
import type { Body } from '../journal/entries.js';

export interface SoFar {
  readonly minute: number;
  readonly who: string | null;
  readonly body: Body;
}

/** In the order in which it happened: what was to begin before `now`, and what was to be over by then. */
export function soFar({ problem, plan }: Pick<Day, 'problem' | 'plan'>, now: number): SoFar[] {
  return [...plannedSteps({ problem, plan })]
    .flatMap(([id, { start, end, hands }]): SoFar[] => {
      const step = stepKey(problem, id);
      const [from, to] = [minuteAt(problem, start), minuteAt(problem, end)];
      if (from >= now) return [];
      const begun: SoFar = { minute: from, who: hands[0]?.cook ?? null, body: { kind: 'started', step } };
      const over: SoFar = { minute: to, who: hands.at(-1)?.cook ?? null, body: { kind: 'done', step } };
      return to <= now ? [begun, over] : [begun];
    })
    .sort((a, b) => a.minute - b.minute || Number(a.body.kind === 'started') - Number(b.body.kind === 'started'));
}
