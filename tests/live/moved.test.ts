/** What has to move on the day: boards that are taken otherwise, and a free length that goes on elsewhere. */
import { describe, expect, it } from 'vitest';
import type { Happened } from '../../src/live/happened.js';
import { reshuffle } from '../../src/live/reshuffle/reshuffle.js';
import type { PlanDocument } from '../../src/plan/document.js';
import { isoAt } from '../../src/problem/hours.js';
import type { Problem } from '../../src/problem/problem.js';
import { solve } from '../../src/solve/solve.js';
import { readMeal } from '../support/read-meal.js';
import { faultsOf } from '../support/services.js';

const meal = (dishes: string, appliances: string): Problem =>
  readMeal(`format: hearthtable/1
title: Cold supper
serve: 2026-10-03 19:00
start: 2026-10-03 17:00
zone: Europe/Lisbon
kitchen:
  kitchen: Two boards
  appliances: [${appliances}]
  boards: 2
  pans: [{ pan: small pot, round: 18 cm, height: 12 cm, count: 1 }]
cooks: [Ines, Tomas, Marta]
dishes:
${dishes}`);

const happenedAt = (now: number, some: Partial<Happened>): Happened => ({
  now,
  steps: new Map(),
  readings: [],
  serve: 120,
  losses: [],
  gone: new Map(),
  dropped: new Set(),
  ...some,
});

describe('boards', () => {
  it('are told anew where one is not free in time', () => {
    const dish = (name: string, minutes: number): string =>
      `  - { dish: ${name}, keeps: 5 h, fades: never, steps: [{ step: cut, work: prep, takes: ${minutes} min }] }\n`;
    const problem = meal(dish('Beets', 10) + dish('Chard', 15) + dish('Dill', 10), '');
    const solved = solve(problem, { effort: 'quick', seed: 1 }).plan!;
    // Beets are followed by chard on the first board, while dill has the second from before chard is done.
    const rows: Record<string, [number, number, string, string]> = {
      Beets: [0, 10, 'board 1', 'Ines'],
      Chard: [10, 25, 'board 1', 'Tomas'],
      Dill: [12, 22, 'board 2', 'Marta'],
    };
    const steps = solved.steps.map((row) => {
      const [from, to, place, cook] = rows[row.dish]!;
      const [start, end] = [isoAt(problem, from), isoAt(problem, to)];
      return { ...row, place, start, end, hands: [{ cook, start, end }] };
    });
    const happened = happenedAt(10, { steps: new Map([[0, { start: 0, end: null }]]) });
    const made = reshuffle(problem, { ...solved, steps }, happened, { seed: 1 });
    expect(faultsOf(problem, made, happened, new Map())).toEqual([]);
    const placed = Object.fromEntries(made.plan!.steps.map((row) => [row.dish, [row.start, row.place]]));
    expect(placed.Beets).toEqual([isoAt(problem, 0), 'board 1']);
    expect(placed.Chard).toEqual([isoAt(problem, 10), 'board 2']);
  });
});

describe('a free length whose burner is lost', () => {
  const problem = meal(
    `  - dish: Stock
    keeps: 5 h
    fades: never
    steps:
      - { step: simmer, work: simmer, takes: 60-120 min, best: 80-110 min, on: [{ place: burner, heat: low }], pan: small pot }
`,
    '{ appliance: range, kind: cooktop, burners: [{ burner: front, size: 23 cm }, { burner: back, size: 18 cm }] }',
  );
  const first = solve(problem, { effort: 'quick', seed: 1 }).plan!;
  const [row] = first.steps;
  const lostAt = (plan: PlanDocument, now: number, losses: Happened['losses']) => {
    const happened = happenedAt(now, { steps: new Map([[0, { start: 0, end: null }]]), losses });
    const made = reshuffle(problem, plan, happened, { seed: 1 });
    expect(faultsOf(problem, made, happened, new Map())).toEqual([]);
    const parts = made.plan!.steps.map(({ start, end }) => (Date.parse(end) - Date.parse(start)) / 60_000);
    return { plan: made.plan!, parts, points: made.plan!.points.parts.rest };
  };
  const begun = { ...first, steps: [{ ...row!, start: isoAt(problem, 0), end: isoAt(problem, 95) }] };
  const burner = (at: number, name: string): Happened['losses'] => [
    { at, what: { kind: 'burner', appliance: 0, burner: ['front', 'back'].indexOf(name) } },
  ];
  const own = String(row!.place);

  it.each([31, 70, 109])('goes on for the rest of it, and is judged as a whole: lost after %i minutes', (at) => {
    const { parts, points } = lostAt(begun, at, burner(at, own));
    expect(parts).toHaveLength(2);
    expect(parts[0]).toBe(at);
    const minutes = parts[0]! + parts[1]!;
    expect(minutes).toBeGreaterThanOrEqual(60);
    expect(minutes).toBeLessThanOrEqual(120);
    expect(points).toBe(0.5 * Math.max(0, 80 - minutes, minutes - 110));
  });

  it('is told rightly once it is under way in its new place', () => {
    const { plan } = lostAt(begun, 31, burner(31, own));
    const { parts, points } = lostAt(plan, 40, burner(31, own));
    expect(parts).toHaveLength(2);
    const minutes = parts[0]! + parts[1]!;
    expect(minutes).toBeGreaterThanOrEqual(60);
    expect(points).toBe(0.5 * Math.max(0, 80 - minutes, minutes - 110));
  });
});
