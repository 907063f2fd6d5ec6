import { describe, expect, it } from 'vitest';
import { Rng } from '../../src/kernel/rng.js';
import { minimise } from '../../src/optimum/minimise.js';
import type { Problem } from '../../src/optimum/problem.js';
import { lagFaults, leastMakespan, randomLagged } from '../support/lagged.js';

const failures = 10_000;

describe.each([
  ['one mode', 1],
  ['up to two modes', 2],
])('%s', (_, modes) => {
  it('finds the least makespan that trying all starts finds, and proves it', () => {
    let impossible = 0;
    for (let seed = 1; seed <= 120; seed++) {
      const problem = randomLagged(new Rng(seed), modes);
      const least = leastMakespan(problem);
      const { best, lower } = minimise(problem, { failures });
      expect(lower, `seed ${seed}`).toBe(least);
      if (least === Number.POSITIVE_INFINITY) {
        impossible++;
        expect(best, `seed ${seed}`).toBeNull();
        continue;
      }
      expect(best!.starts.at(-1), `seed ${seed}`).toBe(least);
      expect(lagFaults(problem, best!.starts, best!.modes), `seed ${seed}`).toEqual([]);
    }
    expect(impossible).toBeGreaterThan(10);
    expect(impossible).toBeLessThan(90);
  });

  it('finds nothing better than the best, and the best where a worse one is known', () => {
    for (let seed = 201; seed <= 260; seed++) {
      const problem = randomLagged(new Rng(seed), modes);
      const { best, lower } = minimise(problem, { failures });
      if (best === null) continue;
      expect(minimise(problem, { failures, known: best })).toMatchObject({ best: null, lower });
      const worse = { ...best, starts: best.starts.with(-1, lower + 3) };
      expect(minimise(problem, { failures, known: worse }).best!.starts.at(-1)).toBe(lower);
    }
  });
});

it('stops when it may not fail any more, with a bound that holds', () => {
  // Ten of three minutes, two at once, none beside another of its kind.
  const one = (kind: number) => [
    { minutes: 3, uses: [1, ...[0, 1, 2, 3].map((k) => (k === kind ? 1 : 0))], consumes: [] },
  ];
  const activities = [
    ...Array.from({ length: 10 }, (_, j) => one(j % 4)),
    [{ minutes: 0, uses: [0, 0, 0, 0, 0], consumes: [] }],
  ];
  const lags = activities.slice(0, 10).map((_, from) => ({ from, to: 10, least: 0, after: 'end' as const }));
  const problem: Problem = { activities, lags, renewables: [2, 1, 1, 1, 1], nonrenewables: [] };
  const { best, lower, failures: failed } = minimise(problem, { failures: 30 });
  expect(failed).toBeLessThanOrEqual(30);
  expect(lower).toBeLessThanOrEqual(15);
  expect(best === null || best.starts.at(-1)! >= 15).toBe(true);
});
