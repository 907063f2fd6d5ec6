/** The schedule that comes of the plan in force when its order, places and hands are kept and what is held up moves along. */
import { asOrder } from '../../chance/orders.js';
import { type ActivityMode, type Model, stretchesOf } from '../../kernel/model.js';
import { State } from '../../kernel/state.js';
import type { Compiled } from '../../solve/compile.js';
import { orderRows } from '../../solve/order-rows.js';
import { timingRuns } from '../../solve/timetable.js';
import { inTime, written } from '../../solve/timing.js';
import { type NodeMoment, TimingNetwork } from '../../solve/timing-network.js';
import { mealRows } from '../../solve/timing-rows.js';
import type { Doing, PlanAsRead } from './doing.js';
import { handsOrBusy, type Span } from './free-hands.js';
import { inTurn, type Turn } from './in-turn.js';
import type { Left } from './left.js';
import { CLASH } from './untangle.js';

/** How many times as much as otherwise it counts to leave the plan's times, where nothing else matters. */
const STEADILY = 1000;

/** At its best times by what leaving the plan costs; null where its order cannot be kept, or something has no place in it. */
export function heldUp(compiled: Compiled, left: Left, plan: PlanAsRead): State | null {
  const found = inOrder(compiled, left, plan, Number.POSITIVE_INFINITY, 0);
  return found === null ? null : written(found.network, found.order.setting, found.order.hands, found.timeOf);
}

/** The same at times as near to those of the plan as can be, with whatever room it has. */
export function heldUpSteadily(compiled: Compiled, left: Left, plan: PlanAsRead): State | null {
  const { model } = compiled;
  const progress = model.progress!;
  const wishes = progress.wishes.map((own) =>
    own.map((wish) => ({ ...wish, before: STEADILY * wish.before, after: STEADILY * wish.after })),
  );
  const steady = heldUp({ ...compiled, model: { ...model, progress: { ...progress, wishes } } }, left, plan);
  return steady === null ? null : asOrder(model, steady);
}

/**
 * The same where cooks, burners, boards or pans are wanted twice, for as few minutes as may be (`CLASH` points each); null where the order
 * cannot be kept in that way either. The order is that of the plan with all that has not begun so many minutes later beside what has.
 */
export function heldUpWithClashes(compiled: Compiled, left: Left, plan: PlanAsRead, later: number): State | null {
  const found = inOrder(compiled, left, plan, CLASH, later);
  return found === null ? null : inTime(found.network, found.order.setting, found.order.hands, found.timeOf);
}

/**
 * The same with each step when somebody has hands for it: in an order that may be another than the plan's. For when a cook has left.
 */
export function heldUpInTurn(compiled: Compiled, left: Left, plan: PlanAsRead): State | null {
  const known = inTurnOrder(compiled, left, plan);
  const found = known === null ? null : timedIn(compiled, known, CLASH);
  return found === null ? null : inTime(found.network, found.order.setting, found.order.hands, found.timeOf);
}

function inTurnOrder(compiled: Compiled, left: Left, plan: PlanAsRead): Ordered | null {
  const { model } = compiled;
  const { settled } = model.progress!;
  const order = new State(model);
  const lengths = new Int32Array(model.activities.length);
  const planned: Turn[] = [];
  for (const { id } of model.activities) {
    const as = settled[id]!;
    if (as !== null) {
      lengths[id] = as.minutes;
      continue;
    }
    const row = plannedOf(left, plan, id);
    const known = asPlanned(model, id, row) ?? otherwise(model, id, row);
    if (known === null) return null;
    const hands = row?.hands.map((hand) => hand.cook) ?? null;
    planned.push({
      ...known,
      start: Math.max(known.start, model.progress!.earliest[id]!),
      hands: known.hands ?? hands,
    });
  }
  const turns = inTurn(model, planned);
  if (turns === null) return null;
  for (const turn of turns) {
    lengths[turn.id] = turn.minutes;
    order.place(turn.id, turn, turn.hands!, turn.units!);
  }
  return { order, lengths };
}

interface Ordered {
  readonly order: State;
  readonly lengths: Int32Array;
}

interface Timed {
  readonly order: State;
  readonly network: TimingNetwork;
  readonly timeOf: (moment: NodeMoment) => number;
}

/** @param clash points for each minute for which anything is wanted twice. */
function inOrder(compiled: Compiled, left: Left, plan: PlanAsRead, clash: number, later: number): Timed | null {
  const known = plannedOrder(compiled, left, plan, clash < Number.POSITIVE_INFINITY, later);
  return known === null ? null : timedIn(compiled, known, clash);
}

function timedIn(compiled: Compiled, { order, lengths }: Ordered, clash: number): Timed | null {
  const { settled } = compiled.model.progress!;
  const begun = (a: number): number => settled[a]?.start ?? Number.POSITIVE_INFINITY;
  const runs = timingRuns(order).map((run) => ({ ...run, from: Math.min(run.from, ...run.members.map(begun)) }));
  const network = new TimingNetwork(compiled, order, runs, lengths, order.hands);
  mealRows(network);
  orderRows(network, clash);
  const timeOf = network.solve();
  return timeOf === null ? null : { order, network, timeOf };
}

