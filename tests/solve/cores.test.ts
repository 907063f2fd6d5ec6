/** What a finished plan says of its pieces, reckoned from what it does with them. */
import { describe, expect, it } from 'vitest';
import { audit } from '../../src/audit/audit.js';
import type { PlanDocument } from '../../src/plan/document.js';
import { clockAt, minuteAt } from '../../src/problem/hours.js';
import type { Problem } from '../../src/problem/problem.js';
import { solve } from '../../src/solve/solve.js';
import { jointMeal } from '../support/joint-meal.js';
import { readMeal } from '../support/read-meal.js';

const PORK = 'piece: { food: pork loin, thickness: 10 cm, weight: 2 kg, from: 5C }';
const CARVE = '- { step: carve, work: carve, takes: 6 min }';
const restOf = (takes: string): string => `- { step: rest, work: rest, takes: ${takes} }`;
const roastTo = (goal: string): string => `- { step: roast, work: roast, ${goal}, heat: 150-180C, pan: tin, on: oven }`;

function planned(steps: readonly string[], piece = PORK): { problem: Problem; plan: PlanDocument } {
  const problem = readMeal(jointMeal(piece, steps));
  const { plan } = solve(problem, { effort: 'quick', seed: 1 });
  if (plan === null) throw new Error('no plan');
  expect(audit(problem, plan).violations).toEqual([]);
  return { problem, plan };
}

const rowOf = ({ plan }: { plan: PlanDocument }, step: string) => plan.steps.find((row) => row.step === step)!;

describe('a plan of a piece', () => {
  it('says where to pull it, between which times, and how far it rises', () => {
    const made = planned([roastTo('until: { core: 58C }'), restOf('15-35 min'), CARVE]);
    const { problem, plan } = made;
    const roast = rowOf(made, 'roast');
    const [end, from, to] = [roast.end, roast.window!.from, roast.window!.to].map((iso) => minuteAt(problem, iso));
    expect(roast.pull).toBe(58);
    expect([from! < end!, end! < to!]).toEqual([true, true]);
    const core = plan.dishes[0]!.core!;
    expect(core.pull).toBe(58);
    expect(core.peak!).toBeGreaterThan(61);
    expect(core.atServe!).toBeLessThanOrEqual(core.peak!);
    expect(minuteAt(problem, core.peakAt!)).toBeGreaterThan(end!);
    const say = plan.calls.map((call) => call.say).find((one) => one.includes('rest,'));
    expect(say).toContain('off the heat (wall) at 58 °C');
  });

  it('pulls it so that it rises to a target in the rest that it gets', () => {
    const pullFor = (rest: string): number => {
      const made = planned([roastTo('target: 60C'), restOf(rest), CARVE]);
      const core = made.plan.dishes[0]!.core!;
      expect(core.peak!).toBeGreaterThan(59.5);
      expect(core.peak!).toBeLessThan(62);
      expect(rowOf(made, 'roast').pull).toBe(core.pull);
      return core.pull;
    };
    const [short, long] = [pullFor('5 min'), pullFor('30 min')];
    expect(long).toBeLessThan(short - 1);
  });

  it('lands in time however late the roast is, if the rest is long enough, and says by how much if not', () => {
    const lateWith = (rest: string): number =>
      rowOf(planned([roastTo('target: 60C'), restOf(rest), CARVE]), 'roast').window!.late;
    expect(lateWith('10-40 min')).toBe(0);
    const made = planned([roastTo('target: 60C'), restOf('20 min'), CARVE]);
    const { window, end } = rowOf(made, 'roast');
    expect(window!.late).toBe(minuteAt(made.problem, window!.to) - minuteAt(made.problem, end));
    expect(window!.late).toBeGreaterThan(3);
  });

  it('says nothing of a core where the cook knows the minutes, but where to pull', () => {
    const made = planned([
      roastTo('until: { core: 58C }, minutes: { "150C": 80 min, "180C": 65 min }'),
      restOf('15-35 min'),
      CARVE,
    ]);
    const roast = rowOf(made, 'roast');
    expect([roast.pull, roast.window, made.plan.dishes[0]!.core]).toEqual([58, undefined, undefined]);
  });

  it('pulls it where the way that is taken says, not another', () => {
    const pullOn = (appliance: string): number | undefined => {
      const ways = ['wall', 'fire'].map((place) => {
        const goal = place === 'wall' ? 'until: { core: 52C }' : 'until: { core: 66C }';
        return `{ place: ${place}, mode: roast, ${place === appliance ? goal : `${goal}, heat: 90C`} }`;
      });
      const roast = `- { step: roast, work: roast, on: [${ways.join(', ')}], heat: { range: 150-180C, ideal: 165C }, pan: tin }`;
      const made = planned([roast, restOf('15-35 min'), CARVE]);
      const row = rowOf(made, 'roast');
      const said = made.plan.calls.some(({ say }) => say.includes(`at ${row.pull} °C, rest`));
      expect([row.appliance, said]).toEqual([appliance, true]);
      return row.pull;
    };
    expect([pullOn('wall'), pullOn('fire')]).toEqual([52, 66]);
    const own = '{ place: wall, mode: roast, takes: 60 min }';
    const made = planned([`- { step: roast, work: roast, until: { core: 60C }, heat: 160C, pan: tin, on: [${own}] }`]);
    expect(rowOf(made, 'roast').pull).toBeUndefined();
  });

  it('tells two cores in turn, and that of the last for the dish', () => {
    const made = planned([
      '- { step: slow, work: roast, until: { core: 45C }, heat: 100-120C, pan: tin, on: oven }',
      '- { step: brown, work: roast, until: { core: 55C }, heat: 230-250C, pan: tin, on: oven, gap: 0-60 min }',
      restOf('10-30 min'),
    ]);
    expect(['slow', 'brown'].map((step) => rowOf(made, step).pull)).toEqual([45, 55]);
    expect(made.plan.dishes[0]!.core!.pull).toBe(55);
  });

  it('goes on through a hold, until it lands', () => {
    const text = jointMeal(PORK, [roastTo('until: { core: 74C }')]).replace(
      '    piece:',
      '    hold: { heat: 75-85C, keeps: 2 h }\n    piece:',
    );
    const problem = readMeal(text);
    const { plan } = solve(problem, { effort: 'quick', seed: 1 });
    const { core, serve } = plan!.dishes[0]!;
    expect(core!.atServe).toBeGreaterThan(70);
    expect(clockAt(problem, minuteAt(problem, serve!))).toBe('18:30');
  });

  it('tells the cautions what the slow end of the spread does', () => {
    const bird = 'piece: { food: chicken, weight: 1.8 kg, from: 5C }';
    const { plan } = planned([roastTo('target: 71C'), restOf('20-30 min'), CARVE], bird);
    const caution = plan.cautions.find(({ rule }) => rule === 'core-predicted');
    expect(caution!.say).toMatch(/Set to 71 °C.*all of the published/);
  });
});

describe('a table that reaches to minutes beyond all that there are', () => {
  it('is planned where it is quick enough', () => {
    const table = 'takes: { "110C": 3000 min, "150C": 120 min, "180C": 90 min }';
    const roast = `- { step: roast, work: roast, ${table}, heat: 110-180C, pan: tin, on: [oven, { place: wall, mode: fan }] }`;
    const problem = readMeal(jointMeal(PORK, [roast, restOf('10-30 min'), CARVE]));
    for (const seed of [1, 2, 3]) {
      const { plan } = solve(problem, { effort: 'quick', seed, work: 20_000 });
      expect(audit(problem, plan!).violations).toEqual([]);
    }
  });
});
