/** What it costs to start an activity at each minute, given everything that is placed: one row of the dynamic programme. */
import type { Block } from '../kernel/blocks.js';
import { blocksOf } from '../kernel/blocks.js';
import type { ActivityMode, Model, StandingLoad } from '../kernel/model.js';
import { stretchesOf, transitionTime } from '../kernel/model.js';
import { connected, standingOn } from '../kernel/standing.js';
import type { State } from '../kernel/state.js';
import { type Profiles, popcount } from './profiles.js';
import type { Variant } from './variants.js';

export interface StateWindow {
  readonly from: number;
  readonly to: number;
  /** Blocks in the same state within it. */
  readonly same: readonly Block[];
  readonly before: Block | null;
  readonly after: Block | null;
  /** Minutes from the first state where nothing comes before; else -1. */
  readonly warmUp: number;
}

/** What one insertion knows of the machines; built anew for each. */
export class MachineView {
  readonly blocks: Block[][];
  readonly loads: StandingLoad[][];

  constructor(
    private readonly model: Model,
    state: State,
  ) {
    this.blocks = model.machines.map((_, m) => blocksOf(state, m));
    this.loads = model.machines.map((_, m) => standingOn(state, m));
  }

  /** The stretches of time in which a machine can be in a state, between what it does in others. */
  windows(machine: number, state: number): StateWindow[] {
    const kind = this.model.machines[machine]!;
    const blocks = this.blocks[machine]!;
    const out: StateWindow[] = [];
    let i = 0;
    let before: Block | null = null;
    for (;;) {
      const same: Block[] = [];
      while (i < blocks.length && blocks[i]!.state === state) same.push(blocks[i++]!);
      const after = i < blocks.length ? blocks[i]! : null;
      const change = transitionTime(kind, before === null ? -1 : before.state, state);
      const since = this.model.progress?.ready[machine]?.[state] ?? 0;
      const from = Math.max(
        (before === null ? 0 : before.to) + change,
        same.length > 0 && isOn(same[0]!, this.model) ? 0 : since,
      );
      const to = after === null ? this.model.horizon : after.from - transitionTime(kind, state, after.state);
      if (from <= to) out.push({ from, to, same, before, after, warmUp: before === null ? change : -1 });
      if (after === null) return out;
      before = after;
      i++;
    }
  }

  /** What being in the window's state over [t, e) changes in runs and idling, in points. */
  change(machine: number, window: StateWindow, t: number, e: number): number {
    const { runCost, idleCost } = this.model.machines[machine]!;
    const { same, before, after } = window;
    if (same.length === 0) {
      const cost = before === null && after === null ? 0 : runCost;
      if (before === null || after === null || before.state !== after.state) return cost;
      return cost + runCost - Math.min(runCost, idleCost * (after.from - before.to));
    }
    const first = same[0]!.from;
    const last = same[same.length - 1]!.to;
    if (e < first) return Math.min(runCost, idleCost * (first - e));
    if (t > last) return Math.min(runCost, idleCost * (t - last));
    let fresh = 0;
    for (let b = 1; b < same.length; b++) {
      fresh += Math.max(0, Math.min(e, same[b]!.from) - Math.max(t, same[b - 1]!.to));
    }
    return -idleCost * fresh;
  }

  /**
   * Writes into `own` over [low, high] the points of running [t, t + minutes) in a state: Infinity where another state or a
   * transition is in the way, else what it changes in runs, idling and the length of the day.
   */
  fill(
    machine: number,
    state: number,
    minutes: number,
    low: number,
    high: number,
    own: Float64Array,
    dayFrom: number,
  ): void {
    own.fill(Number.POSITIVE_INFINITY, low, high + 1);
    const { day } = this.model.rates;
    for (const window of this.windows(machine, state)) {
      const from = Math.max(low, window.from);
      const to = Math.min(high, window.to - minutes);
      if (from > to) continue;
      if (window.same.length === 0) own.fill(this.change(machine, window, from, from + minutes), from, to + 1);
      else for (let t = from; t <= to; t++) own[t] = this.change(machine, window, t, t + minutes);
      if (window.warmUp < 0) continue;
      // The first run's changeover opens the day.
      const { warmUp } = window;
      for (let t = from; t <= Math.min(to, dayFrom + warmUp - 1); t++) {
        own[t] = own[t]! + day * Math.min(warmUp, dayFrom - (t - warmUp));
      }
    }
  }

