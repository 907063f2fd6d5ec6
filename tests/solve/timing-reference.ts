/**
 * The timing problem of a schedule written out anew, for comparison: which times and run temperatures cost least once order,
 * places, hands and runs are fixed. Rows and costs come from the scheduling model alone; a general solver does the rest.
 */
import { blocksOf, runsOf } from '../../src/kernel/blocks.js';
import { custodyEnd, releasesOf, tailOf } from '../../src/kernel/custody.js';
import { stretchesOf, transitionTime } from '../../src/kernel/model.js';
import { standingOn } from '../../src/kernel/standing.js';
import type { State } from '../../src/kernel/state.js';
import type { Compiled } from '../../src/solve/compile.js';
import { Program, Sum, type Variable } from '../referee/program.js';

const FOREVER = Number.POSITIVE_INFINITY;

/** A time of the schedule and minutes after it. */
export interface Moment {
  readonly of: 'zero' | 'first' | 'start' | 'end' | 'landing' | 'begin' | 'finish' | 'stored' | 'fetched';
  /** Of the activity, group, run or job. */
  readonly index: number;
  readonly offset: number;
}

export interface ReferenceRun {
  readonly machine: number;
  readonly state: number;
  readonly from: number;
  readonly to: number;
  /** By start. */
  readonly members: readonly number[];
  /** Jobs stored in it. */
  readonly stores: readonly number[];
}

/** Times of activities, and temperatures of runs, that some solver found. */
export interface Found {
  readonly start: ArrayLike<number>;
  readonly end: ArrayLike<number>;
  /** Of each job's storage, where it has one. */
  readonly stored: ArrayLike<number>;
  readonly fetched: ArrayLike<number>;
  readonly levels: readonly number[];
}

export interface Range {
  readonly low: number;
  readonly high: number;
}

const moment = (of: Moment['of'], index = 0, offset = 0): Moment => ({ of, index, offset });
const ZERO = moment('zero');
const FIRST = moment('first');

export class TimingReference {
  readonly runs: readonly ReferenceRun[];
  /** low <= later - earlier <= high. */
  readonly rows: { earlier: Moment; later: Moment; low: number; high: number }[] = [];
  /** rate x max(0, later - earlier - free); `free` of -Infinity: rate x (later - earlier). */
  readonly costs: { rate: number; earlier: Moment; later: Moment; free: number }[] = [];
  /** Points that no time moves. */
  private base = 0;

  /** `segments`: for each run the temperatures within which it may move, its minutes being linear there; null: none. */
  constructor(
    private readonly compiled: Compiled,
    private readonly state: State,
    private readonly segments: readonly (Range | null)[] | null,
  ) {
    this.runs = runsWithMembers(state);
    this.lags();
    this.landings();
    this.lengths();
    this.heats();
    this.day();
    this.workers();
    this.units();
    this.renewables();
  }

  private apart(earlier: Moment, later: Moment, low: number, high = FOREVER): void {
    this.rows.push({ earlier, later, low, high });
  }

  private pay(rate: number, earlier: Moment, later: Moment, free = Number.NEGATIVE_INFINITY): void {
    if (rate !== 0 && free < FOREVER) this.costs.push({ rate, earlier, later, free });
  }

  private lags(): void {
    for (const { from, to, low, high, rate } of this.compiled.model.lags) {
      this.apart(moment('end', from), moment('start', to), low, high);
      this.pay(rate, moment('end', from, low), moment('start', to));
    }
  }

  private landings(): void {
    const { model } = this.compiled;
    model.groups.forEach(({ due, jobs }, g) => {
      this.apart(moment('zero', 0, due), moment('landing', g), 0);
      this.pay(model.rates.late, moment('zero', 0, due), moment('landing', g));
      for (const job of jobs) {
        for (const a of model.jobs[job]!.activities) {
          this.apart(moment('end', a), moment('landing', g), 0);
          if (!model.activities[a]!.sink) continue;
          this.pay(model.jobs[job]!.rate, moment('end', a), moment('landing', g));
          if (this.state.store.mode[job]! >= 0) this.storage(job, a);
          else this.pay(model.rates.over, moment('end', a), moment('landing', g), model.jobs[job]!.keeps);
        }
      }
    });
  }

