/** Room that a new plan keeps for what may take longer. */
import { describe, expect, it } from 'vitest';
import type { Happened } from '../../src/live/happened.js';
import { reshuffle } from '../../src/live/reshuffle/reshuffle.js';
import { minuteAt } from '../../src/problem/hours.js';
import { solve } from '../../src/solve/solve.js';
import { readMeal, readMealFile } from '../support/read-meal.js';
import { faultsOf } from '../support/services.js';

/** A pan of beans that may take five minutes longer or not, with points a minute for landing late and for waiting. */
const beans = (late: number, wait: number) =>
  readMeal(`format: hearthtable/1
title: Beans
serve: 2026-10-03 19:00
start: 2026-10-03 17:00
zone: Europe/Lisbon
care: { late: ${late}, wait: { steady: ${wait} } }
kitchen:
  kitchen: One burner
  appliances: [{ appliance: range, kind: cooktop, burners: [{ burner: front, size: 23 cm }] }]
  pans: [{ pan: small pot, round: 18 cm, height: 12 cm, count: 1 }]
cooks: [Ines]
dishes:
  - dish: Beans
    keeps: 30 min
    steps:
      - step: simmer
        work: simmer
        takes: { low: 20 min, likely: 25 min, high: 30 min }
        on: [{ place: burner, heat: low }]
        pan: small pot
`);

/** Minutes before serving at which they are done in a new plan, made when serving is moved to five minutes later. */
function roomIn(late: number, wait: number): { minutes: number; say: string } {
  const problem = beans(late, wait);
  const plan = solve(problem, { effort: 'quick', seed: 1 }).plan!;
  expect(plan.dishes[0]!.wait).toBe(0);
  const serve = problem.serve + 5;
  const none = { steps: new Map(), readings: [], losses: [], gone: new Map(), dropped: new Set<number>() };
  const happened: Happened = { ...none, now: 30, serve };
  const made = reshuffle(problem, plan, happened, { seed: 1 });
  expect(faultsOf(problem, made, happened, new Map())).toEqual([]);
  return { minutes: serve - minuteAt(problem, made.plan!.steps[0]!.end), say: made.say.join(' ') };
}

describe('room for what may take longer', () => {
  it('is as much as lateness is dearer than waiting', () => {
    // One minute earlier is worth it while the chance of being late costs more than a minute of waiting. The ends of what a cook writes
    // are those of one evening in ten: half a normal distribution with 5 minutes at 1.2816 deviations, of which 24 evenings are drawn.
    const { minutes } = roomIn(60, 6);
    expect(minutes).toBeGreaterThanOrEqual(4);
    expect(minutes).toBeLessThanOrEqual(6);
    expect(roomIn(60, 20).minutes).toBeLessThan(minutes);
    expect(roomIn(60, 0.5).minutes).toBeGreaterThan(minutes);
  });

  it('is none where waiting is dearer, and is told where there is some', () => {
    const none = roomIn(1, 4);
    expect(none.minutes).toBe(0);
    expect(none.say).not.toContain('kept free');
    expect(roomIn(60, 6).say).toContain('some minutes are kept free for what may take longer');
  });
});

describe('the plan with which the day begins', () => {
  const problem = readMealFile('problems/one-grill-pork.yaml');
  const plan = solve(problem, { effort: 'quick', seed: 1 }).plan!;
  const none = { steps: new Map(), readings: [], losses: [], gone: new Map(), dropped: new Set<number>() };
  const happened: Happened = { ...none, now: 0, serve: problem.serve };
  const begun = reshuffle(problem, plan, happened, { seed: 1, thorough: true });

  it('is looked for with more care than one that is waited for, has room and says so', () => {
    const usual = reshuffle(problem, plan, happened, { seed: 1 });
    expect(faultsOf(problem, begun, happened, new Map())).toEqual([]);
    expect(begun.expected!).toBeLessThanOrEqual(usual.expected!);
    expect(begun.say[0]).toBe('Some minutes are kept free for what may take longer.');
    expect(begun.say[1]).toMatch(/^The first step is at \d\d:\d\d, \d+ min earlier; .*more changes\.$/);
    // What changes is told against the plan that everybody knows, however many came between.
    for (const { dish, step, kind, from } of begun.changes) {
      const row = plan.steps.find((each) => each.dish === dish && each.step === step);
      if (kind === 'start') expect(row!.start).toBe(from);
    }
  });

  it('is kept, as long as all goes as planned, or left for a better one', () => {
    const again = reshuffle(problem, begun.plan!, happened, { seed: 1 });
    const startsIn = (made: typeof begun): string[] => made.plan!.steps.map(({ start }) => start);
    expect(again.expected!).toBeLessThanOrEqual(begun.expected! + 0.02);
    if (again.expected! > begun.expected! - 1) expect(startsIn(again)).toEqual(startsIn(begun));
  });
});
