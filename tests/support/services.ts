/** Whole services in a simulated kitchen, with a new plan whenever the evening goes otherwise than planned, or never. */
import { audit } from '../../src/audit/audit.js';
import { Rng } from '../../src/kernel/rng.js';
import type { Happened } from '../../src/live/happened.js';
import { pacesOf, realMinutes } from '../../src/live/rehearsal/evening.js';
import { readPlan } from '../../src/live/reshuffle/doing.js';
import { type Reshuffled, reshuffle } from '../../src/live/reshuffle/reshuffle.js';
import type { PlanDocument } from '../../src/plan/document.js';
import { minuteAt } from '../../src/problem/hours.js';
import type { Duration, Problem } from '../../src/problem/problem.js';
import { mishapsOf } from './mishaps.js';
import { type Evening, SimulatedKitchen, type Told } from './simulated-kitchen.js';

export interface ServiceOptions {
  readonly seed: number;
  /** False: the first plan is kept whatever happens. */
  readonly anew: boolean;
  readonly mishaps: boolean;
  /** False: the day begins with the first plan as it is. */
  readonly opened?: boolean;
  readonly work?: number;
  readonly onPlan?: (before: PlanDocument, happened: Happened, made: Reshuffled, expected: Map<number, number>) => void;
}

export interface Served {
  /** Minutes after it was asked for at which the last course but for nothing else lands; null where something was never done. */
  readonly late: number | null;
  readonly plans: number;
  /** Processor time of each, ms, but for the one with which the day is opened. */
  readonly times: readonly number[];
  readonly opening: number;
  /** What the audit found, and calls that a plan lacks. */
  readonly faults: readonly string[];
  readonly leftOut: number;
  readonly mishaps: number;
}

/** The day is opened so many minutes before anything begins: what was planned beforehand is given room. */
const OPENS = 60;

/** Minutes beyond the time of the last course after which a service counts as failed. */
const PATIENCE = 180;

export function eveningOf(problem: Problem, plan: PlanDocument, seed: number, mishaps: boolean): Evening {
  const first = Math.min(...plan.steps.map((row) => Math.round(minuteAt(problem, row.start))));
  return {
    paces: pacesOf(problem, seed),
    mishaps: mishaps ? mishapsOf(problem, seed, Math.max(first, problem.serve - 240)) : [],
  };
}

export function serve(problem: Problem, first: PlanDocument, options: ServiceOptions): Served {
  const evening = eveningOf(problem, first, options.seed, options.mishaps);
  const kitchen = new SimulatedKitchen(problem, evening, !options.anew);
  const rng = new Rng(options.seed);
  const times: number[] = [];
  const faults: string[] = [];
  const leftOut = new Set<number>();
  let plan = first;
  let read = readPlan(problem, plan);
  /** By step, what its thermometer has told. */
  const expected = new Map<number, number>();
  /** A new plan is put in force; false where there is none. */
  const planAnew = (now: number, thorough: boolean): { readonly ms: number; readonly there: boolean } => {
    const happened = kitchen.happened(now);
    const before = process.cpuUsage();
    const made = reshuffle(problem, plan, happened, { seed: 1, expected, work: options.work, thorough });
    const { user, system } = process.cpuUsage(before);
    const ms = (user + system) / 1000;
    if (made.plan === null) {
      faults.push(`no plan: ${made.say.join(' ')}`);
      return { ms, there: false };
    }
    faults.push(...faultsOf(problem, made, happened, expected));
    options.onPlan?.(plan, happened, made, new Map(expected));
    for (const dish of made.leftOut) leftOut.add(dish);
    kitchen.drop(made.leftOut);
    plan = made.plan;
    read = readPlan(problem, plan);
    return { ms, there: true };
  };
  const begins = (): number => Math.min(...read.steps.flatMap((rows) => rows.map((row) => row.start)));
  const opening = options.anew && options.opened !== false ? planAnew(Math.max(0, begins() - OPENS), true).ms : 0;
  let now = begins();
  const end = problem.serve + Math.max(0, ...problem.courses.map((course) => course.at)) + PATIENCE;
  for (; now <= end && !kitchen.isOver(); now++) {
    const told = kitchen.minute(read, now);
    if (!options.anew) continue;
    const known = readThermometers(kitchen, read, expected, rng, now);
    for (const each of told) if (each.kind === 'done') expected.delete(each.step);
    if (!(known || told.some(deviates) || overdue(kitchen, read, expected, now))) continue;
    const { ms, there } = planAnew(now, false);
    times.push(ms);
    if (!there) break;
  }
  const late = kitchen.isOver() ? lateness(problem, kitchen.happened(now)) : null;
  return { late, plans: times.length, times, opening, faults, leftOut: leftOut.size, mishaps: evening.mishaps.length };
}

