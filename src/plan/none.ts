/** The plan document of a meal that has no plan. */
import { isoAt } from '../problem/hours.js';
import type { Problem } from '../problem/problem.js';
import { PART_NAMES, type PartName, type PlanDocument } from './document.js';

export function planOfNone(problem: Problem, effort: PlanDocument['effort']): PlanDocument {
  const parts = Object.fromEntries(PART_NAMES.map((name) => [name, 0])) as Record<PartName, number>;
  return {
    format: 'hearthtable-plan/1',
    problem: { title: problem.title, digest: problem.digest },
    serve: isoAt(problem, problem.serve),
    zone: problem.zone,
    status: 'none',
    points: { total: 0, bound: 0, parts },
    steps: [],
    runs: [],
    dishes: [],
    calls: [],
    cautions: [],
    effort,
  };
}
