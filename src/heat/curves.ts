/** What the pieces of a meal are predicted to do before there is a plan. Minutes, °C. */
import { HEAT_WORKS, type Problem } from '../problem/problem.js';
import { jointOf } from './piece-joint.js';
import { historyOf } from './roast.js';
import { legsOf, likelyStays, wayThrough } from './way.js';

/** A core's temperature and its surface's over time; minute 0 is when the first step on the heat begins. */
export interface CoreCurve {
  readonly minutes: Float64Array;
  readonly celsius: Float64Array;
  readonly surface: Float64Array;
}

/** By dish, for those whose minutes come from the heat model: along the way that is likeliest, up to the end of the last step. */
export function likelyCurves(problem: Problem): Map<number, CoreCurve> {
  const curves = new Map<number, CoreCurve>();
  for (const [at, dish] of problem.dishes.entries()) {
    const modelled = dish.steps.findLast((id) =>
      problem.steps[id]!.options.some(({ forecasts }) => forecasts !== null),
    );
    const joint = jointOf(dish);
    if (modelled === undefined || 'say' in joint) continue;
    const way = wayThrough(problem.steps, modelled);
    const own = problem.steps[modelled]!.options.find(({ forecasts }) => forecasts !== null)!;
    const stays = likelyStays(problem, way, own);
    const known = stays.findIndex(({ around }) => around === null);
    const last = known < 0 ? stays.at(-1)!.end : stays[known]!.start;
    const legs = legsOf(problem.kitchen, known < 0 ? stays : stays.slice(0, known), last);
    const first = way.findIndex((id) => HEAT_WORKS.has(problem.steps[id]!.work));
    const { minutes, core, surface } = historyOf(joint, legs!);
    curves.set(at, { minutes: minutes.map((minute) => minute - stays[first]!.start), celsius: core, surface });
  }
  return curves;
}
