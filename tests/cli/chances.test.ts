/** What a plan says of the days on which its steps take longer or shorter than likely. */
import { describe, expect, it } from 'vitest';
import { planDocument } from '../../src/plan/document.js';
import { ran } from '../support/command.js';

const UNSURE = 'tests/cli/meals/unsure.yaml';
const SURE = 'tests/screens/meals/two-dishes.yaml';

describe('the chances of a plan', () => {
  it('are told where a step has a spread', async () => {
    const { code, stdout } = await ran(['plan', UNSURE, '--effort', 'quick', '--width', '200']);
    expect(code).toBe(0);
    expect(stdout).toMatch(
      /\nChances\n {2}All lands within 5 min of 18:30 on \d\d of 100 such days, within 10 min on \d\d of/,
    );
    expect(stdout).toMatch(
      /What threatens it most is Veal breast, roast: did it always take its likely time, it would be /,
    );
  });

  it('stand in the document, the same for the same seed', async () => {
    const [one, two] = [await ran(['plan', UNSURE, '--json']), await ran(['plan', UNSURE, '--json'])];
    expect(one.stdout).toBe(two.stdout);
    const { chances } = planDocument.parse(JSON.parse(one.stdout));
    expect(chances!.draws).toBe(10_000);
    expect(chances!.within5).toBeLessThanOrEqual(chances!.within10);
    expect(chances!.threats[0]).toMatchObject({ dish: 'Veal breast', step: 'roast' });
  });

  it('are not spoken of where every step has one time', async () => {
    const { stdout } = await ran(['plan', SURE, '--effort', 'quick']);
    expect(stdout).not.toContain('Chances');
    const document = await ran(['plan', SURE, '--effort', 'quick', '--json']);
    expect(planDocument.parse(JSON.parse(document.stdout)).chances).toBeUndefined();
  });
});
