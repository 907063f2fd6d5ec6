/**
 * Our own planner on one problem file (first argument) at normal effort, with the built library in a process of its own: the plan, and
 * milliseconds by the clock of the first time, cold, and of later times.
 */
import { withHeat } from '../../../dist/src/heat/meal.js';
import { audit, readProblemFile, solve } from '../../../dist/src/index.js';

/** Long cases are not measured again. */
const LONG = 5000;
const TIMES = 5;

const read = withHeat(readProblemFile(process.argv[2]));
if (!read.ok) throw new Error(read.messages.map((message) => message.say).join('\n'));
const once = () => {
  const begun = performance.now();
  const { plan } = solve(read.problem, { effort: 'normal', seed: 1 });
  return { plan, ms: performance.now() - begun };
};
const { plan, ms } = once();
const later = ms > LONG ? [ms] : Array.from({ length: TIMES }, () => once().ms);
later.sort((a, b) => a - b);

process.stdout.write(
  JSON.stringify({
    dishes: read.problem.dishes.length,
    steps: read.problem.steps.length,
    points: plan?.points.total ?? null,
    bound: plan?.points.bound ?? null,
    violations: plan === null ? 0 : audit(read.problem, plan).violations.length,
    first: ms,
    warm: later[Math.floor((later.length - 1) / 2)],
  }),
);
