import type { Appliance } from '../problem/problem.js';
import { CEIL_SLACK } from './option.js';

/** The least whole minutes from one temperature to another; a change of mode or lid adds nothing by itself. */
export function leastChangeover(appliance: Appliance, from: number, to: number): number {
  const exact = to >= from ? (to - from) / appliance.heats : (from - to) / appliance.cools;
  // Where both are 0 or infinite nothing has to change.
  return exact > 0 ? Math.ceil(exact - CEIL_SLACK) : 0;
}
