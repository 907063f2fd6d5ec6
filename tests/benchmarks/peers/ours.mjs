/**
 * Our own planner on one problem file (first argument) at normal effort, with the built library in a process of its own: the plan, and
 * milliseconds by the clock of the first time, cold, and of later times; and of later times also until the plan's points were found, or until
 * it was known that there is no plan, before the reasons and the ways out, with all better and better points on the way. Other seeds are run once each.
 */
import { withHeat } from '../../../dist/src/heat/meal.js';
import { audit, readProblemFile, solve } from '../../../dist/src/index.js';

/** Long cases are not measured again. */
const LONG = 5000;
const TIMES = 5;
const OTHER_SEEDS = [2, 3, 4, 5];

const read = withHeat(readProblemFile(process.argv[2]));
if (!read.ok) throw new Error(read.messages.map((message) => message.say).join('\n'));
/** Points in a document are rounded to 0.01. */
const SLACK = 0.0051;
const toNothing = (seed) => {
  const begun = performance.now();
  solve(read.problem, { effort: 'normal', seed, explain: false });
  return performance.now() - begun;
};
const once = (seed = 1) => {
  const begun = performance.now();
  const heard = [];
  const onProgress = ({ points }) => heard.push({ points, ms: performance.now() - begun });
  const { plan } = solve(read.problem, { effort: 'normal', seed, onProgress });
  const ms = performance.now() - begun;
  const found =
    plan === null ? toNothing(seed) : (heard.find(({ points }) => points <= plan.points.total + SLACK)?.ms ?? ms);
  return { plan, ms, found, way: wayOf(heard) };
};
/** Each time fewer points than ever before. */
const wayOf = (heard) => {
  let least = Number.POSITIVE_INFINITY;
  return heard.filter(({ points }) => {
    const better = points < least;
    least = Math.min(least, points);
    return better;
  });
};
/** The middle of several by what `measure` says of each. */
const middle = (several, measure) =>
  [...several].sort((a, b) => measure(a) - measure(b))[Math.floor((several.length - 1) / 2)];
const cold = once();
const { plan, ms } = cold;
const later = ms > LONG ? [cold] : Array.from({ length: TIMES }, () => once());
const others = OTHER_SEEDS.map((seed) => once(seed));
const judged = (plan) => ({
  points: plan?.points.total ?? null,
  bound: plan?.points.bound ?? null,
  violations: plan === null ? 0 : audit(read.problem, plan).violations.length,
});

process.stdout.write(
  JSON.stringify({
    dishes: read.problem.dishes.length,
    steps: read.problem.steps.length,
    ...judged(plan),
    first: ms,
    warm: middle(later, (one) => one.ms).ms,
    found: middle(later, (one) => one.found).found,
    way: middle(later, (one) => one.found).way,
    others: others.map((one) => ({ ...judged(one.plan), found: one.found, way: one.way })),
  }),
);
