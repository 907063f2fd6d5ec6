/** How many minutes a step may take longer than planned, all else as planned, before anything lands later than it does then. */
import type { Schedule } from '../solve/schedule.js';
import { Evening } from './evening.js';
import { BLOCK, Evenings } from './evenings.js';

/** Whole minutes, by activity; `MOST_SLACK` stands for that and more. */
export function slackOf({ compiled, state }: Schedule, activities: readonly number[]): Map<number, number> {
  const evenings = new Evenings(new Evening(compiled, state), state.minutes, new Set(activities));
  const planned = new Map(activities.map((a) => [a, new Float64Array(BLOCK).fill(state.minutes[a]!)]));
  const late = new Float64Array(BLOCK);
  return new Map(
    activities.map((a) => {
      const longer = Float64Array.from({ length: BLOCK }, (_, minutes) => state.minutes[a]! + minutes);
      evenings.reckon(BLOCK, new Map([...planned, [a, longer]]));
      evenings.lateness(BLOCK, late);
      const first = late.findIndex((minutes) => minutes > late[0]!);
      return [a, first < 0 ? MOST_SLACK : first - 1];
    }),
  );
}

export const MOST_SLACK = BLOCK - 1;
