/**
 * A kitchen to practise in: food takes the minutes of one random evening, helpers do what their calls say when they can, and a thermometer
 * shows the cores that belong to those minutes. Whoever practises does the rest. It knows the day only as the journal tells it, and
 * answers with entries. Minutes after `start`, °C.
 */
import { normalQuantile } from '../../chance/draws.js';
import { Rng } from '../../kernel/rng.js';
import { minuteAt, stepKey } from '../../problem/hours.js';
import type { Problem } from '../../problem/problem.js';
import { type Day, plannedSteps } from '../journal/day.js';
import type { Body } from '../journal/entries.js';
import { coresNow, optionOf } from '../readings/core-now.js';
import type { Call } from '../state/calls.js';
import { marksOf } from '../state/marks.js';
import type { State } from '../state/state.js';
import { pacesOf, realMinutes } from './evening.js';

/** What happens by itself, by whom it is said. */
export interface Played {
  readonly who: string | null;
  readonly bodies: readonly Body[];
}

/** Minutes after its time that a helper comes to a call, at most. */
const SLOWEST = 2;
/** A thermometer's error, K (standard deviation). */
const NOISE = 0.7;

export class Rehearsal {
  private readonly paces = new Map<Problem, readonly number[]>();

  /**
   * @param evening the same number is the same evening.
   * @param who the name of the cook who practises; null: nobody, the kitchen does it all.
   */
  constructor(
    private readonly evening: number,
    private readonly who: string | null,
  ) {}

  /** The next thing that happens by now; null where nothing does. To be asked again when that is noted. */
  next(day: Day, { now, calls, steps }: Pick<State, 'now' | 'calls' | 'steps'>): Played | null {
    for (const { id, standing, row } of steps) {
      if (standing !== 'under way' || this.isOwn(row?.hands.map(({ cook }) => cook) ?? [])) continue;
      if (this.endOf(day, id) <= now)
        return { who: row?.hands.at(-1)?.cook ?? null, bodies: [{ kind: 'done', step: stepKey(day.problem, id) }] };
    }
    const due = calls.find(
      (call) => this.isPlayed(call) && call.at + this.delayOf(call) <= now && this.canBe(day, call, now),
    );
    return due === undefined ? null : { who: due.row.cook, bodies: marksOf(day, due) };
  }

  /** When a step under way is really done, whoever says so; a rest or another free length ends as planned. */
  endOf(day: Day, id: number): number {
    const { problem } = day;
    const { start, celsius, place } = day.steps.get(id)!;
    const row = plannedSteps(day).get(id) ?? null;
    const option = optionOf(problem, id, row, place);
    const minutes = option && realMinutes(option, celsius ?? row?.celsius ?? null, this.pacesFor(problem)[id]!);
    if (minutes !== null) return start + minutes;
    return Math.max(start + 1, row === null ? 0 : minuteAt(problem, row.end));
  }

  /** Steps under way that are done by the look of them. */
  looksDone(day: Day, now: number): ReadonlySet<number> {
    return new Set([...day.steps].flatMap(([id, { end }]) => (end === null && this.endOf(day, id) <= now ? [id] : [])));
  }

  /** What a thermometer shows in a step's piece; null where there is none. A piece that takes longer is behind on the same way. */
  thermometer(day: Day, id: number, now: number): number | null {
    const unread = { ...day, readings: [] };
    const { dish } = day.problem.steps[id]!;
    const expected = coresNow(unread, now).find((core) => core.dish === dish);
    if (expected === undefined) return null;
    const fact = day.steps.get(id)!;
    const likely = expected.pull === null ? null : expected.pull.at.likely - fact.start;
    const pace = likely === null || !(likely > 0) ? 1 : likely / Math.max(1, this.endOf(day, id) - fact.start);
    const core = coresNow(unread, Math.max(fact.start, Math.round(fact.start + (now - fact.start) * pace)));
    const celsius = core.find((one) => one.dish === dish)?.now.likely ?? expected.now.likely;
    const error = NOISE * normalQuantile(0.02 + 0.96 * new Rng(this.evening ^ Math.imul(now + 1, 0x9e3779b1)).real());
    return Math.round(celsius + error);
  }

  private isOwn(cooks: readonly string[]): boolean {
    return this.who !== null && (cooks.length === 0 || cooks.includes(this.who));
  }

  private isPlayed({ row }: Call): boolean {
    return this.who === null || (row.cook !== null && row.cook !== this.who);
  }

  private delayOf({ key }: Call): number {
    let hash = this.evening;
    for (const char of key) hash = Math.imul(hash ^ char.codePointAt(0)!, 0x01000193);
    return new Rng(hash).below(SLOWEST + 1);
  }

  /** What has to be over is over, and its cook is free. */
  private canBe(day: Day, { kind, step, row }: Call, now: number): boolean {
    if (step === null) return true;
    const { problem, steps } = day;
    const isOver = (id: number): boolean => {
      const fact = steps.get(id);
      return fact !== undefined && (fact.end ?? this.endOf(day, id)) <= now;
    };
    if (kind === 'end' || kind === 'off') return steps.get(step)?.end === null && isOver(step);
    if (kind === 'serve')
      return lastSteps(problem, problem.dishes[problem.steps[step]!.dish]!.course, day).every(isOver);
    if (kind !== 'start') return true;
    return problem.steps[step]!.after.every((link) => isOver(link.step)) && !this.isBusy(day, row.cook, step, now);
  }

  /** Somebody whose hands are on another step all the while does not leave it. */
  private isBusy(day: Day, cook: string | null, id: number, now: number): boolean {
    if (cook === null) return false;
    const rows = plannedSteps(day);
    return [...day.steps].some(([other, { start, end }]) => {
      if (other === id || end !== null || start > now || this.endOf(day, other) <= now) return false;
      const row = rows.get(other);
      return row?.hands.some((hand) => hand.cook === cook && hand.start === row.start && hand.end === row.end) ?? false;
    });
  }

  private pacesFor(problem: Problem): readonly number[] {
    const known = this.paces.get(problem) ?? pacesOf(problem, this.evening);
    this.paces.set(problem, known);
    return known;
  }
}

/** Those of a course's dishes that nothing of theirs comes after. */
function lastSteps(problem: Problem, course: number | null, { dropped }: Day): number[] {
  return problem.dishes.flatMap((dish, d) => {
    if (dish.course !== course || !dish.served || dropped.has(d)) return [];
    const before = new Set(dish.steps.flatMap((id) => problem.steps[id]!.after.map(({ step }) => step)));
    return dish.steps.filter((id) => !before.has(id));
  });
}
