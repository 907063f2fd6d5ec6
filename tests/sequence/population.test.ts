import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sequence } from '../../src/sequence/population.js';
import { faultsOf, makespanOf, optimum, projects } from '../support/projects.js';

describe('a population of activity lists', () => {
  it.each([
    ['one mode', { least: 1, most: 6, modes: 1, capacities: [3, 2], stocks: 0 }, 60],
    ['several modes', { least: 1, most: 4, modes: 3, capacities: [3], stocks: 1 }, 60],
  ])('finds the best of all orders and modes, and bounds it: %s', (_, shape, numRuns) => {
    fc.assert(
      fc.property(projects(shape), fc.nat(), (project, seed) => {
        const best = optimum(project);
        const { best: found, lower, made } = sequence(project, { schedules: 600, seed });
        expect(made).toBeLessThanOrEqual(602);
        expect(lower).toBeLessThanOrEqual(best);
        if (best === Number.POSITIVE_INFINITY) {
          expect(found).toBeNull();
          return;
        }
        expect(found!.makespan).toBe(best);
        expect(makespanOf(project, found!.starts, found!.modes)).toBe(best);
        expect(faultsOf(project, found!.starts, found!.modes)).toEqual([]);
      }),
      { numRuns, seed: 33 },
    );
  });

  it('keeps the numbers of modes where useless ones fell away', () => {
    const mode = (minutes: number, use: number, consume: number) => ({ minutes, uses: [use], consumes: [consume] });
    const activities = [[mode(1, 9, 0), mode(1, 1, 9), mode(5, 1, 1)], [mode(2, 1, 1)]];
    const project = { activities, lags: [], renewables: [1], nonrenewables: [2] };
    const { best } = sequence(project, { schedules: 50, seed: 1 });
    expect([best!.makespan, [...best!.modes]]).toEqual([7, [2, 0]]);
    expect(sequence({ ...project, nonrenewables: [1] }, { schedules: 50, seed: 1 }).lower).toBe(
      Number.POSITIVE_INFINITY,
    );
  });

  it('is the same for the same seed', () => {
    const activities = Array.from({ length: 12 }, (_, j) => [
      { minutes: 1 + ((j * 7) % 5), uses: [1 + (j % 3)], consumes: [] },
    ]);
    const lags = Array.from({ length: 8 }, (_, j) => ({ from: j, to: j + 3, low: 0 }));
    const project = { activities, lags, renewables: [4], nonrenewables: [] };
    const [one, two] = [1, 1].map((seed) => sequence(project, { schedules: 300, seed }));
    expect(one).toEqual(two);
  });
});
