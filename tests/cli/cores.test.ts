/** Meals that leave minutes to the heat model, as the commands tell them. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { planDocument } from '../../src/plan/document.js';
import { ran } from '../support/command.js';

const folder = mkdtempSync(join(tmpdir(), 'hearthtable-'));
afterAll(() => rmSync(folder, { recursive: true }));

function mealAt(name: string, piece: string, goal: string): string {
  const path = join(folder, name);
  const text = `format: hearthtable/1
title: One bird
serve: 2026-10-03 18:30
zone: America/Chicago
kitchen: farmhouse-range
dishes:
  - dish: Bird
    piece: { ${piece} }
    steps:
      - step: roast
        work: roast
        ${goal}
        heat: 325-375F
        on: oven
        pan: roasting pan
        hands: { start: 2 min, end: 3 min }
      - { step: rest, work: rest, takes: 10-35 min, best: 15-30 min }
      - { step: carve, work: carve, takes: 8 min }
`;
  writeFileSync(path, text);
  return path;
}

const BIRD = 'food: chicken, weight: 4 lb, from: 40F';

describe('a meal whose minutes come from the heat model', () => {
  it('is planned, and tells in the degrees of the dial where to pull', async () => {
    const path = mealAt('bird.yaml', BIRD, 'until: { core: 165F }');
    const { code, stdout, stderr } = await ran(['plan', path, '--effort', 'quick', '--width', '200']);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(
      /\nCores\n {2}A {2}Bird, roast: pull at 165 °F, between \d\d:\d\d and \d\d:\d\d; rises to 1\d\d °F by/,
    );
    expect(stdout).toMatch(
      /roast ends about \d\d:\d\d \(\d\d:\d\d to \d\d:\d\d\): pull at 165 °F \(rises to 1\d\d °F\)/,
    );
    expect(stdout).toContain('off the heat (big oven) at 165 °F');
  });

  it('is one plan document, the same again', async () => {
    const path = mealAt('again.yaml', BIRD, 'target: 165F');
    const [first, second] = [await ran(['plan', path, '--json']), await ran(['plan', path, '--json'])];
    const plan = planDocument.parse(JSON.parse(first.stdout));
    expect(plan.dishes[0]!.core!.peak!).toBeCloseTo(73.9, 0);
    expect(plan.steps[0]!.pull!).toBeLessThan(73);
    expect(second.stdout).toBe(first.stdout);
  });

  it('is checked with what its pieces are predicted to do', async () => {
    const { code, stdout } = await ran(['check', mealAt('check.yaml', BIRD, 'target: 160F'), '--width', '200']);
    expect(code).toBe(0);
    expect(stdout).toMatch(/Bird: Set to 71\.1 °C.*Safe only if it goes so/);
    const refused = await ran(['check', mealAt('low.yaml', BIRD, 'target: 140F')]);
    expect(refused.code).toBe(2);
    expect(refused.stderr).toContain('low.yaml:12:17: The core of `Bird` is set to 60 °C');
  });

  it('is refused at its place where the model has no answer', async () => {
    const { code, stdout, stderr } = await ran([
      'plan',
      mealAt('odd.yaml', 'food: chikcen, shape: sphere, weight: 4 lb', 'until: { core: 165F }'),
    ]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('odd.yaml:8:20: The heat model does not know the food `chikcen`.');
    expect(stderr).toContain('Perhaps: chicken');
  });
});
