import { describe, expect, it } from 'vitest';
import { expectRightPlans } from './right-plans.js';

describe('plans of 1 to 4 dishes', () => {
  it('keep every rule, state their points and stay above their bound', { timeout: 300_000 }, () => {
    const { plans, none } = expectRightPlans(1580, 1, 4);
    // Random kitchens are tight; where too few could be planned, the check would say little.
    expect(plans).toBeGreaterThan(0.6 * (plans + none));
  });
});
