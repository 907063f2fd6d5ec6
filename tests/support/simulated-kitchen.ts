/**
 * A simulated kitchen: carries out a plan minute by minute as an evening happens to go. Its cooks do what
 * the plan says as soon as it says so and can be done; they do not think ahead. What a cook who has left was to begin is begun by
 * whoever can and is free.
 */

import { goesBeside, type Stood } from '../../src/kitchen/beside.js';
import { shelvesOf } from '../../src/kitchen/surface-of.js';
import type { Begun, Happened, Loss } from '../../src/live/happened.js';
import { realMinutes } from '../../src/live/rehearsal/evening.js';
import type { Doing, PlanAsRead } from '../../src/live/reshuffle/doing.js';
import { isAble } from '../../src/problem/able.js';
import type { Problem } from '../../src/problem/problem.js';
import type { Mishap } from './mishaps.js';

export interface Evening {
  /** By step: deviations from its likely minutes. */
  readonly paces: readonly number[];
  /** In order of time. */
  readonly mishaps: readonly Mishap[];
}

export type Told =
  | { readonly kind: 'started' | 'done'; readonly at: number; readonly step: number; readonly planned: number }
  | Mishap;

interface UnderWay {
  readonly doing: Doing;
  /** Who began it, where that is not who was to. */
  readonly instead: number | null;
  /** Null: when the plan says. */
  until: number | null;
}

export class SimulatedKitchen {
  private readonly begun = new Map<number, Begun>();
  private readonly underWay = new Map<number, UnderWay>();
  /** By step that had to move: the share of it that was done before. */
  private readonly shares = new Map<number, number>();
  private losses: Loss[] = [];
  private readonly gone = new Map<number, number>();
  private readonly dropped = new Set<number>();
  private serve: number;
  private told = 0;

  /** @param inOrder nobody and nothing is used before what was to have it first by the plan has begun. */
  constructor(
    private readonly problem: Problem,
    private readonly evening: Evening,
    private readonly inOrder: boolean,
  ) {
    this.serve = problem.serve;
  }

  /** What everybody in the kitchen knows at a minute. */
  happened(now: number): Happened {
    return {
      now,
      steps: new Map(this.begun),
      readings: [],
      serve: this.serve,
      losses: [...this.losses],
      gone: new Map(this.gone),
      dropped: new Set(this.dropped),
    };
  }

  /** Dishes that are given up. */
  drop(dishes: Iterable<number>): void {
    for (const dish of dishes) this.dropped.add(dish);
  }

  /** When what is under way really ends, as the food itself knows; null where that is the cook's choice. */
  truth(step: number): number | null {
    return this.underWay.get(step)?.until ?? null;
  }

  /** What happens at a minute, by the plan in force. Minutes come one after the other. */
  minute(plan: PlanAsRead, now: number): Told[] {
    const out: Told[] = [];
    while (this.told < this.evening.mishaps.length && this.evening.mishaps[this.told]!.at <= now) {
      const mishap = this.evening.mishaps[this.told++]!;
      this.suffer(mishap, now);
      out.push(mishap);
    }
    for (const [step, { doing, until }] of [...this.underWay]) {
      // What a new plan has made of its end counts, where that is the cook's choice.
      const planned = plan.steps[step]!.at(-1)?.end ?? doing.end;
      if ((until ?? planned) > now) continue;
      this.underWay.delete(step);
      this.begun.set(step, { ...this.begun.get(step)!, end: now });
      out.push({ kind: 'done', at: now, step, planned });
    }
    const due = this.problem.steps.flatMap(({ id }) => {
      const doing = plan.steps[id]!.at(-1);
      return doing !== undefined && doing.start <= now && this.mayBegin(plan, id, doing, now) ? [{ id, doing }] : [];
    });
    for (const { id, doing } of due.sort((a, b) => a.doing.start - b.doing.start || a.id - b.id)) {
      const hands = this.handsFree(plan, id, doing, now);
      if (hands === null || !this.isFree(plan, id, doing, now)) continue;
      const minutes = realMinutes(doing.option, doing.celsius, this.evening.paces[id]!);
      const left = 1 - (this.shares.get(id) ?? 0);
      const until = minutes === null ? null : now + Math.max(1, Math.round(minutes * left));
      this.underWay.set(id, { doing, until, ...hands });
      if (this.begun.has(id)) continue;
      this.begun.set(id, { start: now, end: null });
      out.push({ kind: 'started', at: now, step: id, planned: doing.start });
    }
    return out;
  }

