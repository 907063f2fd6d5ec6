/** What each piece does on the day: its core now, when it is to be pulled and at what, from what happened and what was read. Minutes after `start`, °C. */
import { aroundStep, aroundWait } from '../../heat/around.js';
import { AS_SAID, Prepared, type Variation } from '../../heat/heating.js';
import type { Joint } from '../../heat/joint.js';
import { jointOf } from '../../heat/piece-joint.js';
import { type Range, Refit } from '../../heat/refit.js';
import type { Leg } from '../../heat/roast.js';
import type { Setting } from '../../heat/setting.js';
import { legsOf, type Stay, wayThrough } from '../../heat/way.js';
import { minuteAt } from '../../problem/hours.js';
import { HEAT_WORKS, type Option, type Problem } from '../../problem/problem.js';
import { restAfter } from '../../problem/rests.js';
import { type Day, plannedSteps } from '../journal/day.js';

export interface CoreNow {
  readonly dish: number;
  /** The step that it is in, or was in last. */
  readonly step: number;
  readonly now: Range;
  /** How many readings stand behind it. */
  readonly readings: number;
  /** Factor on its heat transfer: below 1 it heats more slowly than was thought. */
  readonly transfer: Range;
  /** How many times as fast as was thought its core gets to where it is to be pulled, size and heat transfer together; null elsewhere. */
  readonly pace: Range | null;
  /** On the heat until a core: where it is to be pulled, when, and its highest in the rest; null elsewhere. */
  readonly pull: { readonly celsius: number; readonly at: Range; readonly peak: number } | null;
  /** When it is cut or lands, where it stays as planned until then. */
  readonly atServe: Range | null;
}

/** K beyond the goal that a refit looks. */
const BEYOND = 4;

/** By dish; those whose piece is not on its way, or of which the heat model knows nothing, are absent. */
export function coresNow(day: Day, now: number): CoreNow[] {
  return day.problem.dishes.flatMap((_, dish) => coreOf(day, dish, now) ?? []);
}

interface Done {
  readonly id: number;
  readonly option: Option;
  readonly stay: Stay;
}

function coreOf(day: Day, dish: number, now: number): CoreNow | null {
  const { problem, readings } = day;
  const { steps, name, piece } = problem.dishes[dish]!;
  const joint = jointOf({ name, piece });
  if ('say' in joint) return null;
  const hot = steps.filter((id) => HEAT_WORKS.has(problem.steps[id]!.work));
  const last = hot.findLast((id) => problem.steps[id]!.core !== null) ?? hot.at(-1);
  if (last === undefined) return null;
  const way = wayThrough(problem.steps, last);
  const done = doneOf(day, way, now);
  const current = done.at(-1);
  const isCooked = done.some(({ id }) => HEAT_WORKS.has(problem.steps[id]!.work));
  if (current === undefined || !isCooked || done.some(({ stay }) => stay.around === null)) return null;
  // What is carved is no piece any more.
  if (done.some(({ id }) => problem.steps[id]!.work === 'carve')) return null;
  const { kitchen } = problem;
  const begin = done[0]!.stay.start;
  const over = current.stay.end <= now;
  const before = legsOf(
    kitchen,
    done.map(({ stay }) => stay),
    over ? current.stay.end : current.stay.start,
  )!;
  const heat = over ? aroundWait(kitchen, current.stay.around!) : current.stay.around!;
  const own = readings.filter(({ step, at }) => problem.steps[step]!.dish === dish && at <= now);
  const read = own.map(({ at, celsius }) => ({ minutes: at - begin, celsius }));
  const goal = over ? null : current.option.core;
  const refit = new Refit({ joint, before, heat, readings: read }, (goal ?? 60) + BEYOND);
  const variation: Variation = { ...AS_SAID, transfer: refit.transfer.likely, thicker: refit.size.likely };
  return {
    dish,
    step: current.id,
    now: refit.coreAt(now - begin),
    readings: own.length,
    transfer: refit.transfer,
    pace: goal === null ? null : refit.paceTo(goal),
    pull: goal === null ? null : pullOf(day, current, joint, before, refit, variation, begin),
    atServe: goal === null ? refit.coreAt(cutAt(day, way, dish) - begin) : null,
  };
}

