/**
 * A schedule as a row of batches for each machine, and the price of changing it. A change is a few edits of rows; only what they
 * touch is reckoned anew, up to where a row runs as before. Tests hold it to `evaluate.ts`.
 */
import type { Rows } from './evaluate.js';
import { Pool } from './pool.js';
import type { Tables } from './tables.js';

const MOST_EDITS = 8;

export class State {
  readonly pool: Pool;
  readonly batchOf: Int32Array;
  readonly machineOf: Int32Array;
  readonly placeOf: Int32Array;
  readonly rows: readonly Int32Array[];
  readonly length: Int32Array;
  cost = 0;
  /** Jobs in batches without a place. */
  undone = 0;

  /** By machine and place: when it ends (where it has no place: the one before), in which interval (-1: none), its price. */
  private readonly end: readonly Int32Array[];
  private readonly interval: readonly Int32Array[];
  private readonly fixed: readonly Float64Array[];
  /** The price of tardiness of all places before. */
  private readonly lateBefore: readonly Float64Array[];

  private edits = 0;
  private readonly editMachine = new Int32Array(MOST_EDITS);
  private readonly editPlace = new Int32Array(MOST_EDITS);
  private readonly editOut = new Int32Array(MOST_EDITS);
  private readonly editFrom = new Int32Array(MOST_EDITS);
  private readonly editTo = new Int32Array(MOST_EDITS);
  private readonly inserted: Int32Array;
  private insertedCount = 0;
  /** New batches of the change, and old ones that it does away with. */
  private readonly made = new Int32Array(MOST_EDITS);
  private madeCount = 0;
  private readonly gone = new Int32Array(MOST_EDITS);
  private goneCount = 0;

  /** Pieces of the changed rows: on a machine, from a place on, these batches, then the old row from another place. */
  private pieces = 0;
  private readonly pieceMachine = new Int32Array(MOST_EDITS);
  private readonly pieceFirst = new Int32Array(MOST_EDITS);
  private readonly pieceNext = new Int32Array(MOST_EDITS);
  private readonly pieceFrom = new Int32Array(MOST_EDITS);
  private readonly pieceTo = new Int32Array(MOST_EDITS);
  private readonly middle: Int32Array;

  /** Where the last batch that was placed lies. */
  private placedInterval = 0;

  constructor(readonly tables: Tables) {
    this.pool = new Pool(tables);
    const { slots } = this.pool;
    const per = <T>(make: () => T): T[] => Array.from({ length: tables.machines }, make);
    this.batchOf = new Int32Array(tables.jobs).fill(-1);
    this.machineOf = new Int32Array(slots).fill(-1);
    this.placeOf = new Int32Array(slots);
    this.rows = per(() => new Int32Array(slots));
    this.length = new Int32Array(tables.machines);
    this.end = per(() => new Int32Array(slots));
    this.interval = per(() => new Int32Array(slots));
    this.fixed = per(() => new Float64Array(slots));
    this.lateBefore = per(() => new Float64Array(slots + 1));
    this.inserted = new Int32Array(slots * 2);
    this.middle = new Int32Array(slots * 2);
  }

  /** Leaves all schedules before and takes this one. */
  load(rows: Rows): void {
    for (let m = 0; m < this.tables.machines; m++) {
      for (let k = 0; k < this.length[m]!; k++) this.pool.giveBack(this.rows[m]![k]!);
      this.length[m] = 0;
    }
    this.batchOf.fill(-1);
    this.cost = 0;
    this.undone = 0;
    rows.forEach((row, m) => {
      this.begin();
      for (const jobs of row) {
        const slot = this.make();
        for (const job of jobs) this.pool.add(slot, job);
        this.edit(m, this.length[m]!, 0, slot);
        this.cost += this.priceOf(Number.POSITIVE_INFINITY);
        this.commit();
        this.begin();
      }
    });
  }

  toRows(): number[][][] {
    return this.rows.map((row, m) => Array.from(row.subarray(0, this.length[m]!), (slot) => this.pool.jobsIn(slot)));
  }

  /** Begins a change. */
  begin(): void {
    this.edits = 0;
    this.insertedCount = 0;
    this.madeCount = 0;
    this.goneCount = 0;
  }

  /** An empty batch for the change. */
  make(): number {
    const slot = this.pool.empty();
    this.made[this.madeCount++] = slot;
    return slot;
  }

  /** A batch of the change: an old one without `out` and with `joining`; either may be -1. */
  makeFrom(slot: number, out: number, joining: number): number {
    const other = this.pool.changed(slot, out, joining);
    this.made[this.madeCount++] = other;
    return other;
  }

  /** Says that a batch is no more after the change. */
  dissolve(slot: number): void {
    this.gone[this.goneCount++] = slot;
  }

