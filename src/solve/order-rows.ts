/** Rows of the timing program that keep the order of what cannot be at once: loads, hands, burners, boards and pans. */

import { custodyEnd } from '../kernel/custody.js';
import { stretchesOf } from '../kernel/model.js';
import { standingOn } from '../kernel/standing.js';
import type { Moment, TimingProgram } from './timing-program.js';

/** Activities lie within their runs; loads that do not all fit at once keep their order; idle minutes of a run cost. */
export function machineRows(program: TimingProgram): void {
  const { lp, state, compiled } = program;
  for (const run of program.runs) {
    const machine = compiled.model.machines[run.machine]!;
    const loads = standingOn(state, run.machine).filter((l) => l.start >= run.from && l.end <= run.to);
    const roomy = machine.fits(loads.map((l) => ({ ...l, start: 0, end: 1 })));
    let latest = -1;
    run.members.forEach((a, i) => {
      program.apart(program.variable(run.begin), program.start(a), 0);
      program.apart(program.end(a), program.variable(run.finish), 0);
      if (!roomy) {
        for (const b of run.members.slice(0, i)) {
          if (state.end(b) <= state.start[a]!) program.apart(program.end(b), program.start(a), 0);
        }
      }
      if (latest >= 0) {
        const hole = Math.max(0, state.start[a]! - state.end(latest));
        const idle = lp.variable(machine.idleCost, 0, Number.POSITIVE_INFINITY, hole);
        const from = program.end(latest);
        const to = program.start(a);
        const terms = [idle, 1];
        for (let k = 0; k < from.terms.length; k += 2) terms.push(from.terms[k]!, from.terms[k + 1]!);
        for (let k = 0; k < to.terms.length; k += 2) terms.push(to.terms[k]!, -to.terms[k + 1]!);
        lp.row(terms, to.offset - from.offset, Number.POSITIVE_INFINITY);
      }
      if (latest < 0 || state.end(a) > state.end(latest)) latest = a;
    });
  }
}

/** Each worker does one stretch after the other, within the stay in which it lies. */
export function handRows(program: TimingProgram): void {
  const { state, compiled } = program;
  const { model } = compiled;
  const lists: { a: number; from: Moment; to: Moment; at: number }[][] = model.workers.map(() => []);
  for (const { id } of model.activities) {
    const hands = state.hands[id]!;
    if (hands.length === 0) continue;
    const { crew } = state.modeOf(id).attention;
    stretchMoments(program, id).forEach((stretch, k) => {
      for (let c = 0; c < crew; c++) lists[hands[k * crew + c]!]!.push({ a: id, ...stretch });
    });
  }
  lists.forEach((list, w) => {
    list.sort((x, y) => x.at - y.at || x.a - y.a);
    const { stays } = model.workers[w]!;
    list.forEach((stretch, i) => {
      const stay = stays.find((s) => s.from <= stretch.at && stretch.at < s.to);
      if (stay !== undefined && stay.from > 0) program.apart(ZERO, stretch.from, stay.from);
      if (stay !== undefined && stay.to < model.horizon) program.apart(stretch.to, ZERO, -stay.to);
      const next = list[i + 1];
      if (next !== undefined && next.a !== stretch.a) program.apart(stretch.to, next.from, 0);
    });
  });
}

const ZERO: Moment = { terms: [], offset: 0 };

/** Activities on one burner keep their order. */
export function unitRows(program: TimingProgram): void {
  const { state, compiled } = program;
  for (let unit = 0; unit < compiled.model.units; unit++) {
    const users = compiled.model.activities.map((a) => a.id).filter((a) => state.units[a]!.includes(unit));
    inOrder(program, users);
  }
}

function inOrder(program: TimingProgram, users: number[]): void {
  const { state } = program;
  users.sort((a, b) => state.start[a]! - state.start[b]! || state.end(a) - state.end(b) || a - b);
  for (let i = 1; i < users.length; i++) program.apart(program.end(users[i - 1]!), program.start(users[i]!), 0);
}