function pullOf(
  day: Day,
  { id, option, stay }: Done,
  joint: Joint,
  before: readonly Leg[],
  refit: Refit,
  variation: Variation,
  begin: number,
): CoreNow['pull'] {
  const prepared = new Prepared(joint, before, variation);
  const after = afterOf(day, id);
  const goal = option.core!;
  const pulled = option.atPeak
    ? prepared.pulledFor(stay.around!, goal, after)
    : prepared.pulledAt(stay.around!, goal, after);
  const celsius = option.atPeak ? Math.min(pulled?.core ?? goal, goal) : goal;
  const { low, likely, high } = refit.minutesTo(celsius);
  return {
    celsius,
    at: { low: begin + low, likely: begin + likely, high: begin + high },
    peak: Math.max(celsius, pulled?.peak ?? celsius),
  };
}

/** The way to the rest and the rest, as planned after a step. */
function afterOf(day: Day, id: number): Leg[] {
  const { problem } = day;
  const rows = plannedSteps(day);
  const [row, restId] = [rows.get(id), restAfter(problem.steps, id)];
  const rest = restId === null ? undefined : rows.get(restId);
  if (row === undefined || rest === undefined || restId === null) return [];
  const moving = Math.max(0, minuteAt(problem, rest.start) - minuteAt(problem, row.end));
  const next = problem.steps.find(({ after }) => after.some(({ step }) => step === restId));
  const end = (next && rows.get(next.id)?.start) ?? rest.end;
  const { kitchen } = problem;
  const around = aroundStep(kitchen, 'rest', optionOf(problem, restId, rest)!, rest.celsius, true);
  const way: Leg = { around: { kind: 'room', celsius: kitchen.room, covered: false }, minutes: moving };
  if (around === null) return [way];
  return [way, { around, minutes: minuteAt(problem, end) - minuteAt(problem, rest.start) }].filter(
    ({ minutes }) => minutes > 0,
  );
}

/** The steps of a way that have begun, each in what it really had around it. */
function doneOf(day: Day, way: readonly number[], now: number): Done[] {
  const { problem, steps } = day;
  const rows = plannedSteps(day);
  let cooked = false;
  return way.flatMap((id): Done[] => {
    const fact = steps.get(id);
    if (fact === undefined || fact.start > now) return [];
    const row = rows.get(id);
    const { work } = problem.steps[id]!;
    const option = optionOf(problem, id, row ?? null, fact.place);
    if (option === null) return [];
    const around: Setting | null = aroundStep(
      problem.kitchen,
      work,
      option,
      fact.celsius ?? row?.celsius ?? null,
      cooked,
    );
    cooked ||= HEAT_WORKS.has(work);
    return [
      { id, option, stay: { start: fact.start, end: fact.end ?? Number.POSITIVE_INFINITY, around, least: null } },
    ];
  });
}

/** The way of doing a step that was taken: where it really is, else as its row says. */
export function optionOf(
  { steps, kitchen }: Problem,
  id: number,
  row: { readonly appliance: string | null; readonly mode: string | null; readonly pan: string | null } | null,
  place?: string,
): Option | null {
  const { options } = steps[id]!;
  const nameOf = (option: Option): string | null =>
    'appliance' in option.place ? kitchen.appliances[option.place.appliance]!.name : null;
  const modeOf = ({ place: where }: Option): string | null =>
    where.kind === 'heated' ? kitchen.appliances[where.appliance]!.modes[where.mode]!.name : null;
  const panOf = ({ pan }: Option): string | null => (pan === null ? null : kitchen.pans[pan]!.name);
  const wanted = place ?? row?.appliance ?? null;
  const near = options.filter((option) => nameOf(option) === wanted);
  const among = near.length > 0 ? near : options;
  return among.find((option) => modeOf(option) === row?.mode && panOf(option) === row?.pan) ?? among[0] ?? null;
}

/** When a dish is cut or lands, as planned. */
function cutAt(day: Day, way: readonly number[], dish: number): number {
  const { problem, plan } = day;
  const rows = plannedSteps(day);
  const cut = way.find((id) => problem.steps[id]!.work === 'carve');
  const start = cut === undefined ? undefined : rows.get(cut)?.start;
  const serve = plan?.dishes.find((row) => row.dish === problem.dishes[dish]!.name)?.serve;
  return start === undefined && !serve ? day.serve : minuteAt(problem, start ?? serve!);
}

/** By step, when those under way will be done by the thermometer: whole minutes, now at the earliest. */
export function expectedEnds(cores: readonly CoreNow[], now: number): Map<number, number> {
  return new Map(
    cores.flatMap(({ step, pull }) =>
      pull !== null && Number.isFinite(pull.at.likely)
        ? [[step, Math.max(now, Math.ceil(pull.at.likely))] as const]
        : [],
    ),
  );
}
