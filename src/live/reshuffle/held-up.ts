/** The schedule that comes of the plan in force when its order, places and hands are kept and what is held up moves along. */
import { stretchesOf } from '../../kernel/model.js';
import { State } from '../../kernel/state.js';
import type { Compiled } from '../../solve/compile.js';
import { orderRows } from '../../solve/order-rows.js';
import { timingRuns } from '../../solve/timetable.js';
import { written } from '../../solve/timing.js';
import { type NodeMoment, TimingNetwork } from '../../solve/timing-network.js';
import { mealRows } from '../../solve/timing-rows.js';
import type { Doing, PlanAsRead } from './doing.js';
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

/** By activity, the times at which it would be if there were hands enough; null as before. */
export function spansHeldUp(compiled: Compiled, left: Left, plan: PlanAsRead): Span[] | null {
  const found = inOrder(compiled, left, plan, false);
  if (found === null) return null;
  const { network, timeOf } = found;
  return compiled.model.activities.map(({ id }) => {
    const start = timeOf(network.start(id));
    return { start, minutes: timeOf(network.end(id)) - start };
  });
}

interface Timed {
  readonly order: State;
  readonly network: TimingNetwork;
  readonly timeOf: (moment: NodeMoment) => number;
}

function inOrder(compiled: Compiled, left: Left, plan: PlanAsRead, withHands: boolean): Timed | null {
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
    if (hands.length !== wanted || hands.some((cook) => cook < 0 || (mode.able >> cook) % 2 === 0)) return null;
    if (way.units.length < mode.unitCount || way.units.some((unit) => !mode.units.includes(unit))) return null;
    lengths[id] = minutes;
    order.place(id, { start: planned.start, minutes, mode: way.mode, setting: way.setting }, hands, way.units);
  }
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
