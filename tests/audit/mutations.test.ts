/** Random right plans, made right by construction, and the same with one thing changed: each change must be noticed. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { audit } from '../../src/audit/audit.js';
import type { PlanDocument, StepRow } from '../../src/plan/document.js';
import type { Problem, Work } from '../../src/problem/problem.js';
import {
  ALL_HANDS,
  circle,
  cooktop,
  type DishSpec,
  grill,
  oven,
  pan,
  problemOf,
  rectangle,
  type StepSpec,
} from '../support/problem-builder.js';
import { faultsOf, isoAt, type PlanSpec, planOf, type RowSpec } from './plan-builder.js';

const RUNS = { seed: 20261003, numRuns: 40 };

interface Stage {
  readonly kind: 'board' | 'oven' | 'grill' | 'range' | 'rest';
  readonly takes: number;
  readonly gap: number;
  readonly celsius: number;
}
const stage: fc.Arbitrary<Stage> = fc.record({
  kind: fc.constantFrom('board' as const, 'oven' as const, 'grill' as const, 'range' as const, 'rest' as const),
  takes: fc.integer({ min: 6, max: 40 }),
  gap: fc.integer({ min: 30, max: 45 }),
  celsius: fc.integer({ min: 24, max: 40 }).map((each) => each * 5),
});
const chains = fc.array(fc.array(stage, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 3 });

const WORK: Record<Stage['kind'], Work> = { board: 'prep', oven: 'roast', grill: 'grill', range: 'fry', rest: 'rest' };
/** Each kind of step has the one cook who can do it. */
const COOK: Record<Stage['kind'], string | null> = {
  board: 'Ana',
  oven: 'Bruno',
  grill: 'Clara',
  range: 'Duarte',
  rest: null,
};

/**
 * One dish after the other, one step after the other, each link tied to the very gap it has: nothing can meet anything, and
 * nothing can move.
 */
function rightPlan(all: readonly (readonly Stage[])[]): { problem: Problem; plan: PlanDocument } {
  const steps: Record<string, RowSpec> = {};
  const runs: NonNullable<PlanSpec['runs']>[number][] = [];
  const last = new Map<string, number>();
  let at = 30;
  const dishes = all.map(
    (chain, index): DishSpec => ({
      dish: `Dish ${index}`,
      steps: chain.map((each, place): StepSpec => {
        const start = at + each.gap;
        at = start + each.takes;
        const step = `step ${place}`;
        const cook = COOK[each.kind];
        const heated = each.kind === 'oven' || each.kind === 'grill';
        const panName = each.kind === 'range' ? 'skillet' : heated ? 'dish' : undefined;
        if (heated) {
          const from = last.get(each.kind) ?? 20;
          last.set(each.kind, each.celsius);
          const changeover = Math.ceil(Math.abs(each.celsius - from) / (each.celsius >= from ? 10 : 8) - 1e-9);
          runs.push({ in: [each.kind, 'roast'], celsius: each.celsius, at: [start, at], changeover });
        }
        steps[`Dish ${index}/${step}`] = {
          at: [start, at],
          ...(cook === null ? {} : { hands: cook }),
          ...(panName === undefined ? {} : { pan: panName }),
          ...(each.kind === 'board' ? { place: 'board 1' } : {}),
          ...(each.kind === 'range' ? { in: ['range'] as const, place: 'front' } : {}),
          ...(each.kind === 'oven'
            ? {
                in: ['oven', 'roast'] as const,
                place: 'rack 1',
                level: 1,
                spot: [0, 0] as const,
                celsius: each.celsius,
              }
            : {}),
          ...(each.kind === 'grill'
            ? { in: ['grill', 'roast'] as const, place: 'left', spot: [0, 0] as const, celsius: each.celsius }
            : {}),
        };
        return {
          step,
          work: WORK[each.kind],
          takes: each.takes,
          gap: [each.gap, each.gap],
          empties: true,
          ...(each.kind === 'rest' ? {} : { place: each.kind, hands: ALL_HANDS }),
          ...(panName === undefined ? {} : { pan: panName }),
          ...(heated ? { mode: 'roast' } : {}),
        };
      }),
    }),
  );
  const problem = problemOf({
    serve: at + 10,
    kitchen: {
      appliances: [oven('oven', { cools: 8 }), grill('grill', { cools: 8 }), cooktop()],
      pans: [pan('dish', rectangle(0.2, 0.3), { wash: 3 }), pan('skillet', circle(0.26), { wash: 3 })],
    },
    cooks: Object.entries(COOK).flatMap(([kind, name]) =>
      name === null ? [] : [{ name, can: [WORK[kind as Stage['kind']]] }],
    ),
    dishes,
  });
  return { problem, plan: planOf(problem, { steps, runs }) };
}

const changingRow = (plan: PlanDocument, at: number, change: (row: StepRow) => StepRow): PlanDocument => ({
  ...plan,
  steps: plan.steps.map((row, index) => (index === at ? change(row) : row)),
});

