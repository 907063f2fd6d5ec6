/**
 * Batches as slots of typed arrays: what is in them, and what follows from it. A change of a batch is another slot, so that a change
 * that is not taken leaves nothing to undo.
 */
import type { Tables } from './tables.js';

/** Slots beyond one a job: the batches that one change makes. */
const SPARE = 8;

export class Pool {
  readonly attribute: Int32Array;
  readonly size: Float64Array;
  /** The longest of the shortest times: how long it runs; and the shortest of the longest, which that may not exceed. */
  readonly run: Int32Array;
  readonly ceiling: Int32Array;
  readonly release: Int32Array;
  /** First and last due date. */
  readonly firstDue: Int32Array;
  readonly lastDue: Int32Array;
  readonly count: Int32Array;
  private readonly members: Int32Array;
  private readonly width: number;
  private readonly free: Int32Array;
  private freeCount: number;

  constructor(readonly tables: Tables) {
    const slots = tables.jobs + SPARE;
    this.width = mostTogether(tables);
    this.attribute = new Int32Array(slots);
    this.size = new Float64Array(slots);
    this.run = new Int32Array(slots);
    this.ceiling = new Int32Array(slots);
    this.release = new Int32Array(slots);
    this.firstDue = new Int32Array(slots);
    this.lastDue = new Int32Array(slots);
    this.count = new Int32Array(slots);
    this.members = new Int32Array(slots * this.width);
    this.free = Int32Array.from({ length: slots }, (_, k) => slots - 1 - k);
    this.freeCount = slots;
  }

  get slots(): number {
    return this.count.length;
  }

  member(slot: number, k: number): number {
    return this.members[slot * this.width + k]!;
  }

  jobsIn(slot: number): number[] {
    return Array.from({ length: this.count[slot]! }, (_, k) => this.member(slot, k));
  }

  empty(): number {
    const slot = this.free[--this.freeCount]!;
    this.count[slot] = 0;
    this.size[slot] = 0;
    this.run[slot] = 0;
    this.ceiling[slot] = 0x7fffffff;
    this.release[slot] = 0;
    this.firstDue[slot] = 0x7fffffff;
    this.lastDue[slot] = -0x80000000;
    return slot;
  }

  giveBack(slot: number): void {
    this.free[this.freeCount++] = slot;
  }

  add(slot: number, job: number): void {
    const { tables } = this;
    this.members[slot * this.width + this.count[slot]!++] = job;
    this.attribute[slot] = tables.attribute[job]!;
    this.size[slot]! += tables.size[job]!;
    if (tables.shortest[job]! > this.run[slot]!) this.run[slot] = tables.shortest[job]!;
    if (tables.longest[job]! < this.ceiling[slot]!) this.ceiling[slot] = tables.longest[job]!;
    if (tables.release[job]! > this.release[slot]!) this.release[slot] = tables.release[job]!;
    if (tables.due[job]! < this.firstDue[slot]!) this.firstDue[slot] = tables.due[job]!;
    if (tables.due[job]! > this.lastDue[slot]!) this.lastDue[slot] = tables.due[job]!;
  }

  /** Another slot with the same jobs, without `out` and with `joining`; either may be -1. */
  changed(slot: number, out: number, joining: number): number {
    const other = this.empty();
    const first = slot * this.width;
    const last = first + this.count[slot]!;
    for (let k = first; k < last; k++) if (this.members[k] !== out) this.add(other, this.members[k]!);
    if (joining >= 0) this.add(other, joining);
    return other;
  }

  /** Whether a job could join a batch, perhaps an empty one, on a machine. */
  takes(slot: number, job: number, machine: number): boolean {
    const { tables } = this;
    return (
      (this.count[slot] === 0 || tables.attribute[job] === this.attribute[slot]) &&
      tables.earliestEnd[job * tables.machines + machine]! >= 0 &&
      this.size[slot]! + tables.size[job]! <= tables.capacity[machine]! &&
      tables.longest[job]! >= this.run[slot]! &&
      tables.shortest[job]! <= this.ceiling[slot]!
    );
  }

  /** Whether a batch may run on a machine. */
  mayGoOn(slot: number, machine: number): boolean {
    const { tables } = this;
    if (this.size[slot]! > tables.capacity[machine]! || this.run[slot]! > this.ceiling[slot]!) return false;
    const first = slot * this.width;
    const last = first + this.count[slot]!;
    for (let k = first; k < last; k++) {
      if (tables.earliestEnd[this.members[k]! * tables.machines + machine]! < 0) return false;
    }
    return true;
  }

  /** Jobs that are tardy where the batch ends then. */
  tardyAt(slot: number, end: number): number {
    if (end <= this.firstDue[slot]!) return 0;
    if (end > this.lastDue[slot]!) return this.count[slot]!;
    const first = slot * this.width;
    const last = first + this.count[slot]!;
    let tardy = 0;
    for (let k = first; k < last; k++) if (this.tables.due[this.members[k]!]! < end) tardy++;
    return tardy;
  }
}

/** No batch has more jobs than this: as many of the smallest as the roomiest machine holds. */
function mostTogether(tables: Tables): number {
  const room = Math.max(0, ...tables.capacity);
  let most = 1;
  for (const jobs of tables.jobsOf) {
    const sizes = Array.from(jobs, (j) => tables.size[j]!).sort((x, y) => x - y);
    let [sum, count] = [0, 0];
    while (count < sizes.length && sum + sizes[count]! <= room) sum += sizes[count++]!;
    most = Math.max(most, count);
  }
  // A trial of a batch may hold one too many before it is looked at.
  return most + 1;
}
