/** The objective, part by part, of a schedule; activities that are not placed count nothing. */
import { blocksOf, runsOf } from './blocks.js';
import { stretchesOf, transitionTime } from './model.js';
import type { State } from './state.js';
import { swerveOf } from './swerve.js';

export interface Parts {
  late: number;
  wait: number;
  over: number;
  gap: number;
  heat: number;
  runs: number;
  idle: number;
  rest: number;
  swap: number;
  day: number;
}

export function costOf(state: State): Parts {
  const { model } = state;
  const parts: Parts = { late: 0, wait: 0, over: 0, gap: 0, heat: 0, runs: 0, idle: 0, rest: 0, swap: 0, day: 0 };
  let first = model.serve;
  for (const lag of model.lags) {
    if (lag.rate === 0 || state.start[lag.from]! < 0 || state.start[lag.to]! < 0) continue;
    parts[lag.part] += lag.rate * Math.max(0, state.start[lag.to]! - state.end(lag.from) - lag.low);
  }
  for (const activity of model.activities) {
    const a = activity.id;
    const start = state.start[a]!;
    if (start < 0) continue;
    if (start < first) first = start;
    const mode = state.modeOf(a);
    parts.heat += mode.settings[state.setting[a]!]!.cost;
    const { range } = mode;
    if (range !== null) {
      const minutes = state.minutes[a]!;
      parts.rest += range.rate * Math.max(0, range.bestLow - minutes, minutes - range.bestHigh);
    }
    parts.swap += model.rates.swap * extraHands(state, a);
  }
  model.groups.forEach((group, g) => {
    const landing = state.landing(g);
    parts.late += model.rates.late * (landing - group.due);
    for (const j of group.jobs) {
      const job = model.jobs[j]!;
      for (const a of job.activities) {
        if (!model.activities[a]!.sink || state.start[a]! < 0) continue;
        const waits = landing - state.end(a);
        const stored = state.store.mode[j]! < 0 ? 0 : state.store.minutes[j]!;
        parts.wait += job.rate * (waits - stored);
        parts.over += model.rates.over * Math.max(0, waits - stored - job.keeps);
        if (stored > 0) {
          parts.wait += job.storage!.rate * stored;
          parts.over += model.rates.over * Math.max(0, stored - job.storage!.keeps);
        }
      }
    }
  });
  model.machines.forEach((machine, m) => {
    const runs = runsOf(machine, blocksOf(state, m));
    if (runs.length === 0) return;
    parts.runs += machine.runCost * (runs.length - 1);
    for (const run of runs) parts.idle += machine.idleCost * run.idle;
    first = Math.min(first, runs[0]!.from - transitionTime(machine, -1, runs[0]!.state));
  });
  parts.day = model.rates.day * (model.serve - first);
  return parts;
}

/** What a search makes least: the points, and where the schedule is under way what leaving the known one costs. */
export const priceOf = (state: State): number => totalOf(costOf(state)) + swerveOf(state);

/** Different workers on a placed activity beyond the number asked for at once. */
export function extraHands(state: State, a: number): number {
  return beyondCrew(state.hands[a]!, state.modeOf(a).attention.crew);
}

/** Different workers in a list of hands, `crew` for each stretch in turn, beyond the crew. */
export function beyondCrew(hands: readonly number[], crew: number): number {
  return hands.length <= crew ? 0 : new Set(hands).size - crew;
}

export function totalOf(parts: Parts): number {
  return (
    parts.late +
    parts.wait +
    parts.over +
    parts.gap +
    parts.heat +
    parts.runs +
    parts.idle +
    parts.rest +
    parts.swap +
    parts.day
  );
}

/** Stretches of a placed activity as absolute [from, to) pairs, flat. */
export function stretchTimes(state: State, a: number): number[] {
  const start = state.start[a]!;
  const flat = stretchesOf(state.modeOf(a).attention, state.minutes[a]!);
  for (let k = 0; k < flat.length; k += 2) {
    const from = start + flat[k]!;
    flat[k + 1] = from + flat[k + 1]!;
    flat[k] = from;
  }
  return flat;
}
