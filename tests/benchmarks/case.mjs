/**
 * One case of the benchmarks in a process of its own, so that its memory is its own: reads the problem file of the first argument
 * with the built library, plans it at the effort of the second and prints what that took as JSON.
 */
import { audit, chancesOf, readProblemFile, solve, withHeat } from '../../dist/src/index.js';

const [file, effort] = process.argv.slice(2);

/** Milliseconds of processor time of this process so far. */
const cpu = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

const loaded = cpu();
const read = withHeat(readProblemFile(file));
if (!read.ok) throw new Error(read.messages.map((message) => message.say).join('\n'));
const begun = cpu();
let first = null;
const { plan, schedule, reasons } = solve(read.problem, {
  effort,
  seed: 1,
  // The search tells of incomplete schedules too, with more points than any plan can have.
  onProgress: ({ points }) => {
    if (first === null && points < 1e6) first = cpu() - begun;
  },
});
const planned = cpu() - begun;
const drawing = cpu();
const chances = schedule === null ? null : chancesOf(schedule, { draws: 10_000, seed: 1 });
const drawn = chances === null ? null : cpu() - drawing;
const checking = cpu();
const violations = plan === null || plan.status === 'none' ? 0 : audit(read.problem, plan).violations.length;

process.stdout.write(
  JSON.stringify({
    dishes: read.problem.dishes.length,
    steps: read.problem.steps.length,
    load: loaded,
    read: begun - loaded,
    first,
    planned,
    chances: drawn,
    within5: chances?.within5 ?? null,
    audit: cpu() - checking,
    violations,
    status: plan?.status ?? 'none',
    points: plan?.points.total ?? null,
    bound: plan?.points.bound ?? null,
    rounds: plan?.effort.rounds ?? null,
    why: plan === null ? (reasons[0]?.say ?? null) : null,
    // Node gives KiB on every system.
    memory: (process.resourceUsage().maxRSS * 1024) / 1e6,
  }),
);
