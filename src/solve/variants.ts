/** The ways in which one activity of a path can be done, each a row of the dynamic programme in `insert.ts`. */
import type { Activity, Model } from '../kernel/model.js';
import type { Rng } from '../kernel/rng.js';

export interface Variant {
  readonly mode: number;
  readonly setting: number;
  /** Processing time; -1 where it is free within the mode's range. */
  readonly minutes: number;
  /** Machine state or -1. */
  readonly machine: number;
  readonly state: number;
  /** Renewable in custody during the activity, and how much of it; -1: none. */
  readonly vessel: number;
  readonly amount: number;
  /** The custody that goes on after its end; -1: none. */
  readonly kept: number;
  /** Minutes for which the renewable is away after the end where the activity lets go of it; else 0. */
  readonly tail: number;
  readonly transparent: boolean;
  readonly cost: number;
}

/** Makes all settings of some programs but one each dearer, so that several jobs agree on a state. */
export interface Bias {
  readonly machine: number;
  /** The wanted state of each program; -1 where any will do. */
  readonly wanted: readonly number[];
  readonly cost: number;
}

/** Settings of a mode worth a row: all when few, else the ends, the cheapest, those in use on the machine and a few by chance. */
function pickSettings(
  mode: Activity['modes'][number],
  inUse: ReadonlySet<number>,
  wanted: readonly number[],
  limit: number,
  rng: Rng,
): number[] {
  const n = mode.settings.length;
  if (n <= limit) return Array.from({ length: n }, (_, i) => i);
  const picked = new Set<number>([0, n - 1]);
  let cheapest = 0;
  for (let i = 1; i < n; i++) if (mode.settings[i]!.cost < mode.settings[cheapest]!.cost) cheapest = i;
  picked.add(cheapest);
  for (let i = 0; i < n; i++) {
    const { state } = mode.settings[i]!;
    if (inUse.has(state) || wanted.includes(state)) picked.add(i);
  }
  for (let tries = 0; picked.size < limit && tries < limit * 2; tries++) picked.add(rng.below(n));
  return [...picked].sort((a, b) => a - b);
}

/** Lengths tried where the range is not free to slide: its ends, the ends of its best part, the middle and one by chance. */
function pickLengths(range: NonNullable<Activity['modes'][number]['range']>, limit: number, rng: Rng): number[] {
  if (range.high - range.low <= limit)
    return Array.from({ length: range.high - range.low + 1 }, (_, i) => range.low + i);
  const middle = Math.floor((range.bestLow + range.bestHigh) / 2);
  const chance = range.low + rng.below(range.high - range.low + 1);
  return [...new Set([range.low, range.bestLow, middle, range.bestHigh, range.high, chance])].sort((a, b) => a - b);
}

/** Modes worth trying in one insertion: all when few, else some by chance; null: all. */
function pickModes(activity: Activity, limit: number, rng: Rng): ReadonlySet<number> | null {
  const n = activity.modes.length;
  if (n <= limit + 3) return null;
  const picked = new Set<number>();
  while (picked.size < limit) picked.add(rng.below(n));
  return picked;
}

/**
 * Variants of an activity. `carried`: the custodies that may reach it along the path (-1 for none), which a transparent mode
 * carries on.
 */
export function variantsOf(
  model: Model,
  activity: Activity,
  carried: readonly number[],
  amounts: ReadonlyMap<number, number>,
  inUse: ReadonlySet<number>[],
  bias: Bias | null,
  limit: number,
  rng: Rng,
): Variant[] {
  const out: Variant[] = [];
  const after = (vessel: number): { kept: number; tail: number } =>
    activity.empties && vessel >= 0 ? { kept: -1, tail: model.renewables[vessel]!.tail } : { kept: vessel, tail: 0 };
  const tried = pickModes(activity, limit, rng);
  activity.modes.forEach((mode, m) => {
    if (tried !== null && !tried.has(m)) return;
    const wanted = bias !== null && bias.machine === mode.machine ? bias.wanted : [];
    const settings = mode.machine < 0 ? [0] : pickSettings(mode, inUse[mode.machine]!, wanted, limit, rng);
    const slides = mode.range !== null && mode.machine < 0 && mode.attention.crew === 0;
    for (const s of settings) {
      const setting = mode.settings[s]!;
      const off = bias !== null && mode.machine === bias.machine ? biasOf(model, bias, setting.state) : 0;
      const lengths = mode.range === null ? [setting.minutes] : slides ? [-1] : pickLengths(mode.range, limit, rng);
      for (const minutes of lengths) {
        const { range } = mode;
        const rest =
          range === null || minutes < 0
            ? 0
            : range.rate * Math.max(0, range.bestLow - minutes, minutes - range.bestHigh);
        const base = {
          mode: m,
          setting: s,
          minutes,
          machine: mode.machine,
          state: setting.state,
          transparent: mode.transparent,
          cost: setting.cost + off + rest,
        };
        if (mode.transparent) {
          for (const vessel of carried) {
            const amount = vessel < 0 ? 0 : (amounts.get(vessel) ?? 1);
            out.push({ ...base, vessel, amount, ...after(vessel) });
          }
        } else out.push({ ...base, vessel: mode.vessel, amount: mode.vessels, ...after(mode.vessel) });
      }
    }
  });
  return out;
}

function biasOf(model: Model, bias: Bias, state: number): number {
  const wanted = bias.wanted[model.machines[bias.machine]!.states[state]!.program] ?? -1;
  return wanted >= 0 && wanted !== state ? bias.cost : 0;
}
