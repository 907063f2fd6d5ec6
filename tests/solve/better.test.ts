/** Ways out of plans that work: each one was planned, and its plan is as good as is said. */
import { describe, expect, it } from 'vitest';
import { audit } from '../../src/audit/audit.js';
import { costOf, totalOf } from '../../src/kernel/cost.js';
import { planDocument } from '../../src/plan/document.js';
import type { Problem } from '../../src/problem/problem.js';
import { answered } from '../../src/solve/answers.js';
import { compile } from '../../src/solve/compile.js';
import { type BetterWay, betterWays } from '../../src/solve/explain/better.js';
import type { Schedule } from '../../src/solve/schedule.js';
import { solve } from '../../src/solve/solve.js';
import { writePlan } from '../../src/solve/write-plan.js';
import { ALL_HANDS, type DishSpec, oven, pan, problemOf, rectangle } from '../support/problem-builder.js';

const WORK = 20_000;

/** Three dishes that want one tray at two heats of one oven, with one cook, in little time. */
function tight(serve: number): Problem {
  const bake = (name: string, heat: readonly [number, number], takes: number): DishSpec => ({
    dish: name,
    steps: [
      { step: 'cut', work: 'prep', takes: 10, hands: ALL_HANDS },
      { step: 'bake', work: 'bake', takes, place: 'oven', heat, pan: 'tray', empties: true },
      { step: 'dress', work: 'finish', takes: 4, hands: ALL_HANDS },
    ],
  });
  return problemOf({
    serve,
    cooks: ['Ines'],
    kitchen: { appliances: [oven()], pans: [pan('tray', rectangle(0.3, 0.4))] },
    dishes: [bake('Gratin', [185, 190], 40), bake('Roots', [205, 215], 35), bake('Meringue', [100, 110], 50)],
  });
}

interface Ways {
  readonly problem: Problem;
  readonly schedule: Schedule;
  readonly ways: readonly BetterWay[];
}

const found = new Map<number, Ways>();

function waysOf(serve: number): Ways {
  const known = found.get(serve);
  if (known !== undefined) return known;
  const problem = tight(serve);
  const { schedule } = solve(problem, { effort: 'quick', seed: 1, work: WORK });
  const fresh = { problem, schedule: schedule!, ways: betterWays(problem, schedule!, { seed: 1 }) };
  found.set(serve, fresh);
  return fresh;
}

describe('ways out of a plan', () => {
  for (const serve of [110, 220]) {
    it(`were planned, and cost what is said: served after ${serve} min`, () => {
      const { schedule, ways } = waysOf(serve);
      const own = totalOf(costOf(schedule.state));
      expect(ways.length).toBeGreaterThan(1);
      for (const { row, problem, state } of ways) {
        const late = row.late > 0;
        const plan = writePlan(compile(problem), state, {
          status: late ? 'late' : 'good',
          bound: 0,
          effort: { level: 'quick', seed: 1, rounds: 0, stopped: false },
        });
        const { violations, points } = audit(problem, plan);
        expect(violations, row.say).toEqual([]);
        expect(points.total, row.say).toBeCloseTo(row.points, 2);
        expect(Math.max(...plan.dishes.map((dish) => dish.late ?? 0)), row.say).toBe(row.late);
        expect(row.saves).toBeCloseTo(own - points.total, 1);
        expect(row.saves!).toBeGreaterThan(0);
      }
    });
  }

  it('lead a late plan back to its time', () => {
    const { ways } = waysOf(110);
    const inTime = ways.filter(({ row }) => row.late === 0).map(({ row }) => row.kind);
    expect(inTime).toContain('serve');
    expect(ways.map(({ row }) => row.say).join('\n')).toMatch(
      /^(Begin|Serve) at \d\d:\d\d \(.* (earlier|later)\): [\d.]+ points? instead of [\d.]+, in time\.$/m,
    );
  });

  it('come unasked with a late plan, which says what makes it late, and with others when asked', () => {
    const options = { effort: 'quick', seed: 1, work: WORK } as const;
    const late = answered(tight(110), options).plan!;
    expect(planDocument.safeParse(late).error).toBeUndefined();
    expect(late.status).toBe('late');
    expect(late.because![0]).toMatch(/lands .* late, at/);
    expect(late.because!.join('\n')).toMatch(
      /at \d+ °C and .* at \d+ °C need the only oven one after the other between/,
    );
    expect(late.waysOut!.length).toBeGreaterThan(0);
    const good = answered(tight(260), options).plan!;
    expect([good.because, good.waysOut, good.why]).toEqual([undefined, undefined, undefined]);
    const asked = answered(tight(260), { ...options, waysOut: true, why: true }).plan!;
    expect(planDocument.safeParse(asked).error).toBeUndefined();
    expect(asked.waysOut).toBeDefined();
    expect(asked.why!.exact).toBe(true);
  });

  it('are the same every time, and none are looked for once somebody has asked to stop', () => {
    const { problem, schedule, ways } = waysOf(220);
    const again = betterWays(problem, schedule, { seed: 1 });
    expect(again.map(({ row }) => row)).toEqual(ways.map(({ row }) => row));
    expect(betterWays(problem, schedule, { seed: 1, shouldStop: () => true })).toEqual([]);
  });
});
