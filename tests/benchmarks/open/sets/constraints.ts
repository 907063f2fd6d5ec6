/** The constraint engine on projects: one dead end of its search counts as one schedule, since there as here every activity is placed about once. */
import { minimise } from '../../../../src/optimum/minimise.js';
import type { Problem } from '../../../../src/optimum/problem.js';
import type { Engine } from '../family.js';
import type { ProjectData, ProjectSchedule } from '../instances.js';

/** As the engine takes it. */
export function problemOf({ activities, precedences, lags, renewables, nonrenewables }: ProjectData): Problem {
  return {
    activities: activities.map((modes) =>
      modes.map(({ duration, uses, consumes }) => ({ minutes: duration, uses, consumes })),
    ),
    lags: [
      ...precedences.map(({ from, to }) => ({ from, to, least: 0, after: 'end' as const })),
      ...lags.map(({ from, to, lag }) => ({ from, to, least: lag, after: 'start' as const })),
    ],
    renewables,
    nonrenewables,
  };
}

export const constraints: Engine<ProjectData, ProjectSchedule> = {
  name: 'constraints',
  solve: (data, { schedules }) => {
    const { best, lower, failures } = minimise(problemOf(data), { failures: schedules });
    return {
      schedule: best,
      lower: lower === Number.POSITIVE_INFINITY ? null : lower,
      infeasible: lower === Number.POSITIVE_INFINITY,
      generated: failures,
    };
  },
};
