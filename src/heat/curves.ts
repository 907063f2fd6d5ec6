/** What the pieces of a meal are predicted to do before there is a plan. Minutes, °C. */
import { type Forecast, HEAT_WORKS, type Option, type Problem } from '../problem/problem.js';
import { jointOf } from './piece-joint.js';
import { slowCourse } from './slow.js';
import { knownOf, likelySetting, likelyStays, wayThrough, wayUncut } from './way.js';

/** A core's temperature and its surface's over time; minute 0 is when the first step on the heat begins. */
export interface CoreCurve {
  readonly minutes: Float64Array;
  readonly celsius: Float64Array;
  readonly surface: Float64Array;
}

/**
 * By dish, for those whose minutes come from the heat model: along the likeliest way, until it is cut or its dish ends, as the slow end
 * of the spread goes it.
 */
export function expectedCurves(problem: Problem): Map<number, CoreCurve> {
  const curves = new Map<number, CoreCurve>();
  for (const [at, dish] of problem.dishes.entries()) {
    const last = dish.steps.findLast((id) => modelledWay(problem, id) !== undefined);
    const joint = jointOf(dish);
    if (last === undefined || 'say' in joint) continue;
    const way = wayThrough(problem.steps, last);
    const all = likelyStays(problem, way, modelledWay(problem, last)!);
    const whole = wayUncut(problem.steps, way).length;
    const stays = knownOf(all.slice(0, whole));
    const pulls = new Map<number, number>();
    for (const k of stays.keys()) {
      const option = modelledWay(problem, way[k]!);
      if (option) pulls.set(k, likelyForecast(option)!.pull);
    }
    const until = all[stays.length]?.start ?? all.at(-1)!.end;
    const { minutes, core, surface } = slowCourse(problem.kitchen, joint, stays, pulls, until);
    const zero = all[way.findIndex((id) => HEAT_WORKS.has(problem.steps[id]!.work))]!.start;
    curves.set(at, { minutes: minutes.map((minute) => minute - zero), celsius: core, surface });
  }
  return curves;
}

const modelledWay = ({ steps }: Problem, id: number): Option | undefined =>
  steps[id]!.options.find(({ forecasts }) => forecasts !== null);

/** What is expected at the temperature at which a way is likely done; null where the heat model was not asked. */
export function likelyForecast(option: Option): Forecast | null {
  const celsius = likelySetting(option);
  const apart = (one: Forecast): number => Math.abs((one.celsius ?? 0) - (celsius ?? 0));
  const { forecasts } = option;
  return forecasts?.reduce((best, one) => (apart(one) < apart(best) ? one : best)) ?? null;
}
