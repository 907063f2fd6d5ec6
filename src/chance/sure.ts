/**
 * A plan that lands in time with an asked chance, at the least points that were found: the room that its waits, rests and landings
 * leave for days that go otherwise. Chances are shares of days on which all lands within 5 minutes.
 */
import { costOf, totalOf } from '../kernel/cost.js';
import type { State } from '../kernel/state.js';
import type { PlanDocument } from '../plan/document.js';
import { predictionsOf } from '../solve/cores.js';
import type { Schedule } from '../solve/schedule.js';
import type { SolveOptions } from '../solve/solve.js';
import { timedBy } from '../solve/timed.js';
import { writePlan } from '../solve/write-plan.js';
import { type Asking, chancesOf, DRAWS, latenessOn, ON_TIME, rowsOf, shareInTime } from './chances.js';
import { cushionTiming, type Day } from './cushion-timing.js';
import { Evening } from './evening.js';
import { orderFor } from './orders.js';
import { risksOf } from './risks.js';
import { slackOf } from './slack.js';

/** Minutes of rows of a search that leaves a meal in other orders than the program for small meals does. */
const ASIDE = 2e5;
/** The order of the plan itself is tried, and those that a meal has whose unsure steps all take so many deviations longer. */
const LONGER: readonly { deviations: number; work?: number }[] = [
  { deviations: 0 },
  { deviations: 0, work: ASIDE },
  { deviations: 0.6 },
  { deviations: 1.2 },
  { deviations: 1.2, work: ASIDE },
  { deviations: 1.8 },
];

/** Sampled days that times are made for: fewer where a meal has many moments. */
const DAYS = 200;
const FEWEST = 20;
const MOMENTS = 20_000;
/** They are others than those by which chances are told. */
const OTHER_DAYS = 0x5eed;

/** Points a minute of lateness that are tried, as powers of two. */
const [LEAST_RATE, MOST_RATE] = [0, 14];
const HALVINGS = 6;
/** Tries of keeping a smaller or larger share of days in time. */
const TRIMS = 4;

interface Candidate {
  readonly schedule: Schedule;
  readonly points: number;
  readonly chance: number;
}

export interface Sure {
  readonly schedule: Schedule;
  readonly plan: PlanDocument;
}

/** The plan itself, with what is said of its chance, where that is as asked or nothing is unsure. */
export function surePlan(schedule: Schedule, plan: PlanDocument, asked: number, options: SolveOptions): Sure {
  const asking = { draws: DRAWS, seed: options.seed };
  const own = candidateOf(schedule, schedule.state, asking);
  if (risksOf(schedule).length === 0 || own.chance >= asked) return told(own, own, plan, asked, asking);
  const found = [own];
  for (const { deviations, work } of LONGER) {
    if (options.shouldStop?.()) break;
    const search = work === undefined ? options : { ...options, work };
    const isOwn = deviations === 0 && work === undefined;
    const order = isOwn ? schedule.state : orderFor(schedule.compiled, deviations, search);
    if (order === null) continue;
    // An order that is dearer without any cushions than what is found need not be asked for more.
    const plain = cushionTiming(schedule.compiled, order, { days: [], within: ON_TIME, rate: 0 });
    const least = best(found, asked);
    if (least.chance >= asked && (plain === null || totalOf(costOf(plain)) >= least.points)) continue;
    found.push(...forOrder(schedule, order, asked, asking));
  }
  return told(own, best(found, asked), plan, asked, asking);
}

/** Chances nearer to each other than this are as good as one. */
const AS_GOOD = 0.003;

/** The one of fewest points of those that reach the chance, else of those that come nearest to it. */
function best(found: readonly Candidate[], asked: number): Candidate {
  const most = Math.max(...found.map(({ chance }) => chance));
  const least = most >= asked ? asked : most - AS_GOOD;
  return found.reduce((one, two) =>
    two.chance >= least && (one.chance < least || two.points < one.points - 1e-6) ? two : one,
  );
}

