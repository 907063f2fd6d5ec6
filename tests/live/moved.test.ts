/** What has to move on the day: boards that are taken otherwise, and a free length that goes on elsewhere. */
import { describe, expect, it } from 'vitest';
import type { Happened } from '../../src/live/happened.js';
import { reshuffle } from '../../src/live/reshuffle/reshuffle.js';
import type { PlanDocument } from '../../src/plan/document.js';
import { isoAt, minuteAt } from '../../src/problem/hours.js';
import type { Problem } from '../../src/problem/problem.js';
import { solve } from '../../src/solve/solve.js';
import { readMeal } from '../support/read-meal.js';
import { faultsOf } from '../support/services.js';

const meal = (dishes: string, appliances: string, pots = 1): Problem =>
  readMeal(`format: hearthtable/1
title: Cold supper
serve: 2026-10-03 19:00
start: 2026-10-03 17:00
zone: Europe/Lisbon
kitchen:
  kitchen: Two boards
  appliances: [${appliances}]
  boards: 2
  pans: [{ pan: small pot, round: 18 cm, height: 12 cm, count: ${pots} }]
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

describe('a dish that is held warm', () => {
  const dish = (name: string): string => `  - dish: ${name}
    keeps: 3 min
    fades: fast
    hold: { heat: 60-80C, keeps: 2 h, fades: slow }
    steps:
      - { step: simmer, work: simmer, takes: 30 min, on: [{ place: burner, heat: low }], pan: small pot }
`;
  const problem = meal(
    dish('Stew') + dish('Soup'),
    `{ appliance: range, kind: cooktop, burners: [{ burner: front, size: 23 cm }] },
     { appliance: drawer, kind: warming drawer, racks: { count: 1, size: 58 x 48 cm, height: 22 cm, clearance: 2 cm },
       modes: { keep: { heat: 50-95C } }, heats: 6C/min, cools: 3C/min }`,
    2,
  );
  const first = solve(problem, { effort: 'quick', seed: 1 }).plan!;
  const hold = first.steps.find(({ step }) => step === 'hold')!;
  const own = first.steps.find((row) => row.dish === hold.dish && row.step !== 'hold')!;

  it('is held from when it is ready, where that is later than planned', () => {
    const id = problem.steps.find((step) => problem.dishes[step.dish]!.name === hold.dish)!.id;
    const minute = (iso: string): number => Math.round(minuteAt(problem, iso));
    const steps = new Map([[id, { start: minute(own.start), end: minute(own.end) + 3 }]]);
    const happened = happenedAt(minute(own.end) + 6, { steps });
    const made = reshuffle(problem, first, happened, { seed: 1 });
    expect(faultsOf(problem, made, happened, new Map())).toEqual([]);
    const held = made.plan!.steps.find((row) => row.step === 'hold' && row.dish === hold.dish)!;
    expect(minute(held.start)).toBeGreaterThanOrEqual(minute(own.end) + 3);
  });
});

describe('what is put in beside something sooner than planned', () => {
  const dish = (name: string): string => `  - dish: ${name}
    keeps: 2 h
    fades: slow
    steps:
      - { step: bake, work: bake, takes: 30 min, on: [{ place: oven, heat: 180C }], pan: tin, empties: yes }
`;
  /** Two dishes of one tin each, one after the other for want of a second; then there are two. */
  const bakes = (racks: number, tins: number): Problem =>
    readMeal(`format: hearthtable/1
title: Two loaves
serve: 2026-10-03 19:00
start: 2026-10-03 17:00
zone: Europe/Lisbon
kitchen:
  kitchen: One oven
  appliances:
    - appliance: oven
      kind: oven
      racks: { count: ${racks}, size: 40 x 30 cm, height: ${20 * racks} cm, clearance: 2 cm }
      modes: { bake: { heat: 100-250C } }
      heats: 10C/min
      cools: 5C/min
  pans: [{ pan: tin, size: 36 x 26 cm, height: 8 cm, count: ${tins} }]
cooks: [Ines, Tomas]
dishes:
${dish('Rye')}${dish('Wheat')}`);

  it.each([1, 2])('stands elsewhere, or is told not to go in: an oven of %i racks', (racks) => {
    const plan = solve(bakes(racks, 1), { effort: 'quick', seed: 1 }).plan!;
    const problem = bakes(racks, 2);
    const begun = Math.round(minuteAt(problem, plan.steps[0]!.start));
    const ids = plan.steps.map((row) => problem.steps.findIndex(({ dish: d }) => problem.dishes[d]!.name === row.dish));
    const steps = new Map(ids.map((id, k) => [id, { start: begun + 5 * k, end: null }]));
    const happened = happenedAt(begun + 6, { steps });
    const made = reshuffle(problem, plan, happened, { seed: 1 });
    if (racks === 1) {
      expect(made.plan).toBeNull();
      expect(made.say.join(' ')).toContain('What is in the oven by now does not go together in it');
    } else {
      expect(faultsOf(problem, made, happened, new Map())).toEqual([]);
      expect(new Set(made.plan!.steps.map(({ level }) => level)).size).toBe(2);
    }
  });
});
