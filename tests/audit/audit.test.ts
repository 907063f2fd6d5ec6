import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { audit } from '../../src/audit/audit.js';
import { type PlanDocument, planDocument } from '../../src/plan/document.js';
import { ALL_HANDS, oven, pan, problemOf, rectangle } from '../support/problem-builder.js';
import { planOf } from './plan-builder.js';

const SRC = fileURLToPath(new URL('../../src', import.meta.url));

describe('the audit', () => {
  it('shares no code with what makes plans', () => {
    const files = readdirSync(join(SRC, 'audit'), { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.ts'),
    );
    expect(files.length).toBeGreaterThan(15);
    const reached = new Set<string>();
    for (const name of files) {
      const file = join(SRC, 'audit', name);
      for (const [, from = ''] of readFileSync(file, 'utf8').matchAll(/from '([^']+)'/g)) {
        const inside = from.startsWith('.') ? relative(SRC, join(dirname(file), from)) : from;
        if (!inside.startsWith('audit/')) reached.add(inside);
      }
    }
    expect([...reached].sort()).toEqual(['luxon', 'plan/document.js', 'problem/problem.js']);
  });

  const problem = problemOf({
    serve: 120,
    kitchen: { appliances: [oven()], pans: [pan('dish', rectangle(0.2, 0.3))] },
    dishes: [
      {
        dish: 'Pie',
        hold: { heat: [60, 90] },
        steps: [
          { step: 'roll', place: 'board', takes: 10, hands: ALL_HANDS },
          { step: 'bake', work: 'bake', place: 'oven', pan: 'dish', takes: { '150C': 40, '200C': 30 }, core: 90 },
        ],
      },
    ],
  });
  const plan = planOf(problem, {
    steps: {
      'Pie/roll': { at: [40, 50], place: 'board 1', hands: 'Ines' },
      'Pie/bake': {
        at: [50, 85],
        in: ['oven', 'roast'],
        place: 'rack 1',
        level: 1,
        spot: [0, 0],
        pan: 'dish',
        celsius: 175,
        minutes: { '150': 40, '200': 30 },
      },
    },
    runs: [{ in: ['oven', 'roast'], celsius: 175, at: [50, 85], changeover: 16 }],
    calls: [{ at: 50, cook: 'Ines', step: 'Pie/bake' }],
  });

  it('speaks in sentences, with the time on the kitchen’s clock', () => {
    const missing = { ...plan, steps: plan.steps.map((row) => ({ ...row, hands: [] })) };
    expect(audit(problem, plan).violations).toEqual([]);
    expect(audit(problem, missing).violations).toEqual([
      { rule: 6, code: 'missing', say: 'Pie/roll wants 1 more cook from 11:40 to 11:50.', steps: ['Pie/roll'] },
    ]);
  });

  it('gives the same verdict twice, and changes neither problem nor plan', () => {
    const before = JSON.stringify([problem, plan]);
    expect(audit(problem, plan)).toEqual(audit(problem, plan));
    expect(JSON.stringify([problem, plan])).toBe(before);
  });

  it('reports a plan without steps as one that lacks them', () => {
    const empty: PlanDocument = { ...plan, status: 'none', steps: [], runs: [], calls: [] };
    const codes = audit(problem, empty).violations.map((each) => `${each.rule} ${each.code}`);
    expect(codes.filter((each) => each === '1 missing')).toHaveLength(2);
  });

  it('never throws, whatever a valid document holds, and finds nothing only where nothing was changed', () => {
    const word = fc.constantFrom(
      'Pie',
      'roll',
      'bake',
      'hold',
      'oven',
      'roast',
      'dish',
      'rack 1',
      'board 1',
      'Ines',
      'nothing',
      '',
    );
    const or = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: null });
    const time = fc.constantFrom(...plan.steps.flatMap((row) => [row.start, row.end]), '2026-10-03T11:00:30.5+02:00');
    const spot = fc.record({
      x: fc.double({ noNaN: true, noDefaultInfinity: true }),
      y: fc.double({ noNaN: true, noDefaultInfinity: true }),
      turned: fc.boolean(),
    });
    const each = <T>(one: fc.Arbitrary<T>) => or(fc.oneof(one, fc.array(one, { maxLength: 3 })));
    const row = fc.record({
      dish: word,
      step: word,
      work: word,
      start: time,
      end: time,
      appliance: or(word),
      mode: or(word),
      place: each(word),
      celsius: or(fc.double({ noNaN: true, noDefaultInfinity: true })),
      pan: or(word),
      spot: each(spot),
      level: each(fc.integer()),
      hands: fc.array(fc.record({ cook: word, start: time, end: time }), { maxLength: 2 }),
    });
    const run = fc.record({
      appliance: word,
      mode: word,
      celsius: fc.double({ noNaN: true, noDefaultInfinity: true }),
      start: time,
      end: time,
      changeover: fc.integer(),
    });
    const call = fc.record({ at: time, cook: or(word), dish: word, step: word, say: word });
    const some = <T>(own: T[], other: fc.Arbitrary<T>) =>
      fc.array(fc.oneof(fc.constantFrom(...own), other), { maxLength: 4 });
    fc.assert(
      fc.property(some(plan.steps, row), some(plan.runs, run), some(plan.calls, call), (steps, runs, calls) => {
        const document = planDocument.parse({ ...plan, steps, runs, calls });
        const { violations, points } = audit(problem, document);
        expect(Object.values(points.parts).some((value) => Number.isNaN(value))).toBe(false);
        if (violations.length > 0) return;
        const names = (list: PlanDocument['steps']): string[] => list.map((given) => given.step).sort();
        expect(names(document.steps)).toEqual(names(plan.steps));
      }),
      { seed: 20261003, numRuns: 300 },
    );
  });
});
