/** What is refused for safety is told with its place, by every command that reads a meal, and nothing else happens. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { ran } from '../support/command.js';

const folder = mkdtempSync(join(tmpdir(), 'hearthtable-'));
afterAll(() => rmSync(folder, { recursive: true }));

interface Accepting {
  readonly duck?: string;
  readonly burgers?: string;
}

function mealAt(name: string, { duck = '[]', burgers = '[]' }: Accepting = {}): string {
  const path = join(folder, name);
  const text = `format: hearthtable/1
title: Two birds
serve: 2026-10-03 18:30
zone: Europe/Lisbon
kitchen: family-oven
dishes:
  - dish: Small duck
    accept: ${duck}
    piece: { food: duck, shape: slab, thickness: 6 cm, width: 10 cm, length: 20 cm, from: 5C }
    steps:
      - step: roast
        work: roast
        pan: baking dish
        on:
          - { place: oven, until: { core: 57C }, minutes: { "160C": 50 min, "180C": 40 min } }
  - dish: Burgers
    accept: ${burgers}
    steps:
      - step: bake
        work: bake
        until:
          core: 140F
        minutes: { "160C": 30 min, "180C": 25 min }
        on: oven
        pan: half sheet
`;
  writeFileSync(path, text);
  return path;
}

describe('a target that is refused', () => {
  const path = mealAt('two-birds.yaml');

  it.each([
    ['check', [path]],
    ['plan', [path, '--effort', 'quick']],
    ['plan', [path, '--effort', 'quick', '--json']],
  ])('by %s is an error at the temperature', async (command, rest) => {
    const { code, stdout, stderr } = await ran([command, ...rest]);
    expect([code, stdout]).toEqual([2, '']);
    const lines = stderr.split('\n');
    expect(lines[0]).toMatch(
      `${path}:15:43: The core of \`Small duck\` is set to 57 °C; published for poultry: 74 °C (165 °F) (USDA FSIS,`,
    );
    expect(lines[1]).toMatch('Perhaps: a core of 74C or 165F; `accept: core-unsafe` in the dish');
    expect(lines[2]).toMatch(
      `${path}:22:17: The core of \`Burgers\` is set to 60 °C; published for ground meat: 71 °C (160 °F)`,
    );
    expect(lines.slice(4)).toEqual(['2 mistakes in all.', '']);
  });

  it('passes where its dish accepts it, with the caution shown', async () => {
    const one = await ran(['check', mealAt('one.yaml', { duck: 'core-unsafe' })]);
    expect(one.code).toBe(2);
    expect(one.stderr).toMatch('Burgers');
    expect(one.stderr).not.toMatch('Small duck');
    const path = mealAt('both.yaml', { duck: '[core-unsafe]', burgers: 'core-unsafe' });
    for (const command of [['check'], ['plan', '--text', '--effort', 'quick']]) {
      const { code, stdout, stderr } = await ran([...command, path, '--width', '400']);
      expect([code, stderr]).toEqual([0, '']);
      expect(stdout).toMatch('Small duck: Set to 57 °C; published for poultry: 74 °C (165 °F).');
      expect(stdout).toMatch('Burgers: Set to 60 °C; published for ground meat: 71 °C (160 °F).');
    }
  });
});
