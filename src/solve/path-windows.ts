/** When the activities of a path may start, given what is placed; and what an insertion may be asked. */
import type { Activity, Model } from '../kernel/model.js';
import type { Rng } from '../kernel/rng.js';
import type { State } from '../kernel/state.js';
import type { MachineView } from './own-cost.js';
import type { Bias } from './variants.js';

export interface InsertOptions {
  /** How far beyond the landing that stands a sink may end. */
  readonly lateness: number;
  /** The group is taken to land no sooner than this: a late plan is not made shorter by crowding all before its due time. */
  readonly target: number;
  /** A sink ends at most this long before the landing that stands. */
  readonly reach: number;
  readonly bias: Bias | null;
  /** Most points by which the start of each activity is made dearer or cheaper by chance, a few minutes alike; 0: none. */
  readonly noise: number;
  /** Most settings of a mode that are tried. */
  readonly settings: number;
  readonly rng: Rng;
}

export interface Spread {
  low: number;
  high: number;
}

/** Windows of start of each activity on the path, from its placed neighbours, the earliest starts and along the path. */
export function spreadsOf(
  model: Model,
  est: Int32Array,
  state: State,
  path: readonly number[],
  options: InsertOptions,
): Spread[] | null {
  const spreads = path.map((a) => {
    const activity = model.activities[a]!;
    let low = est[a]!;
    let high = Math.min(model.horizon - activity.shortest, model.progress?.latest[a] ?? model.horizon);
    const { group } = model.jobs[activity.job]!;
    if (activity.sink && group >= 0) {
      const landing = Math.max(options.target, state.landing(group));
      high = Math.min(high, landing + options.lateness - activity.shortest);
      low = Math.max(low, landing - options.reach - activity.longest);
    }
    for (const lag of activity.ins) {
      if (!state.isPlaced(lag.from)) continue;
      const end = state.end(lag.from);
      low = Math.max(low, end + lag.low);
      high = Math.min(high, end + lag.high);
    }
    for (const lag of activity.outs) {
      if (!state.isPlaced(lag.to)) continue;
      const start = state.start[lag.to]!;
      high = Math.min(high, start - lag.low - activity.shortest);
      low = Math.max(low, start - lag.high - activity.longest);
    }
    return { low, high };
  });
  for (let i = path.length - 2; i >= 0; i--) {
    const activity = model.activities[path[i]!]!;
    const lag = lagBetween(activity, path[i + 1]!);
    spreads[i]!.high = Math.min(spreads[i]!.high, spreads[i + 1]!.high - lag.low - activity.shortest);
    if (lag.high < Number.POSITIVE_INFINITY) {
      spreads[i]!.low = Math.max(spreads[i]!.low, spreads[i + 1]!.low - lag.high - activity.longest);
    }
  }
  for (let i = 0; i + 1 < path.length; i++) {
    const activity = model.activities[path[i]!]!;
    const lag = lagBetween(activity, path[i + 1]!);
    spreads[i + 1]!.low = Math.max(spreads[i + 1]!.low, spreads[i]!.low + activity.shortest + lag.low);
    if (lag.high < Number.POSITIVE_INFINITY) {
      spreads[i + 1]!.high = Math.min(spreads[i + 1]!.high, spreads[i]!.high + activity.longest + lag.high);
    }
  }
  return spreads.every((s) => s.low <= s.high) ? spreads : null;
}

export function lagBetween(activity: Activity, to: number): Activity['outs'][number] {
  const lag = activity.outs.find((l) => l.to === to);
  if (lag === undefined) throw new Error(`no lag from ${activity.id} to ${to}`);
  return lag;
}

/** The first placed start or changeover; the serve where nothing is placed. */
export function dayStart(state: State, view: MachineView): number {
  const { model } = state;
  let first = model.serve;
  for (let a = 0; a < state.start.length; a++)
    if (state.start[a]! >= 0 && state.start[a]! < first) first = state.start[a]!;
  view.blocks.forEach((blocks, m) => {
    if (blocks.length === 0) return;
    const n = model.machines[m]!.states.length;
    first = Math.min(first, blocks[0]!.from - model.machines[m]!.transition[n * (n + 1) + blocks[0]!.state]!);
  });
  return first;
}
