/** What the command does when there is no plan, and when a plan is not right: the solver and the audit have stand-ins. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { Verdict } from '../../src/audit/audit.js';
import type { Solved } from '../../src/solve/solve.js';
import { orchardSupper } from '../support/sample-plan.js';

const solve = vi.hoisted(() => vi.fn<() => Solved>());
const audit = vi.hoisted(() => vi.fn<() => Verdict>());
vi.mock('../../src/solve/solve.js', () => ({ solve }));
vi.mock('../../src/audit/audit.js', () => ({ audit }));

const { ran } = await import('../support/command.js');
const { noPlan } = await import('../../cli/solving/checked.js');
const MEAL = 'tests/screens/meals/two-dishes.yaml';

beforeEach(() => {
  solve.mockReset();
  audit.mockReset();
});

describe('plan', () => {
  it('says why nothing fits, and the ways out', async () => {
    solve.mockReturnValue({
      plan: null,
      schedule: null,
      reasons: [
        { say: 'Serve 20 min later.', kind: 'way' },
        { say: 'The tin is wanted twice.', kind: 'why' },
      ],
    });
    const { code, stdout, stderr } = await ran(['plan', MEAL]);
    expect([code, stdout]).toEqual([1, '']);
    expect(stderr).toBe('No plan fits.\n  The tin is wanted twice.\nWays out:\n  Serve 20 min later.\n');
  });

  it('keeps to the terminal’s width where it says why', () => {
    const say = 'Slow duck legs and Popovers both need the wall oven at the same time.';
    expect(
      noPlan([{ say, kind: 'why' }], 40)
        .split('\n')
        .slice(1, 3),
    ).toEqual(['  Slow duck legs and Popovers both', '    need the wall oven at the same time.']);
  });

  it('prints a plan document of status none, when asked', async () => {
    const { plan } = orchardSupper();
    solve.mockReturnValue({ plan: { ...plan, status: 'none', steps: [] }, schedule: null, reasons: [] });
    const { code, stdout } = await ran(['plan', MEAL, '--json']);
    expect(code).toBe(1);
    expect(JSON.parse(stdout)).toMatchObject({ status: 'none', steps: [] });
  });

  it('never shows a plan that fails the audit', async () => {
    const { plan } = orchardSupper();
    solve.mockReturnValue({ plan, schedule: null, reasons: [] });
    const violation = { rule: 3, code: 'overlap', say: 'Two pans overlap on the grill.', steps: [] } as const;
    audit.mockReturnValue({ violations: [violation, violation, violation, violation] } as unknown as Verdict);
    for (const args of [
      ['plan', MEAL],
      ['plan', MEAL, '--json'],
    ]) {
      const { code, stdout, stderr } = await ran(args);
      expect([code, stdout]).toEqual([70, '']);
      expect(stderr).toContain('rule 3: Two pans overlap on the grill.');
      expect(stderr).toContain('and 1 more');
      expect(stderr).toContain('a fault of ours');
    }
  });

  it('tells a fault of ours in a line, without a stack trace', async () => {
    solve.mockImplementation(() => {
      throw new TypeError('cannot read the tea leaves\nsecond line');
    });
    const { code, stdout, stderr } = await ran(['plan', MEAL]);
    expect([code, stdout]).toEqual([70, '']);
    expect(stderr).toBe(
      'hearthtable: something went wrong inside: cannot read the tea leaves\n' +
        'This is a fault of ours, not of your file. The file would help us to find it.\n',
    );
  });
});