function candidateOf(schedule: Schedule, state: State, asking: Asking): Candidate {
  const { compiled } = schedule;
  const own =
    state === schedule.state
      ? schedule
      : { ...schedule, state, predictions: predictionsOf(compiled.problem, timedBy(compiled, state)) };
  return { schedule: own, points: totalOf(costOf(state)), chance: shareInTime(own, asking) };
}

/** Times for one order: points for lateness as low as will do, then as many days in time as are needed and no more. */
function forOrder(schedule: Schedule, order: State, asked: number, asking: Asking): Candidate[] {
  const { compiled } = schedule;
  const risks = risksOf({
    ...schedule,
    state: order,
    predictions: predictionsOf(compiled.problem, timedBy(compiled, order)),
  });
  const moved = new Evening(compiled, order).movedBy(new Set(risks.map(({ activity }) => activity))).length;
  const count = Math.max(FEWEST, Math.min(DAYS, Math.floor(MOMENTS / moved)));
  const rows = rowsOf(risks, { draws: count, seed: asking.seed ^ OTHER_DAYS });
  const days = Array.from(
    { length: count },
    (_, i): Day => new Map([...rows].map(([a, row]) => [a, Math.round(row[i]!)])),
  );
  const found: Candidate[] = [];
  const tried = (some: readonly Day[], rate: number): Candidate | null => {
    const state = cushionTiming(compiled, order, { days: some, within: ON_TIME, rate: 2 ** rate });
    const candidate = state === null ? null : candidateOf(schedule, state, asking);
    if (candidate !== null) found.push(candidate);
    return candidate;
  };
  let [low, high] = [LEAST_RATE, MOST_RATE];
  let near = tried(days, high);
  if (near === null || near.chance < asked) return found;
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (low + high) / 2;
    const one = tried(days, middle);
    if (one !== null && one.chance >= asked) [high, near] = [middle, one];
    else low = middle;
  }
  const late = latenessOn(near.schedule, rows, count);
  const byLateness = [...days.keys()].sort((one, two) => late[one]! - late[two]!).map((i) => days[i]!);
  let [few, many] = [Math.floor(asked * count * 0.97), count];
  for (let k = 0; k < TRIMS && many - few > 1; k++) {
    const middle = Math.ceil((few + many) / 2);
    const one = tried(byLateness.slice(0, middle), MOST_RATE);
    if (one !== null && one.chance >= asked) many = middle;
    else few = middle;
  }
  return found;
}

/** The plan of a candidate with its chances, and what it has and costs more than the plan without cushions. */
function told(own: Candidate, chosen: Candidate, plan: PlanDocument, asked: number, asking: Asking): Sure {
  const { schedule } = chosen;
  const { compiled, state, predictions, bound } = schedule;
  const { problem, model } = compiled;
  const late = model.groups.some((group, g) => state.landing(g) > group.due);
  const status = late ? 'late' : chosen.points <= bound + 0.005 ? 'best' : 'good';
  const written =
    chosen === own ? plan : writePlan(compiled, state, { status, bound, effort: plan.effort }, predictions);
  const risks = risksOf(schedule).map(({ activity }) => activity);
  const [before, now] = [slackOf(own.schedule, risks), slackOf(schedule, risks)];
  const cushions = risks.flatMap((a) => {
    const more = now.get(a)! - before.get(a)!;
    const { dish, name } = problem.steps[a]!;
    return more > 0 ? [{ dish: problem.dishes[dish]!.name, step: name, minutes: now.get(a)!, more }] : [];
  });
  const reached = chosen.chance >= asked;
  const sure: PlanDocument['sure'] = {
    asked,
    reached,
    cost: Math.round((written.points.total - plan.points.total) * 100) / 100,
    cushions: cushions.sort((one, two) => two.more - one.more),
    ...(!reached && { limit: limitOf(state) }),
  };
  const chances = chancesOf(schedule, asking);
  return { schedule, plan: { ...written, ...(chances && { chances }), sure } };
}

/** What keeps the chance of the best schedule from being higher. */
function limitOf(state: State): NonNullable<NonNullable<PlanDocument['sure']>['limit']> {
  if (state.model.groups.some((group, g) => state.landing(g) > group.due + ON_TIME)) return 'late';
  return state.start.some((start) => start <= 0) ? 'start' : 'waits';
}
