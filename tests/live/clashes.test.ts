import { describe, expect, it } from 'vitest';
import { readPlan } from '../../src/live/reshuffle/doing.js';
import { reshuffle } from '../../src/live/reshuffle/reshuffle.js';
import type { PlanDocument } from '../../src/plan/document.js';
import { stepKey } from '../../src/problem/hours.js';
import { readProblem } from '../../src/problem/read.js';
import { solve } from '../../src/solve/solve.js';
import { settled } from '../support/read-meal.js';
import { faultsOf } from '../support/services.js';

/** Who may shred cannot wait: a minute's delay, and Ines is wanted at the slaw and at the soup's end at once. */
const SOUP = `format: hearthtable/1
title: Soup and slaw
serve: 2026-10-03 18:46
start: 2026-10-03 17:00
zone: Europe/Lisbon
kitchen:
  kitchen: Test kitchen
  appliances:
    - { appliance: range, kind: cooktop, burners: [{ burner: front, size: 23 cm }] }
  boards: 1
  pans: [{ pan: pot, round: 20 cm, height: 14 cm, count: 1 }]
cooks: [Ines, { name: Tomas, can: [cooktop] }]
dishes:
  - dish: Soup
    keeps: 30 min
    steps:
      - step: simmer
        work: simmer
        takes: 40 min
        on: [{ place: burner, heat: low, pan: pot }]
        hands: { start: 2 min, end: 2 min }
  - dish: Slaw
    keeps: 20 min
    steps:
      - { step: mix, work: prep, takes: 20 min, keeps: 2 min }
      - { step: shred, work: prep, takes: 15 min }
`;

const problem = settled(readProblem(SOUP, { name: 'soup.yaml' }));
const idOf = (key: string): number => problem.steps.findIndex(({ id }) => stepKey(problem, id) === key);
const clock = (time: string): string => `2026-10-03T${time}:00+01:00`;

/** The plan in force: Ines goes from the slaw to the soup's end. */
function planned(): PlanDocument {
  const { plan } = solve(problem, { effort: 'quick', seed: 1 });
  const times = { simmer: ['18:05', '18:45'], mix: ['18:07', '18:27'], shred: ['18:28', '18:43'] } as const;
  const steps = plan!.steps.map((row) => {
    const [start, end] = times[row.step as keyof typeof times].map(clock) as [string, string];
    const soup = [
      { cook: 'Tomas', start, end: clock('18:07') },
      { cook: 'Ines', start: clock('18:43'), end },
    ];
    return { ...row, start, end, hands: row.step === 'simmer' ? soup : [{ cook: 'Ines', start, end }] };
  });
  return { ...plan!, steps };
}

describe('a cook who is wanted at two things at once', () => {
  const plan = planned();
  const [simmer, mix] = [idOf('Soup/simmer'), idOf('Slaw/mix')];
  const { steps } = readPlan(problem, plan);
  const now = steps[mix]![0]!.end;
  const happened = {
    now,
    steps: new Map([
      [simmer, { start: steps[simmer]![0]!.start, end: null }],
      [mix, { start: steps[mix]![0]!.start, end: null }],
    ]),
    readings: [],
    serve: problem.serve,
    losses: [],
    gone: new Map(),
    dropped: new Set<number>(),
  };
  const expected = new Map([[mix, now + 3]]);
  const made = reshuffle(problem, plan, happened, { seed: 1, expected });

  it('has somebody else end what is under way, and nothing is left out or late', () => {
    const row = made.plan!.steps.find(({ step }) => step === 'simmer')!;
    expect(row.hands.map(({ cook }) => cook)).toEqual(['Tomas', 'Tomas']);
    expect(made.leftOut).toEqual([]);
    expect(made.plan!.dishes.map(({ late }) => late)).toEqual([0, 0]);
  });

  it('gets a plan that is right', () => {
    expect(faultsOf(problem, made, happened, expected)).toEqual([]);
    expect([made.overrun, made.twice]).toEqual([[], []]);
  });
});
