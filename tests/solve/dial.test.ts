/** From temperatures of a linear program to those of a dial: beside every combination of settings, tried one by one. */
import { describe, expect, it } from 'vitest';
import { priceOf } from '../../src/kernel/cost.js';
import type { State } from '../../src/kernel/state.js';
import { type Compiled, compile } from '../../src/solve/compile.js';
import { commonStates, jointLevels } from '../../src/solve/joint-levels.js';
import { timingRuns } from '../../src/solve/timetable.js';
import { polish, retime } from '../../src/solve/timing.js';
import { randomProblemText } from '../support/random-problem.js';
import { readMeal } from '../support/read-meal.js';
import { scheduled } from '../support/scheduled.js';

const MOST_COMBINATIONS = 1000;

/** The least points that the order, places, hands and runs of a schedule have at any settings; null where there are too many to try. */
function leastOnDial(compiled: Compiled, state: State): number | null {
  const skeleton = timingRuns(state);
  const ways = skeleton.map((run) => {
    const common = commonStates(state, run);
    return common.length > 0 ? common : [run.state];
  });
  if (ways.reduce((product, list) => product * list.length, 1) > MOST_COMBINATIONS) return null;
  let least = Number.POSITIVE_INFINITY;
  const from = (fixed: readonly number[]): void => {
    if (fixed.length < ways.length) {
      for (const s of ways[fixed.length]!) from([...fixed, s]);
      return;
    }
    const timed = retime(compiled, state, skeleton, fixed);
    if (timed !== null) least = Math.min(least, priceOf(timed));
  };
  from([]);
  return least;
}

describe('temperatures on the dial', () => {
  it('lose less than one point in a hundred to the best of all settings', () => {
    let compared = 0;
    let free = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const compiled = compile(readMeal(randomProblemText(seed, { dishes: 2 + (seed % 7) })));
      const state = scheduled(compiled, 1, 20_000);
      const least = state && leastOnDial(compiled, state);
      if (state === null || least === null) continue;
      compared++;
      if (least < priceOf(polish(compiled, state, false)) - 1e-6) free++;
      const found = priceOf(polish(compiled, state, true));
      expect(found, `random meal ${seed}`).toBeLessThanOrEqual(1.01 * least + 1e-6);
    }
    expect(compared).toBeGreaterThan(40);
    expect(free).toBeGreaterThan(10);
  });

  it('come from a program that says what the meal costs at its temperatures', () => {
    let same = 0;
    for (let seed = 1; seed <= 30; seed++) {
      const compiled = compile(readMeal(randomProblemText(seed, { dishes: 2 + (seed % 4) })));
      const state = scheduled(compiled, 1, 0);
      if (state === null) continue;
      const skeleton = timingRuns(state);
      const common = skeleton.map((run) => commonStates(state, run));
      const { levels, points } = jointLevels(compiled, state, skeleton, common);
      if (points === null) continue;
      const { machines } = compiled.model;
      const fixed = levels.map((level, r) => {
        const { states } = machines[skeleton[r]!.machine]!;
        return common[r]!.find((s) => Math.abs(states[s]!.level - level) < 1e-6) ?? -1;
      });
      if (fixed.includes(-1)) continue;
      const timed = retime(compiled, state, skeleton, fixed);
      if (timed === null) continue;
      // A table's minutes between columns are rounded up on the dial, and what two runs at one temperature save is in no program.
      const merged = skeleton.some(
        (run, r) => r > 0 && skeleton[r - 1]!.machine === run.machine && fixed[r] === fixed[r - 1],
      );
      if (merged) continue;
      expect(priceOf(timed), `random meal ${seed}`).toBeGreaterThanOrEqual(points - 1e-6);
      if (Math.abs(priceOf(timed) - points) < 1e-6) same++;
    }
    expect(same).toBeGreaterThan(5);
  });
});
