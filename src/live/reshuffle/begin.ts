/** The schedule to begin with: the plan in force with what is held up moved along; where that cannot be, less what does not hold any more. */
import { blocksOf, sinceOf, transitionsHold } from '../../kernel/blocks.js';
import { custodiesHold, holds } from '../../kernel/holds.js';
import { standingOn } from '../../kernel/standing.js';
import { State } from '../../kernel/state.js';
import type { Compiled } from '../../solve/compile.js';
import { MachineView } from '../../solve/own-cost.js';
import { storeJob } from '../../solve/storage.js';
import type { Doing, PlanAsRead } from './doing.js';
import { handsAsPlanned } from './free-hands.js';
import { heldUp, heldUpInTurn, heldUpWithClashes } from './held-up.js';
import type { Left } from './left.js';
import { type Untangled, untangled } from './untangle.js';

/**
 * Where the order of the plan cannot be put right, what has not begun comes so many minutes later beside what has: then it mostly can, by a few
 * changes, and its times may be as good. Where hands are missing for much of the meal, each step comes when somebody has hands for it instead. So
 * many changes are tried of each for each activity.
 */
const LATER = [3, 5, 8, 13];
const TRIED_LATER = 2;

/**
 * Schedules to begin with, those with everything in them first; each with its model, since those who end what has begun may be others. Where the
 * plan cannot be moved along as it is, an order that was put right may be worse than what comes of putting dishes back.
 * @param quickly only few changes are tried to put it right.
 */
export function beginWith(compiled: Compiled, left: Left, plan: PlanAsRead, quickly = false): Untangled[] {
  const moved = heldUp(compiled, left, plan);
  const starts = moved === null ? withoutClashes(compiled, left, plan, quickly) : [{ compiled, state: moved }];
  for (const start of starts) keepStored(start.compiled, left, plan, start.state);
  return starts;
}

function withoutClashes(compiled: Compiled, left: Left, plan: PlanAsRead, quickly: boolean): Untangled[] {
  const clashing = heldUpWithClashes(compiled, left, plan, 0);
  if (clashing === null) return [{ compiled, state: whatGoes(compiled, left, null) }];
  const better = untangled({ compiled, state: clashing });
  const rest = (): Untangled => ({ compiled, state: whatGoes(compiled, left, clashing) });
  if (holds(better.state)) return [better, rest()];
  const others = quickly
    ? []
    : [shiftedToHold(compiled, left, plan), inTurnToHold(compiled, left, plan)].flatMap((one) => one ?? []);
  if (others.length > 0) return [...others, rest()];
  return [{ ...better, state: whatGoes(better.compiled, left, better.state) }];
}

/** With what has not begun some minutes later beside what has; null where that does not help. */
function shiftedToHold(compiled: Compiled, left: Left, plan: PlanAsRead): Untangled | null {
  for (const later of LATER) {
    const next = mended(compiled, heldUpWithClashes(compiled, left, plan, later));
    if (next !== null) return next;
  }
  return null;
}

/** With each step when somebody has hands for it; null where that does not help. */
const inTurnToHold = (compiled: Compiled, left: Left, plan: PlanAsRead): Untangled | null =>
  mended(compiled, heldUpInTurn(compiled, left, plan));

function mended(compiled: Compiled, state: State | null): Untangled | null {
  const next = state === null ? null : untangled({ compiled, state }, TRIED_LATER);
  return next !== null && holds(next.state) ? next : null;
}

/** The jobs that go with what has begun and with those before them, as in `near`, where that is known, else as planned. */
function whatGoes({ model }: Compiled, left: Left, near: State | null): State {
  let state = new State(model);
  for (const { id, activities } of model.jobs) {
    const next = state.copy();
    const placed = activities.every((a) => next.isPlaced(a) || placeAsPlanned(next, left, a, near));
    // A job that holds by itself may still be in the way of what has begun, or of a job before it.
    if (placed && jobHolds(next, id)) state = next;
  }
  return state;
}

/** Where the plan had it, or so much later as it is held up; false where that cannot be by itself. */
function placeAsPlanned(state: State, { steps }: Left, a: number, near: State | null): boolean {
  const { model } = state;
  const progress = model.progress!;
  const planned = steps[a]!.usual;
  const usual = progress.usual[a]!;
  if (planned === null || usual === null || usual.mode < 0 || usual.setting < 0) return false;
  const activity = model.activities[a]!;
  const mode = activity.modes[usual.mode]!;
  const known = mode.settings[usual.setting]!.minutes;
  const start = near?.start[a] ?? planned.start;
  const minutes = near?.minutes[a] ?? lengthOf(planned, mode.range, known, steps[a]!.fact !== null);
  const at = { start, minutes, mode: usual.mode, setting: usual.setting };
  if (at.start < progress.earliest[a]! || at.start > progress.latest[a]! || at.start + minutes > model.horizon)
    return false;
  if (usual.units.length < mode.unitCount || usual.units.some((u) => !mode.units.includes(u))) return false;
  if (usual.units.some((u) => state.unitBusy[u]!.subarray(at.start, at.start + minutes).includes(1))) return false;
  const hands = handsAsPlanned(state, mode, at, planned);
  if (hands === null) return false;
  state.place(a, at, hands, usual.units);
  return true;
}

