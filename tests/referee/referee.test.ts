/** The referee against problems small enough to be solved on paper; the sum stands beside each. */
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/problem/problem.js';
import { readMeal } from '../support/read-meal.js';
import { referee } from './referee.js';
import { OutOfScope } from './scope.js';

const KITCHEN = `
  room: 20C
  appliances:
    - appliance: small oven
      kind: oven
      racks: { count: 2, size: 32 x 42 cm, height: 40 cm, clearance: 4 cm }
      modes: { roast: { heat: 100-240C } }
      heats: 20C/min
      cools: 10C/min
      dial: 20C
    - { appliance: hob, kind: cooktop, burners: [{ burner: front, size: 20 cm }] }
  boards: 1
  pans:
    - { pan: wide tray, size: 30 x 40 cm, height: 3 cm, count: 2, wash: 4 min }
    - { pan: narrow dish, size: 14 x 38 cm, height: 7 cm, count: 2 }
    - { pan: pot, round: 20 cm, height: 12 cm, count: 1, wash: 4 min }
`;

/** Serving is at minute `lead`. */
function problemOf(dishes: string, lead = 60, more = 'cooks: [Ana]', kitchen = KITCHEN): Problem {
  const start = new Date(Date.parse('2026-05-05T13:00Z') - lead * 60_000).toISOString().slice(11, 16);
  const head = `format: hearthtable/1\ntitle: Paper\nserve: 2026-05-05 13:00\nstart: 2026-05-05 ${start}\nzone: UTC`;
  return readMeal(`${head}\n${more}\nkitchen:${kitchen}\ndishes:${dishes}`);
}

async function verdictOf(problem: Problem) {
  const verdict = await referee(problem);
  if (!verdict) throw new Error('no plan');
  const times: Record<string, string> = {};
  for (const { dish, step, start, end } of verdict.rows) times[`${dish}/${step}`] = `${start}-${end}`;
  return { ...verdict, times };
}

const BAKE = `takes: 10 min, on: [{ place: oven }], heat: 180C, hands: none`;

