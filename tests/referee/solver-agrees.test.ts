/** The solver at normal effort against the exact referee on sixty small problems: the same points, or no plan for either. */
import { describe, expect, it } from 'vitest';
import { readProblem } from '../../src/problem/read.js';
import { solve } from '../../src/solve/solve.js';
import { PATIENCE, referee } from './referee.js';
import { smallProblemText } from './small-problem.js';

const SEEDS = Array.from({ length: 60 }, (_, k) => k + 1);

describe('the solver and the referee', () => {
  it.each(SEEDS)('agree on small problem %i', async (seed) => {
    const read = readProblem(smallProblemText(seed), { name: 'small.yaml' });
    if (!read.ok) throw new Error(read.messages.map((message) => message.say).join('\n'));
    const { problem } = read;
    const verdict = await referee(problem);
    const { plan } = solve(problem, { effort: 'normal', seed: 1 });
    if (verdict) {
      expect(plan?.points.total).toBe(verdict.points);
      return;
    }
    // The referee looks no further than its patience: where it finds nothing, a plan of the solver is later than that.
    const late = plan ? Math.max(...plan.dishes.map((dish) => dish.late ?? 0)) : Number.POSITIVE_INFINITY;
    expect(late).toBeGreaterThan(PATIENCE);
  });
});
