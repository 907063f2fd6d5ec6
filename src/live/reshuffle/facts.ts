/** What is settled of each step: how it was done, or how it goes on. */
import { minutesBeyond } from '../../chance/draws.js';
import type { Option, Problem, Step } from '../../problem/problem.js';
import type { Begun, Happened } from '../happened.js';
import { spreadOf } from '../spread.js';
import { type Doing, minutesOf, type PlanAsRead } from './doing.js';
import { elsewhere } from './elsewhere.js';

export interface Fact {
  /** Step of the problem. */
  readonly step: number;
  readonly doing: Doing;
  readonly ended: boolean;
  /** Its length is the planner's choice still. */
  readonly free: boolean;
  /** Cooks who were said to be on it. */
  readonly said: readonly number[];
}

export interface Expected {
  /** By step under way: the minute at which it is expected to end, where a reading or a cook says so. */
  readonly expected?: ReadonlyMap<number, number>;
}

/** By step: its facts in order of time; empty where it has not begun. The last of several is where it has moved to. */
export function factsOf(problem: Problem, plan: PlanAsRead, happened: Happened, { expected }: Expected): Fact[][] {
  const begun = withImplied(problem, plan, happened);
  return problem.steps.map((step): Fact[] => {
    const as = begun.get(step.id);
    if (as === undefined) return [];
    const rows = plan.steps[step.id]!;
    const moved = rows.length > 1 && rows.at(-1)!.start > as.start ? rows.slice(0, -1) : [];
    const earlier = moved.map((doing): Fact => ({ step: step.id, doing, ended: true, free: false, said: [] }));
    const since = moved.at(-1)?.end ?? as.start;
    const last = rows.at(-1) ?? null;
    // What has moved is under way in its new place from when it was to be, or from when it is said to be done.
    if (moved.length > 0 && as.end === null && last!.start > happened.now) return earlier;
    const start = moved.length > 0 ? Math.max(since, Math.min(last!.start, as.end ?? last!.start)) : as.start;
    const fact = factOf(problem, step, { ...as, start }, last, happened, expected?.get(step.id) ?? null);
    return [...earlier, fact];
  });
}

function factOf(
  problem: Problem,
  step: Step,
  as: Begun,
  planned: Doing | null,
  { now }: Happened,
  expected: number | null,
): Fact {
  const base = planned?.option ?? step.options[0]!;
  const there = as.place === undefined ? null : elsewhere(problem, step, base, as.place);
  const option = there ?? base;
  const samePlace = planned !== null && isSamePlace(option, planned.option);
  const celsius = option.place.kind === 'heated' ? (as.celsius ?? celsiusOf(option, planned)) : null;
  const asPlanned = samePlace && celsius === planned.celsius;
  const minutes = asPlanned ? planned.end - planned.start : minutesOf(option, celsius);
  const free = as.end === null && expected === null && option.duration.kind === 'range' && !hasHands(option);
  const end = as.end ?? Math.max(as.start, expected ?? as.start + minutes, free ? now : 0);
  const doing: Doing = {
    start: as.start,
    end: as.end === null && end <= now && !free ? as.start + longer(option, celsius, now - as.start) : end,
    option,
    celsius,
    burners: samePlace ? planned.burners : [],
    spots: samePlace ? planned.spots : [],
    board: option.place.kind === 'board' ? (planned?.board ?? -1) : -1,
    hands: planned?.hands ?? [],
  };
  const said = (as.cooks ?? []).map((name) => problem.cooks.findIndex((cook) => cook.name === name));
  return { step: step.id, doing, ended: as.end !== null, free, said: said.filter((cook) => cook >= 0) };
}

/** Whether a way of doing a step needs anybody. */
export const hasHands = ({ hands }: Option): boolean =>
  hands.all || hands.start > 0 || hands.end > 0 || hands.every > 0;

function isSamePlace(one: Option, two: Option): boolean {
  const [a, b] = [one.place, two.place];
  if (a.kind === 'heated' && b.kind === 'heated') return a.appliance === b.appliance && a.mode === b.mode;
  if (a.kind === 'burner' && b.kind === 'burner')
    return a.appliance === b.appliance && a.burners.length === b.burners.length;
  return a.kind === b.kind;
}

const celsiusOf = (option: Option, planned: Doing | null): number | null => {
  const { settings } = option;
  if (planned?.celsius !== null && planned !== null && settings.includes(planned.celsius)) return planned.celsius;
  return settings[Math.floor(settings.length / 2)] ?? null;
};

/** Minutes that are to be expected of what should be done by now. */
function longer(option: Option, celsius: number | null, been: number): number {
  if (option.duration.kind === 'range') return been + 1;
  return Math.max(been + 1, Math.round(minutesBeyond(spreadOf(option, celsius), been, 0)));
}

/** What was not said to have begun, though something that comes after it has, was done before: as planned, as far as there was time. */
function withImplied(problem: Problem, plan: PlanAsRead, happened: Happened): Map<number, Begun> {
  const begun = new Map(happened.steps);
  const done = (id: number, by: number): void => {
    const known = begun.get(id);
    if (known !== undefined) {
      if (known.end === null && by <= happened.now) begun.set(id, { ...known, end: Math.max(known.start, by) });
      return;
    }
    const planned = plan.steps[id]!.at(-1);
    const minutes = planned ? planned.end - planned.start : 0;
    const end = Math.max(0, Math.min(by, planned?.end ?? by));
    const start = Math.max(0, Math.min(planned?.start ?? end, end - Math.min(minutes, end)));
    begun.set(id, { start, end });
    before(id, start);
  };
  const before = (id: number, by: number): void => {
    for (const link of problem.steps[id]!.after) done(link.step, by);
  };
  for (const [id, { start }] of happened.steps) before(id, start);
  return begun;
}
