/** Every meal in `problems/` that can be done is planned in time, and its plan passes the audit; the others have none. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { audit } from '../../src/audit/audit.js';
import type { PlanDocument } from '../../src/plan/document.js';
import type { Problem } from '../../src/problem/problem.js';
import { solve } from '../../src/solve/solve.js';
import { readMeal, readMealFile } from '../support/read-meal.js';

const FILES = readdirSync('problems').filter((name) => name.endsWith('.yaml'));
const DONE = FILES.filter((name) => !name.startsWith('cannot-'));

const problemOf = (name: string): Problem => readMealFile(`problems/${name}`);

const planned = new Map<string, { problem: Problem; plan: PlanDocument }>();

function planOf(name: string): { problem: Problem; plan: PlanDocument } {
  const known = planned.get(name);
  if (known) return known;
  const problem = problemOf(name);
  const { plan } = solve(problem, { effort: 'quick', seed: 1 });
  if (!plan) throw new Error(`no plan for ${name}`);
  const fresh = { problem, plan };
  planned.set(name, fresh);
  return fresh;
}

const row = (plan: PlanDocument, dish: string, step: string) => {
  return plan.steps.find((each) => each.dish === dish && each.step === step)!;
};

describe('plans of the meals', () => {
  it.each(DONE)('%s lands in time and passes the audit', (name) => {
    const { problem, plan } = planOf(name);
    expect(audit(problem, plan).violations).toEqual([]);
    expect(['best', 'good']).toContain(plan.status);
  });

  it.each(FILES.filter((name) => !DONE.includes(name)))('%s has no plan', (name) => {
    const { plan, reasons } = solve(problemOf(name), { effort: 'quick', seed: 1 });
    expect(plan).toBeNull();
    expect(reasons.length).toBeGreaterThan(0);
  });

  it('sears the loin hot, turns the grill low for loin and vegetables together, and carves after the rest', () => {
    const { plan } = planOf('one-grill-pork.yaml');
    const [sear, roast, rest, carve] = ['sear', 'roast', 'rest', 'carve'].map((step) =>
      row(plan, 'Fennel pork loin', step),
    );
    const roots = row(plan, 'Roast carrots and shallots', 'roast');
    expect([sear!.mode, roast!.mode, roots.mode]).toEqual(['sear', 'roast', 'roast']);
    expect(sear!.celsius).toBeGreaterThan(roast!.celsius!);
    expect(roots.celsius).toBe(roast!.celsius);
    expect(Date.parse(roots.start)).toBeLessThan(Date.parse(roast!.end));
    expect(Date.parse(carve!.start)).toBeGreaterThanOrEqual(Date.parse(rest!.end));
  });

  it('cooks the same menu indoors on the burner and in the oven', () => {
    const { plan } = planOf('one-grill-indoors.yaml');
    expect(row(plan, 'Fennel pork loin', 'sear').appliance).toBe('hob');
    expect(row(plan, 'Fennel pork loin', 'roast').appliance).toBe('wall oven');
    expect(row(plan, 'Roast carrots and shallots', 'roast').appliance).toBe('wall oven');
  });

  it('bakes for nine hours through the night of the clocks', () => {
    const { plan } = planOf('clocks-change.yaml');
    const { start, end } = row(plan, 'Baked white beans', 'bake overnight');
    expect((Date.parse(end) - Date.parse(start)) / 3_600_000).toBe(9);
    expect([start.slice(-6), end.slice(-6)]).toEqual(['+02:00', '+01:00']);
    const clock = (time: string): number => Number(time.slice(11, 13)) * 60 + Number(time.slice(14, 16));
    expect(clock(end) + 24 * 60 - clock(start)).toBe(8 * 60);
  });

  it('reads and plans the example of the README', () => {
    const readme = readFileSync('README.md', 'utf8');
    const example = /```yaml\n([\s\S]*?)```/.exec(readme)![1]!;
    const readFile = (path: string): string => readFileSync(path, 'utf8');
    const problem = readMeal(example, { name: './example.yaml', readFile });
    const { plan } = solve(problem, { effort: 'quick', seed: 1 });
    expect(audit(problem, plan!).violations).toEqual([]);
  });
});
