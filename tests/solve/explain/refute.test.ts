/** Proofs against trying everything: on tiny models a proof is given exactly where no schedule holds. */
import { describe, expect, it } from 'vitest';
import { holds } from '../../../src/kernel/holds.js';
import { type Model, stretchesOf } from '../../../src/kernel/model.js';
import { Rng } from '../../../src/kernel/rng.js';
import { State } from '../../../src/kernel/state.js';
import type { Problem } from '../../../src/problem/problem.js';
import { compile } from '../../../src/solve/compile.js';
import { Network } from '../../../src/solve/explain/network.js';
import { refute } from '../../../src/solve/explain/refute.js';
import { choicesFor, settle } from '../../../src/solve/explain/settle.js';
import { solve } from '../../../src/solve/solve.js';
import {
  ALL_HANDS,
  circle,
  cooktop,
  type DishSpec,
  oven,
  pan,
  problemOf,
  type StepSpec,
} from '../../support/problem-builder.js';
import { Random } from '../../support/random.js';
import { randomProblemText } from '../../support/random-problem.js';
import { readMeal } from '../../support/read-meal.js';

const EFFORT = 1_000_000;
const HORIZON = 13;

/** Four steps, each with one way, in one to four dishes, that share a cook, a board, a burner, a pan and an oven, with tight gaps. */
function tiny(seed: number): { problem: Problem; model: Model } {
  const random = new Random(seed);
  const steps = Array.from({ length: 4 }, (_, at): StepSpec => {
    const place = random.pick(['none', 'board', 'range', 'oven', 'oven']);
    return {
      step: `step ${at}`,
      work: 'prep',
      takes: random.int(1, 4),
      ...(place === 'none' ? {} : { place }),
      ...(place === 'oven'
        ? { heat: random.pick([[60, 60] as const, [90, 90] as const]), pan: random.pick(['dish', 'pot']) }
        : {}),
      ...(place === 'range' ? { pan: random.pick(['pot', 'small pot']) } : {}),
      ...(random.chance(0.4) ? { hands: ALL_HANDS } : random.chance(0.4) ? { hands: { end: 1 } } : {}),
      ...(random.chance(0.2) ? { empties: true } : {}),
    };
  });
  const dishes: DishSpec[] = [];
  for (const [at, step] of steps.entries()) {
    const last = dishes.at(-1);
    const gap = [0, random.pick([0, 1, 2, 20])] as const;
    const before = last?.steps.at(-1);
    if (last && before && random.chance(0.4)) {
      dishes[dishes.length - 1] = { ...last, steps: [...last.steps, { ...step, after: [{ step: before.step, gap }] }] };
    } else {
      const across = before !== undefined && random.chance(0.6) ? [{ step: `${last!.dish}/${before.step}`, gap }] : [];
      dishes.push({ dish: `Dish ${at}`, steps: [{ ...step, after: across }] });
    }
  }
  const problem = problemOf({
    serve: random.int(6, 10),
    kitchen: {
      appliances: [oven('oven', { heats: 30, cools: 15, count: 1 }), cooktop('range', { front: 0.23 })],
      pans: [
        pan('pot', circle(0.24)),
        pan('small pot', circle(0.16), { wash: 1 }),
        pan('dish', circle(0.3), { count: 2 }),
      ],
    },
    dishes,
  });
  const { model } = compile(problem);
  const stays = [{ from: random.int(0, 2), to: HORIZON - random.int(0, 2) }];
  return { problem, model: { ...model, horizon: HORIZON, workers: model.workers.map(() => ({ stays })) } };
}