/** Each case: every place in a right plan where it can be done, as changed plans, and the faults one of which must show. */
function always(
  name: string,
  expected: readonly string[],
  change: (plan: PlanDocument, problem: Problem) => readonly PlanDocument[],
): void {
  it(name, () => {
    let changed = 0;
    fc.assert(
      fc.property(chains, (all) => {
        const { problem, plan } = rightPlan(all);
        for (const each of change(plan, problem)) {
          changed += 1;
          const found = faultsOf(problem, each);
          expect(found.filter((fault) => expected.includes(fault))).not.toEqual([]);
        }
      }),
      RUNS,
    );
    expect(changed).toBeGreaterThan(RUNS.numRuns / 2);
  });
}

describe('a right plan with one thing changed', () => {
  it('is right before', () => {
    fc.assert(
      fc.property(chains, (all) => {
        const { problem, plan } = rightPlan(all);
        expect(faultsOf(problem, plan)).toEqual([]);
      }),
      RUNS,
    );
  });

  it('a step shifted by a minute breaks a rule or has other points', () => {
    fc.assert(
      fc.property(chains, fc.constantFrom(-1, 1), (all, by) => {
        const { problem, plan } = rightPlan(all);
        const move = (iso: string): string => isoAt(problem, (Date.parse(iso) - problem.origin) / 60_000 + by);
        for (const at of plan.steps.keys()) {
          const shifted = changingRow(plan, at, (row) => ({
            ...row,
            start: move(row.start),
            end: move(row.end),
            hands: row.hands.map((entry) => ({ ...entry, start: move(entry.start), end: move(entry.end) })),
          }));
          const { violations, points } = audit(problem, shifted);
          expect(violations.some((each) => each.rule > 0) || points.total !== plan.points.total).toBe(true);
          expect(violations).not.toEqual([]);
        }
      }),
      RUNS,
    );
  });

  always('a step a minute longer is noticed', ['1 length'], (plan, problem) =>
    plan.steps.map((_, at) =>
      changingRow(plan, at, (row) => ({
        ...row,
        end: isoAt(problem, (Date.parse(row.end) - problem.origin) / 60_000 + 1),
      })),
    ),
  );

  always('a step left out is noticed', ['1 missing'], (plan) =>
    plan.steps.map((_, at) => ({ ...plan, steps: plan.steps.filter((_row, index) => index !== at) })),
  );

  always('a step done twice is noticed', ['1 twice'], (plan) =>
    plan.steps.map((row) => ({ ...plan, steps: [...plan.steps, row] })),
  );

  always('another pan is noticed', ['1 alternative'], (plan) =>
    plan.steps.map((_, at) =>
      changingRow(plan, at, (row) => ({ ...row, pan: row.pan === 'dish' ? 'skillet' : 'dish' })),
    ),
  );

  always('a cook put for another is noticed', ['6 can'], (plan) =>
    plan.steps.flatMap((given, at) =>
      ['Ana', 'Bruno', 'Clara', 'Duarte']
        .filter((cook) => given.hands.length > 0 && given.hands[0]!.cook !== cook)
        .map((cook) =>
          changingRow(plan, at, (row) => ({ ...row, hands: row.hands.map((entry) => ({ ...entry, cook })) })),
        ),
    ),
  );

  always('hands left out are noticed', ['6 missing'], (plan) =>
    plan.steps.flatMap((given, at) =>
      given.hands.length === 0 ? [] : [changingRow(plan, at, (row) => ({ ...row, hands: [] }))],
    ),
  );

  always('a run left out is noticed', ['4 outside'], (plan) =>
    plan.runs.map((_, at) => ({ ...plan, runs: plan.runs.filter((_run, index) => index !== at) })),
  );

  always('another temperature of a run is noticed', ['4 celsius'], (plan) =>
    plan.runs.map((_, at) => ({
      ...plan,
      runs: plan.runs.map((run, index) => (index === at ? { ...run, celsius: run.celsius + 5 } : run)),
    })),
  );

  always('a run that ends a minute early is noticed', ['4 outside'], (plan, problem) =>
    plan.runs.map((_, at) => ({
      ...plan,
      runs: plan.runs.map((run, index) =>
        index === at ? { ...run, end: isoAt(problem, (Date.parse(run.end) - problem.origin) / 60_000 - 1) } : run,
      ),
    })),
  );

  always('a changeover told a minute shorter is noticed', ['5 stated'], (plan) =>
    plan.runs.map((_, at) => ({
      ...plan,
      runs: plan.runs.map((run, index) => (index === at ? { ...run, changeover: run.changeover - 1 } : run)),
    })),
  );

  always('a spot over the edge is noticed', ['3 outside', '3 form'], (plan) =>
    plan.steps.map((_, at) => changingRow(plan, at, (row) => ({ ...row, spot: { x: -0.01, y: 0, turned: false } }))),
  );

  always('points told otherwise are noticed', ['0 points'], (plan) => [
    { ...plan, points: { ...plan.points, total: plan.points.total - 0.05 } },
    ...(['late', 'wait', 'gap', 'runs', 'idle', 'day'] as const).map((name) => ({
      ...plan,
      points: { ...plan.points, parts: { ...plan.points.parts, [name]: plan.points.parts[name] + 0.05 } },
    })),
  ]);
});
