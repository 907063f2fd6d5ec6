import { Capacity } from './capacity.js';
import { type Arcs, type Network, networkOf, type Project, type ProjectMode } from './project.js';

/**
 * Serial schedule generation (J. E. Kelley, The critical-path method: resources planning and scheduling, in Industrial Scheduling,
 * 1963): activity after activity at the earliest time that precedence and renewables leave. Forwards or, with all arcs turned round, backwards.
 * Each pass is one schedule.
 */
export class Generation {
  readonly network: Network;
  readonly size: number;
  /** Of each activity in its present mode. */
  readonly minutes: Int32Array;
  /** Schedules made so far. */
  made = 0;
  private readonly capacity: Capacity;
  private readonly needs: Int32Array;
  /** What is free at each minute, `words` of them for each; all is free from `touched` on. */
  private readonly free: Int32Array;
  private touched = 0;
  private readonly ends: Int32Array;
  private readonly slots: Int32Array;
  private readonly keys: Int32Array;
  private readonly turned: Int32Array;

  /** Every activity begins in its first mode that fits the capacities; throws where it has none. */
  constructor(readonly project: Project) {
    this.network = networkOf(project);
    this.size = this.network.size;
    this.capacity = new Capacity(project.renewables);
    this.minutes = new Int32Array(this.size);
    this.needs = new Int32Array(this.size * this.capacity.words);
    this.ends = new Int32Array(this.size);
    const longest = project.activities.reduce(
      (sum, modes) => sum + Math.max(...modes.map(({ minutes }) => minutes)),
      0,
    );
    const horizon = longest + project.lags.reduce((sum, { low }) => sum + low, 0) + 1;
    this.free = new Int32Array(horizon * this.capacity.words);
    for (let at = 0; at < this.free.length; at++) this.free[at] = this.capacity.full[at % this.capacity.words]!;
    this.slots = new Int32Array(horizon + 2);
    this.keys = new Int32Array(this.size);
    this.turned = new Int32Array(this.size);
    project.activities.forEach((modes, j) => {
      const mode = modes.find((one) => this.fits(one));
      if (mode === undefined) throw new Error('an activity needs more than there is');
      this.setMode(j, mode);
    });
  }

  fits({ uses }: ProjectMode): boolean {
    return uses.every((use, k) => use <= this.project.renewables[k]!);
  }

  setMode(j: number, mode: ProjectMode): void {
    this.minutes[j] = mode.minutes;
    this.capacity.pack(mode.uses, this.needs, j * this.capacity.words);
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

  /** Turns a list for backwards into one for forwards: by start; equal ones the other way round than they stood. */
  byStart(starts: Int32Array, list: Int32Array): void {
    for (let j = 0; j < this.size; j++) this.keys[j] = starts[j]!;
    this.sort(list);
  }

  /** Turns a list for forwards into one for backwards: by end, the last first; equal ones the other way round than they stood. */
  byEnd(starts: Int32Array, makespan: number, list: Int32Array): void {
    for (let j = 0; j < this.size; j++) this.keys[j] = makespan - starts[j]! - this.minutes[j]!;
    this.sort(list);
  }

  /** Counting sort. */
  private sort(list: Int32Array): void {
    const { slots, keys, size, turned } = this;
    let most = 0;
    for (let i = 0; i < size; i++) {
      turned[i] = list[size - 1 - i]!;
      if (keys[i]! > most) most = keys[i]!;
    }
    slots.fill(0, 0, most + 2);
    for (let j = 0; j < size; j++) slots[keys[j]! + 1]!++;
    for (let t = 1; t <= most; t++) slots[t]! += slots[t - 1]!;
    for (let i = 0; i < size; i++) {
      const j = turned[i]!;
      list[slots[keys[j]!]!++] = j;
    }
  }

  private pass(list: Int32Array, before: Arcs, starts: Int32Array): number {
    this.made++;
    const makespan =
      this.capacity.words === 1 ? this.passNarrow(list, before, starts) : this.passWide(list, before, starts);
    this.touched = makespan;
    return makespan;
  }

  private earliest(j: number, { first, to, low }: Arcs): number {
    const { ends } = this;
    let most = 0;
    const last = first[j + 1]!;
    for (let e = first[j]!; e < last; e++) {
      const end = ends[to[e]!]! + low[e]!;
      if (end > most) most = end;
    }
    return most;
  }

  /** All renewables in one word. */
  private passNarrow(list: Int32Array, before: Arcs, starts: Int32Array): number {
    const { free, needs, minutes, ends } = this;
    const guards = this.capacity.guards[0]!;
    free.fill(this.capacity.full[0]!, 0, this.touched);
    let makespan = 0;
    for (let i = 0; i < list.length; i++) {
      const j = list[i]!;
      const need = needs[j]!;
      const length = minutes[j]!;
      let start = this.earliest(j, before);
      if (need !== 0 && length > 0) {
        // Each window is looked through from its end; what was found good is not looked at again.
        let good = start;
        for (;;) {
          const end = start + length;
          let at = end - 1;
          while (at >= good && ((free[at]! - need) & guards) === guards) at--;
          if (at < good) break;
          start = at + 1;
          good = end;
        }
        for (let at = start; at < start + length; at++) free[at]! -= need;
      }
      starts[j] = start;
      const end = start + length;
      ends[j] = end;
      if (end > makespan) makespan = end;
    }
    return makespan;
  }

  private passWide(list: Int32Array, before: Arcs, starts: Int32Array): number {
    const { free, needs, minutes, ends } = this;
    const { words, guards, full } = this.capacity;
    for (let at = 0; at < this.touched * words; at++) free[at] = full[at % words]!;
    let makespan = 0;
    for (let i = 0; i < list.length; i++) {
      const j = list[i]!;
      const length = minutes[j]!;
      let start = this.earliest(j, before);
      let good = start;
      for (;;) {
        const end = start + length;
        let at = end - 1;
        while (at >= good && hasRoom(free, at * words, needs, j * words, guards)) at--;
        if (at < good) break;
        start = at + 1;
        good = end;
      }
      const end = start + length;
      for (let at = start; at < end; at++)
        for (let w = 0; w < words; w++) free[at * words + w]! -= needs[j * words + w]!;
      starts[j] = start;
      ends[j] = end;
      if (end > makespan) makespan = end;
    }
    return makespan;
  }
}

function hasRoom(free: Int32Array, at: number, needs: Int32Array, from: number, guards: Int32Array): boolean {
  for (let w = 0; w < guards.length; w++) {
    const guard = guards[w]!;
    if (((free[at + w]! - needs[from + w]!) & guard) !== guard) return false;
  }
  return true;
}