/** Whether any starts at all make a schedule that holds. */
function exists(model: Model): boolean {
  const activities = model.activities.map(({ id, modes }) => ({
    id,
    mode: modes[0]!,
    minutes: modes[0]!.settings[0]!.minutes,
  }));
  const starts = new Array<number>(activities.length).fill(0);
  const tryFrom = (at: number): boolean => {
    if (at === activities.length) {
      const state = new State(model);
      for (const { id, mode, minutes } of activities) {
        const hands = new Array<number>(stretchesOf(mode.attention, minutes).length / 2).fill(0);
        state.place(
          id,
          { start: starts[id]!, minutes, mode: 0, setting: 0 },
          hands,
          mode.units.slice(0, mode.unitCount),
        );
      }
      return holds(state);
    }
    const { id, minutes } = activities[at]!;
    for (let start = 0; start + minutes <= HORIZON; start++) {
      starts[id] = start;
      const apart = model.activities[id]!.ins.every((lag) => {
        const gap = start - starts[lag.from]! - activities[lag.from]!.minutes;
        return gap >= lag.low && gap <= lag.high;
      });
      if (apart && tryFrom(at + 1)) return true;
    }
    return false;
  };
  return tryFrom(0);
}

describe('proofs', () => {
  it('are given exactly where nothing holds, and else a schedule is found', () => {
    const counts = { never: 0, found: 0 };
    for (let seed = 1; seed <= 250; seed++) {
      const { problem, model } = tiny(seed);
      const there = exists(model);
      const { state } = settle(problem, model, choicesFor(model, new Rng(1), 'cheap'), EFFORT);
      expect([seed, refute(problem, model, EFFORT).proven]).toEqual([seed, !there]);
      expect([seed, state !== null && holds(state)]).toEqual([seed, there]);
      counts[there ? 'found' : 'never']++;
    }
    // Both kinds are common, or this would show little.
    expect(Math.min(counts.never, counts.found)).toBeGreaterThan(40);
  });

  it('are not given for want of effort', () => {
    const proven = (effort: number): number[] =>
      Array.from({ length: 60 }, (_, seed) => seed + 1).filter((seed) => {
        const { problem, model } = tiny(seed);
        return refute(problem, model, effort).proven;
      });
    const [few, all] = [proven(0), proven(EFFORT)];
    expect(few.length).toBeLessThan(all.length);
    expect(few.filter((seed) => !all.includes(seed))).toEqual([]);
  });
});

describe('random meals', () => {
  it('are never proven impossible where a plan is found', () => {
    let plans = 0;
    for (let seed = 1; seed <= 80; seed++) {
      const problem = readMeal(randomProblemText(seed, { dishes: 1 + (seed % 4) }));
      const { plan } = solve(problem, { effort: 'quick', seed: 1, work: 20_000 });
      if (plan === null) continue;
      plans++;
      expect([seed, refute(problem, compile(problem).model, 100_000).proven]).toEqual([seed, false]);
    }
    expect(plans).toBeGreaterThan(60);
  });
});

describe('networks of moments', () => {
  it('keep the earliest times, and give them back', () => {
    const network = new Network(4);
    expect(
      network.add([
        { from: 0, to: 1, least: 5 },
        { from: 1, to: 2, least: 3 },
      ]),
    ).toBe(true);
    expect([...network.earliest]).toEqual([0, 5, 8, 0]);
    const mark = network.mark();
    expect(
      network.add([
        { from: 2, to: 3, least: 4 },
        { from: 0, to: 2, least: 10 },
      ]),
    ).toBe(true);
    expect([...network.earliest]).toEqual([0, 5, 10, 14]);
    network.back(mark);
    expect([...network.earliest]).toEqual([0, 5, 8, 0]);
  });

  it('refuse a circle that never closes and a latest time that is passed', () => {
    const network = new Network(3);
    network.add([{ from: 1, to: 2, least: 4 }]);
    const mark = network.mark();
    expect(network.add([{ from: 2, to: 1, least: -3 }])).toBe(false);
    network.back(mark);
    expect(network.add([{ from: 2, to: 1, least: -4 }])).toBe(true);
    expect(network.add([{ from: 2, to: 0, least: -3 }])).toBe(false);
  });
});