  /** In storage another rate holds; of the waits before and after it the shorter one (the first of two equal ones) is kept. */
  private storage(j: number, sink: number): void {
    const { model } = this.compiled;
    const job = model.jobs[j]!;
    const [ready, stored, fetched] = [moment('end', sink), moment('stored', j), moment('fetched', j)];
    const landing = moment('landing', job.group);
    const at = this.state.store.start[j]!;
    const before = at - this.state.end(sink);
    const behind = this.state.landing(job.group) - at - this.state.store.minutes[j]!;
    const early = before <= behind;
    this.apart(ready, stored, early ? before : 0, early ? before : FOREVER);
    this.apart(stored, fetched, 1);
    this.apart(fetched, landing, early ? 0 : behind, early ? FOREVER : behind);
    this.pay(job.storage!.rate - job.rate, stored, fetched);
    this.pay(model.rates.over, stored, fetched, job.storage!.keeps);
    if (early) this.pay(model.rates.over, fetched, landing, job.keeps - before);
    else this.pay(model.rates.over, ready, stored, job.keeps - behind);
  }

  private lengths(): void {
    for (const { id } of this.compiled.model.activities) {
      const mode = this.state.modeOf(id);
      const [start, end] = [moment('start', id), moment('end', id)];
      if (mode.range !== null) {
        this.apart(start, end, mode.range.low, mode.range.high);
        this.pay(mode.range.rate, start, end, mode.range.bestHigh);
        this.pay(mode.range.rate, moment('end', id, -mode.range.bestLow), start, 0);
      }
      const { low, high } = this.sameLooks(id);
      this.apart(start, end, low, high);
    }
  }

  /** The lengths with as many looks, and with room for hands at start and end, as now. */
  private sameLooks(a: number): Range {
    const { all, crew, start, end, every, look } = this.state.modeOf(a).attention;
    const now = this.state.minutes[a]!;
    if (all || crew === 0) return { low: 0, high: FOREVER };
    const looks = (minutes: number): number => {
      let count = 0;
      while (every > 0 && (count + 1) * every + look + end <= minutes) count++;
      return count;
    };
    let low = now;
    let high = now;
    while (low > Math.min(now, start + end) && looks(low - 1) === looks(now)) low--;
    while (every > 0 && looks(high + 1) === looks(now)) high++;
    return { low, high: every > 0 ? high : FOREVER };
  }

  private heats(): void {
    const { model } = this.compiled;
    this.runs.forEach((run, r) => {
      const machine = model.machines[run.machine]!;
      const together = standingOn(this.state, run.machine)
        .filter((load) => load.start >= run.from && load.end <= run.to)
        .map((load) => ({ ...load, start: 0, end: 1 }));
      const roomy = machine.fits(together);
      const on = [
        ...run.members.map((a) => ({
          id: a,
          from: moment('start', a),
          to: moment('end', a),
          at: this.state.start[a]!,
          until: this.state.end(a),
        })),
        ...run.stores.map((job) => {
          const at = this.state.store.start[job]!;
          const until = at + this.state.store.minutes[job]!;
          return { id: -1 - job, from: moment('stored', job), to: moment('fetched', job), at, until };
        }),
      ].sort((x, y) => x.at - y.at || x.id - y.id);
      let latest = on[0]!;
      for (const [i, one] of on.entries()) {
        this.apart(moment('begin', r), one.from, 0);
        this.apart(one.to, moment('finish', r), 0);
        if (i > 0) this.pay(machine.idleCost, latest.to, one.from, 0);
        if (one.until > latest.until) latest = one;
        if (roomy) continue;
        for (const two of on.slice(0, i)) if (two.until <= one.at) this.apart(two.to, one.from, 0);
      }
      if (this.segments !== null) return;
      const before = this.before(r);
      const wait = transitionTime(machine, before < 0 ? -1 : this.runs[before]!.state, run.state);
      this.apart(before < 0 ? ZERO : moment('finish', before), moment('begin', r), wait);
      if (before < 0) this.apart(FIRST, moment('begin', r), wait);
    });
  }

  /** The run before on the same machine; -1: none. */
  private before(r: number): number {
    return r > 0 && this.runs[r - 1]!.machine === this.runs[r]!.machine ? r - 1 : -1;
  }

