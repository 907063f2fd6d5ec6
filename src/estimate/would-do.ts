/** What air would do where the one that was asked for is too cold. °C. */
import { answersTo } from '../heat/roast.js';
import { celsiusOfFahrenheit, fahrenheitOfCelsius } from '../units/temperature.js';
import type { Asked } from './asked.js';
import { questionOf } from './question.js';

/** Steps of a dial, and the hottest that is tried. */
const STEP = { C: 5, F: 10 };
const HOTTEST = 250;

/** The lowest air above `cold`, on the marks of a dial, in which the core gets to its goal; null: none up to 250 °C. */
export function wouldDo(asked: Asked, cold: number): number | null {
  const degree = asked.units.air;
  const shown = degree === 'C' ? cold : fahrenheitOfCelsius(cold);
  const marks: number[] = [];
  for (let mark = (Math.floor(shown / STEP[degree]) + 1) * STEP[degree]; ; mark += STEP[degree]) {
    const celsius = degree === 'C' ? mark : celsiusOfFahrenheit(mark);
    if (celsius > HOTTEST) break;
    marks.push(celsius);
  }
  // Hotter air never does less: the lowest that does is found by halving.
  const does = (celsius: number): boolean =>
    Number.isFinite(answersTo(questionOf(asked, [celsius]))[0]!.minutes.likely);
  if (marks.length === 0 || !does(marks.at(-1)!)) return null;
  let [low, high] = [0, marks.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (does(marks[middle]!)) high = middle;
    else low = middle + 1;
  }
  return marks[low]!;
}
