/** The scheduling model of what is left: what has begun is settled, the rest begins no sooner than now, and leaving the plan costs. */
import type { Activity, Lag, Model } from '../../kernel/model.js';
import type { Progress, Settled, Usual, Wish } from '../../kernel/progress.js';
import { goesBeside, type Stood } from '../../kitchen/beside.js';
import { shelvesOf } from '../../kitchen/surface-of.js';
import type { Option, Problem } from '../../problem/problem.js';
import { type Compiled, compile } from '../../solve/compile.js';
import { earliestStarts } from '../../solve/paths.js';
import type { Happened } from '../happened.js';
import type { Doing, PlanAsRead } from './doing.js';
import { type Crew, crewsOf } from './hands.js';
import { heatNow, readyBy } from './heat-now.js';
import type { Left } from './left.js';

/** Points for leaving the plan in force. */
export interface Stability {
  /** A minute by which a step moves. */
  readonly moved: number;
  /** Another cook; another place or mode; another temperature; another burner. */
  readonly cook: number;
  readonly place: number;
  readonly heat: number;
  readonly burner: number;
}

export const STEADY: Stability = { moved: 0.1, cook: 2, place: 3, heat: 1, burner: 1 };
export const RESTLESS: Stability = { moved: 0, cook: 0, place: 0, heat: 0, burner: 0 };

/** Points a minute beyond a gap that cannot be kept any more. */
const OVERDUE = 20;
/** Points a minute for what lies half done, out of its lost place. */
const LYING = 4;
/** Minutes after now, at least, in which all must find its place. */
const ROOM = 240;
/** A free length that has begun may be longer than it should by so much where nothing else goes. */
const STRETCHED = 120;

/** `soft`: gaps after what has begun, and lengths of what goes on, may be overrun where nothing else goes. */
export function compileLeft(
  left: Left,
  plan: PlanAsRead,
  happened: Happened,
  stability: Stability,
  soft: boolean,
): Compiled {
  const { problem, steps } = left;
  const { now } = happened;
  const ends = steps.map(({ fact }) => fact?.doing.end ?? 0);
  const compiled = compile(problem, Math.max(now, problem.serve, ...ends) + ROOM);
  const { model, kit } = compiled;
  const crews = crewsOf(left, happened, model.horizon);
  const settled = steps.map(({ fact }, id): Settled | null => {
    if (fact === null || fact.free) return null;
    const crew: Crew = crews[id]!;
    const minutes = fact.doing.end + crew.wait - fact.doing.start;
    const { able } = model.activities[id]!.modes[0]!;
    return { start: fact.doing.start, minutes, hands: crew.hands, units: unitsOf(compiled, fact.doing), able };
  });
  const activities = model.activities.map((activity): Activity => {
    const as = settled[activity.id]!;
    const mode = activity.modes[0]!;
    if (as === null) {
      const { fact } = steps[activity.id]!;
      if (fact === null || !soft || mode.range === null) return activity;
      const range = { ...mode.range, high: mode.range.high + STRETCHED };
      return { ...activity, modes: [{ ...mode, range }], longest: range.high };
    }
    const { minutes } = as;
    const settings = [{ ...mode.settings[0]!, minutes }];
    const range = mode.range === null ? null : { ...mode.range, low: minutes, high: minutes };
    return { ...activity, modes: [{ ...mode, settings, range, able: 0 }], shortest: minutes, longest: minutes };
  });
  const n = steps.length;
  const earliest = Int32Array.from(steps, ({ fact }) => fact?.doing.start ?? now);
  const latest = Int32Array.from(steps, ({ fact }) => fact?.doing.start ?? model.horizon);
  const wishes: Wish[][] = steps.map(({ fact, usual, isRest }): Wish[] => {
    if (fact !== null) return [];
    const lying = isRest ? [{ at: now, before: 0, after: LYING }] : [];
    if (usual === null || stability.moved === 0) return lying;
    return [...lying, { at: usual.start, before: stability.moved, after: stability.moved }];
  });
  const held = heldSpots(compiled, left);
  const ready = kit.applianceOf.map((a, m) => {
    const lost = happened.losses.some(({ what }) => what.kind === 'appliance' && what.appliance === a);
    return readyBy(
      problem,
      a,
      model.machines[m]!,
      heatNow(problem, a, plan.runs[a]!, now),
      now,
      lost ? model.horizon + 1 : 0,
    );
  });
  const progress: Progress = {
    now,
    settled,
    earliest,
    latest,
    usual: steps.map(({ usual, isRest }, id) => (usual === null ? null : usualOf(compiled, id, usual, isRest))),
    wishes,
    rates: { hands: stability.cook, mode: stability.place, setting: stability.heat, units: stability.burner },
    ready,
    spots: held,
    storeSpots: new Int32Array(model.jobs.length).fill(-1),
    stored: new Uint8Array(model.jobs.length),
  };
  const workers = model.workers.map((worker, w) => {
    const end = happened.gone.get(w);
    if (end === undefined) return worker;
    const stays = worker.stays.filter((s) => s.from < end).map((s) => ({ from: s.from, to: Math.min(s.to, end) }));
    return { stays };
  });
  const begun: Model = { ...model, activities, workers, progress };
  const { lags, overdue } = lagsLeft(begun, soft);
  for (const [id, wish] of overdue) wishes[id]!.push(wish);
  const tied = activities.map((activity) => ({
    ...activity,
    ins: lags.filter((lag) => lag.to === activity.id),
    outs: lags.filter((lag) => lag.from === activity.id),
  }));
  if (tied.length !== n) throw new Error('steps were lost');
  return { ...compiled, model: { ...begun, activities: tied, lags } };
}

