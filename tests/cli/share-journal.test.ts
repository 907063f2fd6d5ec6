/** What is shared once the day has a journal, and a picture of one cook's part. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lineOf } from '../../src/live/journal/lines.js';
import { SUPPER, supper, supperPlan, Teller } from '../live/day-of.js';
import { ran } from '../support/command.js';
import { movedPlan } from '../support/moved-plan.js';

const home = mkdtempSync(join(tmpdir(), 'share-'));
const [MEAL, JOURNAL, PLAN] = ['supper.yaml', 'supper.journal.jsonl', 'plan.json'].map((name) => join(home, name)) as [
  string,
  string,
  string,
];
const share = (...args: string[]) => ran(['share', MEAL, '--as', 'text', ...args]);
const SAID = 'This is the plan in supper.journal.jsonl, taken at 17:10. --no-journal works out another.\n';

beforeAll(() => {
  const first = supperPlan(supper());
  const teller = new Teller().must('17:10', {
    kind: 'plan',
    plan: movedPlan(first, 'Roots/cut', -20),
    say: ['Roots, cut: 20 min sooner.'],
  });
  writeFileSync(MEAL, SUPPER);
  writeFileSync(PLAN, JSON.stringify(first));
  writeFileSync(JOURNAL, teller.entries.map((entry) => `${lineOf(entry)}\n`).join(''));
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

describe('share, once there is a journal', () => {
  it('takes the plan in force and says so', async () => {
    const { code, stdout, stderr } = await share('--for', 'Tomas');
    expect(code).toBe(0);
    expect(stderr.endsWith(SAID)).toBe(true);
    expect(stdout).toContain('17:42  Roots: cut');
  });

  it('takes another plan where one is named', async () => {
    const { stdout, stderr } = await share('--for', 'Tomas', '--plan', PLAN);
    expect(stderr).not.toContain('journal');
    expect(stdout).toContain('18:02  Roots: cut');
    const anew = await share('--for', 'Tomas', '--no-journal', '--effort', 'quick');
    expect(anew.stdout).toBe(stdout);
    expect(anew.stderr).not.toContain('journal');
  });

  it.each([
    [['--serve', '19:30'], '--serve does not go with it'],
    [['--start', '13:00'], '--start does not go with it'],
    [['--journal', join(home, 'none.jsonl')], 'there is no such file'],
    [['--journal', JOURNAL, '--plan', PLAN], '--plan and --journal each say which plan'],
  ])('refuses %j', async (args, say) => {
    const { code, stdout, stderr } = await share(...args);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain(say);
  });
});

describe('a picture', () => {
  const picture = async (...args: string[]) =>
    (await ran(['share', MEAL, '--plan', PLAN, '--as', 'svg', ...args])).stdout;

  it('for one cook has that cook’s steps and hands, and nobody else’s', async () => {
    const [all, own] = [await picture(), await picture('--for', 'Tomas')];
    expect(own).toContain('<title>Small supper: Tomas</title>');
    for (const word of ['Roots: cut', 'Roots: dress']) expect(own).toContain(word);
    for (const word of ['Roast loin: carve', 'Oil: warm', '>Ines<']) {
      expect(all).toContain(word);
      expect(own).not.toContain(word);
    }
    expect(await picture('--for', 'anyone')).toContain('Roast loin: rest');
  });
});