  /** Sets `own` to Infinity where the loads do not fit beside those that stand there. */
  fillFit(mode: ActivityMode, state: number, minutes: number, low: number, high: number, own: Float64Array): void {
    if (mode.load < 0) return;
    const kind = this.model.machines[mode.machine]!;
    const standing = this.loads[mode.machine]!;
    if (standing.length === 0 && mode.loads === 1) return;
    const program = kind.states[state]!.program;
    const cuts = new Set<number>([low]);
    for (const s of standing) {
      if (s.start - minutes + 1 > low && s.start - minutes + 1 <= high) cuts.add(s.start - minutes + 1);
      if (s.end > low && s.end <= high) cuts.add(s.end);
    }
    const edges = [...cuts].sort((a, b) => a - b);
    edges.push(high + 1);
    for (let k = 0; k + 1 < edges.length; k++) {
      const from = edges[k]!;
      const to = edges[k + 1]!;
      let any = false;
      for (let t = from; t < to && !any; t++) any = own[t]! < Number.POSITIVE_INFINITY;
      if (!any) continue;
      const fresh = { program, load: mode.load, count: mode.loads, start: from, end: from + minutes };
      const group = connected(standing, fresh);
      if ((group.length > 1 || mode.loads > 1) && !kind.fits(group)) own.fill(Number.POSITIVE_INFINITY, from, to);
    }
  }
}

const isOn = (block: Block, { progress }: Model): boolean => progress !== undefined && block.from < progress.now;

/**
 * Sets `own` to Infinity where too few workers are free for the stretches, and adds what changing hands costs. `usual`: the workers who
 * were to do it, where others cost points.
 */
export function fillHands(
  model: Model,
  profiles: Profiles,
  mode: ActivityMode,
  usual: number,
  minutes: number,
  low: number,
  high: number,
  own: Float64Array,
): void {
  const flat = stretchesOf(mode.attention, minutes);
  if (flat.length === 0) return;
  const { crew } = mode.attention;
  const { able } = mode;
  const masks: Int32Array[] = [];
  for (let k = 0; k < flat.length; k += 2) masks.push(profiles.freeMask(flat[k + 1]!));
  for (let t = low; t <= high; t++) {
    if (own[t] === Number.POSITIVE_INFINITY) continue;
    let all = able;
    let enough = true;
    for (let k = 0; k < masks.length; k++) {
      const free = masks[k]![t + flat[k * 2]!]! & able;
      all &= free;
      if (free === 0 || (crew > 1 && popcount(free) < crew)) {
        enough = false;
        break;
      }
    }
    if (!enough) own[t] = Number.POSITIVE_INFINITY;
    else if (masks.length > 1 && popcount(all) < crew) own[t] = own[t]! + model.rates.swap;
    if (usual !== 0) own[t] = own[t]! + model.progress!.rates.hands * Math.max(0, crew - popcount(all & usual));
  }
}

/** Sets `own` to Infinity where units, bench or vessel are not free over [t, t + minutes). */
export function fillStock(
  profiles: Profiles,
  mode: ActivityMode,
  variant: Variant,
  minutes: number,
  low: number,
  high: number,
  own: Float64Array,
): void {
  const lines: Int32Array[] = [];
  if (mode.bench >= 0) lines.push(profiles.renewable(mode.bench, 1));
  if (variant.vessel >= 0) lines.push(profiles.vessel(variant.vessel, variant.amount, variant.tail));
  for (const line of lines) {
    for (let t = low; t <= high; t++) if (line[t]! < t + minutes) own[t] = Number.POSITIVE_INFINITY;
  }
  if (mode.unitCount > 0) {
    const units = mode.units.map((u) => profiles.unit(u));
    for (let t = low; t <= high; t++) {
      let free = 0;
      for (const line of units) if (line[t]! >= t + minutes) free++;
      if (free < mode.unitCount) own[t] = Number.POSITIVE_INFINITY;
    }
  }
}
