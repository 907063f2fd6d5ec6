/** What leaving the schedule that everybody knows costs. */
import { isSettled, type Model } from './model.js';
import type { Wish } from './progress.js';
import type { State } from './state.js';

export function wishPoints(wishes: readonly Wish[], start: number): number {
  let points = 0;
  for (const { at, before, after } of wishes) points += start < at ? before * (at - start) : after * (start - at);
  return points;
}

/** Points for a mode and setting of an activity that are not the usual ones. */
export function swerveOfMode(model: Model, activity: number, mode: number, setting: number): number {
  const usual = model.progress?.usual[activity] ?? null;
  if (usual === null) return 0;
  const { rates } = model.progress!;
  if (usual.mode !== mode) return rates.mode;
  return usual.setting === setting ? 0 : rates.setting;
}

/** Points for all by which a schedule leaves the one that was known. */
export function swerveOf(state: State): number {
  const { model } = state;
  const { progress } = model;
  if (progress === undefined) return 0;
  const { rates } = progress;
  let points = 0;
  for (const { id } of model.activities) {
    if (state.start[id]! < 0 || isSettled(model, id)) continue;
    points += wishPoints(progress.wishes[id]!, state.start[id]!);
    const usual = progress.usual[id]!;
    if (usual === null) continue;
    points += swerveOfMode(model, id, state.mode[id]!, state.setting[id]!);
    for (const w of new Set(state.hands[id]!)) if ((usual.hands >> w) % 2 === 0) points += rates.hands;
    if (state.units[id]!.some((unit) => !usual.units.includes(unit))) points += rates.units;
  }
  return points;
}
