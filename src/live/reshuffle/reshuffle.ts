/**
 * A new plan for what is left, from what has happened so far: the past stays, what is under way goes on, the rest is planned by the same
 * rules as ever, and leaving the plan that everybody knows costs points, so that nothing moves without gain.
 */
import { standingOn } from '../../kernel/standing.js';
import type { PlanDocument } from '../../plan/document.js';
import { minuteAt } from '../../problem/hours.js';
import type { Problem } from '../../problem/problem.js';
import { writePlan } from '../../solve/write-plan.js';
import type { Happened } from '../happened.js';
import { type Change, changesBetween } from './changes.js';
import { readPlan } from './doing.js';
import { factsOf } from './facts.js';
import { EARLY, type FindOptions, type Found, find } from './find.js';
import { leftOf } from './left.js';
import { overrunOf } from './progress.js';
import { type Known, sayChanges } from './say.js';
import { sayStays, withStay } from './stay.js';
import { sayTwice, type Twice, twiceIn } from './twice.js';

export interface ReshuffleOptions extends FindOptions {
  /** Nothing has begun, and there is time: what is found is what the day begins with. */
  readonly thorough?: boolean;
}

export interface Reshuffled {
  /** Null where nothing that is left finds a time: `say` tells why. */
  readonly plan: PlanDocument | null;
  readonly changes: readonly Change[];
  /** One or two sentences: what has changed, and why. */
  readonly say: readonly string[];
  /** Dishes that cannot be finished any more and are left out. */
  readonly leftOut: readonly number[];
  /** Steps that come later after what has happened than their gap allows. */
  readonly overrun: readonly number[];
  /** Minutes beyond their hours that cooks may be asked to stay; 0 where nobody is. */
  readonly stay: number;
  /** Points of the plan with those for the lateness that is to be expected; null where that was not reckoned. */
  readonly expected: number | null;
  /** Cooks who are wanted at two steps at once, both of which have begun. */
  readonly twice: readonly Twice[];
}

/** So often is what finds no time left out, before there is no plan. */
const MOST_TRIES = 4;

/** Whoever has to, stays so long: a minute's delay late at night is no reason to wait until morning. */
const STAY = 20;
/** Minutes by which a plan has to land later than the one before it, for anybody to be asked to stay. */
const MUCH_LATER = 30;
/** Or points by which it has to be dearer: less is no reason to ask. */
const MUCH_DEARER = 50;

/** Before the day begins most plans that are made one from the other, each with more work, and in more ways, than one that is waited for. */
const ROUNDS = 5;
const THOROUGHLY = { times: 4, longer: [0.6, 1.2, 1.8] };

/**
 * @param plan the plan in force, of this problem or an earlier form of it.
 * @param happened all that has happened until its `now`.
 */
export function reshuffle(
  problem: Problem,
  plan: PlanDocument,
  happened: Happened,
  options: ReshuffleOptions,
): Reshuffled {
  if (options.thorough === true) return thoroughly(problem, plan, happened, options);
  if (sayStays(problem, plan, happened.now).length > 0) {
    // Somebody stays already, and knows.
    const made = reshuffled(problem, plan, happened, options, STAY);
    if (made.plan !== null) return made;
  }
  const inHours = reshuffled(problem, plan, happened, options, 0);
  const worse = (made: Reshuffled): boolean =>
    made.plan === null ||
    made.leftOut.length > 0 ||
    latest(made.plan) > latest(plan) + MUCH_LATER ||
    made.plan.points.total > plan.points.total + MUCH_DEARER;
  if (!worse(inHours) || problem.cooks.every((cook) => cook.to === null)) return inHours;
  const beyond = reshuffled(problem, plan, happened, options, STAY);
  if (beyond.plan === null || beyond.leftOut.length > inHours.leftOut.length) return inHours;
  const helps =
    inHours.plan === null ||
    beyond.leftOut.length < inHours.leftOut.length ||
    latest(beyond.plan) < latest(inHours.plan) - STAY ||
    (beyond.expected ?? Number.POSITIVE_INFINITY) < (inHours.expected ?? 0) - MUCH_DEARER;
  return helps ? beyond : inHours;
}

