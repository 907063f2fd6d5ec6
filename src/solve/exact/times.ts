/** When each activity runs, in which mode and setting: the variables that all other parts of the program share. */

import { choiceOf, type Literal, of, type Program, Sum, type Way } from '../../constraint/program.js';
import type { ActivityMode, Model } from '../../kernel/model.js';

const EPSILON = 1e-6;

export interface Limits {
  /** Most minutes by which a course may land late. */
  readonly late: number;
  /** Most runs of one machine. */
  readonly runs: number;
  /** Minutes of a machine with nothing in it, exactly or at least: far fewer rows, and seldom not the same. */
  readonly idle: 'exact' | 'least';
  /** Times that follow one another are paid for together (`chains.ts`): more rows, of which more follows. */
  readonly sums: boolean;
}

/** Limits that exclude only schedules of more than so many points. */
export function limitsFor(
  { machines, groups, horizon, rates, activities, jobs }: Model,
  points: number,
  others: Pick<Limits, 'idle' | 'sums'>,
): Limits {
  const latest = Math.max(0, ...groups.map((group) => horizon - group.due));
  const users = activities.length + jobs.length;
  const runCost = Math.min(...machines.map((machine) => machine.runCost));
  return {
    ...others,
    late: Math.min(latest, rates.late > 0 ? Math.floor(points / rates.late + EPSILON) : latest),
    runs: Math.min(
      users,
      runCost > 0 && runCost < Number.POSITIVE_INFINITY ? Math.floor(points / runCost + EPSILON) + 1 : users,
    ),
  };
}

/** One activity, or the storage of one job, as something that runs for a time in one of several modes. */
export interface Doing {
  readonly modes: readonly ActivityMode[];
  readonly start: Sum;
  readonly minutes: Sum;
  readonly end: Sum;
  /** By mode: true where it is done so. */
  readonly inMode: readonly Literal[];
  /** By mode: which setting. */
  readonly setting: readonly Sum[];
  /** True where it happens at all. */
  readonly happens: Literal;
  /** Minutes beyond those that cost nothing, which are paid for elsewhere. */
  readonly over: Over | null;
}

/** Longer than `after`, by at most so many minutes. */
export interface Over {
  readonly minutes: Sum;
  readonly most: number;
  readonly rate: number;
  readonly after: number;
}

export interface Times {
  readonly program: Program;
  readonly model: Model;
  readonly limits: Limits;
  readonly latest: number;
  /** By activity. */
  readonly doing: readonly Doing[];
  /** By group. */
  readonly landing: readonly number[];
}

export function addTimes(program: Program, model: Model, limits: Limits): Times {
  const latestOf = (group: number): number => Math.min(model.horizon, model.groups[group]!.due + limits.late);
  const latest = Math.max(model.serve, ...model.groups.map((_, g) => latestOf(g)));
  const doing = model.activities.map((activity) => {
    const { group } = model.jobs[activity.job]!;
    return addDoing(program, activity.modes, group < 0 ? latest : latestOf(group), program.yes);
  });
  const landing = model.groups.map((group, g) =>
    program.int(group.due, Math.max(group.due, latestOf(g)), `lands ${g}`),
  );
  for (const lag of model.lags) {
    const gap = doing[lag.to]!.start.copy().plus(doing[lag.from]!.end, -1);
    program.row(lag.low, gap, lag.high);
  }
  model.groups.forEach((group, g) => {
    program.pay(of(landing[g]!).plus(-group.due), model.rates.late);
    for (const job of group.jobs) {
      for (const a of model.jobs[job]!.activities) program.atLeast(of(landing[g]!).plus(doing[a]!.end, -1), 0);
    }
  });
  return { program, model, limits, latest, doing, landing };
}

/** Shortest and longest time that a mode takes. */
function spread(mode: ActivityMode): [number, number] {
  if (mode.range !== null) return [mode.range.low, mode.range.high];
  const minutes = mode.settings.map((s) => s.minutes);
  return [Math.min(...minutes), Math.max(...minutes)];
}

function addDoing(program: Program, modes: readonly ActivityMode[], latest: number, happens: Literal): Doing {
  const inMode = choiceOf(program, modes.length, happens);
  const setting = addSettings(program, modes, inMode, happens);
  const spreads = modes.map(spread);
  const low = Math.min(...spreads.map(([least]) => least));
  const high = Math.max(...spreads.map(([, most]) => most));
  const start = of(program.int(0, latest - low));
  if (low === high) {
    modes.forEach((mode, m) => void addRest(program, mode, inMode[m]!, new Sum(low)));
    return { modes, start, minutes: new Sum(low), end: start.copy().plus(low), inMode, setting, happens, over: null };
  }
  const minutes = of(program.int(low, high));
  const end = of(program.int(low, latest));
  program.row(0, start.copy().plus(minutes).plus(end, -1), 0);
  const range = modes.length === 1 ? modes[0]!.range : null;
  if (range !== null && range.rate > 0 && range.high > range.bestHigh) {
    if (range.bestLow > range.low) {
      program.pay(of(program.above([new Sum(range.bestLow).plus(minutes, -1)], range.bestLow - range.low)), range.rate);
    }
    const most = range.high - range.bestHigh;
    const late = of(program.above([minutes.copy().plus(-range.bestHigh)], most));
    const over = { minutes: late, most, rate: range.rate, after: range.bestHigh };
    return { modes, start, minutes, end, inMode, setting, happens, over };
  }
  const ways = modes.map(({ settings }, m): Way => {
    return { at: setting[m]!, when: inMode[m]!, values: settings.map((s) => s.minutes) };
  });
  if (modes.every((mode) => mode.range === null)) {
    program.lookUp(minutes, ways);
    return { modes, start, minutes, end, inMode, setting, happens, over: null };
  }
  modes.forEach((mode, m) => {
    if (mode.range === null) {
      program.lookUp(minutes, [ways[m]!], [inMode[m]!]);
      return;
    }
    program.row(mode.range.low, minutes, mode.range.high, [inMode[m]!]);
    addRest(program, mode, inMode[m]!, minutes);
  });
  return { modes, start, minutes, end, inMode, setting, happens, over: null };
}

/** By mode: which of its settings. */
export function addSettings(
  program: Program,
  modes: readonly ActivityMode[],
  inMode: readonly Literal[],
  happens: Literal,
): Sum[] {
  const ways = modes.map(({ settings }, m): Way => {
    const when = inMode[m]!;
    return { at: program.index(settings.length, when), when, values: settings.map((setting) => setting.cost) };
  });
  program.payFor(ways, happens);
  return ways.map(({ at }) => at);
}

/** Points for a free time outside its best. */
function addRest(program: Program, mode: ActivityMode, inMode: Literal, minutes: Sum): void {
  const { range } = mode;
  if (range === null || range.rate === 0) return;
  const below = new Sum(range.bestLow).plus(minutes, -1);
  const above = minutes.copy().plus(-range.bestHigh);
  const most = Math.max(0, range.bestLow - range.low, range.high - range.bestHigh);
  if (most > 0) program.pay(of(program.above([below, above], most, [inMode])), range.rate);
}
