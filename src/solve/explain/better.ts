/** Ways out of a plan that works and is poor: changes with which the whole meal was planned again and came out better. */

import { costOf, totalOf } from '../../kernel/cost.js';
import type { State } from '../../kernel/state.js';
import type { WayRow } from '../../plan/why-document.js';
import type { Problem } from '../../problem/problem.js';
import { showMinutes } from '../../units/show.js';
import { compile } from '../compile.js';
import type { Found } from '../schedule.js';
import { carriedOver } from './carry.js';
import { improvements } from './improvements.js';
import { type Again, latenessOf, planAgain } from './plan-again.js';
import type { Change, Proposal } from './proposals.js';
import { showPoints } from './words.js';

export interface BetterOptions {
  readonly seed: number;
  /** Told before each change that is planned. */
  readonly onWay?: (done: number, of: number) => void;
  readonly shouldStop?: () => boolean;
}

/** Work for one change to a meal of up to eight dishes, in minutes of rows; of more it grows as that of a plan does. */
const WORK = 120_000;
const FEW_DISHES = 8;
const MOST_WORK = 10;

/** Told at most, in all and of a kind. */
const MOST = 6;
const MOST_OF_A_KIND = 2;

/** What a change saves at least to be told: points, and as a part of the plan's. */
const LEAST = 0.5;
const LEAST_PART = 0.02;
/** The same where a dish is left out for it. */
const LEAST_FOR_DISH = 5;

interface Better {
  readonly kind: Proposal['kind'];
  readonly change: Change;
  readonly again: Again;
}

export interface BetterWay {
  readonly row: WayRow;
  /** The meal or kitchen so changed, and the schedule found for it. */
  readonly problem: Problem;
  readonly state: State;
}

/** The best first: least points with the trouble that the change is. */
export function betterWays(problem: Problem, found: Found, { seed, onWay, shouldStop }: BetterOptions): BetterWay[] {
  const work = WORK * Math.min(MOST_WORK, Math.max(1, problem.dishes.length / FEW_DISHES) ** 2);
  const own = totalOf(costOf(found.state));
  const again = (changed: Problem): Again | null => {
    const compiled = compile(changed);
    return planAgain(compiled, { seed, work, starts: carriedOver(found, compiled), ...(shouldStop && { shouldStop }) });
  };
  // What as much more search finds without any change is none of a change's doing.
  const least = Math.min(own, again(problem)?.points ?? own);
  const proposals = improvements(found);
  const better = proposals.flatMap((proposal, done): Better[] => {
    if (shouldStop?.()) return [];
    onWay?.(done, proposals.length);
    const tried = proposal.amounts.flatMap((amount): Better[] => {
      const change = proposal.make(amount);
      const result = again(change.problem);
      return result === null ? [] : [{ kind: proposal.kind, change, again: result }];
    });
    const worth = tried.filter(({ again: { points } }) => least - points >= worthwhile(proposal.kind, own));
    return worth.length === 0 ? [] : [worth.reduce((a, b) => (score(b) < score(a) ? b : a))];
  });
  better.sort((a, b) => score(a) - score(b));
  const isRare = ({ kind }: Better, i: number): boolean =>
    better.slice(0, i).filter((one) => one.kind === kind).length < MOST_OF_A_KIND;
  const late = latenessOf(found.state);
  return better
    .filter(isRare)
    .slice(0, MOST)
    .map((one) => ({ row: rowOf(one, own, late), problem: one.change.problem, state: one.again.state }));
}

const worthwhile = (kind: Proposal['kind'], own: number): number =>
  Math.max(kind === 'dish' ? LEAST_FOR_DISH : LEAST, LEAST_PART * own);

/** Nobody leaves a dish out of a meal that works for some points, unless nothing smaller helps. */
const LEFT_OUT = 100;

const score = ({ kind, change, again }: Better): number =>
  change.trouble + again.points + (kind === 'dish' ? LEFT_OUT : 0);

const rounded = (points: number): number => Math.round(points * 100) / 100;

function rowOf(
  { kind, change: { say, trouble }, again: { points, late } }: Better,
  own: number,
  wasLate: number,
): WayRow {
  const saves = rounded(own - points);
  const when = late > 0 ? `, ${showMinutes(late)} late` : wasLate > 0 ? ', in time' : '';
  return {
    kind,
    say: `${say}: ${showPoints(points)} instead of ${showPoints(own).split(' ')[0]}${when}.`,
    trouble: Math.round(trouble),
    points: rounded(points),
    late,
    saves,
  };
}
