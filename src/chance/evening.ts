/**
 * What must have come before what, in a schedule whose order, places, pans and hands are kept: a graph of moments, from which the
 * times of an evening follow once every step's minutes are known. Minutes.
 *
 * Nothing begins before it is planned, save what lies without hands, place or pan: that begins when what is before it is over. A step
 * that a late one holds up begins as soon as it can. Free lengths give way down to their least; a hold gives way altogether.
 */
import { stretchesOf } from '../kernel/model.js';
import type { State } from '../kernel/state.js';
import type { Compiled } from '../solve/compile.js';
import { orderRows } from '../solve/order-rows.js';
import { type SkeletonRun, type Timetable, timingRuns } from '../solve/timetable.js';
import { mealRows } from '../solve/timing-rows.js';

/** Minutes that hang on an activity's own minutes D. */
export interface Term {
  readonly activity: number;
  /** `till`: D - less, 0 at least. `look`: the same, `most` at most. */
  readonly kind: 'till' | 'look';
  readonly less: number;
  readonly most: number;
}

export interface Arc {
  readonly from: number;
  readonly to: number;
  /** `to` comes at least so many minutes after `from`: a number, or a term of the activity's minutes. */
  readonly low: number | Term;
  /** Where given, it holds only when it would have `to` later than this minute. */
  readonly beyond?: number;
}

/** Food that waits, from when its step is done (which is before its end where nobody is free to end it) to another moment. */
export interface Wait {
  readonly activity: number;
  readonly from: number;
  /** Minutes after `from` at which it is done. */
  readonly after: number | Term;
  readonly until: number;
  /** The longest that it may. */
  readonly most: number;
}

/** A moment of a schedule, said to any timetable. */
type Said = <M>(table: Timetable<M>) => M;

export class Evening implements Timetable<number> {
  readonly runs: readonly SkeletonRun[];
  readonly lengths: Int32Array;
  readonly hands: readonly (readonly number[])[];
  readonly arcs: Arc[] = [];
  readonly waits: Wait[] = [];
  /** Each moment's earliest minute, by plan; -Infinity where it only follows others. */
  readonly floors: number[] = [];
  readonly said: Said[] = [];
  readonly zero: number;
  readonly first: number;
  private readonly keys = new Map<string, number>();
  private readonly owner: number[] = [];
  private readonly stored = new Set<number>();
  /** Moments at which somebody comes to end a step, with their planned minutes. */
  private readonly takings = new Map<number, number>();

  /** `likely`: minutes and hands that the steps are planned with, where they are not those of the state that gives the order. */
  constructor(
    readonly compiled: Compiled,
    readonly state: State,
    likely: Pick<Timetable<number>, 'lengths' | 'hands'> = { lengths: state.minutes, hands: state.hands },
  ) {
    this.runs = timingRuns(state);
    this.lengths = likely.lengths;
    this.hands = likely.hands;
    this.zero = this.moment('zero', 0, -1, (t) => t.zero);
    this.first = this.moment('first', Number.NEGATIVE_INFINITY, -1, (t) => t.first);
    mealRows(this);
    orderRows(this);
    this.keepRows();
  }

  private moment(key: string, floor: number, owner: number, said: Said): number {
    const known = this.keys.get(key);
    if (known !== undefined) return known;
    const node = this.floors.push(floor) - 1;
    this.keys.set(key, node);
    this.owner.push(owner);
    this.said.push(said);
    return node;
  }

  /** The activity that a moment belongs to; -1 for others. */
  ownerOf(node: number): number {
    return this.owner[node]!;
  }

  /** Moments that may come at other times when these activities take other minutes. */
  movedBy(activities: ReadonlySet<number>): number[] {
    const nexts: number[][] = this.floors.map(() => []);
    const moved = new Set<number>();
    for (const { from, to, low } of this.arcs) {
      nexts[from]!.push(to);
      if (typeof low !== 'number' && activities.has(low.activity)) moved.add(to);
    }
    for (const node of moved) for (const next of nexts[node]!) moved.add(next);
    return [...moved];
  }

  private has = (key: string): boolean => this.keys.has(key);

  private arc(from: number, to: number, low: number | Term): void {
    this.arcs.push({ from, to, low });
  }

  /** Its minutes less `less`: from the plan where they are free, else as they come. */
  private till(a: number, less: number): number | Term {
    const { range } = this.state.modeOf(a);
    return range === null ? { activity: a, kind: 'till', less, most: Number.POSITIVE_INFINITY } : range.low - less;
  }

  /** Whether nothing but what is before it says when it begins: it is planned to begin at once, and takes nobody and nothing. */
  private isLoose(a: number): boolean {
    const { transparent, attention } = this.state.modeOf(a);
    const { ins } = this.compiled.model.activities[a]!;
    const soonest = Math.max(...ins.map(({ from, low }) => this.state.end(from) + low));
    return transparent && attention.crew === 0 && soonest === this.state.start[a];
  }

  private wait(a: number, until: number, most: number): void {
    const free = this.state.modeOf(a).range !== null;
    const done = free ? { from: this.end(a), after: 0 } : { from: this.start(a), after: this.till(a, 0) };
    this.waits.push({ activity: a, ...done, until, most });
  }

