/** Rows of the timing table that keep the order of what cannot be at once: loads, hands, burners, boards and pans. */

import { custodyEnd, releasesOf, tailOf } from '../kernel/custody.js';
import { stretchesOf } from '../kernel/model.js';
import { standingOn } from '../kernel/standing.js';
import type { SkeletonRun, Swap, Timetable } from './timetable.js';

export function orderRows<M>(table: Timetable<M>): void {
  machineRows(table);
  handRows(table);
  unitRows(table);
  custodyRows(table);
}

/** Something on a machine: an activity, or a stored job (-1 - job). */
interface Occupant<M> {
  readonly id: number;
  readonly at: number;
  readonly until: number;
  readonly start: M;
  readonly end: M;
}

/** Occupants lie within their runs; loads that do not all fit at once keep their order; idle minutes of a run cost. */
function machineRows<M>(table: Timetable<M>): void {
  const { state, compiled } = table;
  table.runs.forEach((run, r) => {
    const machine = compiled.model.machines[run.machine]!;
    const loads = standingOn(state, run.machine).filter((l) => l.start >= run.from && l.end <= run.to);
    const roomy = machine.fits(loads.map((l) => ({ ...l, start: 0, end: 1 })));
    const occupants = occupantsOf(table, run);
    let latest: Occupant<M> | null = null;
    occupants.forEach((one, i) => {
      table.apart(table.begin(r), one.start, 0);
      table.apart(one.end, table.finish(r), 0);
      if (!roomy) {
        for (const two of occupants.slice(0, i)) {
          if (two.until > one.at) continue;
          if (table.swap?.before === two.id && table.swap.after === one.id) table.apart(one.end, two.start, 0);
          else table.apart(two.end, one.start, 0);
        }
      }
      if (latest !== null && machine.idleCost > 0) table.hinge(machine.idleCost, latest.end, one.start, 0);
      if (latest === null || one.until > latest.until) latest = one;
    });
  });
}

function occupantsOf<M>(table: Timetable<M>, run: SkeletonRun): Occupant<M>[] {
  const { state } = table;
  const { store } = state;
  const list = run.members.map((a) => ({
    id: a,
    at: state.start[a]!,
    until: state.end(a),
    start: table.start(a),
    end: table.end(a),
  }));
  for (const j of run.stores) {
    const at = store.start[j]!;
    list.push({ id: -1 - j, at, until: at + store.minutes[j]!, start: table.storeStart(j), end: table.storeEnd(j) });
  }
  return list.sort((x, y) => x.at - y.at || x.id - y.id);
}

/** Each worker does one stretch after the other, within the stay in which it lies. */
function handRows<M>(table: Timetable<M>): void {
  const { state, compiled } = table;
  const { model } = compiled;
  const lists: { a: number; from: M; to: M; at: number }[][] = model.workers.map(() => []);
  for (const { id } of model.activities) {
    const hands = table.hands[id]!;
    if (hands.length === 0) continue;
    const { crew } = state.modeOf(id).attention;
    stretchMoments(table, id).forEach((stretch, k) => {
      for (let c = 0; c < crew; c++) lists[hands[k * crew + c]!]!.push({ a: id, ...stretch });
    });
  }
  lists.forEach((list, w) => {
    list.sort((x, y) => x.at - y.at || x.a - y.a);
    exchange(list, table.swap, (stretch) => stretch.a);
    const { stays } = model.workers[w]!;
    list.forEach((stretch, i) => {
      const stay = stays.find((s) => s.from <= stretch.at && stretch.at < s.to);
      if (stay !== undefined && stay.from > 0) table.apart(table.zero, stretch.from, stay.from);
      if (stay !== undefined && stay.to < model.horizon) table.apart(stretch.to, table.zero, -stay.to);
      const next = list[i + 1];
      if (next !== undefined && next.a !== stretch.a) table.apart(stretch.to, next.from, 0);
    });
  });
}

/** Activities on one burner keep their order. */
function unitRows<M>(table: Timetable<M>): void {
  const { state, compiled } = table;
  for (let unit = 0; unit < compiled.model.units; unit++) {
    const users = compiled.model.activities.map((a) => a.id).filter((a) => state.units[a]!.includes(unit));
    inOrder(table, users);
  }
}

function inOrder<M>(table: Timetable<M>, users: number[]): void {
  const { state } = table;
  users.sort((a, b) => state.start[a]! - state.start[b]! || state.end(a) - state.end(b) || a - b);
  exchange(users, table.swap, (a) => a);
  for (let i = 1; i < users.length; i++) table.apart(table.end(users[i - 1]!), table.start(users[i]!), 0);
}

