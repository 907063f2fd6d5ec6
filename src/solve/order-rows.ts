/** Rows of the timing table that keep the order of what cannot be at once: loads, hands, burners, boards and pans. */
import { isSettled } from '../kernel/model.js';
import { standingOn } from '../kernel/standing.js';
import { linesOf, type Row, turnRows } from './lines.js';
import type { SkeletonRun, Timetable } from './timetable.js';

/** `clash`: points for each minute for which workers, units, boards or pans are wanted twice; absent: they cannot be. */
export function orderRows<M>(table: Timetable<M>, clash = Number.POSITIVE_INFINITY): void {
  machineRows(table);
  for (const { entries } of linesOf(table)) {
    entries.forEach((entry, i) => {
      addRows(table, entry.stay, clash);
      if (i > 0) addRows(table, turnRows(entries[i - 1]!, entry), clash);
    });
  }
}

/** `rate`: points for each minute by which a row is not kept; absent: it is. */
export function addRows<M>(table: Timetable<M>, rows: readonly Row<M>[], rate = Number.POSITIVE_INFINITY): void {
  for (const { earlier, later, low } of rows) {
    if (rate === Number.POSITIVE_INFINITY) table.apart(earlier, later, low);
    else table.hinge(rate, later, earlier, -low);
  }
}

/** Something on a machine: an activity, or a stored job (-1 - job). */
interface Occupant<M> {
  readonly id: number;
  readonly at: number;
  readonly until: number;
  readonly start: M;
  readonly end: M;
  readonly settled: boolean;
}

/** Occupants lie within their runs; loads that do not all fit at once keep their order; idle minutes of a run cost. */
export function machineRows<M>(table: Timetable<M>): void {
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
          if (two.settled && one.settled) continue;
          if (two.until <= one.at) table.inTurn(two.id, one.id, two.end, one.start);
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
    settled: isSettled(table.compiled.model, a),
  }));
  for (const j of run.stores) {
    const at = store.start[j]!;
    const [start, end] = [table.storeStart(j), table.storeEnd(j)];
    list.push({ id: -1 - j, at, until: at + store.minutes[j]!, start, end, settled: false });
  }
  return list.sort((x, y) => x.at - y.at || x.id - y.id);
}
