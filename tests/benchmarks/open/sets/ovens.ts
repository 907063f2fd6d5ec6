/** Oven scheduling: batches of jobs on ovens. */
import type { BatchProblem } from '../../../../src/batch/problem.js';
import { search } from '../../../../src/batch/search.js';
import { checkOvens } from '../check/ovens.js';
import { type Engine, family } from '../family.js';
import { maxGap, meanGap } from '../figures.js';
import type { OvenData, OvenSchedule } from '../instances.js';
import { readOvens } from '../read/ovens.js';

/** A change prices what it touches only: so many of them count as one schedule. */
export const CHANGES_PER_SCHEDULE = 400;

/** As the engine takes it. */
export function problemOf({ horizon, ovens, jobs, setupTimes, setupCosts, weights }: OvenData): BatchProblem {
  const attributes = setupTimes.length;
  return {
    attributes,
    setupTime: setupTimes,
    setupCost: setupCosts,
    machines: ovens.map(({ capacity, initial, intervals }) => ({
      capacity,
      initial,
      intervals: intervals
        .map(({ from, to }) => ({ from, to: Math.min(to, horizon) }))
        .filter(({ from, to }) => from < to)
        .sort((x, y) => x.from - y.from),
    })),
    jobs: jobs.map(({ ovens: machines, ...job }) => ({ ...job, machines })),
    weights,
  };
}

const annealing: Engine<OvenData, OvenSchedule> = {
  name: 'annealing',
  solve: (data, { schedules, seed }) => {
    const found = search(problemOf(data), { effort: schedules * CHANGES_PER_SCHEDULE, seed });
    return {
      schedule: found.batches,
      lower: found.bound,
      infeasible: found.bound === Number.POSITIVE_INFINITY,
      generated: Math.ceil(found.tried / CHANGES_PER_SCHEDULE),
    };
  },
};

export const ovenScheduling = family<OvenData, OvenSchedule>({
  sets: /^osp/,
  read: readOvens,
  check: checkOvens,
  engines: [annealing],
  // The use case, in which only the weights differ.
  part: ({ name }) => /^(.+)-\d+$/.exec(name)?.[1] ?? null,
  aims: () => [
    { what: 'largest gap', of: maxGap, atMost: 5, unit: '%' },
    { what: 'mean gap', of: meanGap, atMost: 5, unit: '%' },
  ],
});
