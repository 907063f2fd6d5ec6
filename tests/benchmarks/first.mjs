/**
 * How long a program that goes on planning waits for a first plan: reads the meal of the first argument with the built library, plans
 * it over and over until every dish has its place, each time with another seed, and prints milliseconds by the clock as JSON:
 * `cold` of the first time, in which V8 compiles as it goes, and `warm` of the middle of those after `WARMING`.
 */
import { readProblemFile, solve, withHeat } from '../../dist/src/index.js';

const WARMING = 20;
const TIMES = 60;

/** Ends the planning: more than the first plan is not asked for here. */
class Enough extends Error {}

function firstPlan(problem, seed) {
  const begun = performance.now();
  let first = null;
  // The search tells of incomplete schedules too, with more points than any plan can have.
  const onProgress = ({ points }) => {
    if (points >= 1e6) return;
    first = performance.now() - begun;
    throw new Enough();
  };
  try {
    solve(problem, { effort: 'normal', seed, onProgress });
  } catch (error) {
    if (!(error instanceof Enough)) throw error;
  }
  if (first === null) throw new Error('no plan was found');
  return first;
}

const times = Array.from({ length: TIMES }, (_, k) => {
  const read = withHeat(readProblemFile(process.argv[2]));
  if (!read.ok) throw new Error(read.messages.map((message) => message.say).join('\n'));
  return firstPlan(read.problem, 1 + k);
});
const warm = times.slice(WARMING).sort((a, b) => a - b);
process.stdout.write(JSON.stringify({ cold: times[0], warm: warm[Math.floor(warm.length / 2)] }));
