/**
 * The independent judge of plans: the ten rules of a right plan and its points, from the problem and the plan document
 * alone. It shares no code with what makes plans.
 */
import type { PlanDocument } from '../plan/document.js';
import type { Problem } from '../problem/problem.js';
import { amend, type Facts } from './facts.js';
import { pastRows } from './past.js';
import { type Points, pointsOf } from './points.js';
import { readPlan } from './reading.js';
import { checkBegins } from './rules/begins.js';
import { checkChangeovers } from './rules/changeovers.js';
import { checkCores } from './rules/cores.js';
import { checkFacts } from './rules/facts.js';
import { checkGaps } from './rules/gaps.js';
import { checkHands } from './rules/hands.js';
import { checkLanding } from './rules/landing.js';
import { checkPans } from './rules/pans.js';
import { checkPlaces } from './rules/places.js';
import { checkRuns } from './rules/runs.js';
import { checkStated } from './rules/stated.js';
import { checkSteps } from './rules/steps.js';
import { checkWholeMinutes } from './rules/whole-minutes.js';
import type { Violation } from './violation.js';

export type { Facts } from './facts.js';
export type { Points } from './points.js';
export type { Violation } from './violation.js';

export interface Verdict {
  /** By rule, 1 to 10, then what the plan says about itself (rule 0); empty for a right plan. */
  readonly violations: readonly Violation[];
  readonly points: Points;
}

/**
 * @param plan a document that its schema accepts. One of status `none` has no steps, so each is reported as missing: ask
 * only about plans.
 * @param facts what had happened when the plan was made anew; null: nothing.
 */
export function audit(problem: Problem, plan: PlanDocument, facts: Facts | null = null): Verdict {
  const amended = facts === null ? null : amend(problem, plan, facts);
  const read = readPlan(amended?.problem ?? problem, plan, facts, amended?.origin);
  const reading = facts === null ? read : { ...read, past: pastRows(read, facts) };
  const points = pointsOf(reading);
  const rules = [
    checkSteps,
    checkGaps,
    checkPlaces,
    checkRuns,
    checkChangeovers,
    checkHands,
    checkPans,
    checkBegins,
    checkFacts,
    checkLanding,
    checkWholeMinutes,
  ];
  return {
    violations: [...rules.flatMap((check) => check(reading)), ...checkStated(reading, points), ...checkCores(reading)],
    points,
  };
}
