/**
 * Whole services in a simulated kitchen, with new plans and without: `npm run bench:services -- [--services N] [--meal NAME]`. Steps take random
 * minutes; burners are lost, serving is moved, cooks leave. Writes its part of RESULTS.md when all meals are served.
 */
import { loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { solve } from '../../src/solve/solve.js';
import { readMealFile } from '../support/read-meal.js';
import { eveningOf, serve, withForesight } from '../support/services.js';
import { circumstances, table, writePart } from './results.js';

const { values } = parseArgs({
  options: { services: { type: 'string', default: '200' }, meal: { type: 'string' } },
});
const MEALS = ['one-grill-pork', 'one-grill-indoors', 'weeknight-three-burners', 'holiday-one-oven', 'clocks-change'];
const meals = values.meal === undefined ? MEALS : [values.meal];
const each = Math.ceil(Number(values.services) / meals.length);
const load = loadavg()[0]!;

const at = (list: readonly number[], share: number): number =>
  list.toSorted((a, b) => a - b)[Math.floor((list.length - 1) * share)] ?? Number.NaN;
/** A service that never ends is later than any other. */
const lateness = (late: number | null): number => late ?? Number.POSITIVE_INFINITY;
const minutes = (late: number): string => (late === Number.POSITIVE_INFINITY ? 'never' : `${late}`);

const KINDS = [
  [/ is on .* and .* at /, 'a cook on two things at once'],
  [/ are on /, 'a place taken twice'],
  [/ points? /, 'points that are not so'],
] as const;

const rows: (string | number)[][] = [];
const times: number[] = [];
const kinds = new Map<string, number>();
let [plans, faulty] = [0, 0];
for (const name of meals) {
  const problem = readMealFile(`problems/${name}.yaml`);
  const first = solve(problem, { effort: 'normal', seed: 1 }).plan!;
  const [anew, kept, known]: number[][] = [[], [], []];
  let [services, own, leftOut] = [0, 0, 0];
  for (let seed = 1; seed <= each; seed++) {
    const served = serve(problem, first, { seed, anew: true, mishaps: true });
    const stuck = serve(problem, first, { seed, anew: false, mishaps: true });
    anew!.push(lateness(served.late));
    kept!.push(lateness(stuck.late));
    known!.push(lateness(withForesight(problem, first, eveningOf(problem, first, seed, true))));
    services += 1;
    own += served.faults.length > 0 ? 1 : 0;
    leftOut += served.leftOut;
    plans += served.plans;
    times.push(...served.times);
    for (const fault of served.faults) {
      const kind = KINDS.find(([shape]) => shape.test(fault))?.[1] ?? fault;
      kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
    }
  }
  faulty += own;
  const within = (list: readonly number[]): string =>
    `${((100 * list.filter((late) => late <= 5).length) / services).toFixed(0)} %`;
  rows.push(
    [name, services, minutes(at(anew!, 0.5)), minutes(at(kept!, 0.5)), minutes(at(known!, 0.5))].concat([
      within(anew!),
      within(kept!),
      `${leftOut}`,
      own,
    ]),
  );
  process.stderr.write(`${rows.at(-1)!.join(' | ')}\n`);
}
const body = `${circumstances(load)}

${rows.length * each} services: steps take random minutes, burners are lost, serving is moved, cooks leave. Minutes after serving time at which the last
course lands, in the middle service: with a new plan whenever something goes otherwise, with the first plan kept whatever happens (whose kitchen does not
ask whether a cook or a board is free), and by a plan that knows the evening beforehand. A dish that is left out is not late.

${table(
  [
    'meal',
    'services',
    'new plans',
    'plan kept',
    'foreseen',
    'within 5 min, new',
    'kept',
    'dishes left out',
    'with a fault',
  ],
  rows,
)}

${plans} new plans, ${at(times, 0.5).toFixed(0)} ms of processor time in the middle, ${at(times, 0.95).toFixed(0)} ms at the 95th percentile. The audit found faults in new plans of
${faulty} services${kinds.size === 0 ? '.' : ` (${[...kinds].map(([kind, count]) => `${kind}: ${count}`).join('; ')}).`} A plan with a fault is not offered by \`cook\`.
`;
process.stdout.write(body);
if (values.meal === undefined) writePart('Services', body);
