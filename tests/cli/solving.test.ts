/** What another thread hands over must be plain data. */
import { expect, it } from 'vitest';
import { type Stage, work } from '../../cli/solving/work.js';
import { readMealFile } from '../support/read-meal.js';

it('tells how far it is, and what came of it, in data that threads can copy', async () => {
  const problem = readMealFile('tests/cli/meals/unsure.yaml');
  const stages: Stage[] = [];
  const outcome = await work(
    { problem, effort: 'normal', seed: 1, why: true, waysOut: false, sure: 0.9 },
    { onStage: (stage) => stages.push(stage), shouldStop: () => false },
  );
  expect(stages.length).toBeGreaterThan(0);
  expect(structuredClone({ stages, outcome })).toEqual({ stages, outcome });
  expect(outcome.plan!.sure!.reached).toBe(true);
  expect(outcome.plan!.why).toBeDefined();
});