  /** Everything that is still to be served has been done. */
  isOver(): boolean {
    return this.problem.steps.every(
      ({ id, dish }) => this.dropped.has(dish) || (this.begun.has(id) && this.begun.get(id)!.end !== null),
    );
  }

  private suffer(mishap: Mishap, now: number): void {
    if (mishap.kind === 'serve') this.serve = mishap.serve;
    if (mishap.kind === 'gone') this.gone.set(mishap.cook, mishap.at);
    if (mishap.kind !== 'lost') return;
    this.losses.push(mishap.loss);
    for (const [step, { doing, until }] of [...this.underWay]) {
      if (!this.isLost(doing)) continue;
      const { start } = this.begun.get(step)!;
      const before = this.shares.get(step) ?? 0;
      const share = until === null ? 0.5 : (1 - before) * Math.min(1, (now - start) / Math.max(1, until - start));
      this.shares.set(step, Math.min(0.95, before + share));
      this.underWay.delete(step);
    }
  }

  private isLost({ option, burners }: Doing): boolean {
    const { place } = option;
    if (place.kind !== 'heated' && place.kind !== 'burner') return false;
    const { surface } = this.problem.kitchen.appliances[place.appliance]!;
    return this.losses.some(({ what }) => {
      if (!('appliance' in what) || what.appliance !== place.appliance) return false;
      if (what.kind === 'appliance') return true;
      return surface.kind === 'burners' && burners.includes(surface.burners[what.burner]!.name);
    });
  }

  /** Not under way nor done, wanted, its place not lost, and all before it done. */
  private mayBegin(plan: PlanAsRead, id: number, doing: Doing, now: number): boolean {
    const { dish, after } = this.problem.steps[id]!;
    const own = this.begun.get(id);
    if (this.underWay.has(id) || (own !== undefined && own.end !== null) || this.dropped.has(dish)) return false;
    if (this.isLost(doing) || (own !== undefined && plan.steps[id]!.length < 2)) return false;
    return after.every(({ step, gap }) => {
      const end = this.begun.get(step)?.end ?? null;
      return end !== null && end + gap.low <= now;
    });
  }

  /** Whether those who are to begin it can by now, or somebody in the place of who has left. */
  private handsFree(plan: PlanAsRead, id: number, doing: Doing, now: number): { instead: number | null } | null {
    const { problem, gone } = this;
    const { work } = problem.steps[id]!;
    const isGone = (cook: number): boolean => (gone.get(cook) ?? Number.POSITIVE_INFINITY) <= now;
    const isBusy = (cook: number): boolean =>
      [...this.underWay].some(([other, as]) => other !== id && this.holds(plan, other, as, cook, now));
    let instead: number | null = null;
    for (const { cook } of doing.hands.filter((hand) => hand.start === doing.start)) {
      if (!isGone(cook)) {
        if (isBusy(cook) || this.comesFirst(plan, id, doing, (row) => row.hands.some((hand) => hand.cook === cook)))
          return null;
        continue;
      }
      const able = [...problem.cooks.keys()].filter((c) =>
        isAble(problem.kitchen, problem.cooks[c]!, work, doing.option.place),
      );
      instead = able.find((c) => !isGone(c) && !isBusy(c)) ?? null;
      if (instead === null) return null;
    }
    return { instead };
  }

