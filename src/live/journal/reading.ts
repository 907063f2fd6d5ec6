/** A thermometer's reading: of which step it is, and whether it can be. */
import { showHeat, showHeatSpan } from '../../problem/degrees.js';
import { clockAt, stepKey } from '../../problem/hours.js';
import { HEAT_WORKS, type Problem } from '../../problem/problem.js';
import { quote } from '../../units/measure.js';
import { showList } from '../../units/show.js';
import type { Day } from './day.js';
import type { BodyOf, Head } from './entries.js';
import { isRefusal, type Refusal, refuse, stepNamed } from './names.js';

/** What a core can be, °C. */
const COLDEST = -25;
const HOTTEST = 105;

/** A core can be read where there is a piece, on the heat or at rest after it. */
export function isRead(problem: Problem, id: number): boolean {
  const { dish, work, after } = problem.steps[id]!;
  if (problem.dishes[dish]!.piece === null) return false;
  const isHot = (step: number): boolean => HEAT_WORKS.has(problem.steps[step]!.work);
  return HEAT_WORKS.has(work) || (work === 'rest' && after.some(({ step }) => isHot(step)));
}

/** Steps under way at a minute in which a core can be read. */
export const readable = ({ problem, steps }: Day, when: number): number[] =>
  [...steps].flatMap(([id, { start, end }]) =>
    isRead(problem, id) && start <= when && (end === null || when <= end) ? [id] : [],
  );

export function readingOf(day: Day, entry: Head & BodyOf<'reading'>, when: number): Day | Refusal {
  const { problem } = day;
  const id = stepNamed(problem, entry.step);
  if (isRefusal(id)) return id;
  const name = stepKey(problem, id);
  const { dish } = problem.steps[id]!;
  if (problem.dishes[dish]!.piece === null)
    return refuse(
      `${problem.dishes[dish]!.name} has no piece whose core could be read.`,
      '`piece: { ... }` in the file',
    );
  const now = readable(day, when).map((one) => stepKey(problem, one));
  const hint = now.length === 0 ? null : showList(now);
  const fact = day.steps.get(id);
  if (!isRead(problem, id)) return refuse(`${name} is not on the heat: its core says nothing yet.`, hint);
  if (fact === undefined) return refuse(`${name} is not begun.`, hint ?? `first: started ${quote(name)}`);
  if (when < fact.start)
    return refuse(`${name} was started at ${clockAt(problem, fact.start)}, after ${clockAt(problem, when)}.`, hint);
  if (fact.end !== null && when > fact.end)
    return refuse(`${name} was done at ${clockAt(problem, fact.end)}: it is off the heat.`, hint);
  if (entry.celsius < COLDEST || entry.celsius > HOTTEST)
    return refuse(`${showHeat(problem, entry.celsius)} cannot be a core.`, showHeatSpan(problem, COLDEST, HOTTEST));
  const twice = day.readings.some((one) => one.step === id && one.at === when && one.celsius === entry.celsius);
  if (twice) return refuse(`That reading of ${clockAt(problem, when)} is there already.`);
  const readings = [...day.readings, { step: id, at: when, celsius: entry.celsius }];
  return { ...day, readings: readings.sort((a, b) => a.at - b.at) };
}
