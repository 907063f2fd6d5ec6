/** What is told of a plan's times is so: judged by the audit and by timing everything anew. */
import { beforeAll, describe, expect, it } from 'vitest';
import { audit } from '../../src/audit/audit.js';
import { costOf, totalOf } from '../../src/kernel/cost.js';
import { State } from '../../src/kernel/state.js';
import { whyDocument } from '../../src/plan/why-document.js';
import type { Problem } from '../../src/problem/problem.js';
import type { Found } from '../../src/solve/schedule.js';
import { written } from '../../src/solve/timing.js';
import { ReasonNetwork } from '../../src/solve/why/reason-network.js';
import { holdsOf, type Side } from '../../src/solve/why/tight.js';
import { type Why, whyOf } from '../../src/solve/why/why.js';
import { writePlan } from '../../src/solve/write-plan.js';
import { solveQuickly } from '../properties/right-plans.js';
import { randomProblemText } from '../support/random-problem.js';
import { readMeal } from '../support/read-meal.js';

interface Told extends Why {
  readonly name: string;
  readonly problem: Problem;
  readonly found: Found;
}

const MEALS = 9;
const SIDES: readonly Side[] = ['sooner', 'later'];
const WAY = { sooner: -1, later: 1 } as const;

/** Points by the audit; null where the schedule breaks a rule, or cannot even be written down. */
function judged({ problem, found }: Told, state: State): number | null {
  try {
    const late = state.model.groups.some((group, g) => state.landing(g) > group.due);
    const plan = writePlan(found.compiled, state, {
      status: late ? 'late' : 'good',
      bound: 0,
      effort: { level: 'quick', seed: 1, rounds: 0, stopped: false },
    });
    const { violations, points } = audit(problem, plan);
    return violations.length > 0 ? null : points.total;
  } catch {
    return null;
  }
}

/** One step alone by a minute, all else as it is. */
function shifted(state: State, a: number, by: number): State {
  const next = new State(state.model, state);
  next.start[a] = next.start[a]! + by;
  return next;
}

/** The best schedule of the same order with a step so many minutes sooner or later; null where there is none. */
function movedTo({ found: { compiled, state } }: Told, a: number, side: Side, minutes: number): State | null {
  const network = new ReasonNetwork(compiled, state);
  network.solve();
  network.network.keep();
  const at = state.start[a]! + WAY[side] * minutes;
  const { node } = network.start(a);
  if (side === 'later') network.network.arc(0, node, at, Number.POSITIVE_INFINITY);
  else network.network.arc(node, 0, -at, Number.POSITIVE_INFINITY);
  if (!network.network.again(Number.POSITIVE_INFINITY)) return null;
  return written(network, state.setting, state.hands, network.times());
}

function stepId({ problem }: Told, dish: string, step: string): number {
  return problem.steps.findIndex((each) => each.name === step && problem.dishes[each.dish]!.name === dish);
}

describe('why', () => {
  let told: Told[] = [];
  beforeAll(() => {
    for (let seed = 1; told.length < MEALS; seed++) {
      const asked = readMeal(randomProblemText(seed, { dishes: 1 + (seed % 5) }));
      // Every second one is asked for so early that it must be late.
      const problem = seed % 2 === 0 ? asked : { ...asked, serve: Math.round(asked.serve * 0.4) };
      // In a history of a piece nothing here is of interest, and it takes long.
      if (problem.steps.some(({ core }) => core !== null)) continue;
      const { schedule: found } = solveQuickly(problem, 2);
      if (found !== null) told.push({ name: `random meal ${seed}`, problem, found, ...whyOf(found) });
    }
    told = told.filter(({ why }) => why.exact);
  }, 60_000);

  it('is known of nearly every plan, and told of every step', () => {
    expect(told.length).toBeGreaterThan(0.9 * MEALS);
    expect(told.filter(({ late }) => late.length > 0).length).toBeGreaterThan(2);
    for (const { why, problem, name } of told) {
      expect(whyDocument.safeParse(why).error, name).toBeUndefined();
      expect(why.steps.length, name).toBeGreaterThanOrEqual(problem.steps.length);
    }
  });

  it('names what really is in the way: a minute alone breaks a rule or costs points', () => {
    const counts = { broken: 0, dearer: 0 };
    for (const one of told) {
      const total = totalOf(costOf(one.found.state));
      for (const { dish, step, ...sides } of one.why.steps) {
        const a = stepId(one, dish, step);
        if (a < 0) continue;
        for (const side of SIDES) {
          if (sides[side].free > 0) continue;
          expect(sides[side].chain.length, `${one.name}: ${dish}/${step} ${side}`).toBeGreaterThan(0);
          const points = judged(one, shifted(one.found.state, a, WAY[side]));
          if (points === null) counts.broken++;
          // Of several equal boards or pans the order of each is kept, though another might do.
          else if (!/ needs an? | is free only at /.test(sides[side].chain[0]!.say)) {
            expect(points, `${one.name}: ${dish}/${step} ${side}`).toBeGreaterThan(total - 0.011);
            counts.dearer++;
          }
        }
      }
    }
    expect(counts.broken).toBeGreaterThan(80);
    expect(counts.dearer).toBeGreaterThan(20);
  });

  it('ties each moment to the next without a minute to spare', () => {
    for (const { found, name } of told) {
      const network = new ReasonNetwork(found.compiled, found.state);
      network.solve();
      const times = network.ownTimes();
      const holds = holdsOf(network, times)!;
      for (const { id } of found.compiled.model.activities) {
        for (const side of SIDES) {
          const { node } = network.start(id);
          if (holds[side].free[node]! > 0) continue;
          const chain = holds[side].chain(node);
          expect(chain[0]!.node, name).toBe(node);
          expect(chain.at(-1)!.other, name).toBe(0);
          chain.forEach(({ row, node: from, rule, back }, i) => {
            if (i > 0) expect(from).toBe(chain[i - 1]!.other);
            expect(times[row.to]! - times[row.from]!).toBeCloseTo(row.weight, 6);
            if (rule) expect(Number.isFinite(row.cap)).toBe(false);
            // What is no rule presses: a minute more of it would be worth something.
            if (back) expect(network.network.flow(row.arc)).toBeGreaterThan(0);
          });
        }
      }
    }
  });

  it('says rightly how far a step can move for nothing, and what a minute beyond costs', () => {
    let moved = 0;
    for (const one of told) {
      const total = totalOf(costOf(one.found.state));
      for (const { dish, step, ...sides } of one.why.steps) {
        const a = stepId(one, dish, step);
        if (a < 0) continue;
        for (const side of SIDES) {
          const { free, points } = sides[side];
          const far = free > 0 ? movedTo(one, a, side, free) : null;
          if (far !== null) {
            expect(judged(one, far), `${one.name}: ${dish}/${step} ${side} ${free}`).toBeCloseTo(total, 1);
            moved++;
          }
          const beyond = movedTo(one, a, side, free + 1);
          if (points === null) expect(beyond).toBeNull();
          else if (beyond !== null) {
            const cost = totalOf(costOf(beyond)) - total;
            // Rows are a little stricter than costs where a step could be done in a better heat run.
            expect(cost, `${one.name}: ${dish}/${step} ${side}`).toBeLessThanOrEqual(points + 0.006);
            expect(points).toBeGreaterThan(-0.001);
            moved++;
          }
        }
      }
    }
    expect(moved).toBeGreaterThan(80);
  });
});
