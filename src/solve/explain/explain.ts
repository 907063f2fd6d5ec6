/** Why there is no plan, and what to do: the whole way from a meal that was not planned to sentences. */

import type { WayRow } from '../../plan/why-document.js';
import type { Problem } from '../../problem/problem.js';
import { showList } from '../../units/show.js';
import { type Clash, smallestClash } from './clash.js';
import { Judge } from './judge.js';
import { clashingNeeds, type Needs } from './needs.js';
import type { Reason } from './reason.js';
import { whySentences } from './say-why.js';
import { usualWays, type Way, waysOut } from './ways.js';

export type { Reason } from './reason.js';
export type { Way } from './ways.js';

export interface ExplainOptions {
  readonly seed: number;
  /** Dishes for which the search found no place; may be empty. */
  readonly suspects: readonly number[];
  /** True where it is proven that nothing fits, and not only nothing was found. */
  readonly proven: boolean;
  /** Asked now and then; true ends the explanation with what is known. */
  readonly shouldStop?: () => boolean;
}

export interface Explanation {
  /** Null where no smaller set of dishes was found that does not go together. */
  readonly clash: Clash | null;
  /** What clashes; the first is told first. */
  readonly needs: readonly Needs[];
  readonly whys: readonly string[];
  readonly ways: readonly Way[];
}

/** Work for finding the clash, and for the ways out, in minutes of rows for ten dishes. */
const WHY_WORK = 4e6;
const WAYS_WORK = 4e6;

export function explanationOf(problem: Problem, { seed, suspects, proven, shouldStop }: ExplainOptions): Explanation {
  const size = Math.max(1, problem.dishes.length / 10);
  const clash = smallestClash(problem, new Judge(seed, WHY_WORK * size, shouldStop), suspects);
  const judge = new Judge(seed, WAYS_WORK * size, shouldStop);
  if (clash === null) {
    const ways = usualWays(problem, suspects, judge);
    return { clash, needs: [], whys: [nobodyToBlame(problem, suspects, proven)], ways };
  }
  const needs = clashingNeeds(clash.part.problem, new Judge(seed, WHY_WORK, shouldStop));
  const ways = waysOut(problem, clash, needs, judge);
  return { clash, needs, whys: whySentences(clash, needs), ways };
}

/** Whys first, then the ways out, each kind in its order. */
export function explainNone(problem: Problem, options: ExplainOptions): Reason[] {
  const { whys, ways } = explanationOf(problem, options);
  return [
    ...whys.map((say): Reason => ({ say, kind: 'why' })),
    ...ways.map((way): Reason => ({ say: way.say, kind: 'way', way: rowOf(way) })),
  ];
}

const rowOf = ({ kind, say, trouble, points, late }: Way): WayRow => ({
  kind,
  say,
  trouble: Math.round(trouble),
  points: Math.round(points * 100) / 100,
  late,
  saves: null,
});

function nobodyToBlame(problem: Problem, suspects: readonly number[], proven: boolean): string {
  const names = suspects.map((d) => problem.dishes[d]!.name);
  const what = names.length === 0 ? 'all dishes' : `${showList(names)} beside everything else`;
  return proven
    ? `There is no time for ${what}, whatever the order; which dishes alone are to blame was not found.`
    : `No time was found for ${what} with this much search; it is not proven that there is none.`;
}