  /** Takes `out` batches out of a row from a place on, and puts one in (-1: none). Edits of a row must not overlap. */
  edit(machine: number, place: number, out: number, slot: number): void {
    let k = this.edits++;
    while (k > 0 && this.isAfter(k - 1, machine, place, out)) {
      this.editMachine[k] = this.editMachine[k - 1]!;
      this.editPlace[k] = this.editPlace[k - 1]!;
      this.editOut[k] = this.editOut[k - 1]!;
      this.editFrom[k] = this.editFrom[k - 1]!;
      this.editTo[k] = this.editTo[k - 1]!;
      k--;
    }
    this.editMachine[k] = machine;
    this.editPlace[k] = place;
    this.editOut[k] = out;
    this.editFrom[k] = this.insertedCount;
    if (slot >= 0) this.inserted[this.insertedCount++] = slot;
    this.editTo[k] = this.insertedCount;
    this.lastEdit = k;
  }

  private lastEdit = 0;

  /** Puts one more batch in behind the one of the last edit. */
  alsoInsert(slot: number): void {
    this.inserted[this.insertedCount++] = slot;
    this.editTo[this.lastEdit] = this.insertedCount;
  }

  /** At one place what is put in goes before what is taken out. */
  private isAfter(k: number, machine: number, place: number, out: number): boolean {
    if (this.editMachine[k] !== machine) return this.editMachine[k]! > machine;
    if (this.editPlace[k] !== place) return this.editPlace[k]! > place;
    return this.editOut[k]! > 0 && out === 0;
  }

  /** The change's price, or Infinity where it surely exceeds `limit`. */
  priceOf(limit: number): number {
    let sum = this.fixedPrice();
    for (let p = 0; p < this.pieces; p++) {
      const m = this.pieceMachine[p]!;
      sum -= this.lateBefore[m]![this.length[m]!]! - this.lateBefore[m]![this.pieceFirst[p]!]!;
    }
    for (let p = 0; p < this.pieces && sum <= limit; p++) sum = this.walk(p, sum, limit);
    return sum <= limit ? sum : Number.POSITIVE_INFINITY;
  }

  /** Lays out the pieces; what runs and setups, which do not depend on times, cost more than before. */
  private fixedPrice(): number {
    const { pool, tables, middle } = this;
    const { setupPrice, attributes, runPrice } = tables;
    let [sum, filled, e] = [0, 0, 0];
    this.pieces = 0;
    while (e < this.edits) {
      const m = this.editMachine[e]!;
      const row = this.rows[m]!;
      const fixed = this.fixed[m]!;
      const first = this.editPlace[e]!;
      let at = first;
      const from = filled;
      for (; e < this.edits && this.editMachine[e] === m; e++) {
        const place = this.editPlace[e]!;
        while (at < place) middle[filled++] = row[at++]!;
        for (let k = this.editFrom[e]!; k < this.editTo[e]!; k++) middle[filled++] = this.inserted[k]!;
        at += this.editOut[e]!;
      }
      let before = first > 0 ? pool.attribute[row[first - 1]!]! : tables.initial[m]!;
      for (let k = from; k < filled; k++) {
        const slot = middle[k]!;
        const after = pool.attribute[slot]!;
        sum += runPrice * pool.run[slot]! + setupPrice[before * attributes + after]!;
        before = after;
      }
      for (let k = first; k < at; k++) sum -= fixed[k]!;
      if (at < this.length[m]!) {
        const slot = row[at]!;
        sum += runPrice * pool.run[slot]! + setupPrice[before * attributes + pool.attribute[slot]!]! - fixed[at]!;
      }
      const p = this.pieces++;
      this.pieceMachine[p] = m;
      this.pieceFirst[p] = first;
      this.pieceNext[p] = at;
      this.pieceFrom[p] = from;
      this.pieceTo[p] = filled;
    }
    return sum;
  }