  private day(): void {
    const { rates, serve, activities } = this.compiled.model;
    this.base += rates.day * serve;
    this.pay(-rates.day, ZERO, FIRST);
    this.apart(ZERO, FIRST, 0, serve);
    for (const { id } of activities) this.apart(FIRST, moment('start', id), 0);
  }

  private workers(): void {
    const { model } = this.compiled;
    model.workers.forEach(({ stays }, w) => {
      const own: { a: number; from: Moment; to: Moment; at: number }[] = [];
      for (const { id } of model.activities) {
        const { attention } = this.state.modeOf(id);
        const minutes = this.state.minutes[id]!;
        const flat = stretchesOf(attention, minutes);
        for (let k = 0; k < flat.length; k += 2) {
          const hands = this.state.hands[id]!.slice((k / 2) * attention.crew, (k / 2 + 1) * attention.crew);
          if (!hands.includes(w)) continue;
          const [offset, length] = [flat[k]!, flat[k + 1]!];
          const tied = attention.end > 0 && k + 2 === flat.length && offset + length === minutes;
          own.push({
            a: id,
            from: tied && !attention.all ? moment('end', id, -length) : moment('start', id, offset),
            to: tied || attention.all ? moment('end', id) : moment('start', id, offset + length),
            at: this.state.start[id]! + offset,
          });
        }
      }
      own.sort((x, y) => x.at - y.at || x.a - y.a);
      own.forEach(({ a, from, to, at }, i) => {
        const stay = stays.find((s) => s.from <= at && at < s.to)!;
        this.apart(ZERO, from, stay.from);
        if (stay.to < model.horizon) this.apart(to, moment('zero', 0, stay.to), 0);
        const next = own[i + 1];
        if (next !== undefined && next.a !== a) this.apart(to, next.from, 0);
      });
    });
  }

  private units(): void {
    const { state } = this;
    for (let unit = 0; unit < this.compiled.model.units; unit++) {
      const users = this.compiled.model.activities.map(({ id }) => id).filter((a) => state.units[a]!.includes(unit));
      users.sort((a, b) => state.start[a]! - state.start[b]! || state.end(a) - state.end(b) || a - b);
      for (const [i, b] of users.slice(1).entries()) this.apart(moment('end', users[i]!), moment('start', b), 0);
    }
  }

  /** Each unit of a renewable goes from hand to hand; a taker gets the one that has been free for the shortest time. */
  private renewables(): void {
    const { state } = this;
    const { model } = this.compiled;
    model.renewables.forEach(({ capacity }, r) => {
      const takers = model.activities
        .map(({ id }) => id)
        .filter((a) => {
          const mode = state.modeOf(a);
          return mode.bench === r || mode.vessel === r;
        });
      const until = (a: number): number => (state.modeOf(a).bench === r ? state.end(a) : custodyEnd(state, a));
      takers.sort((a, b) => state.start[a]! - state.start[b]! || until(a) - until(b) || a - b);
      const last: number[] = new Array<number>(capacity).fill(-1);
      for (const b of takers) {
        const mode = state.modeOf(b);
        for (let k = 0; k < (mode.bench === r ? 1 : mode.vessels); k++) {
          const free = last
            .map((a, unit) => ({ unit, at: a < 0 ? 0 : until(a) }))
            .filter(({ at }) => at <= state.start[b]!)
            .sort((x, y) => y.at - x.at || x.unit - y.unit)[0]!;
          const a = last[free.unit]!;
          if (a >= 0) this.handOver(a, b, r);
          last[free.unit] = b;
        }
      }
    });
  }

  private handOver(a: number, b: number, renewable: number): void {
    if (this.state.modeOf(a).bench === renewable) {
      this.apart(moment('end', a), moment('start', b), 0);
      return;
    }
    const releases = releasesOf(this.state, a);
    const tail = tailOf(this.state, a, releases);
    for (const release of releases) {
      if (release.kind === 'landing') this.apart(moment('landing', release.group), moment('start', b), tail);
      else this.apart(moment(release.kind, release.activity), moment('start', b), tail);
    }
  }

