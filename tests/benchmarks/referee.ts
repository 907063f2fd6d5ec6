/**
 * The solver beside the exact referee (a mixed-integer program, solved by highs) on hundreds of small random problems: the same points, never a
 * bound above them, and "proven best" only where they are. Writes a part of RESULTS.md.
 */
import { loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { audit } from '../../src/audit/audit.js';
import { solve } from '../../src/solve/solve.js';
import { PATIENCE, referee } from '../referee/referee.js';
import { smallProblemText } from '../referee/small-problem.js';
import { readMeal } from '../support/read-meal.js';
import { circumstances, table, writePart } from './results.js';

const { values } = parseArgs({ options: { problems: { type: 'string', default: '500' } } });
const count = Number(values.problems);
const load = loadavg()[0]!;

const wrong: string[] = [];
let proven = 0;
let none = 0;
let seconds = 0;
for (let seed = 1; seed <= count; seed++) {
  const problem = readMeal(smallProblemText(seed));
  const verdict = await referee(problem);
  const begun = process.cpuUsage();
  const { plan } = solve(problem, { effort: 'normal', seed: 1 });
  const used = process.cpuUsage(begun);
  seconds += (used.user + used.system) / 1e6;
  const say = (what: string): void => void wrong.push(`problem ${seed}: ${what}`);
  if (plan !== null && audit(problem, plan).violations.length > 0) say('the audit refuses the plan');
  if (verdict) {
    if (plan === null) say('no plan was found');
    else {
      if (plan.points.total !== verdict.points) say(`${plan.points.total} points, of the referee ${verdict.points}`);
      if (plan.points.bound > verdict.points) say(`the bound ${plan.points.bound} is above ${verdict.points}`);
      if (plan.points.bound === plan.points.total) proven++;
    }
  } else {
    none++;
    // The referee looks no further than its patience.
    const late = plan ? Math.max(...plan.dishes.map((dish) => dish.late ?? 0)) : Number.POSITIVE_INFINITY;
    if (late <= PATIENCE) say('a plan where the referee has none');
  }
  if (seed % 50 === 0) process.stderr.write(`${seed} of ${count}, ${wrong.length} wrong\n`);
}

const body = `Written by \`npm run bench:referee\`, which measures anew.

${circumstances(load)}

Random problems of one to three dishes (\`tests/referee/small-problem.ts\`), each solved at normal effort with seed 1 and, exactly and on other ways, by the
referee.

${table(
  ['what', 'problems'],
  [
    ['compared', count],
    ['proven best by the solver', proven],
    ['without a plan in time, or at all', none],
    ['not agreed upon', wrong.length],
  ],
)}

The solver took ${((1000 * seconds) / count).toFixed(0)} ms of processor time a problem.
${wrong.map((line) => `\n- ${line}`).join('')}`;
writePart('Beside the referee', body);
process.stdout.write(`${body}\n`);
process.exitCode = wrong.length > 0 ? 1 : 0;
