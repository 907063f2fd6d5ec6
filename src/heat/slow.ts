/**
 * A piece at the slow end of the spread on its way through a meal, for whoever judges whether it gets safe: bigger, colder and less heated
 * than was said, it is still pulled where a thermometer shows what the likely one is pulled at, only later. Minutes, °C.
 */
import type { Kitchen } from '../problem/problem.js';
import { Prepared } from './heating.js';
import type { Joint } from './joint.js';
import { type Course, historyOf } from './roast.js';
import { SLOW } from './spread.js';
import { endingAt, legsOf, type Stay } from './way.js';

/** Its course from the first stay to a minute; `pulls`: by index of the stay, the core at which it ends. All stays are known. */
export function slowCourse(
  kitchen: Kitchen,
  joint: Joint,
  stays: readonly Stay[],
  pulls: ReadonlyMap<number, number>,
  until: number,
): Course {
  let late = [...stays];
  for (const [k, core] of [...pulls].sort(([a], [b]) => a - b)) {
    const { start, around } = late[k]!;
    const before = legsOf(kitchen, late.slice(0, k), start)!;
    const minutes = new Prepared(joint, before, SLOW).minutesTo(around!, core);
    // Where the slow one never gets there it is pulled when the likely one is.
    if (Number.isFinite(minutes)) late = endingAt(late, k, start + minutes);
  }
  return historyOf(joint, legsOf(kitchen, late, until)!, 'slow');
}