  /** Least points by a general solver; null where the rows leave no times. */
  async optimum(): Promise<number | null> {
    const { model, problem, kit } = this.compiled;
    const program = new Program();
    const { horizon } = model;
    const time = (): Variable => program.number(0, horizon);
    const starts = model.activities.map(time);
    const levels = this.runs.map((_, r) => {
      const segment = this.segments?.[r];
      return segment ? program.number(segment.low, segment.high) : null;
    });
    const levelOf = (r: number): Sum => {
      const level = levels[r];
      return typeof level === 'number'
        ? new Sum().add(level)
        : new Sum().addConstant(model.machines[this.runs[r]!.machine]!.states[this.runs[r]!.state]!.level);
    };
    const runOf = new Map(this.runs.flatMap((run, r) => run.members.map((a) => [a, r] as const)));
    const ends = model.activities.map(({ id }) => {
      const start = new Sum().add(starts[id]!);
      if (this.state.modeOf(id).range !== null) {
        const end = time();
        return new Sum().add(end);
      }
      const line = this.lineOf(id, runOf.get(id));
      if (line === null) return start.addConstant(this.state.minutes[id]!);
      return start.addSum(levelOf(runOf.get(id)!), line.slope).addConstant(line.constant);
    });
    const others = {
      landing: model.groups.map(time),
      begin: this.runs.map(time),
      finish: this.runs.map(time),
      first: [time()],
      stored: model.jobs.map(time),
      fetched: model.jobs.map(time),
    };
    const sumOf = ({ of, index, offset }: Moment): Sum => {
      const sum = new Sum().addConstant(offset);
      if (of === 'zero') return sum;
      if (of === 'end') return sum.addSum(ends[index]!);
      return sum.add(of === 'start' ? starts[index]! : others[of][index]!);
    };
    const rise = (earlier: Moment, later: Moment): Sum => sumOf(later).addSum(sumOf(earlier), -1);
    for (const { earlier, later, low, high } of this.rows) program.row(low, rise(earlier, later), high);
    for (const { rate, earlier, later, free } of this.costs) {
      if (free === Number.NEGATIVE_INFINITY) program.pay(rise(earlier, later), rate);
      else {
        const over = program.number(0, FOREVER);
        program.row(Number.NEGATIVE_INFINITY, rise(earlier, later).add(over, -1), free);
        program.pay(new Sum().add(over), rate);
      }
    }
    if (this.segments !== null) {
      this.runs.forEach((run, r) => {
        const before = this.before(r);
        const { heats, cools } = problem.kitchen.appliances[kit.applianceOf[run.machine]!]!;
        const free = levels[r] !== null || (before >= 0 && levels[before] !== null);
        const from = before < 0 ? [ZERO, FIRST] : [moment('finish', before)];
        for (const earlier of from) {
          const gap = rise(earlier, moment('begin', r));
          const wait = transitionTime(
            model.machines[run.machine]!,
            before < 0 ? -1 : this.runs[before]!.state,
            run.state,
          );
          program.row(free ? 0 : wait, gap, FOREVER);
          if (!free) continue;
          const change = levelOf(r).addSum(
            before < 0 ? new Sum().addConstant(problem.kitchen.room) : levelOf(before),
            -1,
          );
          program.row(0, rise(earlier, moment('begin', r)).addSum(change, -1 / heats), FOREVER);
          program.row(0, rise(earlier, moment('begin', r)).addSum(change, 1 / cools), FOREVER);
        }
      });
      for (const [a, r] of runOf) {
        const { ideal } = problem.steps[a]!.options[this.state.mode[a]!]!;
        if (levels[r] === null || ideal === null) continue;
        const off = program.number(0, FOREVER);
        program.row(0, new Sum().add(off).addSum(levelOf(r)).addConstant(-ideal), FOREVER);
        program.row(0, new Sum().add(off).addSum(levelOf(r), -1).addConstant(ideal), FOREVER);
        program.pay(new Sum().add(off), problem.rates.heat);
      }
    }
    const solution = await program.solve();
    return solution && solution.objective + this.base;
  }

  /** Minutes by temperature within the segment of an activity's run; null where they are fixed. */
  private lineOf(a: number, r: number | undefined): { slope: number; constant: number } | null {
    const segment = r === undefined ? null : (this.segments?.[r] ?? null);
    const { duration } = this.compiled.problem.steps[a]!.options[this.state.mode[a]!]!;
    if (segment === null || duration.kind !== 'table') return null;
    const middle = (segment.low + segment.high) / 2;
    const right = Math.max(
      1,
      duration.columns.findIndex((column) => column.celsius >= middle),
    );
    const [one, two] = [duration.columns[right - 1]!, duration.columns[right]!];
    const slope = (two.minutes - one.minutes) / (two.celsius - one.celsius);
    return { slope, constant: one.minutes - slope * one.celsius };
  }

