/** A schedule carried over to a changed meal, by the names of its steps. */
import { holds } from '../../kernel/holds.js';
import { State } from '../../kernel/state.js';
import { stepKey } from '../../problem/hours.js';
import type { Option, Problem } from '../../problem/problem.js';
import type { Compiled } from '../compile.js';
import type { Found } from '../schedule.js';

const MINUTE = 60_000;

/** The same order, places and hands, at the same times by the clock or, if the day begins at another time, so much sooner; those that the changed meal allows. */
export function carriedOver(found: Found, to: Compiled): State[] {
  const shift = (found.compiled.problem.origin - to.problem.origin) / MINUTE;
  const shifts = shift === 0 ? [0] : [shift, 0];
  return shifts.map((minutes) => carried(found, to, minutes)).filter((state) => state !== null);
}

/** Holds are left out where ways to hold changed. */
function carried({ compiled: from, state: old }: Found, to: Compiled, shift: number): State | null {
  const known = new Map(from.problem.steps.map(({ id }) => [stepKey(from.problem, id), id]));
  const state = new State(to.model);
  for (const { id, options } of to.problem.steps) {
    const a = known.get(stepKey(to.problem, id));
    if (a === undefined) return null;
    const was = from.problem.steps[a]!.options[old.mode[a]!]!;
    const mode = options.findIndex((option) => isSame(option, was));
    if (mode < 0) return null;
    const celsius = was.settings[old.setting[a]!];
    const setting = was.settings.length === 0 ? 0 : options[mode]!.settings.indexOf(celsius!);
    const start = old.start[a]! + shift;
    if (setting < 0 || start < 0 || start + old.minutes[a]! > to.model.horizon) return null;
    const units = old.units[a]!.map((unit) => {
      const { appliance, burner } = from.kit.units[unit]!;
      return to.kit.unitOf(appliance, burner);
    });
    state.place(id, { start, minutes: old.minutes[a]!, mode, setting }, old.hands[a]!, units);
  }
  carryHolds(from.problem, to, old, state, shift);
  return holds(state) ? state : null;
}

const isSame = (one: Option, two: Option): boolean =>
  one.entry === two.entry &&
  one.pan === two.pan &&
  one.pans === two.pans &&
  one.place.kind === two.place.kind &&
  ('appliance' in one.place ? one.place.appliance : -1) === ('appliance' in two.place ? two.place.appliance : -1) &&
  (one.place.kind === 'heated' ? one.place.mode : -1) === (two.place.kind === 'heated' ? two.place.mode : -1);

function carryHolds(was: Problem, to: Compiled, old: State, state: State, shift: number): void {
  for (const { id, storage } of to.model.jobs) {
    const job = was.dishes.findIndex(({ name }) => name === to.problem.dishes[id]!.name);
    const mode = job < 0 ? -1 : old.store.mode[job]!;
    const there = old.model.jobs[job]?.storage?.modes[mode];
    const here = storage?.modes[mode];
    if (there === undefined || here === undefined || here.machine !== there.machine) continue;
    if (here.settings.length !== there.settings.length) continue;
    state.store.mode[id] = mode;
    state.store.setting[id] = old.store.setting[job]!;
    state.store.start[id] = old.store.start[job]! + shift;
    state.store.minutes[id] = old.store.minutes[job]!;
  }
}
