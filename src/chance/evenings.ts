/**
 * Many evenings of one schedule at once: every moment of its graph for a block of draws, in rows of doubles. Minutes.
 */
import { type Evening, minutesOf, type Term } from './evening.js';
import { inOrder } from './order.js';

/** Draws that are reckoned at a time: small enough that a block's moments stay near the processor. */
export const BLOCK = 256;

interface Into {
  /** Group of moments from which the arc comes. */
  readonly from: number;
  readonly low: number;
  /** Index into `terms`; -1: none. */
  readonly term: number;
  readonly beyond: number;
}

/** `planned`: what stands for an activity's minutes where they are not drawn. */
export class Evenings {
  readonly evening: Evening;
  readonly landings: readonly number[];
  /** Group of each moment, in an order in which they can be reckoned. */
  private readonly groupOf: Int32Array;
  private readonly floor: Float64Array;
  private readonly intos: readonly (readonly Into[])[];
  private readonly waits: readonly { readonly until: number; readonly into: Into; readonly most: number }[];
  private readonly terms: Term[] = [];
  private readonly termRows: Float64Array[] = [];
  private readonly groups: Float64Array;
  /** The same where one activity's minutes are others: see `instead`. */
  private readonly others: Float64Array;
  private readonly reach = new Map<number, Uint8Array>();

  constructor(
    evening: Evening,
    private readonly planned: Int32Array,
    drawn: ReadonlySet<number>,
  ) {
    this.evening = evening;
    const { model } = evening.compiled;
    this.landings = model.groups.map((_, g) => evening.landing(g));
    const groups = inOrder(evening.floors.length, evening.arcs);
    this.groupOf = new Int32Array(evening.floors.length);
    for (const [g, nodes] of groups.entries()) for (const node of nodes) this.groupOf[node] = g;
    this.floor = new Float64Array(groups.length).fill(Number.NEGATIVE_INFINITY);
    for (const [node, floor] of evening.floors.entries()) {
      const g = this.groupOf[node]!;
      this.floor[g] = Math.max(this.floor[g]!, floor);
    }
    const intos: Into[][] = groups.map(() => []);
    for (const { from, to, low, beyond } of evening.arcs) {
      // Moments that wait for each other come at one time: arcs among them say nothing more.
      if (this.groupOf[from] !== this.groupOf[to]) intos[this.groupOf[to]!]!.push(this.into(from, low, drawn, beyond));
    }
    this.intos = intos;
    this.waits = evening.waits.map(({ from, after, until, most }) => ({
      until: this.groupOf[until]!,
      into: this.into(from, after, drawn),
      most,
    }));
    this.groups = new Float64Array(groups.length * BLOCK);
    this.others = new Float64Array(groups.length * BLOCK);
  }

  private into(from: number, low: number | Term, drawn: ReadonlySet<number>, beyond = Number.NEGATIVE_INFINITY): Into {
    const into = { from: this.groupOf[from]!, term: -1, beyond };
    if (typeof low === 'number') return { ...into, low };
    if (!drawn.has(low.activity)) return { ...into, low: minutesOf(low, this.planned[low.activity]!) };
    this.termRows.push(new Float64Array(BLOCK));
    return { ...into, low: 0, term: this.terms.push(low) - 1 };
  }

  /** Reckons `count` evenings; `minutes` has a row of each drawn activity's minutes. */
  reckon(count: number, minutes: ReadonlyMap<number, Float64Array>): void {
    for (const [t, term] of this.terms.entries()) this.fill(t, term, count, minutes.get(term.activity)!);
    for (let g = 0; g < this.floor.length; g++) this.reckonGroup(g, count, this.groups, null);
  }

  /** After `reckon`: the same evenings, had an activity taken other minutes. Read by `latest` with `instead`, until the next. */
  instead(count: number, activity: number, minutes: Float64Array, own: Float64Array): void {
    const reach = this.reachOf(activity);
    const hers = [...this.terms.entries()].filter(([, term]) => term.activity === activity);
    for (const [t, term] of hers) this.fill(t, term, count, minutes);
    for (let g = 0; g < this.floor.length; g++) if (reach[g] === 1) this.reckonGroup(g, count, this.others, reach);
    for (const [t, term] of hers) this.fill(t, term, count, own);
  }

  private fill(t: number, term: Term, count: number, minutes: Float64Array): void {
    const row = this.termRows[t]!;
    for (let i = 0; i < count; i++) row[i] = minutesOf(term, minutes[i]!);
  }

  private reckonGroup(g: number, count: number, into: Float64Array, reach: Uint8Array | null): void {
    const at = g * BLOCK;
    into.fill(this.floor[g]!, at, at + count);
    for (const { from, low, term, beyond } of this.intos[g]!) {
      const source = reach === null || reach[from] === 1 ? into : this.groups;
      const start = from * BLOCK;
      if (term < 0) {
        for (let i = 0; i < count; i++) {
          const value = source[start + i]! + low;
          if (value > into[at + i]! && value > beyond) into[at + i] = value;
        }
        continue;
      }
      const row = this.termRows[term]!;
      for (let i = 0; i < count; i++) {
        const value = source[start + i]! + row[i]!;
        if (value > into[at + i]!) into[at + i] = value;
      }
    }
  }

  /** Groups of moments that an activity's minutes may move. */
  private reachOf(activity: number): Uint8Array {
    const known = this.reach.get(activity);
    if (known !== undefined) return known;
    const reach = new Uint8Array(this.floor.length);
    for (let g = 0; g < reach.length; g++) {
      const moved = this.intos[g]!.some(
        ({ from, term }) => reach[from] === 1 || (term >= 0 && this.terms[term]!.activity === activity),
      );
      if (moved) reach[g] = 1;
    }
    this.reach.set(activity, reach);
    return reach;
  }

  /** By how many minutes the latest course of each evening lands after its time, 0 at least; of `instead` where an activity is given. */
  lateness(count: number, out: Float64Array, instead?: number): void {
    const { groups } = this.evening.compiled.model;
    const reach = instead === undefined ? null : this.reachOf(instead);
    out.fill(0, 0, count);
    for (const [k, node] of this.landings.entries()) {
      const g = this.groupOf[node]!;
      const source = reach?.[g] === 1 ? this.others : this.groups;
      for (let i = 0; i < count; i++) out[i] = Math.max(out[i]!, source[g * BLOCK + i]! - groups[k]!.due);
    }
  }

  /** By how many minutes something waits longer than it may in each evening, 0 at least; `wait` of the evening's. */
  overstay(count: number, wait: number, out: Float64Array): void {
    const { until, into, most } = this.waits[wait]!;
    const row = into.term < 0 ? null : this.termRows[into.term]!;
    for (let i = 0; i < count; i++) {
      const done = this.groups[into.from * BLOCK + i]! + (row === null ? into.low : row[i]!);
      out[i] = Math.max(0, this.groups[until * BLOCK + i]! - done - most);
    }
  }

  /** After `reckon`: a moment in the `i`th evening of the block. */
  time(node: number, i: number): number {
    return this.groups[this.groupOf[node]! * BLOCK + i]!;
  }
}
