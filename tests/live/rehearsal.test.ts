import { describe, expect, test } from 'vitest';
import { answerTo } from '../../cli/cooking/new-plan.js';
import { kept } from '../../cli/journal/open-day.js';
import { happenedOf } from '../../src/live/journal/day.js';
import { stepNamed } from '../../src/live/journal/names.js';
import { Rehearsal } from '../../src/live/rehearsal/rehearsal.js';
import { soFar } from '../../src/live/rehearsal/so-far.js';
import { standingAt } from '../../src/live/state/state.js';
import { clockAt, minuteAt } from '../../src/problem/hours.js';
import { Teller } from './day-of.js';

interface Service {
  readonly teller: Teller;
  readonly plans: number;
  /** What each entry that the kitchen made was said by. */
  readonly by: readonly (string | null)[];
}

/** Minute by minute until an hour after serving; with new plans whenever something is three minutes late, where `anew`. */
function service(rehearsal: Rehearsal, anew: boolean): Service {
  const teller = new Teller();
  const { problem } = teller.day;
  const by: (string | null)[] = [];
  let [plans, planned] = [0, 0];
  for (let now = problem.serve - 150; now <= problem.serve + 60; now++) {
    const clock = clockAt(problem, now);
    for (let next = rehearsal.next(teller.day, standingAt(teller.day, now)); next !== null; ) {
      by.push(next.who);
      for (const body of next.bodies) teller.must(clock, body);
      next = rehearsal.next(teller.day, standingAt(teller.day, now));
    }
    const { day } = teller;
    const { steps } = standingAt(day, now);
    if (!anew || now - planned < 3 || !steps.some(({ late }) => late >= 3)) continue;
    planned = now;
    const { plan, say } = answerTo({
      problem,
      plan: day.plan!,
      happened: happenedOf(day, now),
      expected: new Map(),
      thorough: false,
    });
    expect(plan, say.join(' ')).not.toBeNull();
    teller.must(clock, { kind: 'plan', plan: kept(plan!), say: [...say] });
    plans += 1;
  }
  return { teller, plans, by };
}

describe('a rehearsal', () => {
  test('the kitchen alone does a whole supper, on several evenings, near its time', () => {
    const landed = [1, 2, 3].map((evening) => {
      const { teller } = service(new Rehearsal(evening, null), true);
      const { problem, steps } = teller.day;
      expect(problem.steps.filter(({ id }) => (steps.get(id)?.end ?? null) === null)).toEqual([]);
      return Math.max(...[...steps.values()].map(({ end }) => end!)) - problem.serve;
    });
    for (const late of landed) expect(Math.abs(late)).toBeLessThanOrEqual(15);
    expect(new Set(landed).size).toBeGreaterThan(1);
  });

  test('the same evening goes the same way', () => {
    const days = [1, 1].map((evening) => [...service(new Rehearsal(evening, null), false).teller.day.steps]);
    expect(days[0]).toEqual(days[1]);
  });

  test('who practises does their own work: helpers do theirs and nothing more', () => {
    const { teller, by } = service(new Rehearsal(1, 'Ines'), false);
    const { problem, steps } = teller.day;
    expect(by.length).toBeGreaterThan(0);
    expect(new Set(by)).toEqual(new Set(['Tomas']));
    expect(steps.has(stepNamed(problem, 'Roast loin/tie') as number)).toBe(false);
    expect(steps.has(stepNamed(problem, 'Roots/cut') as number)).toBe(true);
  });

  test('the thermometer shows the pull’s core about when the roast is really done', () => {
    const rehearsal = new Rehearsal(3, 'Ines');
    const teller = new Teller();
    const { problem } = teller.day;
    teller.did('Roast loin/tie', '17:00', '17:08').did('Roast loin/roast', '17:08');
    const roast = stepNamed(problem, 'Roast loin/roast') as number;
    const begun = Math.floor(minuteAt(problem, teller.iso('17:08')));
    const end = rehearsal.endOf(teller.day, roast);
    const shown = [begun + 20, begun + 40, end].map((now) => rehearsal.thermometer(teller.day, roast, now)!);
    expect(shown).toEqual([...shown].sort((a, b) => a - b));
    expect(Math.abs(shown[2]! - 60)).toBeLessThanOrEqual(3);
    expect(rehearsal.looksDone(teller.day, end - 1).has(roast)).toBe(false);
    expect(rehearsal.looksDone(teller.day, end).has(roast)).toBe(true);
    expect(rehearsal.thermometer(teller.day, roast, begun + 20)).toBe(shown[0]);
  });

  test('one that begins late takes what comes before as done on time, in an order that the journal takes', () => {
    const teller = new Teller();
    const { problem } = teller.day;
    const now = problem.serve - 45;
    const past = soFar(teller.day, now);
    for (const { minute, body } of past) teller.mustThen(clockAt(problem, now), clockAt(problem, minute), body);
    const { steps } = standingAt(teller.day, now);
    expect(steps.filter(({ late }) => late > 0)).toEqual([]);
    for (const { id, row } of steps) {
      const fact = teller.day.steps.get(id);
      expect(fact === undefined).toBe(Math.round(minuteAt(problem, row!.start)) >= now);
      if (fact !== undefined) expect(fact.end === null).toBe(Math.round(minuteAt(problem, row!.end)) > now);
    }
    expect(past.map(({ body }) => body.kind)).toContain('done');
    expect(soFar(teller.day, 0)).toEqual([]);
  });
});
