/**
 * Scheduling with least and greatest time lags, modes, renewable and nonrenewable resources; the last activity is to begin as early as can
 * be. Whole minutes from 0, half-open intervals.
 */
import type { ProjectMode } from '../sequence/project.js';

export interface TimeLag {
  readonly from: number;
  readonly to: number;
  /** start(to) minus the start of `from`, or its end, is at least this; below 0 it is a greatest lag the other way round. */
  readonly least: number;
  readonly after: 'start' | 'end';
}

export interface Problem {
  /** Modes of each activity, at least one. */
  readonly activities: readonly (readonly ProjectMode[])[];
  readonly lags: readonly TimeLag[];
  /** Capacities. */
  readonly renewables: readonly number[];
  readonly nonrenewables: readonly number[];
}

export interface Schedule {
  readonly starts: readonly number[];
  /** Index of each activity's mode. */
  readonly modes: readonly number[];
}

export const shortest = (modes: readonly ProjectMode[]): number => Math.min(...modes.map(({ minutes }) => minutes));

export const longest = (modes: readonly ProjectMode[]): number => Math.max(...modes.map(({ minutes }) => minutes));

/** What an activity uses of a renewable in any case. */
export const leastUse = (modes: readonly ProjectMode[], resource: number): number =>
  Math.min(...modes.map(({ uses }) => uses[resource]!));

/** If there is a schedule at all, there is one that begins its last activity by then: no activity needs to wait longer than this for all others. */
export function horizonOf({ activities, lags }: Problem): number {
  const most = activities.map(longest);
  for (const { from, least, after } of lags) {
    most[from] = Math.max(most[from]!, least + (after === 'end' ? longest(activities[from]!) : 0));
  }
  return most.reduce((sum, minutes) => sum + minutes, 0);
}