/** Gaps after what is settled that cannot be kept any more hold no longer, but each minute beyond them is dear. */
function lagsLeft(model: Model, soft: boolean): { lags: Lag[]; overdue: [number, Wish][] } {
  const { settled } = model.progress!;
  const opened = model.lags.map((lag) => (settled[lag.from] ? { ...lag, high: Number.POSITIVE_INFINITY } : lag));
  const est = earliestStarts({ ...model, lags: opened });
  const overdue: [number, Wish][] = [];
  const lags = model.lags.map((lag, k): Lag => {
    const as = settled[lag.from]!;
    if (as === null || settled[lag.to]! !== null || lag.high === Number.POSITIVE_INFINITY) return lag;
    const most = as.start + as.minutes + lag.high;
    const soonest = est?.[lag.to] ?? 0;
    if (!soft && most >= soonest) return lag;
    overdue.push([lag.to, { at: Math.max(most, soonest), before: 0, after: OVERDUE }]);
    return opened[k]!;
  });
  return { lags, overdue };
}

/**
 * Where what has begun stands in appliances with runs, kept by the kit; -1 where it stands nowhere, or nobody knows: what was put in sooner than
 * planned, or is in for longer, cannot stand where the plan has something else.
 */
function heldSpots({ problem, kit }: Compiled, { steps }: Left): Int32Array {
  const out = new Int32Array(steps.length).fill(-1);
  const stood = new Map<number, Stood[]>();
  const begun = steps.map((_, id) => id).filter((id) => steps[id]!.fact !== null);
  begun.sort((a, b) => steps[a]!.fact!.doing.start - steps[b]!.fact!.doing.start || a - b);
  for (const id of begun) {
    const { spots, start, end } = steps[id]!.fact!.doing;
    const { place, pans, load } = problem.steps[id]!.options[0]!;
    if (place.kind !== 'heated' || load === null || spots.length !== pans) continue;
    const appliance = problem.kitchen.appliances[place.appliance]!;
    const shelves = shelvesOf(appliance, appliance.modes[place.mode]!);
    const others = stood.get(place.appliance) ?? [];
    const own = spots.map((fixed): Stood => ({ ...load, start, end, fixed }));
    if (!own.every((one) => goesBeside(shelves, one, others))) continue;
    out[id] = kit.keep(spots);
    stood.set(place.appliance, [...others, ...own]);
  }
  return out;
}

/** The burners that something has, by their names, else any that carry it. */
function unitsOf({ problem, kit }: Compiled, { option, burners }: Pick<Doing, 'option' | 'burners'>): number[] {
  const { place, pans } = option;
  if (place.kind !== 'burner') return [];
  const { surface } = problem.kitchen.appliances[place.appliance]!;
  if (surface.kind !== 'burners') return [];
  const named = burners.map((name) => surface.burners.findIndex((b) => b.name === name)).filter((b) => b >= 0);
  return [...new Set([...named, ...place.burners])].slice(0, pans).map((b) => kit.unitOf(place.appliance, b));
}

function usualOf(compiled: Compiled, id: number, usual: Doing, isRest: boolean): Usual {
  const { problem, kit } = compiled;
  const { options } = problem.steps[id]!;
  const mode = options.findIndex((option) => isSameWay(option, usual.option, isRest));
  const setting = mode < 0 || usual.celsius === null ? 0 : options[mode]!.settings.indexOf(usual.celsius);
  let hands = 0;
  for (const { cook } of usual.hands) if (cook >= 0 && cook < 31) hands |= 1 << cook;
  const spot = usual.spots.length > 0 ? kit.keep(usual.spots) : -1;
  return { mode, setting, hands, units: unitsOf(compiled, usual), spot, bench: usual.board };
}

/** Whether two ways are the same but for what has become of their minutes and burners. */
function isSameWay(one: Option, two: Option, isRest: boolean): boolean {
  if (one.entry !== two.entry || one.pan !== two.pan || one.place.kind !== two.place.kind) return false;
  if (one.place.kind === 'heated' && two.place.kind === 'heated') {
    return one.place.appliance === two.place.appliance && one.place.mode === two.place.mode;
  }
  if (one.place.kind === 'burner' && two.place.kind === 'burner') return one.place.appliance === two.place.appliance;
  return isRest || one.place.kind === two.place.kind;
}

/** Steps of what is left whose start overruns a gap after something that has happened. */
export function overrunOf(
  problem: Problem,
  { model }: Compiled,
  startOf: (id: number) => number,
  endOf: (id: number) => number,
): number[] {
  const late = new Set<number>();
  for (const step of problem.steps) {
    if (model.progress!.settled[step.id]! !== null) continue;
    for (const { step: from, gap } of step.after) if (startOf(step.id) - endOf(from) > gap.high) late.add(step.id);
  }
  return [...late];
}
