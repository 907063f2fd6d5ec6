/** What comes between a plan that was worked out and a plan that is shown. */
import { wrap } from '../../src/chart/text.js';
import type { PlanDocument } from '../../src/plan/document.js';
import type { Problem } from '../../src/problem/problem.js';
import type { Reason } from '../../src/solve/explain/reason.js';
import { FaultError } from '../exit.js';

/** A plan that fails the audit is never shown. */
export async function checked(problem: Problem, plan: PlanDocument): Promise<void> {
  const told = await violationsIn(problem, plan);
  if (told.length === 0) return;
  throw new FaultError(['the plan that was found is not right, so it is not shown:', ...told].join('\n'));
}

/** The first few rules that it breaks, one a line. */
export async function violationsIn(problem: Problem, plan: PlanDocument): Promise<string[]> {
  const { audit } = await import('../../src/audit/audit.js');
  const { violations } = audit(problem, plan);
  const told = violations.slice(0, 3).map((violation) => `  rule ${violation.rule}: ${violation.say}`);
  return violations.length > 3 ? [...told, `  and ${violations.length - 3} more`] : told;
}

/** Why no plan fits, then what to change; each on lines of at most so many columns, or on one. */
export function noPlan(reasons: readonly Reason[], columns = Number.POSITIVE_INFINITY): string {
  const told = (kind: Reason['kind']) =>
    reasons
      .filter((reason) => reason.kind === kind)
      .map(({ say }) => `  ${wrap(say, columns - HANGING).join(`\n${' '.repeat(HANGING)}`)}\n`);
  const ways = told('way');
  const found = ways.length > 0 ? ['Ways out:\n', ...ways] : ['Ways out: none found among the changes tried.\n'];
  return ['No plan fits.\n', ...told('why'), ...found].join('');
}

/** Columns before the lines of a sentence that follow its first. */
const HANGING = 4;