function shifted(row: Doing, by: number): Doing {
  const hands = row.hands.map((hand) => ({ ...hand, start: hand.start + by, end: hand.end + by }));
  return { ...row, start: row.start + by, end: row.end + by, hands };
}

/** An activity of the plan in force as it is to be; hands and units null where those of the plan cannot be. */
interface Planned extends Span {
  readonly id: number;
  readonly mode: number;
  readonly setting: number;
  readonly hands: readonly number[] | null;
  readonly units: readonly number[] | null;
}

/**
 * The plan in force with the lengths that its steps have; null where a step has no place in it. With `others` somebody else, another burner or
 * another way is taken where those of the plan cannot be, busy or not; without, the plan has no order then.
 */
function plannedOrder(
  compiled: Compiled,
  left: Left,
  plan: PlanAsRead,
  others: boolean,
  later: number,
): { readonly order: State; readonly lengths: Int32Array } | null {
  const { model } = compiled;
  const { settled } = model.progress!;
  // What has happened stands where it was planned, so that the order is the plan's; the network has it where it was.
  const order = new State(model);
  const lengths = new Int32Array(model.activities.length);
  const unsure: Planned[] = [];
  for (const { id } of model.activities) {
    const as = settled[id]!;
    const row = plannedOf(left, plan, id);
    if (as !== null) {
      lengths[id] = as.minutes;
      if (row === null) continue;
      order.start[id] = row.start;
      order.minutes[id] = row.end - row.start;
      continue;
    }
    const then = row === null ? null : shifted(row, later);
    const planned = asPlanned(model, id, then) ?? (others ? otherwise(model, id, then) : null);
    if (planned === null) return null;
    lengths[id] = planned.minutes;
    if (planned.hands !== null && planned.units !== null) order.place(id, planned, planned.hands, planned.units);
    else unsure.push(planned);
  }
  if (unsure.length > 0 && !others) return null;
  for (const planned of unsure.sort((a, b) => a.start - b.start || a.id - b.id)) {
    const { id } = planned;
    const mode = model.activities[id]!.modes[planned.mode]!;
    const hands = planned.hands ?? handsOrBusy(order, mode, planned, plannedOf(left, plan, id));
    const units = planned.units ?? unitsOrBusy(order, mode, planned);
    if (hands === null || units === null) return null;
    order.place(id, planned, hands, units);
  }
  return { order, lengths };
}

/** Null where the plan has no row for it, or there is no such way any more. */
function asPlanned(model: Model, id: number, row: Doing | null): Planned | null {
  const way = model.progress!.usual[id]!;
  if (row === null || way === null || way.mode < 0 || way.setting < 0) return null;
  const mode = model.activities[id]!.modes[way.mode]!;
  const minutes = mode.range === null ? mode.settings[way.setting]!.minutes : row.end - row.start;
  const hands = row.hands.map((hand) => hand.cook);
  const { crew } = mode.attention;
  const flat = stretchesOf(mode.attention, minutes);
  const canBe = (w: number, k: number): boolean => {
    const from = row.start + flat[2 * Math.floor(k / crew)]!;
    const isThere = model.workers[w]?.stays.some((stay) => stay.from <= from && from < stay.to);
    return isThere === true && (mode.able >> w) % 2 === 1;
  };
  const able = hands.length === (flat.length / 2) * crew && hands.every(canBe);
  const there = way.units.length >= mode.unitCount && way.units.every((unit) => mode.units.includes(unit));
  const { setting } = way;
  return {
    id,
    start: row.start,
    minutes,
    mode: way.mode,
    setting,
    hands: able ? hands : null,
    units: there ? way.units : null,
  };
}

/** The first way without heat runs, which would be in the way of others; as planned, or now. */
function otherwise({ activities, progress }: Model, id: number, row: Doing | null): Planned | null {
  const { modes } = activities[id]!;
  const mode = modes.findIndex((each) => each.machine < 0);
  if (mode < 0) return null;
  const { minutes } = modes[mode]!.settings[0]!;
  return { id, start: row?.start ?? progress!.now, minutes, mode, setting: 0, hands: null, units: null };
}

/** Those that are free before others; null where there are too few. */
function unitsOrBusy(
  { unitBusy }: State,
  { units, unitCount }: ActivityMode,
  { start, minutes }: Span,
): readonly number[] | null {
  if (units.length < unitCount) return null;
  const busy = (unit: number): number => Number(unitBusy[unit]!.subarray(start, start + minutes).includes(1));
  return units.toSorted((a, b) => busy(a) - busy(b) || a - b).slice(0, unitCount);
}

/** The row of the plan that a step of what is left was to follow. */
function plannedOf({ steps }: Left, plan: PlanAsRead, id: number): Doing | null {
  const { origin, fact, usual } = steps[id]!;
  const rows = plan.steps[origin]!;
  return fact !== null && rows.length === 1 ? rows[0]! : usual;
}
