/** What is free when, read off a state once and asked many times while one job is inserted. */
import { freeUnits } from '../kernel/custody.js';
import { MOST_WORKERS, type Model } from '../kernel/model.js';
import type { State } from '../kernel/state.js';

export class Profiles {
  private readonly horizon: number;
  private state: State;
  private readonly pool: Int32Array[] = [];
  private used = 0;
  private from = 0;
  private to: number;
  private readonly scratch: Int32Array;
  private readonly untilRenewable = new Map<number, Int32Array>();
  private readonly untilUnit = new Map<number, Int32Array>();
  private readonly untilWorker = new Map<number, Int32Array>();
  private readonly masks = new Map<number, Int32Array>();

  constructor(model: Model, state: State) {
    this.horizon = model.horizon;
    this.state = state;
    this.to = model.horizon;
    this.scratch = new Int32Array(model.horizon + 2);
  }

  /** Forgets everything and reads from this state from now on; nothing outside [from, to] will be asked of workers and units. */
  reset(state: State, from: number, to: number): void {
    this.state = state;
    this.from = Math.max(0, from);
    this.to = Math.min(this.horizon, to);
    this.used = 0;
    this.untilRenewable.clear();
    this.untilUnit.clear();
    this.untilWorker.clear();
    this.masks.clear();
  }

  private line(): Int32Array {
    if (this.used === this.pool.length) this.pool.push(new Int32Array(this.horizon + 2));
    return this.pool[this.used++]!;
  }

  /** For each minute t the first minute from t on at which fewer than `amount` units are free; t itself where that is now. */
  renewable(resource: number, amount: number): Int32Array {
    const key = resource * 64 + amount;
    const known = this.untilRenewable.get(key);
    if (known !== undefined) return known;
    const free = freeUnits(this.state, resource, this.scratch);
    const until = this.line();
    let next = this.horizon + 1;
    until[this.horizon + 1] = next;
    for (let t = this.horizon; t >= this.from; t--) {
      if (free[t]! < amount) next = t;
      until[t] = next;
    }
    this.untilRenewable.set(key, until);
    return until;
  }

  /** The same for something that is away for `tail` minutes after its use: the last end that leaves room for that, t at least. */
  vessel(resource: number, amount: number, tail: number): Int32Array {
    const until = this.renewable(resource, amount);
    if (tail === 0) return until;
    const line = this.line();
    for (let t = this.from; t <= this.horizon; t++) {
      line[t] = until[t]! > this.horizon ? until[t]! : Math.max(t, until[t]! - tail);
    }
    return line;
  }

  private untilBusy(busy: Uint8Array): Int32Array {
    const until = this.line();
    let next = this.to;
    until[this.to + 1] = next;
    for (let t = this.to; t >= this.from; t--) {
      if (busy[t] === 1) next = t;
      until[t] = next;
    }
    return until;
  }

  unit(unit: number): Int32Array {
    let until = this.untilUnit.get(unit);
    if (until === undefined) {
      until = this.untilBusy(this.state.unitBusy[unit]!);
      this.untilUnit.set(unit, until);
    }
    return until;
  }

  worker(worker: number): Int32Array {
    let until = this.untilWorker.get(worker);
    if (until === undefined) {
      until = this.untilBusy(this.state.busy[worker]!);
      this.untilWorker.set(worker, until);
    }
    return until;
  }

  /** Bit w of [t]: worker w is free over [t, t + length). */
  freeMask(length: number): Int32Array {
    let mask = this.masks.get(length);
    if (mask !== undefined) return mask;
    mask = this.line();
    mask.fill(0, this.from, this.to + 2);
    for (let w = 0; w < Math.min(MOST_WORKERS, this.state.busy.length); w++) {
      const until = this.worker(w);
      const bit = 1 << w;
      for (let t = this.from; t + length <= this.to; t++) if (until[t]! >= t + length) mask[t] = mask[t]! | bit;
    }
    this.masks.set(length, mask);
    return mask;
  }
}

export function popcount(bits: number): number {
  let v = bits - ((bits >> 1) & 0x55555555);
  v = (v & 0x33333333) + ((v >> 2) & 0x33333333);
  return (((v + (v >> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
}
