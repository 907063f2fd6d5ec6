/** A serial schedule of what is left when a cook has left, on random meals: what it takes once, and what waits for what. */
import { describe, expect, it } from 'vitest';
import { stretchesOf, transitionTime } from '../../src/kernel/model.js';
import type { Happened } from '../../src/live/happened.js';
import { readPlan } from '../../src/live/reshuffle/doing.js';
import { factsOf } from '../../src/live/reshuffle/facts.js';
import { inTurn, type Turn } from '../../src/live/reshuffle/in-turn.js';
import { leftOf } from '../../src/live/reshuffle/left.js';
import { compileLeft, STEADY } from '../../src/live/reshuffle/progress.js';
import { solve } from '../../src/solve/solve.js';
import { randomProblemText } from '../support/random-problem.js';
import { readMeal } from '../support/read-meal.js';

/** A random meal some minutes after its first step, the first cook gone since; null where there is no plan or nobody can do what is left. */
function withoutACook(seed: number) {
  const problem = readMeal(randomProblemText(seed, { dishes: 4 + (seed % 9), cooks: 3 }));
  const { plan } = solve(problem, { effort: 'quick', seed: 1, explain: false, work: 60_000 });
  if (plan === null) return null;
  const known = readPlan(problem, plan);
  const now = Math.min(...known.steps.flatMap((rows) => rows.map(({ start }) => start))) + 20;
  const begun = known.steps.flatMap((rows, id) => {
    const { start, end } = rows[0]!;
    return start < now ? [[id, { start, end: end <= now ? end : null }] as const] : [];
  });
  const none = { readings: [], losses: [], dropped: new Set<number>() };
  const happened: Happened = { ...none, now, steps: new Map(begun), serve: problem.serve, gone: new Map([[0, now]]) };
  const left = leftOf(problem, known, factsOf(problem, known, happened, {}), happened);
  if (left.unfit.size > 0) return null;
  const { model } = compileLeft(left, known, happened, STEADY, false);
  const planned = model.activities.flatMap(({ id, modes }): Turn[] => {
    const usual = model.progress!.usual[id]!;
    const row = left.steps[id]!.usual!;
    if (model.progress!.settled[id] !== null) return [];
    const [mode, setting] = [Math.max(0, usual.mode), Math.max(0, usual.setting)];
    const { range, settings } = modes[mode]!;
    const minutes = range === null ? settings[setting]!.minutes : row.end - row.start;
    const hands = row.hands.map(({ cook }) => cook);
    return [{ id, mode, setting, start: Math.max(now, row.start), minutes, hands, units: usual.units }];
  });
  return { model, planned, now };
}

const cases = Array.from({ length: 40 }, (_, k) => withoutACook(k + 1)).filter((one) => one !== null);

describe('what is left in turn', () => {
  const made = cases.map((one) => ({ ...one, turns: inTurn(one.model, one.planned) }));
  const found = made.filter(({ turns }) => turns !== null);

  it('is found for most meals', () => {
    expect(cases.length).toBeGreaterThan(20);
    expect(found.length).toBeGreaterThan(0.9 * cases.length);
  });

  it('has each step once, no sooner than planned, after all that is before it', () => {
    for (const { model, planned, turns } of found) {
      const ends = new Map(turns!.map(({ id, start, minutes }) => [id, start + minutes]));
      expect([...ends.keys()].sort((a, b) => a - b)).toEqual(planned.map(({ id }) => id));
      for (const { id, start } of planned) {
        const turn = turns!.find((each) => each.id === id)!;
        expect(turn.start).toBeGreaterThanOrEqual(start);
        for (const { from, low } of model.activities[id]!.ins) {
          const as = model.progress!.settled[from];
          expect(turn.start).toBeGreaterThanOrEqual((as ? as.start + as.minutes : ends.get(from)!) + low);
        }
      }
    }
  });

  it('has nobody at two things at once, and nobody who has left', () => {
    for (const { model, turns, now } of found) {
      const spans: { w: number; from: number; to: number }[] = [];
      for (const { id, mode, start, minutes, hands } of turns!) {
        const { attention, able } = model.activities[id]!.modes[mode]!;
        const flat = stretchesOf(attention, minutes);
        expect(hands).toHaveLength((flat.length / 2) * attention.crew);
        hands!.forEach((w, i) => {
          const k = 2 * Math.floor(i / attention.crew);
          spans.push({ w, from: start + flat[k]!, to: start + flat[k]! + flat[k + 1]! });
          expect((able >> w) % 2).toBe(1);
        });
      }
      for (const [i, one] of spans.entries()) {
        expect(one.w === 0 && one.to > now).toBe(false);
        for (const two of spans.slice(i + 1))
          expect(one.w === two.w && one.from < two.to && two.from < one.to).toBe(false);
      }
    }
  });

  it('has each appliance at one heat at a time, with its change between', () => {
    let pairs = 0;
    for (const { model, turns } of found) {
      const on = turns!.flatMap(({ id, mode, setting, start, minutes }) => {
        const { machine, settings } = model.activities[id]!.modes[mode]!;
        return machine < 0 ? [] : [{ machine, state: settings[setting]!.state, start, end: start + minutes }];
      });
      for (const one of on) {
        for (const two of on) {
          if (one.machine !== two.machine || one.state === two.state || one.start > two.start) continue;
          pairs++;
          const change = transitionTime(model.machines[one.machine]!, one.state, two.state);
          expect(two.start).toBeGreaterThanOrEqual(one.end + change);
        }
      }
    }
    expect(pairs).toBeGreaterThan(10);
  });

  it('lets nothing wait longer than it may, where that can be', () => {
    let [kept, broken] = [0, 0];
    for (const { model, turns } of found) {
      const by = new Map(turns!.map((turn) => [turn.id, turn]));
      for (const { from, to, high } of model.lags) {
        const [one, two] = [by.get(from), by.get(to)];
        if (!one || !two || high === Number.POSITIVE_INFINITY) continue;
        const { range } = model.activities[from]!.modes[one.mode]!;
        if (two.start <= one.start + (range?.high ?? one.minutes) + high) kept++;
        else broken++;
      }
    }
    expect(kept).toBeGreaterThan(200);
    expect(broken).toBeLessThan(0.05 * kept);
  });
});