/** From each plan that is found again, while the points to be expected become fewer; within everybody's hours. */
function thoroughly(problem: Problem, plan: PlanDocument, happened: Happened, options: ReshuffleOptions): Reshuffled {
  let best = reshuffled(problem, plan, happened, { ...options, ...THOROUGHLY }, 0);
  for (let round = 1; round < ROUNDS && best.plan !== null && best.expected !== null; round++) {
    const next = reshuffled(
      problem,
      plan,
      happened,
      { ...options, ...THOROUGHLY, seed: options.seed + round },
      0,
      best.plan,
    );
    if (next.plan === null || next.expected === null || next.expected >= best.expected) break;
    best = next;
  }
  return best;
}

const latest = (plan: PlanDocument): number => Math.max(0, ...plan.dishes.map((dish) => dish.late ?? 0));

/** @param from the plan that is to be left as little as may be, where that is another than the one in force. */
function reshuffled(
  asked: Problem,
  plan: PlanDocument,
  happened: Happened,
  options: ReshuffleOptions,
  stay: number,
  from = plan,
): Reshuffled {
  const problem = stay === 0 ? asked : withStay(asked, stay);
  const known = readPlan(problem, plan);
  const facts = factsOf(problem, known, happened, options);
  const start = from === plan ? known : readPlan(problem, from);
  const { seed } = options;
  let out = happened;
  for (let tries = 0; ; tries++) {
    const left = leftOf(problem, known, facts, out);
    const found = find(from === plan ? left : leftOf(problem, start, facts, out), start, latest(plan), out, options);
    const missing = found.unplaced.map((job) => left.dishes[job]!);
    if (missing.length === 0 || tries === MOST_TRIES) {
      const made = told(problem, { before: plan, planned: known, happened, facts, left }, found, missing, out, seed);
      if (made.plan === null) return { ...made, stay, twice: [] };
      const twice = twiceIn(problem, made.plan, happened);
      const say = [...made.say, ...sayStays(asked, made.plan, happened.now), ...sayTwice(problem, twice)];
      return { ...made, say, stay, twice };
    }
    // What finds no time is left out, so that the others have a plan.
    out = { ...out, dropped: new Set([...out.dropped, ...missing]) };
  }
}

function told(
  problem: Problem,
  known: Omit<Known, 'room'>,
  { compiled, state, rounds, early, expected }: Found,
  missing: readonly number[],
  { dropped }: Happened,
  seed: number,
): Omit<Reshuffled, 'stay' | 'twice'> {
  const { before, happened, left } = known;
  const unplaced = [...dropped].filter((dish) => !happened.dropped.has(dish));
  const leftOut = [...new Set([...left.unfit.keys(), ...unplaced, ...missing])].sort((a, b) => a - b);
  const none = (say: string) => ({ plan: null, changes: [], say: [say], leftOut, overrun: [], expected });
  if (missing.length > 0) {
    const names = missing.map((d) => problem.dishes[d]!.name).join(', ');
    return none(`No time is left for ${names} beside what has begun.`);
  }
  const crowded = compiled.model.machines.findIndex((machine, m) => !machine.fits(standingOn(state, m)));
  if (crowded >= 0) {
    const { name } = problem.kitchen.appliances[compiled.kit.applianceOf[crowded]!]!;
    return none(
      `What is in the ${name} by now does not go together in it by its sizes: there is no plan until some of it is done.`,
    );
  }
  const late = compiled.model.groups.some((group, g) => state.landing(g) > group.due);
  const next = writePlan(compiled, state, {
    status: late ? 'late' : 'good',
    bound: 0,
    effort: { level: 'quick', seed, rounds, stopped: false },
  });
  const changes = changesBetween(problem, before, next, happened.now);
  const overrun = overrunOf(
    left.problem,
    compiled,
    (id) => state.start[id]!,
    (id) => state.end(id),
  ).map((id) => left.steps[id]!.origin);
  // Early by the serving time of each plan.
  const serve = minuteAt(problem, before.serve);
  const room = early.some((id) => {
    const { usual, fact } = left.steps[id]!;
    return fact === null && usual !== null && happened.serve - state.start[id]! >= serve - usual.start + EARLY;
  });
  const say = sayChanges(problem, next, changes, { ...known, room });
  for (const dish of unplaced)
    say.push(`No time is left for ${problem.dishes[dish]!.name}: it is left out of the plan.`);
  return { plan: next, changes, say, leftOut, overrun, expected };
}
