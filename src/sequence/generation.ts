import { Capacity } from './capacity.js';
import { type Arcs, type Network, networkOf, type Project } from './project.js';

/** What a choice of modes consumes; see `ModeChoice`. */
interface ModeRule {
  readonly excessWith: (j: number, mode: number) => number;
  readonly change: (j: number, mode: number) => void;
}

/**
 * Serial schedule generation (J. E. Kelley, The critical-path method: resources planning and scheduling, in Industrial Scheduling,
 * 1963): activity after activity at the earliest time that precedence and renewables leave. Forwards or, with all arcs turned round, backwards.
 * Each pass is one schedule. Nonrenewables are the business of whoever sets the modes (`ModeChoice`).
 */
export class Generation {
  readonly network: Network;
  readonly size: number;
  /** Of each activity in its present mode. */
  readonly minutes: Int32Array;
  /** Present modes. */
  readonly modes: Int32Array;
  /** Schedules made so far. */
  made = 0;
  private readonly capacity: Capacity;
  /** Needs of mode m of activity j: `words` of them from `(rows[j] + m) * words` on. */
  private readonly needs: Int32Array;
  private readonly rows: Int32Array;
  /** What is free at each minute, `words` of them for each; all is free from `touched` on. */
  private readonly free: Int32Array;
  private touched = 0;
  private readonly ends: Int32Array;
  private readonly slots: Int32Array;
  private readonly keys: Int32Array;
  private readonly turned: Int32Array;

  /** Each activity begins in its first mode. Throws where a mode needs more of a renewable than there is. */
  constructor(readonly project: Project) {
    const { activities, lags, renewables } = project;
    this.network = networkOf(project);
    this.size = this.network.size;
    this.capacity = new Capacity(renewables);
    const { words, full } = this.capacity;
    this.rows = new Int32Array(this.size);
    for (let j = 1; j < this.size; j++) this.rows[j] = this.rows[j - 1]! + activities[j - 1]!.length;
    this.needs = new Int32Array(activities.reduce((sum, modes) => sum + modes.length, 0) * words);
    activities.forEach((modes, j) => {
      modes.forEach(({ uses }, m) => {
        this.capacity.pack(uses, this.needs, (this.rows[j]! + m) * words);
      });
    });
    this.modes = new Int32Array(this.size);
    this.minutes = Int32Array.from(activities, ([first]) => first!.minutes);
    const longest = activities.reduce((sum, modes) => sum + Math.max(...modes.map(({ minutes }) => minutes)), 0);
    const horizon = longest + lags.reduce((sum, { low }) => sum + low, 0) + 1;
    this.free = Int32Array.from({ length: horizon * words }, (_, at) => full[at % words]!);
    this.ends = new Int32Array(this.size);
    this.slots = new Int32Array(horizon + 2);
    this.keys = new Int32Array(this.size);
    this.turned = new Int32Array(this.size);
  }

  setMode(j: number, mode: number): void {
    this.modes[j] = mode;
    this.minutes[j] = this.project.activities[j]![mode]!.minutes;
  }

  /** Left-justified: writes starts, gives the makespan. Of `list` each activity stands after those before it. */
  forwards(list: Int32Array, starts: Int32Array): number {
    return this.pass(list, this.network.before, starts);
  }

  /** Right-justified, so that the first activity begins at 0. Of `list` each activity stands after those that follow it. */
  backwards(list: Int32Array, starts: Int32Array): number {
    const makespan = this.pass(list, this.network.after, starts);
    for (let j = 0; j < this.size; j++) starts[j] = makespan - starts[j]! - this.minutes[j]!;
    return makespan;
  }

  /**
   * Forwards, each activity in the mode that ends it first, of those with which nothing is consumed beyond the nonrenewables; of modes that end
   * it at the same time the present one stays. `rule` knows the same modes and hears of changes.
   */
  forwardsChoosing(list: Int32Array, starts: Int32Array, rule: ModeRule): number {
    const { activities } = this.project;
    const choose = (j: number, from: number): void => {
      let best = this.find(this.rows[j]! + this.modes[j]!, this.minutes[j]!, from) + this.minutes[j]!;
      const all = activities[j]!;
      for (let m = 0; m < all.length; m++) {
        const { minutes } = all[m]!;
        if (m === this.modes[j] || from + minutes >= best || rule.excessWith(j, m) > 0) continue;
        const end = this.find(this.rows[j]! + m, minutes, from) + minutes;
        if (end >= best) continue;
        best = end;
        this.setMode(j, m);
        rule.change(j, m);
      }
    };
    return this.pass(list, this.network.before, starts, choose);
  }

