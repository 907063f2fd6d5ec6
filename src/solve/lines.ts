/**
 * What a schedule does one after the other, as lines: the stretches of each worker, the activities on each unit, the takings of
 * each bench or vessel. Of two neighbours in a line the first must let go before the second may take.
 */
import { custodyEnd, releasesOf, tailOf } from '../kernel/custody.js';
import { isSettled, stretchesOf } from '../kernel/model.js';
import type { State } from '../kernel/state.js';
import type { Timetable } from './timetable.js';

export interface Entry<M> {
  readonly a: number;
  /** Which stretch of its attention it is; -1 in lines of other kinds. */
  readonly stretch: number;
  /** When it takes, and when it lets go of what it has by itself, in the schedule that the lines are of. */
  readonly at: number;
  readonly until: number;
  readonly takes: M;
  /** All of these must have come, and `tail` more minutes gone by, before the next may take; `starts`: the activity whose start it is, or -1. */
  readonly frees: readonly { readonly moment: M; readonly starts: number }[];
  readonly tail: number;
  /** Rows that hold of the entry itself in this line: the worker's stay around it. */
  readonly stay: readonly Row<M>[];
  /** Two settled ones keep no order: they are where they are. */
  readonly settled: boolean;
}

/** `later` comes `low` minutes after `earlier` at least. */
export interface Row<M> {
  readonly earlier: M;
  readonly later: M;
  readonly low: number;
}

export interface Line<M> {
  /** Index of the worker; -1 for other lines. */
  readonly worker: number;
  /** What goes from one entry to the next: a worker, a unit, or one piece of a renewable. */
  readonly of: { readonly kind: 'worker' | 'unit' | 'stock'; readonly index: number };
  readonly entries: readonly Entry<M>[];
}

/** Rows that keep `next` behind `held`. */
export function turnRows<M>(held: Entry<M>, next: Entry<M>): Row<M>[] {
  const rows: Row<M>[] = [];
  if (held.a === next.a || (held.settled && next.settled)) return rows;
  for (const { moment, starts } of held.frees) {
    if (starts !== next.a || held.tail > 0) rows.push({ earlier: moment, later: next.takes, low: held.tail });
  }
  return rows;
}

export function linesOf<M>(table: Timetable<M>): Line<M>[] {
  return [...workerLines(table), ...unitLines(table), ...stockLines(table)].filter((line) => line.entries.length > 0);
}

/** A stretch of an activity's attention as an entry of a worker's line. */
export function stretchEntry<M>(
  table: Timetable<M>,
  worker: number,
  a: number,
  index: number,
  stretch: StretchMoments<M>,
): Entry<M> {
  const { model } = table.compiled;
  const settled = isSettled(model, a);
  const stay = settled
    ? undefined
    : model.workers[worker]!.stays.find((s) => s.from <= stretch.at && stretch.at < s.to);
  const rows: Row<M>[] = [];
  if (stay !== undefined && stay.from > 0) rows.push({ earlier: table.zero, later: stretch.from, low: stay.from });
  if (stay !== undefined && stay.to < model.horizon) {
    rows.push({ earlier: stretch.to, later: table.zero, low: -stay.to });
  }
  const frees = [{ moment: stretch.to, starts: -1 }];
  const { at, until } = stretch;
  return { a, stretch: index, at, until, takes: stretch.from, frees, tail: 0, stay: rows, settled };
}

/** Each worker does one stretch after the other, within the stay in which it lies. */
function workerLines<M>(table: Timetable<M>): Line<M>[] {
  const { state, compiled } = table;
  const { model } = compiled;
  const lists: Entry<M>[][] = model.workers.map(() => []);
  for (const { id } of model.activities) {
    const hands = table.hands[id]!;
    if (hands.length === 0) continue;
    const { crew } = state.modeOf(id).attention;
    stretchMoments(table, id).forEach((stretch, k) => {
      for (let c = 0; c < crew; c++) {
        const worker = hands[k * crew + c]!;
        lists[worker]!.push(stretchEntry(table, worker, id, k, stretch));
      }
    });
  }
  return lists.map((entries, worker) => ({
    worker,
    of: { kind: 'worker', index: worker },
    entries: behindSettled(entries.sort((x, y) => x.at - y.at || x.a - y.a)),
  }));
}

/** Two settled ones may overlap; what comes after both waits for that which ends last. */
function behindSettled<M>(entries: readonly Entry<M>[]): Entry<M>[] {
  let last: Entry<M> | null = null;
  return entries.map((entry) => {
    if (!entry.settled) return entry;
    if (last === null || entry.until >= last.until) last = entry;
    return last === entry ? entry : { ...entry, frees: last.frees };
  });
}

/** Activities on one burner keep their order. */
function unitLines<M>(table: Timetable<M>): Line<M>[] {
  const { state, compiled } = table;
  const users: number[][] = Array.from({ length: compiled.model.units }, () => []);
  for (const { id } of compiled.model.activities) for (const unit of state.units[id]!) users[unit]!.push(id);
  return users.map((list, unit) => {
    list.sort((a, b) => state.start[a]! - state.start[b]! || state.end(a) - state.end(b) || a - b);
    const entries = list.map((a) => held(table, a, [{ moment: table.end(a), starts: -1 }], 0));
    return { worker: -1, of: { kind: 'unit', index: unit }, entries: behindSettled(entries) };
  });
}

