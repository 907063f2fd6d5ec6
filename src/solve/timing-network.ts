/**
 * Times alone, all levels fixed: every rule is then a bound on the difference of two times and every cost a hinge on one, so the
 * timing problem is the dual of a minimum cost flow.
 */
import type { State } from '../kernel/state.js';
import type { Compiled } from './compile.js';
import { Network } from './network-simplex.js';
import type { SkeletonRun, Timetable } from './timetable.js';

export interface NodeMoment {
  readonly node: number;
  readonly offset: number;
}

/** Points are flows; whole multiples of this many make the arithmetic exact. */
const SCALE = 1e6;

export class TimingNetwork implements Timetable<NodeMoment> {
  readonly zero: NodeMoment = { node: 0, offset: 0 };
  readonly first: NodeMoment;
  readonly network = new Network();
  /** Occupants of machines in turn, with the arc that keeps them so. */
  readonly turns: { readonly arc: number; readonly one: number; readonly two: number }[] = [];
  private readonly starts: number[];
  private readonly ends: NodeMoment[];
  private readonly landings: number[];
  private readonly stores: number[][];
  private readonly begins: number[];
  private readonly finishes: number[];

  /** `runs` carry the states to be used; `lengths` the minutes of every activity whose length is not free. */
  constructor(
    readonly compiled: Compiled,
    readonly state: State,
    readonly runs: readonly SkeletonRun[],
    readonly lengths: Int32Array,
    readonly hands: readonly (readonly number[])[],
  ) {
    const { network } = this;
    network.node();
    const { model } = compiled;
    const bounded = (): number => {
      const node = network.node();
      network.arc(0, node, 0, Number.POSITIVE_INFINITY);
      network.arc(node, 0, -model.horizon, Number.POSITIVE_INFINITY);
      return node;
    };
    this.starts = model.activities.map(({ id }) => {
      const node = bounded();
      this.begunRows(id, node);
      return node;
    });
    this.ends = model.activities.map(({ id }) =>
      state.modeOf(id).range === null
        ? { node: this.starts[id]!, offset: lengths[id]! }
        : { node: bounded(), offset: 0 },
    );
    this.landings = model.groups.map(bounded);
    this.stores = model.jobs.map((job) => (state.store.mode[job.id]! < 0 ? [] : [bounded(), bounded()]));
    this.begins = runs.map(bounded);
    this.finishes = runs.map(bounded);
    this.first = { node: bounded(), offset: 0 };
  }

  /** When an activity may start where the schedule is under way, and when it had better. */
  private begunRows(a: number, node: number): void {
    const { progress } = this.compiled.model;
    if (progress === undefined) return;
    const at = { node, offset: 0 };
    const settled = progress.settled[a]!;
    if (settled !== null) {
      this.apart(this.zero, at, settled.start, settled.start);
      return;
    }
    const latest = progress.latest[a]!;
    this.apart(this.zero, at, progress.earliest[a]!, latest < this.compiled.model.horizon ? latest : undefined);
    for (const wish of progress.wishes[a]!) {
      if (wish.after > 0) this.hinge(wish.after, this.zero, at, wish.at);
      if (wish.before > 0) this.hinge(wish.before, at, this.zero, -wish.at);
    }
  }

  start(a: number, offset = 0): NodeMoment {
    return { node: this.starts[a]!, offset };
  }

  end(a: number, offset = 0): NodeMoment {
    const end = this.ends[a]!;
    return offset === 0 ? end : { node: end.node, offset: end.offset + offset };
  }

  landing(group: number): NodeMoment {
    return { node: this.landings[group]!, offset: 0 };
  }

  storeStart(job: number): NodeMoment {
    return { node: this.stores[job]![0]!, offset: 0 };
  }

  storeEnd(job: number): NodeMoment {
    return { node: this.stores[job]![1]!, offset: 0 };
  }

  begin(run: number): NodeMoment {
    return { node: this.begins[run]!, offset: 0 };
  }

  finish(run: number): NodeMoment {
    return { node: this.finishes[run]!, offset: 0 };
  }

  apart(earlier: NodeMoment, later: NodeMoment, low: number, high = Number.POSITIVE_INFINITY): void {
    if (earlier.node === later.node) return;
    const shift = earlier.offset - later.offset;
    this.network.arc(earlier.node, later.node, low + shift, Number.POSITIVE_INFINITY);
    if (high < Number.POSITIVE_INFINITY)
      this.network.arc(later.node, earlier.node, -(high + shift), Number.POSITIVE_INFINITY);
  }

  inTurn(one: number, two: number, earlier: NodeMoment, later: NodeMoment): void {
    this.turns.push({ arc: this.network.arcs, one, two });
    this.apart(earlier, later, 0);
  }

  charge(rate: number, earlier: NodeMoment, later: NodeMoment): void {
    const pull = Math.round(rate * SCALE);
    this.network.addPull(later.node, pull);
    this.network.addPull(earlier.node, -pull);
  }

  /** rate x max(0, later - earlier - free): the penalty of an arc that would have later - earlier at most `free`. */
  hinge(rate: number, earlier: NodeMoment, later: NodeMoment, free: number): void {
    if (earlier.node === later.node) return;
    const shift = earlier.offset - later.offset;
    this.network.arc(later.node, earlier.node, -(free + shift), Math.round(rate * SCALE));
  }

  change(before: number, from: NodeMoment, r: number, to: NodeMoment): void {
    const run = this.runs[r]!;
    const machine = this.compiled.model.machines[run.machine]!;
    const n = machine.states.length;
    const state = before < 0 ? n : this.runs[before]!.state;
    this.apart(from, to, machine.transition[state * (n + 1) + run.state]!);
  }

  /** When every moment is at least points; null where the structure has no times. */
  solve(): ((moment: NodeMoment) => number) | null {
    return this.network.solve() === null ? null : this.times();
  }

  /** Times at the network's present optimum. */
  times(): (moment: NodeMoment) => number {
    const potential = this.network.potentials();
    return (m) => Math.round(potential[m.node]!) + m.offset;
  }

  /** Goes on from the last optimum after changes of the network; whether there are times that cost fewer points than `most`. */
  again(most: number): boolean {
    return this.network.again(most * SCALE);
  }

  /** After `solve`: points at the optimum, up to a constant that is the same for every order of the same activities. */
  get points(): number {
    return this.network.cost / SCALE;
  }

  /** After `solve`: points that a minute less of the arc's row would save. */
  rate(arc: number): number {
    return this.network.flow(arc) / SCALE;
  }
}
