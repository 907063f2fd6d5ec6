/**
 * Whole services in a simulated kitchen, with new plans and without: `npm run bench:services -- [--services N] [--meal NAME]`. Steps take random
 * minutes; burners are lost, serving is moved, cooks leave. Writes its part of RESULTS.md when all meals are served (some twenty minutes).
 */
import { loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { surePlan } from '../../src/chance/sure.js';
import type { PlanDocument } from '../../src/plan/document.js';
import type { Problem } from '../../src/problem/problem.js';
import { solve } from '../../src/solve/solve.js';
import { readMealFile } from '../support/read-meal.js';
import { eveningOf, type Served, type ServiceOptions, serve, withForesight } from '../support/services.js';
import { type Moves, movesOf, noMoves } from '../support/stability.js';
import { circumstances, table, writePart } from './results.js';

const { values } = parseArgs({
  options: { services: { type: 'string', default: '200' }, meal: { type: 'string' } },
});
const MEALS = ['one-grill-pork', 'one-grill-indoors', 'weeknight-three-burners', 'holiday-one-oven', 'clocks-change'];
/** A service of it takes as long as ten or more of the others: fewer, and none of what takes long. */
const LARGE = 'wedding-supper';
const SHARE = 0.3;
const meals = values.meal === undefined ? [...MEALS, LARGE] : [values.meal];
const each = Math.ceil(Number(values.services) / (values.meal === undefined ? MEALS.length : 1));
const servicesOf = (name: string): number =>
  name === LARGE && values.meal === undefined ? Math.ceil(SHARE * each) : each;
/** What takes long is done with the first of the services only. */
const some = Math.ceil(each / 5);
/** Minutes after serving that count as in time. */
const IN_TIME = 5;
const SURE = 0.8;
/** What a new plan's search is allowed where it may take its time: five times the most that it has otherwise. */
const LONG = 6e6;
const load = loadavg()[0]!;

const at = (list: readonly number[], share: number): number =>
  list.toSorted((a, b) => a - b)[Math.floor((list.length - 1) * share)] ?? Number.NaN;
/** A service that never ends is later than any other. */
const lateness = ({ late }: Pick<Served, 'late'>): number => late ?? Number.POSITIVE_INFINITY;
const minutes = (late: number): string => (late === Number.POSITIVE_INFINITY ? 'never' : `${late}`);
const percent = (part: number, all: number): string => `${((100 * part) / all).toFixed(0)} %`;
const within = (list: readonly number[]): string => percent(list.filter((late) => late <= IN_TIME).length, list.length);
const middle = (list: readonly number[]): string => `${minutes(at(list, 0.5))} / ${minutes(at(list, 0.9))}`;
const seeds = (count: number): number[] => Array.from({ length: count }, (_, k) => k + 1);

const KINDS = [
  [/ is on .* and .* at /, 'a cook on two things at once'],
  [/ are on /, 'a place taken twice'],
  [/ points? /, 'points that are not so'],
] as const;
const kinds = new Map<string, number>();
let faulty = 0;

function counted({ faults }: Served): void {
  faulty += faults.length > 0 ? 1 : 0;
  for (const fault of faults) {
    const kind = KINDS.find(([shape]) => shape.test(fault))?.[1] ?? fault;
    kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  }
}

/** Of the services that a plan which knows the evening lands in time: when those with new plans land. */
const possible: number[] = [];
const landings: (string | number)[][] = [];
const bounds: (string | number)[][] = [];
const stability: (string | number)[][] = [];
const times: (string | number)[][] = [];

function timed(name: string, problem: Problem, services: readonly Served[]): void {
  const list = services.flatMap((served) => served.times);
  const most = list.length === 0 ? 0 : Math.max(...list);
  const opening = at(
    services.map((one) => one.opening),
    0.5,
  );
  const shown = [at(list, 0.5), at(list, 0.95), most, opening].map(Math.round);
  times.push([name, problem.dishes.length, list.length, ...shown]);
}

for (const name of meals) {
  const problem = readMealFile(`problems/${name}.yaml`);
  const { plan, schedule } = solve(problem, { effort: 'normal', seed: 1 });
  const first = plan!;
  const served = (from: PlanDocument, count: number, options: Omit<ServiceOptions, 'seed' | 'mishaps'>): Served[] =>
    seeds(count).map((seed) => serve(problem, from, { seed, mishaps: true, ...options }));

  const count = servicesOf(name);
  const anew = served(first, count, { anew: true });
  anew.forEach(counted);
  timed(name, problem, anew);
  const kept = served(first, count, { anew: false });
  const known = seeds(count).map((seed) =>
    lateness({ late: withForesight(problem, first, eveningOf(problem, first, seed, true)) }),
  );
  const [fresh, old] = [anew.map(lateness), kept.map(lateness)];
  const foreseen = fresh.filter((_, k) => known[k]! <= IN_TIME);
  possible.push(...foreseen);
  landings.push([
    ...[
      name,
      count,
      middle(fresh),
      middle(old),
      middle(known),
      `${foreseen.length}: ${middle(foreseen)}`,
      within(fresh),
      within(old),
    ],
    ...[anew.reduce((sum, { leftOut }) => sum + leftOut, 0), anew.filter(({ faults }) => faults.length > 0).length],
  ]);

  process.stderr.write(`${landings.at(-1)!.join(' | ')}\n`);
  if (name === LARGE) continue;

  const long = served(first, some, { anew: true, work: LONG });
  const sure = surePlan(schedule!, first, SURE, { effort: 'normal', seed: 1 }).plan;
  const [sureAnew, sureKept] = [served(sure, some, { anew: true }), served(sure, some, { anew: false })];
  for (const list of [long, sureAnew]) list.forEach(counted);
  const unopened = served(first, some, { anew: true, opened: false });
  unopened.forEach(counted);
  const few = [anew.slice(0, some), unopened, long, kept.slice(0, some), sureAnew, sureKept].map((list) =>
    list.map(lateness),
  );
  bounds.push([name, some, ...few.map((list) => `${middle(list)}, ${within(list)}`)]);

  const [steady, restless] = [noMoves(), noMoves()];
  let events = 0;
  served(first, some, {
    anew: true,
    opened: false,
    onPlan: (before, happened, _, expected) => {
      const moves = movesOf(problem, before, happened, expected);
      if (moves === null) return;
      events += 1;
      add(steady, moves.steady);
      add(restless, moves.restless);
    },
  });
  const shares = [restless, steady].flatMap(({ calls, moved, idle }) => [moved / calls, idle / calls]);
  stability.push([name, events, steady.calls, ...shares.map((share) => `${(100 * share).toFixed(1)} %`)]);
  for (const rows of [bounds, stability]) process.stderr.write(`${rows.at(-1)!.join(' | ')}\n`);
}

function add(sum: Moves, one: Moves): void {
  sum.calls += one.calls;
  sum.moved += one.moved;
  sum.idle += one.idle;
}

const body = `${circumstances(load)}

${meals.reduce((sum, name) => sum + servicesOf(name), 0)} services: steps take random minutes, burners and pans are lost, serving is moved, cooks leave. Minutes after serving time at which the last
course lands, in the middle service and in the worst of ten: with a new plan an hour before anything begins and whenever something goes otherwise, with the first plan kept whatever happens,
and by a plan that knows the evening beforehand. Where the plan is kept, everything waits for its cook and its place in the plan's order, and
whoever can and is free steps in for a cook who has left; what a lost burner was to do is never done. A dish that is left out is not late. What is
kept when serving is moved to later stands ready early, which counts as in time.

${table(['meal', 'services', 'new plans', 'plan kept', 'foreseen', 'new, of those foreseen in time', 'within 5 min, new', 'kept', 'dishes left out', 'with a fault'], landings)}

Of the ${possible.length} services that a plan which knows the evening lands within ${IN_TIME} minutes, new plans land ${within(possible)} so, and the middle one ${minutes(at(possible, 0.5))} minutes late.

A plan that knows the evening is no bound for one that does not: it can start the long ones early. What could be reached, on the first ${some} services of each meal (middle
/ worst of ten, within 5 min): without a new plan before the day begins, with five times the work for each search, and from a first plan that was made to be ${100 * SURE} % sure (\`plan --sure\`). New plans keep
minutes free for steps as unsure as those of the simulated evenings are: where a file says nothing, a tenth less to a seventh more.

${table(['meal', 'services', 'new plans', 'day not opened', 'with more work', 'plan kept', 'sure, new plans', 'sure, kept'], bounds)}

Stability, on the same services: of the calls still ahead when a new plan is made, those that move by more than 2 minutes or to another cook or place; without gain:
where the new plan's points, with those of the lateness to be expected, are no fewer (by half a point) than those of the plan in force with what is held up moved
along, as many as move more than in that. Each new plan is made twice from the same plan and facts: without points for leaving it, and with them.

${table(['meal', 'new plans', 'calls ahead', 'move, without points', 'without gain', 'move, with points', 'without gain'], stability)}

Processor time of a new plan, ms:

${table(['meal', 'dishes', 'new plans', 'in the middle', '95th percentile', 'most', 'to open the day'], times)}

The audit found faults in new plans of ${faulty} services${kinds.size === 0 ? '.' : ` (${[...kinds].map(([kind, count]) => `${kind}: ${count}`).join('; ')}).`} A plan with a fault is not offered by \`cook\`.
`;
process.stdout.write(body);
if (values.meal === undefined) writePart('Services', body);