function lengthOf(
  { start, end }: Doing,
  range: { low: number; high: number } | null,
  minutes: number,
  begun: boolean,
): number {
  if (range === null) return minutes;
  const planned = end - start;
  return begun ? Math.max(range.low, Math.min(range.high, planned)) : planned;
}

/** Whether what was just placed of a job goes with everything else. */
function jobHolds(state: State, job: number): boolean {
  const { model } = state;
  for (const a of model.jobs[job]!.activities) {
    const { ins, outs } = model.activities[a]!;
    for (const lag of [...ins, ...outs]) {
      if (!state.isPlaced(lag.from) || !state.isPlaced(lag.to)) continue;
      const gap = state.start[lag.to]! - state.end(lag.from);
      const settled = model.progress!.settled[lag.from] && model.progress!.settled[lag.to];
      if (!settled && (gap < lag.low || gap > lag.high)) return false;
    }
    const mode = state.modeOf(a);
    if (mode.range !== null && (state.minutes[a]! < mode.range.low || state.minutes[a]! > mode.range.high))
      return false;
    if (mode.machine < 0) continue;
    const machine = model.machines[mode.machine]!;
    if (!heatsHold(state, mode.machine)) return false;
    if (!machine.fits(standingOn(state, mode.machine))) return false;
  }
  return custodiesHold(state, null);
}

const heatsHold = (state: State, machine: number): boolean =>
  transitionsHold(state.model.machines[machine]!, blocksOf(state, machine), sinceOf(state, machine));

/** What is being held goes on, and what was to be held is, where that pays; what is over by now may be held from now on. */
function keepStored({ problem, model, kit }: Compiled, { dishes }: Left, plan: PlanAsRead, state: State): void {
  const progress = model.progress!;
  const later: number[] = [];
  for (const { id, storage, activities, group } of model.jobs) {
    if (storage === null || !state.jobIsPlaced(id)) continue;
    const known = plan.holds.get(dishes[id]!);
    // It was ready later than planned, perhaps.
    const start = Math.max(known?.start ?? 0, ...activities.map((a) => state.end(a)));
    if (known !== undefined && start < progress.now && activities.every((a) => progress.settled[a]! !== null)) {
      const { row } = known;
      const mode = storage.modes.findIndex((each) => {
        const appliance = problem.kitchen.appliances[kit.applianceOf[each.machine]!]!;
        const pan = each.vessel < 0 ? null : problem.kitchen.pans[each.vessel - kit.panOf(0)]!.name;
        return (
          appliance.name === row.appliance &&
          pan === row.pan &&
          programOf(each.machine, each.settings[0]!.state) === row.mode
        );
      });
      const setting =
        mode < 0
          ? -1
          : storage.modes[mode]!.settings.findIndex(
              ({ state: s }) => levelOf(storage.modes[mode]!.machine, s) === row.celsius,
            );
      const most = state.landing(group) - start;
      if (setting >= 0 && most > 0 && progress.ready[storage.modes[mode]!.machine]![0]! <= model.horizon) {
        state.store.mode[id] = mode;
        state.store.setting[id] = setting;
        state.store.start[id] = start;
        state.store.minutes[id] = most;
        (progress.stored as Uint8Array)[id] = 1;
        // Where its appliance is to be at another heat by then, it is taken out before.
        const { machine } = storage.modes[mode]!;
        while (state.store.minutes[id]! > 1 && !heatsHold(state, machine)) state.store.minutes[id]!--;
        continue;
      }
    }
    later.push(id);
  }
  // What is in a warm place already has it before what is to come.
  for (const id of later) storeJob(model, state, new MachineView(model, state), id);
  function levelOf(machine: number, s: number): number {
    return model.machines[machine]!.states[s]!.level;
  }
  function programOf(machine: number, s: number): string {
    const appliance = problem.kitchen.appliances[kit.applianceOf[machine]!]!;
    return appliance.modes[model.machines[machine]!.states[s]!.program]!.name;
  }
}