  /** Turns a list for backwards into one for forwards: by start; equal ones the other way round than they stood. */
  byStart(starts: Int32Array, list: Int32Array): void {
    this.turned.set(list);
    this.turned.reverse();
    this.keys.set(starts);
    this.sort(list);
  }

  /** A list for forwards by start; equal ones as they stood. */
  inOrder(starts: Int32Array, list: Int32Array): void {
    this.turned.set(list);
    this.keys.set(starts);
    this.sort(list);
  }

  /** Turns a list for forwards into one for backwards: by end, the last first; equal ones the other way round than they stood. */
  byEnd(starts: Int32Array, makespan: number, list: Int32Array): void {
    this.turned.set(list);
    this.turned.reverse();
    for (let j = 0; j < this.size; j++) this.keys[j] = makespan - starts[j]! - this.minutes[j]!;
    this.sort(list);
  }

  /** Counting sort of what stands in `turned`, stable. */
  private sort(list: Int32Array): void {
    const { slots, keys, size, turned } = this;
    let most = 0;
    for (let j = 0; j < size; j++) if (keys[j]! > most) most = keys[j]!;
    slots.fill(0, 0, most + 2);
    for (let j = 0; j < size; j++) slots[keys[j]! + 1]!++;
    for (let t = 1; t <= most; t++) slots[t]! += slots[t - 1]!;
    for (let i = 0; i < size; i++) {
      const j = turned[i]!;
      list[slots[keys[j]!]!++] = j;
    }
  }

  private pass(list: Int32Array, arcs: Arcs, starts: Int32Array, choose?: (j: number, from: number) => void): number {
    const { minutes, modes, rows, ends } = this;
    this.made++;
    this.clear();
    let makespan = 0;
    for (let i = 0; i < list.length; i++) {
      const j = list[i]!;
      const from = this.earliest(j, arcs);
      if (choose !== undefined) choose(j, from);
      const row = rows[j]! + modes[j]!;
      const length = minutes[j]!;
      const start = this.find(row, length, from);
      this.take(row, start, length);
      starts[j] = start;
      ends[j] = start + length;
      if (start + length > makespan) makespan = start + length;
    }
    this.touched = makespan;
    return makespan;
  }

  private clear(): void {
    const { words, full } = this.capacity;
    if (words === 1) this.free.fill(full[0]!, 0, this.touched);
    else for (let at = 0; at < this.touched * words; at++) this.free[at] = full[at % words]!;
  }

  private earliest(j: number, { first, to, low }: Arcs): number {
    const { ends } = this;
    const last = first[j + 1]!;
    let most = 0;
    for (let e = first[j]!; e < last; e++) {
      const end = ends[to[e]!]! + low[e]!;
      if (end > most) most = end;
    }
    return most;
  }

  /** The first start from `from` on. Each window is looked through from its end; what was found good is not looked at again. */
  private find(row: number, length: number, from: number): number {
    const { free, needs } = this;
    const { words, guards } = this.capacity;
    let start = from;
    let good = from;
    if (words === 1) {
      const [need, guard] = [needs[row]!, guards[0]!];
      if (need === 0) return from;
      for (;;) {
        const end = start + length;
        let at = end - 1;
        while (at >= good && ((free[at]! - need) & guard) === guard) at--;
        if (at < good) return start;
        start = at + 1;
        good = end;
      }
    }
    for (;;) {
      const end = start + length;
      let at = end - 1;
      while (at >= good && hasRoom(free, at * words, needs, row * words, guards)) at--;
      if (at < good) return start;
      start = at + 1;
      good = end;
    }
  }

  private take(row: number, start: number, length: number): void {
    const { free, needs } = this;
    const { words } = this.capacity;
    if (words === 1) {
      const need = needs[row]!;
      if (need !== 0) for (let at = start; at < start + length; at++) free[at]! -= need;
      return;
    }
    for (let at = start * words; at < (start + length) * words; at += words) {
      for (let w = 0; w < words; w++) free[at + w]! -= needs[row * words + w]!;
    }
  }
}

function hasRoom(free: Int32Array, at: number, needs: Int32Array, from: number, guards: Int32Array): boolean {
  for (let w = 0; w < guards.length; w++) {
    const guard = guards[w]!;
    if (((free[at + w]! - needs[from + w]!) & guard) !== guard) return false;
  }
  return true;
}
