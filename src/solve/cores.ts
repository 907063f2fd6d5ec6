/** What the pieces of a finished plan do: where each is pulled, how far it rises, and within which minutes it is done. Minutes, °C. */
import { answersKept } from '../heat/answered.js';
import { aroundHold, aroundStep } from '../heat/around.js';
import type { Joint } from '../heat/joint.js';
import { jointOf } from '../heat/piece-joint.js';
import { type Answer, historyOf } from '../heat/roast.js';
import { slowCourse } from '../heat/slow.js';
import { endingAt, knownOf, leastOf, legsOf, restUntil, type Stay, wayThrough, wayUncut } from '../heat/way.js';
import { HEAT_WORKS, type Option, type Problem } from '../problem/problem.js';
import { restAfter } from '../problem/rests.js';
import type { Curves, DishCurve } from '../safety/curve.js';

/** A step as the plan does it. */
export interface Taken {
  readonly option: Option;
  /** Null outside heat runs. */
  readonly celsius: number | null;
  readonly start: number;
  readonly end: number;
}

/** A dish in its hold. */
export interface Held {
  readonly celsius: number;
  readonly start: number;
  readonly end: number;
}

export interface Timed {
  /** By step id. */
  readonly taken: readonly Taken[];
  /** By dish. */
  readonly holds: ReadonlyMap<number, Held>;
  /** By dish: when it lands, or the last minute at which a component may be ready for all that use it. */
  readonly lands: readonly number[];
}

/** Of one step whose minutes came from the heat model. */
export interface Pull {
  /** °C on the thermometer. */
  readonly celsius: number;
  /** When it may be there at the earliest and at the latest. */
  readonly from: number;
  readonly to: number;
  /** Minutes on the heat until then, not rounded. */
  readonly minutes: Answer['minutes'];
  /** Minutes by which the dish is late if it is there at the latest, though all that can give way does. */
  readonly late: number;
}

export interface DishCore {
  /** When it is pulled, °C. */
  readonly pull: number;
  /** The highest until it is cut or lands, °C. */
  readonly peak: number;
  readonly peakAt: number;
  /** When it is cut or lands, °C; null where it is not known that far. */
  readonly atServe: number | null;
}

export interface Predictions {
  /** By step id. */
  readonly pulls: ReadonlyMap<number, Pull>;
  /** By dish. */
  readonly cores: ReadonlyMap<number, DishCore>;
  readonly curves: Curves;
}

/** Reckoned anew from what the plan does with each piece: its waits, its temperature, its rest. */
export function predictionsOf(problem: Problem, timed: Timed): Predictions {
  const pulls = new Map<number, Pull>();
  const cores = new Map<number, DishCore>();
  const curves = new Map<number, DishCurve>();
  for (const [at, dish] of problem.dishes.entries()) {
    const last = dish.steps.findLast((id) => timed.taken[id]!.option.forecasts !== null);
    const joint = jointOf(dish);
    if (last === undefined || 'say' in joint) continue;
    const way = wayThrough(problem.steps, last);
    let stays = staysOf(problem, timed, way);
    const asked = new Map<number, number>();
    for (const [k, id] of way.entries()) {
      const answer = answerFor(problem, timed, joint, way, stays, k);
      if (answer === null) continue;
      const { option, start, end } = timed.taken[id]!;
      const { low, likely, high } = answer.minutes;
      // The plan has whole minutes from a table, which are a little off what the piece does in it.
      const [from, to] = [Math.min(end, start + Math.floor(low)), Math.max(end, start + Math.ceil(high))];
      // A core that is there before its step, by a longer wait in the plan, is pulled at once.
      const celsius = option.atPeak ? Math.min(answer.pull, option.core!) : option.core!;
      const late = (minute: number): number => lateness(problem, timed, way.slice(k), minute);
      // Where the meal is under way, what has happened may have made it late already.
      pulls.set(id, { celsius, from, to, minutes: answer.minutes, late: late(to) - late(end) });
      asked.set(k, celsius);
      // The thermometer decides, not the clock.
      stays = endingAt(stays, k, start + likely);
    }
    const pull = pulls.get(last);
    if (pull === undefined) continue;
    const uncut = stays.slice(0, wayUncut(problem.steps, way).length);
    const held = timed.holds.get(at);
    if (held !== undefined && uncut.length === stays.length) {
      uncut.push({ start: held.start, end: held.end, around: aroundHold(held.celsius), least: null });
    }
    const known = knownOf(uncut);
    const planned = uncut[known.length]?.start ?? stays[uncut.length]?.start ?? timed.lands[at]!;
    // A roast that takes a little longer than was planned keeps its rest.
    const until = Math.max(planned, known.at(-1)!.end);
    const { minutes, core } = historyOf(joint, legsOf(problem.kitchen, known, until)!);
    const clock = minutes.map((minute) => stays[0]!.start + minute);
    const whole = known.length === uncut.length;
    cores.set(at, coreOf(clock, core, pull.celsius, stays[way.indexOf(last)]!.end, whole));
    const heats = dish.steps.filter((id) => HEAT_WORKS.has(problem.steps[id]!.work));
    const zero = Math.min(...heats.map((id) => timed.taken[id]!.start));
    const slow = slowCourse(problem.kitchen, joint, known, asked, until);
    const since = slow.minutes.map((minute) => stays[0]!.start + minute - zero);
    curves.set(at, { minutes: since, celsius: slow.core, surface: slow.surface });
  }
  return { pulls, cores, curves };
}

