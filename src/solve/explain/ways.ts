/** Ways out of a clash: changes with which a plan of the whole meal was found. */
import type { Problem } from '../../problem/problem.js';
import { showMinutes } from '../../units/show.js';
import type { Clash } from './clash.js';
import { type Judge, type Verdict, wholeMeal } from './judge.js';
import type { Needs } from './needs.js';
import { type Proposal, proposalsFor, usualProposals } from './proposals.js';
import { onlyDishes } from './restrict.js';

export interface Way {
  /** A sentence with its full stop. */
  readonly say: string;
  readonly kind: Proposal['kind'];
  readonly trouble: number;
  /** The meal or kitchen so changed. */
  readonly problem: Problem;
}

/** Shown at most. */
const MOST = 5;
const MOST_OF_A_KIND = 2;

/** With less of a change the dishes that clash may go together and the whole meal not: that often more is tried. */
const TRIES = 3;

/** Ordered by how small the change is, as `proposals.ts` counts it. */
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
  const found = proposals.map((proposal) => wayOf(proposal, dishes, judge)).filter((way) => way !== null);
  found.sort((a, b) => a.trouble - b.trouble);
  const isRare = (way: Way, i: number): boolean =>
    found.slice(0, i).filter((one) => one.kind === way.kind).length < MOST_OF_A_KIND;
  return found.filter(isRare).slice(0, MOST);
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
function wayOf(proposal: Proposal, dishes: readonly number[], judge: Judge): Way | null {
  const { amounts, make, keepsDishes } = proposal;
  // A later or earlier day is worth nothing if it lands late all the same.
  const onTime = proposal.kind === 'serve' || proposal.kind === 'start';
  let at = 0;
  if (keepsDishes && dishes.length > 0) {
    at = least(amounts.length, (index) => {
      const part = onlyDishes(make(amounts[index]!).problem, dishes);
      return good(judge.ofProblem(part.problem, { onTime }), onTime);
    });
  }
  for (let tries = 0; tries < TRIES && at < amounts.length && !judge.over; tries++) {
    const { say, trouble, problem } = make(amounts[at]!);
    const verdict = judge.ofProblem(problem, wholeMeal(problem));
    if (verdict.kind === 'fits' && good(verdict, onTime)) {
      const { late } = verdict;
      const told = late > 0 ? `everything fits, but ${showMinutes(late)} late` : 'everything fits';
      return { say: `${say}: then ${told}.`, kind: proposal.kind, trouble: trouble + late, problem };
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
