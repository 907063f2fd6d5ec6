/** The constraint engine: one dead end of its search counts as one schedule, since there as here every activity is placed about once. */
import { minimise } from '../../../../src/optimum/minimise.js';
import type { Problem, Schedule, TimeLag } from '../../../../src/optimum/problem.js';
import type { Engine, Outcome } from '../family.js';
import type { ProjectData, ProjectSchedule, ShopData, ShopSchedule } from '../instances.js';

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

/** Operations in one row, and a last activity that ends all jobs. A machine is a renewable of which there is one. */
export function shopProblemOf({ jobs, machines }: ShopData): Problem {
  const uses = (machine: number): number[] => Array.from({ length: machines }, (_, k) => (k === machine ? 1 : 0));
  const operations = jobs.flat();
  const lags: TimeLag[] = [];
  let at = 0;
  for (const { length } of jobs) {
    for (let k = 1; k < length; k++) lags.push({ from: at + k - 1, to: at + k, least: 0, after: 'end' });
    at += length;
    lags.push({ from: at - 1, to: operations.length, least: 0, after: 'end' });
  }
  const activities = operations.map((ways) =>
    ways.map(({ machine, duration }) => ({ minutes: duration, uses: uses(machine), consumes: [] })),
  );
  activities.push([{ minutes: 0, uses: uses(-1), consumes: [] }]);
  return { activities, lags, renewables: uses(-1).map(() => 1), nonrenewables: [] };
}

function shopScheduleOf({ jobs }: ShopData, { starts, modes }: Schedule): ShopSchedule {
  let at = 0;
  return jobs.map((job) =>
    job.map((ways) => {
      const row = { start: starts[at]!, machine: ways[modes[at]!]!.machine };
      at++;
      return row;
    }),
  );
}

function knownShop({ jobs }: ShopData, schedule: ShopSchedule): Schedule {
  const rows = jobs.flatMap((job, j) => job.map((ways, k) => ({ ways, row: schedule[j]![k]! })));
  const modes = rows.map(({ ways, row }) => ways.findIndex(({ machine }) => machine === row.machine));
  const ends = rows.map(({ ways, row }, i) => row.start + ways[modes[i]!]!.duration);
  return { starts: [...rows.map(({ row }) => row.start), Math.max(0, ...ends)], modes: [...modes, 0] };
}

interface Translation<D, S> {
  readonly problemOf: (data: D) => Problem;
  readonly scheduleOf: (data: D, schedule: Schedule) => S;
  readonly knownOf: (data: D, schedule: S) => Schedule;
}

const PROJECTS: Translation<ProjectData, ProjectSchedule> = {
  problemOf,
  scheduleOf: (_, schedule) => schedule,
  knownOf: (_, schedule) => schedule,
};

const SHOPS: Translation<ShopData, ShopSchedule> = {
  problemOf: shopProblemOf,
  scheduleOf: shopScheduleOf,
  knownOf: knownShop,
};

/** A better schedule than the one that is known, or the proof that there is none. */
function goOn<D, S>(how: Translation<D, S>, data: D, known: Outcome<S>, schedules: number): Outcome<S> {
  const { schedule, lower, generated } = known;
  const start = schedule === null ? {} : { known: how.knownOf(data, schedule) };
  if (known.infeasible || start.known?.starts.at(-1) === lower) return known;
  const found = minimise(how.problemOf(data), { failures: schedules, ...start });
  const bound = Math.max(found.lower, lower ?? 0);
  return {
    schedule: found.best === null ? schedule : how.scheduleOf(data, found.best),
    lower: bound === Number.POSITIVE_INFINITY ? null : bound,
    infeasible: bound === Number.POSITIVE_INFINITY,
    generated: generated + found.failures,
  };
}

export const constraints: Engine<ProjectData, ProjectSchedule> = {
  name: 'constraints',
  solve: (data, { schedules }) => {
    return goOn(PROJECTS, data, { schedule: null, lower: null, infeasible: false, generated: 0 }, schedules);
  },
};

/** Two thirds of the schedules for another engine, what is left for better ones and the proof. */
function after<D, S>(first: Engine<D, S>, how: Translation<D, S>): Engine<D, S> {
  return {
    name: `${first.name}, then constraints`,
    solve: (data, { schedules, seed }) => {
      const known = first.solve(data, { schedules: Math.ceil((2 * schedules) / 3), seed });
      return goOn(how, data, known, schedules - known.generated);
    },
  };
}

export const projectsAfter = (first: Engine<ProjectData, ProjectSchedule>): Engine<ProjectData, ProjectSchedule> =>
  after(first, PROJECTS);

export const shopsAfter = (first: Engine<ShopData, ShopSchedule>): Engine<ShopData, ShopSchedule> =>
  after(first, SHOPS);