  /** Whether something under way has a cook's hands at a minute: its stretches move with its beginning, the last with its end. */
  private holds(plan: PlanAsRead, id: number, { doing, until, instead }: UnderWay, cook: number, now: number): boolean {
    const row = plan.steps[id]!.at(-1) ?? doing;
    const by = this.begun.get(id)!.start - plan.steps[id]![0]!.start;
    const wanted = row.hands.filter((hand) => hand.cook === cook || (instead === cook && hand.start === row.start));
    if (doing.option.hands.all) return wanted.length > 0;
    return wanted.some(({ start, end }) => {
      const later = end === row.end && until !== null ? until - row.end : by;
      return start + later <= now && now < end + later;
    });
  }

  /** Where the plan's order is kept: whether something that has not begun comes before a step and has to do with it. */
  private comesFirst(plan: PlanAsRead, id: number, { start }: Doing, concerns: (row: Doing) => boolean): boolean {
    if (!this.inOrder) return false;
    return this.problem.steps.some(({ id: other, dish }) => {
      const row = plan.steps[other]!.at(-1);
      if (row === undefined || other === id || this.begun.has(other) || this.dropped.has(dish)) return false;
      return (row.start < start || (row.start === start && other < id)) && concerns(row);
    });
  }

  /** Whether its pans go beside what stands in the same appliance. */
  private fitsBeside(doing: Doing, id: number): boolean {
    const { place } = doing.option;
    if (place.kind !== 'heated') return true;
    const appliance = this.problem.kitchen.appliances[place.appliance]!;
    const stood = [...this.underWay].flatMap(([other, { doing: as }]) =>
      other !== id && as.option.place.kind === 'heated' && as.option.place.appliance === place.appliance
        ? standing(as)
        : [],
    );
    const shelves = shelvesOf(appliance, appliance.modes[place.mode]!);
    return standing(doing).every((one) => goesBeside(shelves, one, stood));
  }

  /** Nothing that should be over by now is still in its place, and the appliance has had its changeover. */
  private isFree(plan: PlanAsRead, id: number, doing: Doing, now: number): boolean {
    for (const [other, { doing: as }] of this.underWay) if (other !== id && meet(doing, as)) return false;
    if (this.comesFirst(plan, id, doing, (row) => meet(doing, row))) return false;
    if (!this.fitsBeside(doing, id)) return false;
    const { place } = doing.option;
    if (place.kind !== 'heated') return true;
    const run = plan.runs[place.appliance]!.find((each) => each.start <= doing.start && doing.start < each.end);
    if (run === undefined) return true;
    const before = this.problem.steps.flatMap((step) => {
      const row = plan.steps[step.id]!.at(-1);
      const end = this.begun.get(step.id)?.end ?? null;
      const other = row?.option.place;
      if (row === undefined || end === null || other?.kind !== 'heated' || other.appliance !== place.appliance)
        return [];
      return row.end <= run.start && row.celsius !== doing.celsius ? [end + run.changeover] : [];
    });
    return before.every((ready) => ready <= now);
  }
}

const standing = ({ option: { load }, spots }: Doing): Stood[] =>
  load === null ? [] : spots.map((fixed) => ({ ...load, start: 0, end: 1, fixed }));

/** Whether two cannot be on at once: the same burner or board, one appliance at two heats. */
function meet(one: Doing, two: Doing): boolean {
  const [a, b] = [one.option.place, two.option.place];
  if (a.kind === 'board' && b.kind === 'board') return one.board === two.board;
  if (a.kind === 'burner' && b.kind === 'burner')
    return a.appliance === b.appliance && one.burners.some((burner) => two.burners.includes(burner));
  if (a.kind !== 'heated' || b.kind !== 'heated' || a.appliance !== b.appliance) return false;
  return a.mode !== b.mode || one.celsius !== two.celsius;
}