function staysOf({ kitchen, steps }: Problem, { taken }: Timed, way: readonly number[]): Stay[] {
  return way.map((id, k) => {
    const { option, celsius, start, end } = taken[id]!;
    const { work } = steps[id]!;
    const around = aroundStep(kitchen, work, option, celsius, isCooked(steps, way, k));
    return { start, end, around, least: leastOf(work, option.duration, end - start) };
  });
}

/** Whether a step before the `k`th of the way is on the heat. */
const isCooked = (steps: Problem['steps'], way: readonly number[], k: number): boolean =>
  way.slice(0, k).some((id) => HEAT_WORKS.has(steps[id]!.work));

/** Minutes by which the end by the thermometer may be off the planned one before the rest that is left then is looked at again. */
const NEAR = 0.5;
const LOOKS = 3;

/** What the heat model says of the `k`th step of a way where it stands in the plan; null where it has no answer there. */
function answerFor(
  { kitchen, steps }: Problem,
  { taken, lands }: Timed,
  joint: Joint,
  way: readonly number[],
  stays: readonly Stay[],
  k: number,
): Answer | null {
  const { option, celsius, start, end } = taken[way[k]!]!;
  const heat = stays[k]!.around;
  const before = legsOf(kitchen, stays.slice(0, k), start);
  if (option.forecasts === null || heat === null || before === null || option.core === null) return null;
  const at = way.indexOf(restAfter(steps, way[k]!) ?? -1);
  const rest = stays[at];
  const until = rest ? restUntil(rest, stays[at + 1]?.start ?? lands[steps[way[k]!]!.dish]!) : end;
  const moving = rest ? rest.start - end : 0;
  const ask = (pulled: number): Answer | undefined =>
    answersKept({
      joint,
      before,
      heat: () => heat,
      celsius: [celsius ?? 0],
      goal: option.atPeak ? { target: option.core! } : { core: option.core! },
      moving,
      rest: rest?.around ? { around: rest.around, minutes: Math.max(rest.least ?? 0, until - pulled - moving) } : null,
    })[0];
  let pulled = end;
  for (let look = 1; ; look++) {
    const answer = ask(pulled);
    if (answer === undefined || !Number.isFinite(answer.minutes.high)) return null;
    const then = start + answer.minutes.likely;
    // Pulled earlier or later than planned, it rests longer or shorter; only a target minds.
    if (!option.atPeak || look === LOOKS || Math.abs(then - pulled) < NEAR) return answer;
    pulled = then;
  }
}

/**
 * Minutes by which a dish lands late if the first step of a way ends at a minute and not as planned: what follows begins as early as
 * its gap lets it, and a rest whose length is free is as short as it may be.
 */
function lateness({ steps }: Problem, { taken, lands }: Timed, way: readonly number[], end: number): number {
  let now = end;
  for (const [k, id] of way.entries()) {
    if (k === 0) continue;
    const { option, start, end: planned } = taken[id]!;
    const gap = steps[id]!.after.find(({ step }) => step === way[k - 1])?.gap.low ?? 0;
    const least = option.duration.kind === 'range' ? option.duration.low : planned - start;
    now = Math.max(planned, Math.max(start, now + gap) + least);
  }
  const dish = steps[way[0]!]!.dish;
  return Math.max(0, now - lands[dish]!);
}

/** `whole`: the history goes on until it is cut or lands. */
function coreOf(clock: Float64Array, celsius: Float64Array, pull: number, pulledAt: number, whole: boolean): DishCore {
  // Sums of minutes are a little off in their last digits.
  const off = clock.findIndex((minute) => minute >= pulledAt - 1e-6);
  let peak = off < 0 ? clock.length - 1 : off;
  for (let k = peak; k < clock.length; k++) if (celsius[k]! > celsius[peak]!) peak = k;
  // The question may have been answered a little less closely than the history is reckoned.
  return { pull, peak: Math.max(pull, celsius[peak]!), peakAt: clock[peak]!, atServe: whole ? celsius.at(-1)! : null };
}
