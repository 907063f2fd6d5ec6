/** What a plan says of the days on which its steps take longer or shorter than likely. */
import { describe, expect, it } from 'vitest';
import { planDocument } from '../../src/plan/document.js';
import { ran } from '../support/command.js';
import { expectEach } from '../support/command-cases.js';

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

describe('a chance that is asked for', () => {
  const asked = (chance: string) => ran(['plan', UNSURE, '--effort', 'quick', '--json', '--sure', chance]);

  it('may be written in three ways', async () => {
    const [one, two, three] = [await asked('90%'), await asked('90'), await asked('0.9')];
    expect([two.stdout, three.stdout]).toEqual([one.stdout, one.stdout]);
    const { sure, chances } = planDocument.parse(JSON.parse(one.stdout));
    expect(sure).toMatchObject({ asked: 0.9, reached: true, cushions: [{ dish: 'Veal breast', step: 'roast' }] });
    expect(chances!.within5).toBeGreaterThanOrEqual(0.9);
  });

  const wrong = ['100%', '1', '0', 'often', '-5%', '120'].map((chance) => ({
    args: ['plan', UNSURE, `--sure=${chance}`],
    code: 2,
    stderr: ['A chance between 0% and 100% is wanted: 90%, or 0.9.'],
  }));

  expectEach([
    ...wrong,
    {
      args: ['plan', UNSURE, '--effort', 'quick', '--width', '200', '--sure', '90%'],
      code: 0,
      stdout: [
        '90 of 100 were asked for.\n',
        /Kept free: \d+ min after Veal breast, roast \(\d+ min more\); that costs [\d.]+ points more/,
      ],
    },
    {
      args: ['plan', SURE, '--effort', 'quick', '--sure', '90%'],
      code: 0,
      stdout: ['90 of 100 were asked for; no step of this meal has a spread.'],
    },
  ]);
});