interface Taking<M> {
  readonly a: number;
  readonly from: number;
  readonly to: number;
  /** All of these must have come, and `tail` more minutes gone by, before another may take the unit. */
  readonly frees: readonly { readonly moment: M; readonly starts: number }[];
  readonly tail: number;
  readonly amount: number;
}

/** Boards and pans: each unit goes from one taker to the next in the order of the schedule. */
function custodyRows<M>(table: Timetable<M>): void {
  const { state, compiled } = table;
  const { model } = compiled;
  model.renewables.forEach((renewable, r) => {
    const takings: Taking<M>[] = [];
    for (const { id } of model.activities) {
      const mode = state.modeOf(id);
      const from = state.start[id]!;
      if (mode.bench === r)
        takings.push({
          a: id,
          from,
          to: state.end(id),
          frees: [{ moment: table.end(id), starts: -1 }],
          tail: 0,
          amount: 1,
        });
      if (mode.vessel === r)
        takings.push({ a: id, from, to: custodyEnd(state, id), ...releases(table, id), amount: mode.vessels });
    }
    takings.sort((x, y) => x.from - y.from || x.to - y.to || x.a - y.a);
    for (const line of linesOf(takings, renewable.capacity)) {
      exchange(line, table.swap, (taking) => taking.a);
      line.forEach((held, i) => {
        const next = line[i + 1];
        if (next === undefined) return;
        for (const { moment, starts } of held.frees) {
          if (starts !== next.a || held.tail > 0) table.apart(moment, table.start(next.a), held.tail);
        }
      });
    }
  });
}

/** The takings of each unit in turn. A taker gets the unit that has been free for the shortest time, which binds the least. */
function linesOf<M>(takings: readonly Taking<M>[], capacity: number): Taking<M>[][] {
  const lines: Taking<M>[][] = Array.from({ length: capacity }, () => []);
  for (const taking of takings) {
    for (let k = 0; k < taking.amount; k++) {
      let best: Taking<M>[] | null = null;
      let latest = -1;
      for (const line of lines) {
        const until = line[line.length - 1]?.to ?? 0;
        if (until <= taking.from && until > latest) {
          best = line;
          latest = until;
        }
      }
      best?.push(taking);
    }
  }
  return lines;
}

/** Where the later of a swap comes after the earlier, it goes directly before it, past whatever lies between. */
function exchange<T>(list: T[], swap: Swap | null, activity: (entry: T) => number): void {
  if (swap === null) return;
  const to = list.findIndex((entry) => activity(entry) === swap.before);
  if (to < 0) return;
  for (let from = to + 1, at = to; from < list.length; from++) {
    if (activity(list[from]!) !== swap.after) continue;
    const [moved] = list.splice(from, 1);
    list.splice(at++, 0, moved!);
  }
}

/** The moments of `releasesOf`, which `custodyEnd` turns into a time. */
function releases<M>(table: Timetable<M>, a: number): Pick<Taking<M>, 'frees' | 'tail'> {
  const list = releasesOf(table.state, a);
  const frees = list.map((r) => {
    if (r.kind === 'landing') return { moment: table.landing(r.group), starts: -1 };
    if (r.kind === 'end') return { moment: table.end(r.activity), starts: -1 };
    return { moment: table.start(r.activity), starts: r.activity };
  });
  return { frees, tail: tailOf(table.state, a, list) };
}

/** Stretches of an activity; the last is tied to its end where the end asks for hands. */
function stretchMoments<M>(table: Timetable<M>, a: number): { from: M; to: M; at: number }[] {
  const { state } = table;
  const { attention } = state.modeOf(a);
  const minutes = table.lengths[a]!;
  const flat = stretchesOf(attention, minutes);
  const out: { from: M; to: M; at: number }[] = [];
  for (let k = 0; k < flat.length; k += 2) {
    const at = state.start[a]! + flat[k]!;
    const length = flat[k + 1]!;
    if (attention.all) out.push({ from: table.start(a), to: table.end(a), at });
    else if (k + 2 === flat.length && attention.end > 0 && flat[k]! + length === minutes) {
      out.push({ from: table.end(a, -length), to: table.end(a), at });
    } else out.push({ from: table.start(a, flat[k]!), to: table.start(a, flat[k]! + length), at });
  }
  return out;
}
