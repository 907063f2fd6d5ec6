import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/batch/evaluate.js';
import type { BatchProblem, Job } from '../../src/batch/problem.js';

const job = (over: Partial<Job>): Job => ({
  attribute: 0,
  size: 1,
  release: 0,
  due: 100,
  shortest: 4,
  longest: 9,
  machines: [0],
  ...over,
});

const PROBLEM: BatchProblem = {
  attributes: 2,
  setupTime: [
    [1, 3],
    [2, 0],
  ],
  setupCost: [
    [0, 7],
    [5, 1],
  ],
  machines: [
    {
      capacity: 2,
      initial: 0,
      intervals: [
        { from: 2, to: 12 },
        { from: 20, to: 30 },
      ],
    },
  ],
  jobs: [job({}), job({ shortest: 6, release: 4 }), job({ attribute: 1, shortest: 5, due: 27 }), job({ shortest: 11 })],
  weights: { run: 10, tardy: 1000, setupTime: 2, setupCost: 1 },
};

describe('evaluate', () => {
  it('runs a batch as long as its longest job needs, once all are released, behind its setup', () => {
    const { batches, cost } = evaluate(PROBLEM, [[[1, 0]]]);
    expect(batches).toEqual([{ machine: 0, jobs: [0, 1], start: 4, end: 10 }]);
    expect(cost).toBe(6 * 10 + 1 * 2 + 0);
  });

  it('keeps setup and run in one interval', () => {
    const { batches, cost } = evaluate(PROBLEM, [[[0], [2]]]);
    // The first: set up from 2 to 3, done at 7. The next would be done at 15.
    expect(batches.map(({ start, end }) => [start, end])).toEqual([
      [3, 7],
      [23, 28],
    ]);
    expect(cost).toBe(9 * 10 + 4 * 2 + 7 + 1000);
  });

  it('names jobs that find no place, which hold up nobody', () => {
    const { batches, undone } = evaluate(PROBLEM, [[[3], [0]]]);
    expect(undone).toEqual([3]);
    expect(batches).toEqual([{ machine: 0, jobs: [0], start: 3, end: 7 }]);
  });
});