const deviates = (told: Told): boolean => (told.kind !== 'done' && told.kind !== 'started') || told.at !== told.planned;

/** What should be done by now and is not, and has no better expectation. */
function overdue(
  kitchen: SimulatedKitchen,
  { steps }: ReturnType<typeof readPlan>,
  expected: ReadonlyMap<number, number>,
  now: number,
): boolean {
  return [...kitchen.happened(now).steps].some(([id, { end }]) => {
    const planned = expected.get(id) ?? steps[id]!.at(-1)?.end;
    return end === null && kitchen.truth(id) !== null && planned !== undefined && planned <= now;
  });
}

/** At about two thirds of a roast its thermometer tells when it will be done, within a few minutes; true where that is news. */
function readThermometers(
  kitchen: SimulatedKitchen,
  { steps }: ReturnType<typeof readPlan>,
  expected: Map<number, number>,
  rng: Rng,
  now: number,
): boolean {
  let news = false;
  for (const [id, { start, end }] of kitchen.happened(now).steps) {
    const row = steps[id]!.at(-1);
    const truth = kitchen.truth(id);
    if (end !== null || row?.option.forecasts == null || truth === null) continue;
    const known = expected.get(id);
    if (known !== undefined && known <= now) expected.set(id, now + 2);
    if (known !== undefined || now < start + (2 / 3) * (row.end - start)) continue;
    expected.set(id, Math.max(now + 1, truth + rng.below(5) - 2));
    news ||= Math.abs(expected.get(id)! - row.end) >= 2;
  }
  return news;
}

export function faultsOf(
  problem: Problem,
  { plan, leftOut, overrun, stay, twice }: Reshuffled,
  happened: Happened,
  expected: ReadonlyMap<number, number>,
): string[] {
  const dropped = new Set([...happened.dropped, ...leftOut]);
  const { violations } = audit(problem, plan!, { ...happened, dropped, overrun, stay, twice, expected });
  const calls = new Set(plan!.calls.map((call) => `${call.at} ${call.dish}/${call.step}`));
  const silent = plan!.steps.filter(({ start, hands, dish, step }) => {
    const begins = hands.some((hand) => hand.start === start) && minuteAt(problem, start) >= happened.now;
    return begins && !calls.has(`${start} ${dish}/${step}`);
  });
  return [
    ...violations.map(({ say }) => say),
    ...silent.map(({ dish, step }) => `${dish}/${step} begins without a call`),
  ];
}

/** By how much the last course lands after it was asked for. */
function lateness({ dishes, courses }: Problem, { steps, serve: asked, dropped }: Happened): number {
  const late = dishes.flatMap(({ course, steps: own }, dish) => {
    if (course === null || dropped.has(dish)) return [];
    return own.map((id) => steps.get(id)!.end! - asked - courses[course]!.at);
  });
  return Math.max(0, ...late);
}

/**
 * The best lateness that a plan finds which knows the evening from the beginning: how long each step takes, when serving will be, and what will
 * be lost or who will leave, which it does without from the start; null where that leaves out a dish. It may be worse than what could be.
 */
export function withForesight(problem: Problem, plan: PlanDocument, evening: Evening): number | null {
  const known = {
    ...problem,
    steps: problem.steps.map((step) => ({
      ...step,
      options: step.options.map((option) => ({ ...option, duration: told(option, evening.paces[step.id]!) })),
    })),
  };
  const losses = evening.mishaps.flatMap((each) => (each.kind === 'lost' ? [{ ...each.loss, at: 0 }] : []));
  const gone = new Map(
    evening.mishaps.flatMap((each) => (each.kind === 'gone' ? [[each.cook, each.at] as const] : [])),
  );
  const moved = evening.mishaps.findLast((each) => each.kind === 'serve');
  const happened: Happened = {
    now: 0,
    steps: new Map(),
    readings: [],
    serve: moved?.kind === 'serve' ? moved.serve : problem.serve,
    losses,
    gone,
    dropped: new Set(),
  };
  const made = reshuffle(known, plan, happened, { seed: 1, work: 3e6 });
  if (made.plan === null || made.leftOut.length > 0) return null;
  return Math.max(0, ...made.plan.dishes.map((dish) => dish.late ?? 0));
}

type Way = Parameters<typeof realMinutes>[0];

function told(option: Way, pace: number): Duration {
  const { duration } = option;
  if (duration.kind === 'range') return duration;
  if (duration.kind === 'table') {
    const columns = duration.columns.map((column) => ({
      ...column,
      minutes: realMinutes(option, column.celsius, pace)!,
    }));
    return { kind: 'table', columns };
  }
  const minutes = realMinutes(option, null, pace)!;
  return { kind: 'fixed', minutes, low: minutes, high: minutes };
}
