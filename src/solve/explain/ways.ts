/** Ways out of a clash: changes with which a plan of the whole meal was found. */
import { costOf, totalOf } from '../../kernel/cost.js';
import { State } from '../../kernel/state.js';
import type { Problem } from '../../problem/problem.js';
import { showMinutes } from '../../units/show.js';
import { compile } from '../compile.js';
import type { Clash } from './clash.js';
import { type Judge, type Verdict, wholeMeal } from './judge.js';
import type { Needs } from './needs.js';
import { latenessOf, planAgain } from './plan-again.js';
import { type Change, type Proposal, proposalsFor, usualProposals } from './proposals.js';
import { onlyDishes } from './restrict.js';
import { showPoints } from './words.js';

export interface Way {
  /** A sentence with its full stop. */
  readonly say: string;
  readonly kind: Proposal['kind'];
  readonly trouble: number;
  /** The meal or kitchen so changed. */
  readonly problem: Problem;
  /** Of the plan that was found for it, and the minutes by which its latest course lands late. */
  readonly points: number;
  readonly late: number;
}

/** A change with which there is a schedule. */
interface Fitting {
  readonly change: Change;
  readonly kind: Proposal['kind'];
  readonly trouble: number;
  readonly state: State;
}

/** Shown at most. */
const MOST = 5;
const MOST_OF_A_KIND = 2;

/** Work for a fair plan of a changed meal of up to ten dishes, in minutes of rows. */
const WORK = 60_000;

/** With less of a change the dishes that clash may go together and the whole meal not: that often more is tried. */
const TRIES = 3;

/** The smallest changes, as `proposals.ts` counts trouble; ordered by the sum of that and the points of the plan found. */
export function waysOut(problem: Problem, clash: Clash, needs: readonly Needs[], judge: Judge): Way[] {
  const proposals = proposalsFor(problem, clash, needs);
  const [first, second, ...more] = needs;
  if (second !== undefined && more.length === 0) proposals.push(...pairs(problem, clash, first!, second));
  return smallest(proposals, clash.part.dishes, judge);
}

/** Ways out where it is not known what clashes; `suspects` found no place. */
export function usualWays(problem: Problem, suspects: readonly number[], judge: Judge): Way[] {
  return smallest(usualProposals(problem, suspects), [], judge);
}

/** `dishes`: those of the clash, to which a change must help before the whole meal is tried with it; may be none. */
function smallest(proposals: readonly Proposal[], dishes: readonly number[], judge: Judge): Way[] {
  const found = proposals.map((proposal) => fittingOf(proposal, dishes, judge)).filter((way) => way !== null);
  found.sort((a, b) => a.trouble - b.trouble);
  const isRare = (way: Fitting, i: number): boolean =>
    found.slice(0, i).filter((one) => one.kind === way.kind).length < MOST_OF_A_KIND;
  return found
    .filter(isRare)
    .slice(0, MOST)
    .map((fitting) => wayOf(fitting, judge))
    .sort((a, b) => a.trouble + a.points - b.trouble - b.points);
}

/** What a fair plan of the changed meal costs. */
function wayOf({ change, kind, trouble, state }: Fitting, judge: Judge): Way {
  const compiled = compile(change.problem);
  const start = new State(compiled.model, state);
  const work = WORK * Math.max(1, change.problem.dishes.length / 10);
  const { points, late } = planAgain(compiled, { seed: judge.seed, work, starts: [start] }) ?? {
    points: totalOf(costOf(start)),
    late: latenessOf(start),
  };
  const told = late > 0 ? `everything fits, but ${showMinutes(late)} late` : 'everything fits';
  return {
    say: `${change.say}: then ${told} (${showPoints(points)}).`,
    kind,
    trouble,
    problem: change.problem,
    points,
    late,
  };
}

/** Two changes at once, one for each of two clashes. */
function pairs(problem: Problem, clash: Clash, first: Needs, second: Needs): Proposal[] {
  const single = (one: Proposal): boolean => one.keepsDishes && one.amounts.length <= 2;
  return proposalsFor(problem, clash, [first])
    .filter(single)
    .flatMap((one) => {
      const done = one.make(one.amounts[0]!);
      return proposalsFor(done.problem, clash, [second])
        .filter(single)
        .map((two): Proposal => {
          const then = two.make(two.amounts[0]!);
          const say = `${done.say}, and ${then.say.charAt(0).toLowerCase()}${then.say.slice(1)}`;
          const both = { say, trouble: done.trouble + then.trouble, problem: then.problem };
          return { kind: 'pair', amounts: [0], make: () => both, keepsDishes: true };
        });
    });
}

/** The least of a proposed change that is enough; null where none is, or work is used up. */
function fittingOf(proposal: Proposal, dishes: readonly number[], judge: Judge): Fitting | null {
  const { amounts, make, keepsDishes } = proposal;
  // A later or earlier day, or other hours, are worth nothing if it lands late all the same.
  const onTime = ['serve', 'start', 'hours'].includes(proposal.kind);
  let at = 0;
  if (keepsDishes && dishes.length > 0) {
    at = least(amounts.length, (index) => {
      const part = onlyDishes(make(amounts[index]!).problem, dishes);
      return good(judge.ofProblem(part.problem, { onTime }), onTime);
    });
  }
  for (let tries = 0; tries < TRIES && at < amounts.length && !judge.over; tries++) {
    const change = make(amounts[at]!);
    const verdict = judge.ofProblem(change.problem, wholeMeal(change.problem));
    if (verdict.kind === 'fits' && good(verdict, onTime)) {
      return { change, kind: proposal.kind, trouble: change.trouble + verdict.late, state: verdict.state };
    }
    at = at * 2 + 1;
  }
  return null;
}

const good = (verdict: Verdict, onTime: boolean): boolean => verdict.kind === 'fits' && (!onTime || verdict.late === 0);

/** The first index that passes, where all after it would; `count` where none does. Doubling, then halving. */
function least(count: number, passes: (index: number) => boolean): number {
  let high = 0;
  while (high < count && !passes(high)) high = high * 2 + 1;
  if (high >= count) {
    if (count === 0 || high === count - 1 || !passes(count - 1)) return count;
    high = count - 1;
  }
  let low = high >> 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (passes(middle)) high = middle;
    else low = middle + 1;
  }
  return high;
}
