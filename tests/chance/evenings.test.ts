/** Evenings of random schedules: what holds of all of them. */
import { describe, expect, it } from 'vitest';
import { Evening } from '../../src/chance/evening.js';
import { Evenings } from '../../src/chance/evenings.js';
import type { Schedule } from '../../src/solve/schedule.js';
import { solve } from '../../src/solve/solve.js';
import { Random } from '../support/random.js';
import { randomProblemText } from '../support/random-problem.js';
import { readMeal, readMealFile } from '../support/read-meal.js';

function schedules(): { name: string; schedule: Schedule }[] {
  const meals = [1, 2, 3, 4, 5, 6, 7, 8].map((seed) => ({
    name: `random meal ${seed}`,
    problem: readMeal(randomProblemText(seed, { dishes: 3 + (seed % 4) })),
  }));
  const own = ['one-grill-pork', 'holiday-one-oven', 'weeknight-three-burners', 'one-grill-indoors'].map((name) => ({
    name,
    problem: readMealFile(`problems/${name}.yaml`),
  }));
  return [...meals, ...own].flatMap(({ name, problem }) => {
    const { schedule } = solve(problem, { effort: 'quick', seed: 1, work: 50_000 });
    return schedule === null ? [] : [{ name, schedule }];
  });
}

/** All activities whose minutes are not free. */
const fixedOf = ({ compiled, state }: Schedule): number[] =>
  compiled.model.activities.map(({ id }) => id).filter((a) => state.modeOf(a).range === null);

describe.each(schedules())('evenings of $name', ({ schedule }) => {
  const { compiled, state } = schedule;
  const evening = new Evening(compiled, state);
  const fixed = fixedOf(schedule);
  const evenings = new Evenings(evening, state.minutes, new Set(fixed));
  const moments = evening.floors.map((_, node) => node);
  const random = new Random(1);
  const drawn = (change: (minutes: number) => number): Map<number, Float64Array> =>
    new Map(fixed.map((a) => [a, Float64Array.of(change(state.minutes[a]!))]));
  const times = (minutes: ReadonlyMap<number, Float64Array>): number[] => {
    evenings.reckon(1, minutes);
    return moments.map((node) => evenings.time(node, 0));
  };

  it('go as planned where every step takes its planned minutes', () => {
    times(drawn((minutes) => minutes));
    for (const { id } of compiled.model.activities) {
      expect([id, evenings.time(evening.start(id), 0)]).toEqual([id, state.start[id]!]);
      expect([id, evenings.time(evening.end(id), 0)]).toEqual([id, state.end(id)]);
    }
    compiled.model.groups.forEach((_, g) => {
      expect(evenings.time(evening.landing(g), 0)).toBe(state.landing(g));
    });
    const over = new Float64Array(1);
    evening.waits.forEach((_, w) => {
      evenings.overstay(1, w, over);
      expect(over[0]).toBe(0);
    });
  });

  it('have nothing earlier when a step takes longer', () => {
    for (let round = 0; round < 30; round++) {
      const some = drawn((minutes) => Math.max(1, minutes + random.int(-15, 25)));
      const before = times(some);
      const a = random.pick(fixed);
      const more = some.get(a)![0]! + random.int(1, 40);
      const after = times(new Map([...some, [a, Float64Array.of(more)]]));
      moments.forEach((node) => {
        expect(after[node]).toBeGreaterThanOrEqual(before[node]!);
      });
      // The same without reckoning all of it again.
      const [late, again] = [new Float64Array(1), new Float64Array(1)];
      evenings.lateness(1, late);
      times(some);
      evenings.instead(1, a, Float64Array.of(more), some.get(a)!);
      evenings.lateness(1, again, a);
      expect(again[0]).toBe(late[0]);
    }
  });

  it('keep every lag, and begin nothing before it is planned but what lies by itself', () => {
    for (let round = 0; round < 20; round++) {
      times(drawn((minutes) => Math.max(1, minutes + random.int(-15, 25))));
      for (const { from, to, low } of compiled.model.lags) {
        const gap = evenings.time(evening.start(to), 0) - evenings.time(evening.end(from), 0);
        expect(gap).toBeGreaterThanOrEqual(low);
      }
      for (const { id } of compiled.model.activities) {
        const { attention, transparent } = state.modeOf(id);
        if (transparent && attention.crew === 0) continue;
        expect(evenings.time(evening.start(id), 0)).toBeGreaterThanOrEqual(state.start[id]!);
      }
    }
  });
});
