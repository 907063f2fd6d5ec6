/** The timing network of a schedule in which every row knows the rule that it comes from. */

import { transitionTime } from '../../kernel/model.js';
import type { State } from '../../kernel/state.js';
import type { Compiled } from '../compile.js';
import { linesOf, turnRows } from '../lines.js';
import { addRows, machineRows } from '../order-rows.js';
import { type SkeletonRun, timingRuns } from '../timetable.js';
import { type NodeMoment, TimingNetwork } from '../timing-network.js';
import { changeoverRows, dayRows, lagRows, landingRows, lengthRows } from '../timing-rows.js';

/** What a node of the network is the time of. A step of fixed length has one node, its start. */
export type What =
  | { readonly kind: 'zero' | 'first' }
  | { readonly kind: 'start' | 'end'; readonly a: number }
  | { readonly kind: 'landing'; readonly group: number }
  | { readonly kind: 'stored' | 'fetched'; readonly job: number }
  | { readonly kind: 'begin' | 'finish'; readonly run: number };

/** The rule that a row comes from. */
export type Cause =
  | { readonly kind: 'bound' | 'lag' | 'landing' | 'length' | 'day' | 'run' | 'turn' }
  /** `before`: the run before it, -1 for the machine's first state. */
  | { readonly kind: 'change'; readonly before: number; readonly run: number }
  | { readonly kind: 'worker' | 'unit' | 'stock' | 'stay'; readonly index: number };

export interface RuleRow {
  readonly arc: number;
  readonly from: number;
  readonly to: number;
  /** p[to] - p[from] is at least this. */
  readonly weight: number;
  /** Points a unit for less; Infinity where that breaks a rule. */
  readonly cap: number;
  readonly cause: Cause;
  /** It bounds how late `from` may come after `to`. */
  readonly most: boolean;
  /** Rows that say the same rule of the same two things. */
  readonly group: number;
}

export class ReasonNetwork extends TimingNetwork {
  private readonly causes: Pick<RuleRow, 'cause' | 'most' | 'group'>[] = [];
  private group = 0;
  private cause: Cause = { kind: 'bound' };
  readonly whats: readonly What[];
  readonly rows: readonly RuleRow[];

  constructor(compiled: Compiled, state: State) {
    super(compiled, state, timingRuns(state), state.minutes, state.hands);
    this.because({ kind: 'bound' }, () => undefined);
    this.because({ kind: 'lag' }, () => lagRows(this));
    this.because({ kind: 'landing' }, () => landingRows(this));
    this.because({ kind: 'length' }, () => lengthRows(this));
    this.because({ kind: 'run' }, () => changeoverRows(this));
    this.because({ kind: 'day' }, () => dayRows(this));
    this.because({ kind: 'run' }, () => machineRows(this));
    for (const { of, entries } of linesOf(this)) {
      entries.forEach((entry, i) => {
        this.because({ kind: 'stay', index: of.index }, () => addRows(this, entry.stay));
        if (i > 0)
          this.because({ kind: of.kind, index: of.index }, () => addRows(this, turnRows(entries[i - 1]!, entry)));
      });
    }
    this.whats = this.namedNodes();
    this.rows = this.causes.map((label, arc) => ({ arc, ...this.network.row(arc), ...label }));
  }

  private because(cause: Cause, add: () => void): void {
    this.cause = cause;
    this.group++;
    add();
    this.label();
  }

  /** Labels what was added since the last time. */
  private label(most = false): void {
    while (this.causes.length < this.network.arcs) this.causes.push({ cause: this.cause, most, group: this.group });
  }

  override apart(earlier: NodeMoment, later: NodeMoment, low: number, high = Number.POSITIVE_INFINITY): void {
    super.apart(earlier, later, low);
    this.label();
    if (high === Number.POSITIVE_INFINITY || earlier.node === later.node) return;
    this.network.arc(later.node, earlier.node, -(high + earlier.offset - later.offset), Number.POSITIVE_INFINITY);
    this.label(true);
  }

  override inTurn(one: number, two: number, earlier: NodeMoment, later: NodeMoment): void {
    this.within({ kind: 'turn' }, () => super.inTurn(one, two, earlier, later));
  }

  override change(before: number, from: NodeMoment, run: number, to: NodeMoment): void {
    this.within({ kind: 'change', before, run }, () => super.change(before, from, run, to));
  }

  private within(cause: Cause, add: () => void): void {
    const outer = this.cause;
    this.because(cause, add);
    this.cause = outer;
    this.group++;
  }

  private namedNodes(): What[] {
    const { model } = this.compiled;
    const out: What[] = [{ kind: 'zero' }];
    const name = (moment: NodeMoment, what: What): void => {
      out[moment.node] ??= what;
    };
    for (const { id } of model.activities) {
      name(this.start(id), { kind: 'start', a: id });
      name(this.end(id), { kind: 'end', a: id });
    }
    for (const group of model.groups.keys()) name(this.landing(group), { kind: 'landing', group });
    for (const { id } of model.jobs) {
      if (this.state.store.mode[id]! < 0) continue;
      name(this.storeStart(id), { kind: 'stored', job: id });
      name(this.storeEnd(id), { kind: 'fetched', job: id });
    }
    this.runs.forEach((_, run) => {
      name(this.begin(run), { kind: 'begin', run });
      name(this.finish(run), { kind: 'finish', run });
    });
    name(this.first, { kind: 'first' });
    return out;
  }

  /** The schedule's own times, node by node. */
  ownTimes(): Float64Array {
    const { state, runs, compiled } = this;
    const { machines, serve } = compiled.model;
    const first = Math.min(
      serve,
      ...compiled.model.activities.map(({ id }) => state.start[id]!),
      ...runs.map((run, r) => run.from - (this.opens(r) ? transitionTime(machines[run.machine]!, -1, run.state) : 0)),
    );
    return Float64Array.from(this.whats, (what) => {
      switch (what.kind) {
        case 'zero':
          return 0;
        case 'first':
          return first;
        case 'start':
          return state.start[what.a]!;
        case 'end':
          return state.end(what.a);
        case 'landing':
          return state.landing(what.group);
        case 'stored':
          return state.store.start[what.job]!;
        case 'fetched':
          return state.store.start[what.job]! + state.store.minutes[what.job]!;
        case 'begin':
          return runs[what.run]!.from;
        case 'finish':
          return runs[what.run]!.to;
      }
    });
  }

  /** Whether nothing is on the machine before the run. */
  opens(run: number): boolean {
    return run === 0 || this.runs[run - 1]!.machine !== this.runs[run]!.machine;
  }

  runOf(run: number): SkeletonRun {
    return this.runs[run]!;
  }
}
