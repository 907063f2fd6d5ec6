/** Cautions reach whoever plans or checks: never behind an option. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { ran } from '../support/command.js';

const folder = mkdtempSync(join(tmpdir(), 'hearthtable-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** A meal on one grill, its loin pinker than is published. */
const MEAL = join(folder, 'pink.yaml');
const text = readFileSync('problems/one-grill-pork.yaml', 'utf8')
  .replace('target: 63C', 'target: 60C')
  .replace('./kitchens', resolve('problems/kitchens'));
writeFileSync(MEAL, text);
/** Words stay whole and sentences on one line. */
const WIDE = ['--width', '400'];

describe('what is shown', () => {
  it('by check: what the file says', async () => {
    const { stdout } = await ran(['check', MEAL, ...WIDE]);
    expect(stdout).toMatch(/\nCautions\n.*Gas grill: outdoors only/);
    expect(stdout).toMatch(/Fennel pork loin: Set to 60 °C; published for pork: 63 °C \(145 °F\).*\(USDA FSIS, /);
  });

  it('by plan: that, and no word of boards where raw and ready keep apart on two', async () => {
    const { stdout } = await ran(['plan', MEAL, '--text', '--effort', 'quick', ...WIDE]);
    expect(stdout).toMatch(/\nCautions\n.*Gas grill: outdoors only/);
    expect(stdout).toMatch(/Fennel pork loin: Set to 60 °C/);
    expect(stdout).not.toMatch(/Board \d: raw/);
  });

  it('in the plan document', async () => {
    const { stdout } = await ran(['plan', MEAL, '--json', '--effort', 'quick']);
    const rules = (JSON.parse(stdout) as { cautions: { rule: string }[] }).cautions.map(({ rule }) => rule);
    expect(rules.slice(0, 2)).toEqual(['grill-outdoors', 'core-low']);
  });
});
