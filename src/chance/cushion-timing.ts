/**
 * Planned times that leave room for days that go otherwise. A two-stage stochastic program by sample averages (A. Shapiro et al.,
 * Lectures on Stochastic Programming, 2009, chapter 5): the plan's times first, then those of each sampled day, on which everything
 * begins as planned or as soon after as it can. With order, places, hands and temperatures kept, every row is still a difference of two
 * times, so that plan and days together are one minimum cost flow. Minutes, points.
 */
import type { State } from '../kernel/state.js';
import type { Compiled } from '../solve/compile.js';
import { orderRows } from '../solve/order-rows.js';
import { timingRuns } from '../solve/timetable.js';
import { handsFor, written } from '../solve/timing.js';
import { type NodeMoment, TimingNetwork } from '../solve/timing-network.js';
import { mealRows } from '../solve/timing-rows.js';
import { type Arc, Evening, minutesOf } from './evening.js';

/** By activity, its minutes on that day. */
export type Day = ReadonlyMap<number, number>;

export interface Room {
  readonly days: readonly Day[];
  /** Minutes after its time from which on a course's lateness counts. */
  readonly within: number;
  /** Points a minute beyond that, on the average of the days. */
  readonly rate: number;
}

/** The best times with the order of `order`, whose steps may be longer than they are planned; null where there are none. */
export function cushionTiming(compiled: Compiled, order: State, { days, within, rate }: Room): State | null {
  const { model } = compiled;
  const lengths = Int32Array.from(order.minutes);
  const hands = order.hands.slice();
  for (const { id } of model.activities) {
    const { range, settings } = order.modeOf(id);
    const { minutes } = settings[order.setting[id]!]!;
    if (range !== null || minutes === lengths[id]) continue;
    lengths[id] = minutes;
    hands[id] = handsFor(order, id, minutes);
  }
  const network = new TimingNetwork(compiled, order, timingRuns(order), lengths, hands);
  mealRows(network);
  orderRows(network);
  const evening = new Evening(compiled, order, { lengths, hands });
  const landings = model.groups.map((_, g) => evening.landing(g));
  const common = commonOf(network, evening, new Set(days.flatMap((day) => [...day.keys()])));
  for (const day of days) {
    // A day on which nothing takes longer goes as planned.
    if ([...day].every(([a, minutes]) => minutes <= lengths[a]!)) continue;
    const momentOf = addDay(common, day);
    landings.forEach((node, g) => {
      if (!common.moved.has(node)) return;
      network.hinge(rate / days.length, network.zero, momentOf(node), model.groups[g]!.due + within);
    });
  }
  const timeOf = network.solve();
  return timeOf === null ? null : written(network, order.setting, hands, timeOf);
}

/** What the days have in common: the moments that may be others than the plan's, and the arcs that lead to each. */
interface Common {
  readonly network: TimingNetwork;
  readonly evening: Evening;
  readonly moved: ReadonlySet<number>;
  readonly intos: readonly (readonly Arc[])[];
}

function commonOf(network: TimingNetwork, evening: Evening, activities: ReadonlySet<number>): Common {
  const intos: Arc[][] = evening.floors.map(() => []);
  for (const arc of evening.arcs) intos[arc.to]!.push(arc);
  return { network, evening, moved: new Set(evening.movedBy(activities)), intos };
}

/** Puts a day into the network, and gives its moments. One that comes a set time after another needs no node. */
function addDay({ network, evening, moved, intos }: Common, day: Day): (node: number) => NodeMoment {
  const { floors, said, lengths } = evening;
  const known = new Map<number, NodeMoment>();
  const own: { moment: NodeMoment; node: number }[] = [];
  const open = new Set<number>();
  const minutes = ({ low }: Arc): number =>
    typeof low === 'number' ? low : minutesOf(low, day.get(low.activity) ?? lengths[low.activity]!);
  /** Somebody breaks off for what is done early. */
  const isFree = ({ to, beyond }: Arc): boolean => {
    const activity = evening.ownerOf(to);
    return beyond !== undefined && (day.get(activity) ?? Number.POSITIVE_INFINITY) <= lengths[activity]!;
  };
  const rowsTo = (node: number) =>
    intos[node]!.filter((arc) => !isFree(arc)).map((arc) => ({ from: momentOf(arc.from), low: minutes(arc) }));
  const fresh = (node: number): NodeMoment => {
    const moment = { node: network.network.node(), offset: 0 };
    known.set(node, moment);
    own.push({ moment, node });
    return moment;
  };
  const momentOf = (node: number): NodeMoment => {
    const found = known.get(node);
    if (found !== undefined) return found;
    if (!moved.has(node)) return said[node]!(network);
    if (Number.isFinite(floors[node]!)) return fresh(node);
    // Moments that wait for each other hang on one of them.
    if (open.has(node)) return fresh(node);
    open.add(node);
    const rows = rowsTo(node);
    open.delete(node);
    const again = known.get(node);
    if (again !== undefined) return again;
    if (rows.some(({ from }) => from.node !== rows[0]!.from.node)) return fresh(node);
    const moment = { node: rows[0]!.from.node, offset: Math.max(...rows.map(({ from, low }) => from.offset + low)) };
    known.set(node, moment);
    return moment;
  };
  for (const node of moved) momentOf(node);
  for (const { moment, node } of own) {
    if (Number.isFinite(floors[node]!)) network.apart(said[node]!(network), moment, 0);
    for (const { from, low } of rowsTo(node)) network.apart(from, moment, low);
  }
  return momentOf;
}
