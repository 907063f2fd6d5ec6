/** Ways out of a clash: changes with which a plan of the whole meal was found. */
import type { Problem } from '../../problem/problem.js';
import { showMinutes } from '../../units/show.js';
import type { Clash } from './clash.js';
import { type Judge, type Verdict, wholeMeal } from './judge.js';
import type { Needs } from './needs.js';
import { type Proposal, proposalsFor } from './proposals.js';
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
  const found: Way[] = [];
  for (const proposal of proposals) {
    const way = wayOf(proposal, clash, judge);
    if (way !== null) found.push(way);
  }
  found.sort((a, b) => a.trouble - b.trouble);
  return found
    .filter((way, i) => found.slice(0, i).filter((one) => one.kind === way.kind).length < MOST_OF_A_KIND)
    .slice(0, MOST);
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
function wayOf(proposal: Proposal, clash: Clash, judge: Judge): Way | null {
  const { amounts, make, keepsDishes } = proposal;
  // A later or earlier day is worth nothing if it lands late all the same.
  const onTime = proposal.kind === 'serve' || proposal.kind === 'start';
  let at = 0;
  if (keepsDishes) {
    at = least(amounts.length, (index) => {
      const part = onlyDishes(make(amounts[index]!).problem, clash.part.dishes);
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
