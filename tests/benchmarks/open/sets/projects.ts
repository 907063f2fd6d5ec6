/** Project scheduling: PSPLIB's sets with one mode and with several, and those with maximum time lags. */
import { sequence } from '../../../../src/sequence/population.js';
import type { Project } from '../../../../src/sequence/project.js';
import { checkProject, criticalPath } from '../check/project.js';
import { type Aim, type Engine, family } from '../family.js';
import { gapAim, overPathAim, unproved, unsolved } from '../figures.js';
import type { ProjectData, ProjectSchedule } from '../instances.js';
import { readProGenMax, readPsplib } from '../read/projects.js';
import { constraints, projectsAfter } from './constraints.js';

/** As the engine takes it. */
export function projectOf({ activities, precedences, renewables, nonrenewables }: ProjectData): Project {
  return {
    activities: activities.map((modes) =>
      modes.map(({ duration, uses, consumes }) => ({ minutes: duration, uses, consumes })),
    ),
    lags: precedences.map(({ from, to }) => ({ from, to, low: 0 })),
    renewables,
    nonrenewables,
  };
}

const activityLists: Engine<ProjectData, ProjectSchedule> = {
  name: 'activity lists',
  solve: (data, effort) => {
    const { best, lower, made } = sequence(projectOf(data), effort);
    const schedule = best === null ? null : { starts: [...best.starts], modes: [...best.modes] };
    return { schedule, lower, infeasible: lower === Number.POSITIVE_INFINITY, generated: made };
  },
};

/** What is aimed at with so many schedules; between the rungs the one below counts. */
function rung(schedules: number, few: Aim, many: Aim): Aim[] {
  if (schedules >= 50_000) return [many];
  return schedules >= 5_000 ? [few] : [];
}

export const single = family<ProjectData, ProjectSchedule>({
  sets: /^rcpsp-j\d+$/,
  read: readPsplib,
  check: checkProject,
  criticalPath,
  engines: [activityLists, projectsAfter(activityLists)],
  aims: (set, schedules) => {
    if (set === 'rcpsp-j30') return rung(schedules, gapAim(0.1), gapAim(0.02));
    if (set === 'rcpsp-j60') return rung(schedules, overPathAim(11.2), overPathAim(10.8));
    if (set === 'rcpsp-j120') return rung(schedules, overPathAim(33), overPathAim(31.5));
    return [];
  },
});

export const multiMode = family<ProjectData, ProjectSchedule>({
  sets: /^mmrcpsp-/,
  read: readPsplib,
  check: checkProject,
  criticalPath,
  engines: [activityLists, projectsAfter(activityLists)],
  aims: (set) => (set === 'mmrcpsp-j10' ? [gapAim(0.3)] : []),
});

export const withMaximumLags = family<ProjectData, ProjectSchedule>({
  sets: /^rcpsp-max-/,
  read: readProGenMax,
  check: checkProject,
  engines: [constraints],
  aims: (set) => [
    { what: 'feasible ones not solved', of: unsolved, atMost: 0, unit: '' },
    ...(/-j[12]0$/.test(set)
      ? ([{ what: 'infeasible ones not proved', of: unproved, atMost: 0, unit: '' }] as const)
      : []),
  ],
});