const NO_ROWS: readonly never[] = [];

const held = <M>(table: Timetable<M>, a: number, frees: Entry<M>['frees'], tail: number): Entry<M> => ({
  a,
  stretch: -1,
  at: table.state.start[a]!,
  until: table.state.end(a),
  takes: table.start(a),
  frees,
  tail,
  stay: NO_ROWS,
  settled: isSettled(table.compiled.model, a),
});

interface Taking<M> {
  readonly entry: Entry<M>;
  readonly to: number;
  readonly amount: number;
}

/** Boards and pans: each unit goes from one taker to the next in the order of the schedule. */
function stockLines<M>(table: Timetable<M>): Line<M>[] {
  const { state, compiled } = table;
  const { model } = compiled;
  const takings: Taking<M>[][] = model.renewables.map(() => []);
  for (const { id } of model.activities) {
    const { bench, vessel, vessels } = state.modeOf(id);
    if (bench >= 0) {
      const entry = held(table, id, [{ moment: table.end(id), starts: -1 }], 0);
      takings[bench]!.push({ entry, to: state.end(id), amount: 1 });
    }
    if (vessel >= 0) takings[vessel]!.push({ entry: custody(table, id), to: custodyEnd(state, id), amount: vessels });
  }
  return takings.flatMap((list, r) => {
    list.sort((x, y) => x.entry.at - y.entry.at || x.to - y.to || x.entry.a - y.entry.a);
    return dealt(list, r, model.renewables[r]!.capacity);
  });
}

/**
 * The takings of each unit in turn. A taker gets the unit that has been free for the shortest time, which binds the least; where none is free in
 * the schedule, the one that will be first.
 */
function dealt<M>(takings: readonly Taking<M>[], renewable: number, capacity: number): Line<M>[] {
  const lines: { entries: Entry<M>[]; to: number }[] = [];
  for (const { entry, to, amount } of takings) {
    for (let k = 0; k < amount; k++) {
      let best: (typeof lines)[number] | null = null;
      for (const line of lines) {
        if (line.to <= entry.at && (best === null || line.to > best.to)) best = line;
      }
      if (best === null && lines.length < capacity) {
        best = { entries: [], to: 0 };
        lines.push(best);
      }
      for (const line of lines) if (best === null || (best.to > entry.at && line.to < best.to)) best = line;
      best?.entries.push(entry);
      if (best !== null) best.to = to;
    }
  }
  return lines.map(({ entries }) => ({ worker: -1, of: { kind: 'stock', index: renewable }, entries }));
}

/** The moments of `releasesOf`, which `custodyEnd` turns into a time. */
function custody<M>(table: Timetable<M>, a: number): Entry<M> {
  const list = releasesOf(table.state, a);
  const frees = list.map((r) => {
    if (r.kind === 'landing') return { moment: table.landing(r.group), starts: -1 };
    if (r.kind === 'end') return { moment: table.end(r.activity), starts: -1 };
    return { moment: table.start(r.activity), starts: r.activity };
  });
  return held(table, a, frees, tailOf(table.state, a, list));
}

export interface StretchMoments<M> {
  readonly from: M;
  readonly to: M;
  readonly at: number;
  readonly until: number;
}

/** Stretches of an activity; the last is tied to its end where the end asks for hands. */
export function stretchMoments<M>(table: Timetable<M>, a: number): StretchMoments<M>[] {
  const { state } = table;
  const { attention } = state.modeOf(a);
  const minutes = table.lengths[a]!;
  const flat = stretchesOf(attention, minutes);
  const out: StretchMoments<M>[] = [];
  for (let k = 0; k < flat.length; k += 2) {
    const at = state.start[a]! + flat[k]!;
    const length = flat[k + 1]!;
    const until = at + length;
    if (attention.all) out.push({ from: table.start(a), to: table.end(a), at, until });
    else if (k + 2 === flat.length && attention.end > 0 && flat[k]! + length === minutes) {
      out.push({ from: table.end(a, -length), to: table.end(a), at, until });
    } else out.push({ from: table.start(a, flat[k]!), to: table.start(a, flat[k]! + length), at, until });
  }
  return out;
}

/** Who is handed over to whom: `stretch` of an activity's attention, or all that are `from`'s (-1). */
export interface HandOver {
  readonly a: number;
  readonly stretch: number;
  readonly from: number;
  readonly to: number;
}

/** Workers of an activity, one of them replaced; null where that one does not work there, or the other is there already. */
export function handedOver(state: State, { a, stretch, from, to }: HandOver): readonly number[] | null {
  const hands = state.hands[a]!;
  const { crew } = state.modeOf(a).attention;
  const goes = (w: number, k: number): boolean => w === from && (stretch < 0 || Math.floor(k / crew) === stretch);
  if (!hands.some(goes)) return null;
  if (crew > 1 && hands.includes(to)) return null;
  return hands.map((w, k) => (goes(w, k) ? to : w));
}