describe('the referee on paper', () => {
  it('ends at the serving time and counts the day from the first changeover', async () => {
    // Oven from 20 to 180 °C at 20 a minute: 8 min. Bake 50-60, cut 45-50, changeover from 42: 18 x 0.02.
    const { points, times } = await verdictOf(
      problemOf(`
  - dish: A
    steps:
      - { step: cut, work: prep, takes: 5 min }
      - { step: bake, work: bake, ${BAKE}, pan: wide tray }`),
    );
    expect(times).toEqual({ 'A/cut': '45-50', 'A/bake': '50-60' });
    expect(points).toBe(0.36);
  });

  it('shares one run at a heat between two ideals', async () => {
    // Both in one run: 40 °C of deviation in all, 2 points, whatever the heat; the day begins with the changeover. The
    // shortest is at 200: 9 min of changeover before 53 -> 44: 16 x 0.02; at 160 bakes begin at 50, changeover 7 -> 43.
    const { points, rows } = await verdictOf(
      problemOf(`
  - dish: A
    steps: [{ step: bake, work: bake, takes: { 160C: 10 min, 200C: 7 min }, heat: { range: 160-200C, ideal: 160C }, on: oven, pan: wide tray, hands: none }]
  - dish: B
    steps: [{ step: bake, work: bake, takes: { 160C: 10 min, 200C: 7 min }, heat: { range: 160-200C, ideal: 200C }, on: oven, pan: wide tray, hands: none }]`),
    );
    expect(rows.map((row) => row.celsius)).toEqual([200, 200]);
    expect(points).toBe(2.32);
  });

  it('pays for a second run, its changeover and the wait where heats do not meet', async () => {
    // Cooler last would need (220-160)/10 = 6 min of cooling, hotter last 3 min of heating. A at 160 ends 7 before serving:
    // B 56-60 at 220, changeover 53-56, A 43-53: waits 7 at 1; second run 5; changeover of A 7 min from 36: 24 x 0.02.
    const { points, times } = await verdictOf(
      problemOf(`
  - dish: A
    steps: [{ step: bake, work: bake, takes: 10 min, heat: 160C, on: oven, pan: wide tray, hands: none }]
  - dish: B
    steps: [{ step: bake, work: bake, takes: 4 min, heat: 220C, on: oven, pan: wide tray, hands: none }]`),
    );
    expect(times).toEqual({ 'A/bake': '43-53', 'B/bake': '56-60' });
    expect(points).toBe(7 + 5 + 0.48);
  });

  it('puts two narrow dishes on a level and a wide tray alone', async () => {
    // One level: the narrow ones share it, the tray cannot. In one run at 180: tray 40-50 waits 10 (fades slow: 2.5), narrow
    // ones 50-60, changeover from 32: 28 x 0.02. Nothing idles.
    const oneLevel = KITCHEN.replace('count: 2, size: 32', 'count: 1, size: 32');
    const dish = (name: string, pan: string, fades: string) => `
  - dish: ${name}
    fades: ${fades}
    steps: [{ step: bake, work: bake, ${BAKE}, pan: ${pan} }]`;
    const dishes = dish('A', 'narrow dish', 'fast') + dish('B', 'narrow dish', 'fast') + dish('C', 'wide tray', 'slow');
    const { points, times } = await verdictOf(problemOf(dishes, 60, 'cooks: [Ana]', oneLevel));
    expect(times).toEqual({ 'A/bake': '50-60', 'B/bake': '50-60', 'C/bake': '40-50' });
    expect(points).toBe(2.5 + 0.56);
  });

  it('adds up the heights of loaded levels', async () => {
    // 7 + 4 and 3 + 4 make 18 cm of 17: one level at a time although there are two.
    const low = KITCHEN.replace('height: 40 cm', 'height: 17 cm');
    const dishes = `
  - dish: A
    fades: never
    steps: [{ step: bake, work: bake, ${BAKE}, pan: narrow dish }]
  - dish: B
    fades: never
    steps: [{ step: bake, work: bake, ${BAKE}, pan: wide tray }]`;
    expect((await verdictOf(problemOf(dishes, 60, 'cooks: [Ana]', low))).points).toBe(0.56);
    expect((await verdictOf(problemOf(dishes))).points).toBe(0.36);
  });

  it('is late when there is no time, and pays for each course', async () => {
    // Cut 0-5, changeover 0-8, bake 8-18 with 15 min to go: 3 min late, 180 points; day 15 x 0.02.
    const { points, late } = await verdictOf(
      problemOf(
        `
  - dish: A
    steps:
      - { step: cut, work: prep, takes: 5 min }
      - { step: bake, work: bake, ${BAKE}, pan: wide tray }`,
        15,
      ),
    );
    expect(late).toEqual([3]);
    expect(points).toBe(180.3);
  });

  it('lets one cook do one thing at a time, and pays for what waits beyond its keeps', async () => {
    // A first would wait the 4 min of B: 4 x 0.25, and 3 x 10 beyond its keeps. B first waits the 6 min of A: 6 x 1. So B 50-54,
    // A 54-60; begins at 50: 10 x 0.02.
    const { points, times } = await verdictOf(
      problemOf(`
  - dish: A
    keeps: 1 min
    fades: slow
    steps: [{ step: fry, work: fry, takes: 6 min, on: [{ place: burner, heat: high }], pan: pot }]
  - dish: B
    steps: [{ step: toss, work: finish, takes: 4 min }]`),
    );
    expect(times).toEqual({ 'A/fry': '54-60', 'B/toss': '50-54' });
    expect(points).toBe(6.2);
  });

  it('keeps a pan with its food until it is served, unless it empties, and washes it', async () => {
    // One pot. Where A keeps it until it is served there is no plan. Emptied at its end it is away for 4 min of washing:
    // B 55-60 in the pot, washing 51-55, A 48-51, waits 9 at 1; begins at 48: 12 x 0.02.
    const dishes = (empties: string) => `
  - dish: A
    steps: [{ step: boil, work: boil, takes: 3 min, on: [{ place: burner, heat: high }], pan: pot, hands: none, empties: ${empties} }]
  - dish: B
    fades: fast
    steps: [{ step: boil, work: boil, takes: 5 min, on: [{ place: burner, heat: high }], pan: pot, hands: none }]`;
    expect(await referee(problemOf(dishes('no')))).toBeNull();
    const { points, times } = await verdictOf(problemOf(dishes('yes')));
    expect(times).toEqual({ 'A/boil': '48-51', 'B/boil': '55-60' });
    expect(points).toBe(9.24);
  });

  it('goes on in the same pan unwashed, and lets it go when the food moves on', async () => {
    // A boils, stands and warms in one pot, then is carved on the board: the pot goes when the carving begins (minute 55) and is
    // back at 59. B needs it for 1 min: 59-60. Without the washing nothing changes for A. Begins 44: 16 x 0.02.
    const { points, times } = await verdictOf(
      problemOf(`
  - dish: A
    steps:
      - { step: boil, work: boil, takes: 4 min, on: burner, pan: pot, hands: none }
      - { step: stand, work: rest, takes: 3 min, gap: 0 min }
      - { step: warm, work: warm, takes: 4 min, on: burner, pan: pot, hands: none }
      - { step: carve, work: carve, takes: 5 min }
  - dish: B
    steps: [{ step: boil, work: boil, takes: 1 min, on: burner, pan: pot, hands: none }]`),
    );
    expect(times).toMatchObject({ 'A/boil': '44-48', 'A/warm': '51-55', 'A/carve': '55-60', 'B/boil': '59-60' });
    expect(points).toBe(0.32);
  });

  it('changes cooks within a step only at a price', async () => {
    // Simmer 40-60 asks for 2 min at its start and at its end. Ana leaves at 12:50 (minute 50), Ben comes at 12:45: no one is
    // there for both, so 0.5; begins at 40: 20 x 0.02.
    const cooks = 'cooks: [{ name: Ana, to: 12:50 }, { name: Ben, from: 12:45 }]';
    const dishes = `
  - dish: A
    steps: [{ step: simmer, work: simmer, takes: 20 min, on: burner, pan: pot, hands: { start: 2 min, end: 2 min } }]`;
    expect((await verdictOf(problemOf(dishes, 60, cooks))).points).toBe(0.9);
    expect((await verdictOf(problemOf(dishes, 60, 'cooks: [Ana, Ben]'))).points).toBe(0.4);
  });

  it('gives a stretch to a cook who can, and two where two are asked', async () => {
    // Both lift (needs two) at 57-60, so Ben, who only finishes, cannot cut: Ana cuts 53-57. Without the lifting both end at 60.
    const cooks = 'cooks: [Ana, { name: Ben, can: finish }]';
    const cut = `
  - dish: A
    steps: [{ step: cut, work: prep, takes: 4 min }]`;
    const lift = (pair: number) => `
  - dish: B
    fades: fast
    steps: [{ step: lift, work: finish, takes: 3 min, hands: { cooks: ${pair} } }]`;
    // The cut waits 3 min at 1; begins at 53: 7 x 0.02.
    expect((await verdictOf(problemOf(cut + lift(2), 60, cooks))).points).toBe(3.14);
    expect((await verdictOf(problemOf(cut + lift(1), 60, cooks))).points).toBe(0.08);
  });

  it('leaves the best of a range where waiting would be dearer', async () => {
    // The oven serves B at 220 until serving; A (180) must be out before: bake 41-51, changeover 2 min, B 53-60. A's stand of 4-9, best
    // 4-5, may stretch to 9: 4 x 0.5 beyond its best, or wait 1 a minute. 51 + 9 = 60 leaves no wait. One run more: 5.
    // Changeover of A 8 min from 33: 27 x 0.02.
    const { points, times } = await verdictOf(
      problemOf(`
  - dish: A
    steps:
      - { step: bake, work: bake, ${BAKE}, pan: wide tray }
      - { step: stand, work: rest, takes: 4-9 min, best: 4-5 min }
  - dish: B
    fades: fast
    steps: [{ step: bake, work: bake, takes: 7 min, heat: 220C, on: oven, pan: wide tray, hands: none }]`),
    );
    expect(times).toEqual({ 'A/bake': '41-51', 'A/stand': '51-60', 'B/bake': '53-60' });
    expect(points).toBe(2 + 5 + 0.54);
  });

  it('rates each wait by what waits: made ahead, prepared, cooked, a component', async () => {
    // Ana tosses 58-60 and has the oil's straining (2 min) and the cutting (3 min) to do before. Strained oil costs its dish's rate 1
    // after the heat; cut food costs 0.02, or nothing where it keeps. So strain 56-58, cut 53-56: 2 x 0.02 for the cut. Warming the oil
    // (hands none) is 51-56. Begins at 51: 9 x 0.02.
    const dishes = (keeps: string) => `
  - dish: A
    steps:
      - { step: cut, work: prep, takes: 3 min${keeps} }
      - { step: toss, work: finish, takes: 2 min, after: [cut, Oil/strain] }
  - dish: Oil
    served: no
    steps:
      - { step: warm, work: simmer, takes: 5 min, on: burner, pan: pot, hands: none }
      - { step: strain, work: finish, takes: 2 min }`;
    const plain = await verdictOf(problemOf(dishes('')));
    expect(plain.times).toEqual({ 'A/cut': '53-56', 'A/toss': '58-60', 'Oil/warm': '51-56', 'Oil/strain': '56-58' });
    expect(plain.points).toBe(0.22);
    expect((await verdictOf(problemOf(dishes(', keeps: 30 min')))).points).toBe(0.18);
  });

  it('lets courses land at their own times', async () => {
    // B lands at 70. Oven: A 50-60, B 60-70 in one run without idling, or together with B waiting 10: no. Begins at 42.
    const { points, times } = await verdictOf(
      problemOf(
        `
  - dish: A
    course: main
    steps: [{ step: bake, work: bake, ${BAKE}, pan: wide tray }]
  - dish: B
    course: sweet
    steps: [{ step: bake, work: bake, ${BAKE}, pan: wide tray }]`,
        60,
        'cooks: [Ana]\ncourses: [{ course: main, at: 0 min }, { course: sweet, at: 10 min }]',
      ),
    );
    expect(times).toEqual({ 'A/bake': '50-60', 'B/bake': '60-70' });
    expect(points).toBe(0.36);
  });

  it('counts what idles inside a run', async () => {
    // B lands at 75, so 5 min of an empty oven lie between the two: 5 x 0.01, against a wait or a second run.
    const { points } = await verdictOf(
      problemOf(
        `
  - dish: A
    course: main
    steps: [{ step: bake, work: bake, ${BAKE}, pan: wide tray }]
  - dish: B
    course: sweet
    steps: [{ step: bake, work: bake, ${BAKE}, pan: wide tray }]`,
        60,
        'cooks: [Ana]\ncourses: [{ course: main, at: 0 min }, { course: sweet, at: 15 min }]',
      ),
    );
    expect(points).toBe(0.41);
  });

  it('takes the alternative that costs least', async () => {
    // Oven 6 min with a changeover of 8 before it (14 x 0.02) against 10 min on the burner (10 x 0.02).
    const { points, rows } = await verdictOf(
      problemOf(`
  - dish: A
    steps:
      - step: cook
        work: bake
        takes: 6 min
        on: [{ place: oven, heat: 180C, pan: wide tray }, { place: burner, heat: low, pan: pot, takes: 10 min }]
        hands: none`),
    );
    expect(rows.map((row) => row.option)).toEqual([1]);
    expect(points).toBe(0.2);
  });

  it('declines what it does not judge', async () => {
    const held = `
  - dish: A
    hold: { heat: 100C }
    steps: [{ step: bake, work: bake, ${BAKE}, pan: wide tray }]`;
    await expect(referee(problemOf(held))).rejects.toBeInstanceOf(OutOfScope);
    const pair = `
  - dish: A
    steps: [{ step: bake, work: bake, ${BAKE}, pan: wide tray, pans: 2 }]`;
    await expect(referee(problemOf(pair))).rejects.toBeInstanceOf(OutOfScope);
  });
});
