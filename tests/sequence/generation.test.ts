import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Rng } from '../../src/kernel/rng.js';
import { Generation } from '../../src/sequence/generation.js';
import { networkOf, pathsOf } from '../../src/sequence/project.js';
import { Sampler } from '../../src/sequence/sampling.js';
import { faultsOf, plainStarts, projects } from '../support/projects.js';

const SHAPE = { least: 1, most: 9, modes: 1, stocks: 0 } as const;
/** One word; one full word; two words, a capacity of nothing among them. */
const CAPACITIES = [[3], [7, 127, 7, 1023], [100_000, 3, 0, 100_000, 9]];

describe.each(CAPACITIES)('with capacities %j', (...capacities) => {
  const numbers = capacities.flat();

  it('starts are those of trying minute after minute', () => {
    fc.assert(
      fc.property(projects({ ...SHAPE, capacities: numbers }), fc.nat(), (project, seed) => {
        const generation = new Generation(project);
        const [list, starts] = [new Int32Array(generation.size), new Int32Array(generation.size)];
        // Again on the same generation: nothing may be left of what was there.
        for (let round = 0; round < 2; round++) {
          new Sampler(generation.network).draw(new Float64Array(generation.size), new Rng(seed + round), list);
          generation.forwards(list, starts);
          expect([...starts]).toEqual(plainStarts(project, [...list], generation.modes));
        }
      }),
      { numRuns: 150, seed: 31 },
    );
  });

  it('justified schedules hold and are never longer', () => {
    fc.assert(
      fc.property(projects({ ...SHAPE, capacities: numbers }), fc.nat(), (project, seed) => {
        const generation = new Generation(project);
        const [list, starts] = [new Int32Array(generation.size), new Int32Array(generation.size)];
        new Sampler(generation.network).draw(new Float64Array(generation.size), new Rng(seed), list);
        let makespan = generation.forwards(list, starts);
        for (let round = 0; round < 3; round++) {
          generation.byEnd(starts, makespan, list);
          const right = generation.backwards(list, starts);
          expect(faultsOf(project, starts, generation.modes)).toEqual([]);
          generation.byStart(starts, list);
          const left = generation.forwards(list, starts);
          expect(faultsOf(project, starts, generation.modes)).toEqual([]);
          expect(left <= right && right <= makespan).toBe(true);
          makespan = left;
        }
        expect(generation.made).toBe(7);
      }),
      { numRuns: 150, seed: 32 },
    );
  });
});

describe('networks', () => {
  const activity = (minutes: number) => [{ minutes, uses: [], consumes: [] }];
  const project = { activities: [3, 5, 2].map(activity), renewables: [], nonrenewables: [] };

  it('have longest paths from both ends', () => {
    const lags = [
      { from: 2, to: 0, low: 1 },
      { from: 1, to: 0, low: 0 },
    ];
    const network = networkOf({ ...project, lags });
    expect(network.order.at(-1)).toBe(0);
    const { heads, tails } = pathsOf(network, [3, 5, 2]);
    expect([...heads]).toEqual([5, 0, 0]);
    expect([...tails]).toEqual([0, 3, 4]);
  });

  it('refuse circles, negative lags, and activities that need more than there is', () => {
    const circle = [
      { from: 0, to: 1, low: 0 },
      { from: 1, to: 0, low: 0 },
    ];
    expect(() => networkOf({ ...project, lags: circle })).toThrow(/circle/);
    expect(() => networkOf({ ...project, lags: [{ from: 0, to: 1, low: -1 }] })).toThrow(/negative/);
    const greedy = [[{ minutes: 1, uses: [4], consumes: [] }]];
    expect(() => new Generation({ activities: greedy, lags: [], renewables: [3], nonrenewables: [] })).toThrow(/more/);
  });
});