interface Taking {
  readonly a: number;
  readonly from: number;
  readonly to: number;
  /** All of these must have come, and `tail` more minutes gone by, before another may take the unit. */
  readonly frees: readonly Moment[];
  readonly tail: number;
  readonly amount: number;
}

/** Boards and pans: each unit goes from one taker to the next in the order of the schedule. */
export function custodyRows(program: TimingProgram): void {
  const { state, compiled } = program;
  const { model } = compiled;
  model.renewables.forEach((renewable, r) => {
    const takings: Taking[] = [];
    for (const { id } of model.activities) {
      const mode = state.modeOf(id);
      const from = state.start[id]!;
      if (mode.bench === r)
        takings.push({ a: id, from, to: state.end(id), frees: [program.end(id)], tail: 0, amount: 1 });
      if (mode.vessel === r)
        takings.push({ a: id, from, to: custodyEnd(state, id), ...releases(program, id), amount: mode.vessels });
    }
    takings.sort((x, y) => x.from - y.from || x.to - y.to || x.a - y.a);
    const units: (Taking | null)[] = new Array(renewable.capacity).fill(null);
    for (const taking of takings) {
      for (let k = 0; k < taking.amount; k++) {
        // The unit that has been free for the shortest time: the order is then the least binding for the others.
        let best = -1;
        units.forEach((held, u) => {
          if (held !== null && held.to > taking.from) return;
          if (best < 0 || (held?.to ?? -1) > (units[best]?.to ?? -1)) best = u;
        });
        if (best < 0) continue;
        const held = units[best]!;
        if (held !== null) {
          for (const free of held.frees) {
            if (
              held.tail === 0 &&
              free.terms[0] === program.start(taking.a).terms[0] &&
              free.offset === 0 &&
              free.terms.length === 2
            )
              continue;
            program.apart(free, program.start(taking.a), held.tail);
          }
        }
        units[best] = taking;
      }
    }
  });
}

/** What must have come before the custody of placed activity `a` is over; see `custodyEnd`, which gives the time alone. */
function releases(program: TimingProgram, a: number): { frees: Moment[]; tail: number } {
  const { state, compiled } = program;
  const { model } = compiled;
  const activity = model.activities[a]!;
  const mode = state.modeOf(a);
  const { tail } = model.renewables[mode.vessel]!;
  if (activity.empties) return { frees: [program.end(a)], tail };
  const frees: Moment[] = [program.end(a)];
  const goesOn: Moment[] = [];
  const walk = (from: number): void => {
    const { nexts } = model.activities[from]!;
    for (const b of nexts) {
      const next = state.modeOf(b);
      if (next.transparent) walk(b);
      else if (next.vessel === mode.vessel) goesOn.push(program.start(b));
      else frees.push(program.start(b));
    }
    if (nexts.length > 0) return;
    const job = model.jobs[activity.job]!;
    if (job.group >= 0) frees.push(program.landing(job.group));
    else for (const user of job.users) frees.push(program.start(user));
  };
  walk(a);
  return goesOn.length > 0 ? { frees: goesOn, tail: 0 } : { frees, tail };
}

/** Stretches of an activity as it stands, and whether the last is tied to the end. */
function stretchMoments(program: TimingProgram, a: number): { from: Moment; to: Moment; at: number }[] {
  const { state } = program;
  const { attention } = state.modeOf(a);
  const minutes = state.minutes[a]!;
  const flat = stretchesOf(attention, minutes);
  const out: { from: Moment; to: Moment; at: number }[] = [];
  for (let k = 0; k < flat.length; k += 2) {
    const at = state.start[a]! + flat[k]!;
    const length = flat[k + 1]!;
    if (attention.all) out.push({ from: program.start(a), to: program.end(a), at });
    else if (k + 2 === flat.length && attention.end > 0 && flat[k]! + length === minutes) {
      out.push({ from: program.end(a, -length), to: program.end(a), at });
    } else out.push({ from: program.start(a, flat[k]!), to: program.start(a, flat[k]! + length), at });
  }
  return out;
}