  start(a: number, offset = 0): number {
    const floor = this.isLoose(a) ? Number.NEGATIVE_INFINITY : this.state.start[a]!;
    const start = this.moment(`start ${a}`, floor, a, (t) => t.start(a));
    return offset === 0 ? start : this.within(a, start, offset);
  }

  /** A look begins so many minutes after the start, or when its cook is free; where the step is over before, it falls away. */
  private within(a: number, start: number, offset: number): number {
    const key = `start ${a} ${offset}`;
    if (this.has(key)) return this.keys.get(key)!;
    const { attention } = this.state.modeOf(a);
    const flat = stretchesOf(attention, this.lengths[a]!);
    const k = flat.findIndex((at, i) => i % 2 === 0 && at + flat[i + 1]! === offset);
    const node = this.moment(key, Number.NEGATIVE_INFINITY, a, (t) => t.start(a, offset));
    const free = this.state.modeOf(a).range !== null;
    const upTo = (from: number, less: number, most: number): void =>
      this.arc(from, node, free ? most : { activity: a, kind: 'look', less, most });
    if (k < 0) upTo(start, attention.end, offset);
    else upTo(this.start(a, flat[k]!), attention.end + flat[k]!, flat[k + 1]!);
    return node;
  }

  end(a: number, offset = 0): number {
    const start = this.start(a);
    const free = this.state.modeOf(a).range !== null;
    const floor = (at: number): number => (free ? this.state.end(a) + at : Number.NEGATIVE_INFINITY);
    const known = this.has(`end ${a}`);
    const end = this.moment(`end ${a}`, floor(0), a, (t) => t.end(a));
    if (!known) {
      this.arc(start, end, this.till(a, 0));
      if (free)
        this.waits.push({ activity: a, from: start, after: 0, until: end, most: this.state.modeOf(a).range!.high });
    }
    if (offset === 0) return end;
    const key = `end ${a} ${offset}`;
    if (this.has(key)) return this.keys.get(key)!;
    const last = this.moment(key, floor(offset), a, (t) => t.end(a, offset));
    this.arc(start, last, this.till(a, -offset));
    this.arc(last, end, -offset);
    this.takings.set(last, this.state.end(a) + offset);
    return last;
  }

  landing(group: number): number {
    const { due } = this.compiled.model.groups[group]!;
    return this.moment(`landing ${group}`, due, -1, (t) => t.landing(group));
  }

  storeStart(job: number): number {
    const node = this.moment(`store ${job}`, this.state.store.start[job]!, -1, (t) => t.storeStart(job));
    this.stored.add(node);
    return node;
  }

  storeEnd(job: number): number {
    const { start, minutes } = this.state.store;
    const node = this.moment(`stored ${job}`, start[job]! + minutes[job]!, -1, (t) => t.storeEnd(job));
    this.stored.add(node);
    return node;
  }

  begin(run: number): number {
    return this.moment(`begin ${run}`, Number.NEGATIVE_INFINITY, -1, (t) => t.begin(run));
  }

  finish(run: number): number {
    return this.moment(`finish ${run}`, Number.NEGATIVE_INFINITY, -1, (t) => t.finish(run));
  }

  apart(earlier: number, later: number, low: number, high = Number.POSITIVE_INFINITY): void {
    // What the plan's own times say already, and the ends of days and hours, which a late evening overruns.
    if ([earlier, later].some((moment) => moment === this.zero || moment === this.first)) return;
    // What holds of a step by itself is said where its end is.
    if (earlier === later || (this.owner[earlier]! >= 0 && this.owner[earlier] === this.owner[later])) return;
    const taken = this.takings.get(later);
    const least = this.stored.has(earlier) || this.stored.has(later) ? 0 : low;
    // For what is done early somebody breaks off; what is late waits its turn.
    this.arcs.push({ from: earlier, to: later, low: least, ...(taken !== undefined && { beyond: taken }) });
    const a = this.owner[earlier]!;
    if (high < Number.POSITIVE_INFINITY && a >= 0 && !this.stored.has(later)) {
      this.wait(a, later, high);
    }
  }

  inTurn(_one: number, _two: number, earlier: number, later: number): void {
    this.arc(earlier, later, 0);
  }

  charge(): void {}

  hinge(): void {}

  change(before: number, from: number, r: number, to: number): void {
    if (before < 0) return;
    const run = this.runs[r]!;
    const { transition, states } = this.compiled.model.machines[run.machine]!;
    this.arc(from, to, transition[this.runs[before]!.state * (states.length + 1) + run.state]!);
  }

  /** How long a dish keeps until it lands, in its hold or not; what the plan has beyond that is the plan's own matter. */
  private keepRows(): void {
    const { model } = this.compiled;
    for (const job of model.jobs) {
      if (job.group < 0) continue;
      const most = job.keeps + (this.state.store.mode[job.id]! < 0 ? 0 : job.storage!.keeps);
      if (most === Number.POSITIVE_INFINITY) continue;
      for (const a of job.activities) {
        if (!model.activities[a]!.sink) continue;
        const planned = this.state.landing(job.group) - this.state.end(a);
        this.wait(a, this.landing(job.group), Math.max(most, planned));
      }
    }
  }
}

/** Minutes of an arc when its activity takes `minutes`. */
export function minutesOf({ kind, less, most }: Term, minutes: number): number {
  const left = Math.max(0, minutes - less);
  return kind === 'look' ? Math.min(left, most) : left;
}
