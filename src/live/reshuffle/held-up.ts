/** The schedule that comes of the plan in force when its order, places and hands are kept and what is held up moves along. */
import { type ActivityMode, stretchesOf } from '../../kernel/model.js';
import { State } from '../../kernel/state.js';
import type { Compiled } from '../../solve/compile.js';
import { orderRows } from '../../solve/order-rows.js';
import { timingRuns } from '../../solve/timetable.js';
import { written } from '../../solve/timing.js';
import { type NodeMoment, TimingNetwork } from '../../solve/timing-network.js';
import { mealRows } from '../../solve/timing-rows.js';
import type { Doing, PlanAsRead } from './doing.js';
import { handsAsPlanned } from './free-hands.js';
import type { Left } from './left.js';

export interface Span {
  readonly start: number;
  readonly minutes: number;
}

/** At its best times by what leaving the plan costs; null where its order cannot be kept, or something has no place in it. */
export function heldUp(compiled: Compiled, left: Left, plan: PlanAsRead): State | null {
  const found = inOrder(compiled, left, plan, true);
  return found === null ? null : written(found.network, found.order.setting, found.order.hands, found.timeOf);
}

/** The plan's order with the times at which each activity would be if there were hands enough. */
export interface Unhanded {
  readonly order: State;
  readonly spans: readonly Span[];
}

/** Null where its order cannot be kept without hands either. */
export function withoutHands(compiled: Compiled, left: Left, plan: PlanAsRead): Unhanded | null {
  const found = inOrder(compiled, left, plan, false);
  if (found === null) return null;
  const { order, network, timeOf } = found;
  const spans = compiled.model.activities.map(({ id }) => {
    const start = timeOf(network.start(id));
    return { start, minutes: timeOf(network.end(id)) - start };
  });
  return { order, spans };
}

/**
 * Where somebody is wanted at two things at once, so that the order cannot be kept with the plan's hands: from the times without hands, each step in turn as soon as those
 * who were to do it, or others, are free; and then the best times of that order. Null where it has none.
 */
export function heldUpByHands(compiled: Compiled, left: Left, plan: PlanAsRead, known: Unhanded): State | null {
  const { spans } = known;
  const { model } = compiled;
  const { settled } = model.progress!;
  const order = new State(model);
  const open = model.activities.map(({ id }) => id).filter((id) => settled[id] === null);
  for (const id of open.sort((a, b) => spans[a]!.start - spans[b]!.start || a - b)) {
    const { minutes } = spans[id]!;
    const mode = known.order.modeOf(id);
    const latest = Math.min(spans[id]!.start + PATIENCE, model.horizon - minutes);
    for (let start = spans[id]!.start; start <= latest; start++) {
      const hands = handsAsPlanned(order, mode, { start, minutes }, plannedOf(left, plan, id)!);
      const units = freeUnits(order, mode, start, minutes, known.order.units[id]!);
      if (hands === null || units === null) continue;
      const at = { start, minutes, mode: known.order.mode[id]!, setting: known.order.setting[id]! };
      order.place(id, at, hands, units);
      break;
    }
    if (!order.isPlaced(id)) return null;
  }
  const found = timed(compiled, order, order.minutes, true);
  return found === null ? null : written(found.network, order.setting, order.hands, found.timeOf);
}

/** Those that it was to have, or others that are free; null where there are too few. */
function freeUnits(
  state: State,
  { units, unitCount }: ActivityMode,
  start: number,
  minutes: number,
  usual: readonly number[],
): readonly number[] | null {
  if (usual.length >= unitCount) return usual;
  const free = units.filter((unit) => !state.unitBusy[unit]!.subarray(start, start + minutes).includes(1));
  return free.length < unitCount ? null : free.slice(0, unitCount);
}

/** Minutes for which a step waits for free hands. */
const PATIENCE = 60;

interface Timed {
  readonly order: State;
  readonly network: TimingNetwork;
  readonly timeOf: (moment: NodeMoment) => number;
}

function inOrder(compiled: Compiled, left: Left, plan: PlanAsRead, withHands: boolean): Timed | null {
  const known = plannedOrder(compiled, left, plan, withHands);
  return known === null ? null : timed(compiled, known.order, known.lengths, withHands);
}

/**
 * The plan in force with the lengths that its steps have; null where a step has no place in it. With hands also where those who were to do it cannot, or where its burner
 * is no more; without, it has none.
 */
function plannedOrder(
  compiled: Compiled,
  left: Left,
  plan: PlanAsRead,
  withHands: boolean,
): { readonly order: State; readonly lengths: Int32Array } | null {
  const { model } = compiled;
  const { settled, usual } = model.progress!;
  // What has happened stands where it was planned, so that the order is the plan's; the network has it where it was.
  const order = new State(model);
  const lengths = new Int32Array(model.activities.length);
  for (const { id, modes } of model.activities) {
    const as = settled[id]!;
    const planned = plannedOf(left, plan, id);
    if (as !== null) {
      lengths[id] = as.minutes;
      if (planned === null) continue;
      order.start[id] = planned.start;
      order.minutes[id] = planned.end - planned.start;
      continue;
    }
    const way = usual[id]!;
    if (planned === null || way === null || way.mode < 0 || way.setting < 0) return null;
    const mode = modes[way.mode]!;
    const minutes = mode.range === null ? mode.settings[way.setting]!.minutes : planned.end - planned.start;
    const hands = planned.hands.map((hand) => hand.cook);
    const wanted = (stretchesOf(mode.attention, minutes).length / 2) * mode.attention.crew;
    const able = hands.length === wanted && hands.every((cook) => cook >= 0 && (mode.able >> cook) % 2 === 1);
    const there = way.units.length >= mode.unitCount && way.units.every((unit) => mode.units.includes(unit));
    if (withHands && !(able && there)) return null;
    lengths[id] = minutes;
    const at = { start: planned.start, minutes, mode: way.mode, setting: way.setting };
    order.place(id, at, able ? hands : [], there ? way.units : []);
  }
  return { order, lengths };
}

function timed(compiled: Compiled, order: State, lengths: Int32Array, withHands: boolean): Timed | null {
  const { settled } = compiled.model.progress!;
  const begun = (a: number): number => settled[a]?.start ?? Number.POSITIVE_INFINITY;
  const runs = timingRuns(order).map((run) => ({ ...run, from: Math.min(run.from, ...run.members.map(begun)) }));
  const network = new TimingNetwork(compiled, order, runs, lengths, order.hands);
  mealRows(network);
  orderRows(network, withHands);
  const timeOf = network.solve();
  return timeOf === null ? null : { order, network, timeOf };
}

/** The row of the plan that a step of what is left was to follow. */
function plannedOf({ steps }: Left, plan: PlanAsRead, id: number): Doing | null {
  const { origin, fact, usual } = steps[id]!;
  const rows = plan.steps[origin]!;
  return fact !== null && rows.length === 1 ? rows[0]! : usual;
}