  private timesOf(found: Found): (m: Moment) => number {
    const { model } = this.compiled;
    const landing = model.groups.map(({ due, jobs }) =>
      Math.max(due, ...jobs.flatMap((j) => model.jobs[j]!.activities.map((a) => found.end[a]!))),
    );
    const begin = this.runs.map(({ members, stores }) =>
      Math.min(...members.map((a) => found.start[a]!), ...stores.map((j) => found.stored[j]!)),
    );
    const finish = this.runs.map(({ members, stores }) =>
      Math.max(...members.map((a) => found.end[a]!), ...stores.map((j) => found.fetched[j]!)),
    );
    const warm = this.runs.flatMap((_, r) =>
      this.before(r) < 0 ? [begin[r]! - this.changeover(r, found.levels)] : [],
    );
    const first = Math.min(model.serve, ...warm, ...model.activities.map(({ id }) => found.start[id]!));
    const { start, end, stored, fetched } = found;
    const other = { landing, begin, finish, start, end, stored, fetched };
    return ({ of, index, offset }) => offset + (of === 'zero' ? 0 : of === 'first' ? first : other[of][index]!);
  }

  private changeover(r: number, levels: readonly number[]): number {
    const run = this.runs[r]!;
    const { problem, kit, model } = this.compiled;
    const before = this.before(r);
    if (this.segments === null || (this.segments[r] === null && (before < 0 || this.segments[before] === null))) {
      return transitionTime(model.machines[run.machine]!, before < 0 ? -1 : this.runs[before]!.state, run.state);
    }
    const { heats, cools } = problem.kitchen.appliances[kit.applianceOf[run.machine]!]!;
    const change = levels[r]! - (before < 0 ? problem.kitchen.room : levels[before]!);
    return Math.max(0, change / heats, -change / cools);
  }

  /** Points of the times that a solver found, everything else at its best. */
  pointsAt(found: Found): number {
    const at = this.timesOf(found);
    let points = this.base;
    for (const { rate, earlier, later, free } of this.costs) {
      const rise = at(later) - at(earlier);
      points += rate * (free === Number.NEGATIVE_INFINITY ? rise : Math.max(0, rise - free));
    }
    this.runs.forEach((run, r) => {
      if (!this.segments?.[r]) return;
      for (const a of run.members) {
        const { ideal } = this.compiled.problem.steps[a]!.options[this.state.mode[a]!]!;
        if (ideal !== null) points += this.compiled.problem.rates.heat * Math.abs(found.levels[r]! - ideal);
      }
    });
    return points;
  }

  /** The most minutes by which the times that a solver found break a row. */
  breachOf(found: Found): number {
    const at = this.timesOf(found);
    let most = 0;
    for (const { earlier, later, low, high } of this.rows) {
      const rise = at(later) - at(earlier);
      most = Math.max(most, low - rise, rise - high);
    }
    this.runs.forEach((_, r) => {
      const before = this.before(r);
      const from = before < 0 ? 0 : at(moment('finish', before));
      most = Math.max(most, from + this.changeover(r, found.levels) - at(moment('begin', r)));
    });
    return most;
  }
}

function runsWithMembers(state: State): ReferenceRun[] {
  const { store, model } = state;
  return model.machines.flatMap((machine, m) =>
    runsOf(machine, blocksOf(state, m)).map(({ state: level, from, to }) => {
      const members = state.onMachine[m]!.filter((a) => state.start[a]! >= from && state.end(a) <= to);
      members.sort((a, b) => state.start[a]! - state.start[b]! || a - b);
      const stores = model.jobs
        .map(({ id }) => id)
        .filter((j) => {
          const mode = model.jobs[j]!.storage?.modes[store.mode[j]!];
          const at = store.start[j]!;
          return mode?.machine === m && from <= at && at + store.minutes[j]! <= to;
        });
      return { machine: m, state: level, from, to, members, stores };
    }),
  );
}