  /** Adds to `sum` what is tardy on a piece and behind it. */
  private walk(p: number, sum: number, limit: number): number {
    const { pool, tables, middle } = this;
    const m = this.pieceMachine[p]!;
    const [row, end, late] = [this.rows[m]!, this.end[m]!, this.lateBefore[m]!];
    const [first, length] = [this.pieceFirst[p]!, this.length[m]!];
    let before = first > 0 ? pool.attribute[row[first - 1]!]! : tables.initial[m]!;
    let free = first > 0 ? end[first - 1]! : 0;
    this.placedInterval = this.intervalBefore(m, first);
    for (let k = this.pieceFrom[p]!; k < this.pieceTo[p]!; k++) {
      const slot = middle[k]!;
      const done = this.endOf(m, free, before, slot);
      if (done < 0) sum += tables.undonePrice * pool.count[slot]!;
      else {
        free = done;
        sum += tables.tardyPrice * pool.tardyAt(slot, free);
      }
      if (sum > limit) return sum;
      before = pool.attribute[slot]!;
    }
    for (let k = this.pieceNext[p]!; k < length; k++) {
      const previous = k > 0 ? pool.attribute[row[k - 1]!]! : tables.initial[m]!;
      if (previous === before && free === (k > 0 ? end[k - 1]! : 0)) return sum + late[length]! - late[k]!;
      const slot = row[k]!;
      const done = this.endOf(m, free, before, slot);
      if (done < 0) sum += tables.undonePrice * pool.count[slot]!;
      else {
        free = done;
        sum += tables.tardyPrice * pool.tardyAt(slot, free);
      }
      if (sum > limit) return sum;
      before = pool.attribute[slot]!;
    }
    return sum;
  }

  /** The earliest end of a batch on a machine that is free from then on, or -1. `placedInterval` moves on. */
  private endOf(machine: number, free: number, before: number, slot: number): number {
    const { pool, tables } = this;
    const setup = tables.setupTime[before * tables.attributes + pool.attribute[slot]!]!;
    const run = pool.run[slot]!;
    const earliest = Math.max(free + setup, pool.release[slot]!);
    const last = tables.firstInterval[machine + 1]!;
    for (let i = this.placedInterval; i < last; i++) {
      const end = Math.max(earliest, tables.from[i]! + setup) + run;
      if (end <= tables.to[i]!) {
        this.placedInterval = i;
        return end;
      }
    }
    return -1;
  }

  /** The interval in which a batch at a place may at first be. */
  private intervalBefore(machine: number, place: number): number {
    for (let k = place - 1; k >= 0; k--) {
      const interval = this.interval[machine]![k]!;
      if (interval >= 0) return interval;
    }
    return this.tables.firstInterval[machine]!;
  }

  /** Gives the change up. */
  reject(): void {
    for (let k = 0; k < this.madeCount; k++) this.pool.giveBack(this.made[k]!);
    this.madeCount = 0;
  }

  /** Takes the change, whose price was asked; `cost` is left to the caller. */
  commit(): void {
    const { pool } = this;
    for (let p = 0; p < this.pieces; p++) {
      const m = this.pieceMachine[p]!;
      const row = this.rows[m]!;
      const [first, next, length] = [this.pieceFirst[p]!, this.pieceNext[p]!, this.length[m]!];
      const [from, to] = [this.pieceFrom[p]!, this.pieceTo[p]!];
      for (let k = first; k < length; k++) if (this.interval[m]![k]! < 0) this.undone -= pool.count[row[k]!]!;
      row.copyWithin(first + to - from, next, length);
      for (let k = from; k < to; k++) row[first + k - from] = this.middle[k]!;
      this.length[m] = length + to - from - (next - first);
      this.refresh(m, first);
    }
    for (let k = 0; k < this.goneCount; k++) pool.giveBack(this.gone[k]!);
    for (let i = 0; i < this.madeCount; i++) {
      const slot = this.made[i]!;
      if (pool.count[slot] === 0) pool.giveBack(slot);
      for (let k = 0; k < pool.count[slot]!; k++) this.batchOf[pool.member(slot, k)] = slot;
    }
    this.madeCount = 0;
    this.goneCount = 0;
  }

  /** Reckons a row anew from a place on. */
  private refresh(m: number, first: number): void {
    const { pool, tables } = this;
    const [row, end, interval, fixed, late] = [
      this.rows[m]!,
      this.end[m]!,
      this.interval[m]!,
      this.fixed[m]!,
      this.lateBefore[m]!,
    ];
    let before = first > 0 ? pool.attribute[row[first - 1]!]! : tables.initial[m]!;
    let free = first > 0 ? end[first - 1]! : 0;
    this.placedInterval = this.intervalBefore(m, first);
    for (let k = first; k < this.length[m]!; k++) {
      const slot = row[k]!;
      const after = pool.attribute[slot]!;
      const done = this.endOf(m, free, before, slot);
      fixed[k] = tables.runPrice * pool.run[slot]! + tables.setupPrice[before * tables.attributes + after]!;
      if (done < 0) {
        interval[k] = -1;
        this.undone += pool.count[slot]!;
        late[k + 1] = late[k]! + tables.undonePrice * pool.count[slot]!;
      } else {
        interval[k] = this.placedInterval;
        free = done;
        late[k + 1] = late[k]! + tables.tardyPrice * pool.tardyAt(slot, free);
      }
      end[k] = free;
      this.machineOf[slot] = m;
      this.placeOf[slot] = k;
      before = after;
    }
  }
}
