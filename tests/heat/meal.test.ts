/** From the meal as it was read to one that can be planned: minutes by the heat model, and what it has to say where it has none. */
import { describe, expect, it } from 'vitest';
import { expectedCurves, withHeat } from '../../src/heat/meal.js';
import { isSettled, type Option, type Problem } from '../../src/problem/problem.js';
import { readProblem } from '../../src/problem/read.js';
import { peakOf } from '../../src/safety/curve.js';
import { refusals } from '../../src/safety/refuse.js';
import { jointMeal } from '../support/joint-meal.js';

const PORK = 'piece: { food: pork loin, thickness: 10 cm, weight: 2 kg, from: 5C }';
const REST = '- { step: rest, work: rest, takes: 15-35 min, best: 18-26 min }';

const open = (piece: string, ...steps: string[]) =>
  withHeat(readProblem(jointMeal(piece, steps), { name: 'test.yaml' }));

function mealOf(piece: string, ...steps: string[]): Problem {
  const result = open(piece, ...steps);
  if (!result.ok) throw new Error(result.messages.map(({ line, say }) => `${line}: ${say}`).join('\n'));
  return result.problem;
}

const optionsOf = (problem: Problem, name: string): readonly Option[] =>
  problem.steps.find((step) => step.name === name)!.options;

function messagesOf(piece: string, ...steps: string[]): string[] {
  const result = open(piece, ...steps);
  const messages = result.ok ? result.warnings : result.messages;
  return messages.map(({ severity, line, column, say, hint }) => `${severity} ${line}:${column} ${say} | ${hint}`);
}

const roast = (goal: string, more = 'heat: 150-180C, pan: tin, on: oven'): string =>
  `- { step: roast, work: roast, ${goal}, ${more} }`;

describe('minutes by the heat model', () => {
  it('are a table over the temperatures that may be set, with what is expected at each', () => {
    const problem = mealOf(PORK, roast('until: { core: 60C }'), REST);
    expect(isSettled(problem)).toBe(true);
    const [option] = optionsOf(problem, 'roast');
    const { duration, forecasts, settings } = option!;
    if (duration.kind !== 'table') throw new Error('no table');
    expect(settings).toEqual([150, 155, 160, 165, 170, 175, 180]);
    expect(forecasts!.map(({ celsius }) => celsius)).toEqual(settings);
    expect([duration.columns[0]!.celsius, duration.columns.at(-1)!.celsius]).toEqual([150, 180]);
    for (const { celsius, low, likely, high, pull, peak, peakAfter } of forecasts!) {
      expect([low < likely, likely < high]).toEqual([true, true]);
      expect(pull).toBeCloseTo(60, 3);
      expect(peak).toBeGreaterThan(62);
      expect(peakAfter).toBeGreaterThan(5);
      const column = duration.columns.find((one) => one.celsius === celsius);
      if (column) expect(Math.abs(column.minutes - likely)).toBeLessThanOrEqual(1);
    }
  });

  it('end earlier for a target, which the core reaches at rest', () => {
    const [until] = optionsOf(mealOf(PORK, roast('until: { core: 60C }'), REST), 'roast');
    const [target] = optionsOf(mealOf(PORK, roast('target: 60C'), REST), 'roast');
    for (const [k, { pull, peak, likely }] of target!.forecasts!.entries()) {
      expect(pull).toBeLessThan(58);
      expect(peak).toBeCloseTo(60, 1);
      expect(likely).toBeLessThan(until!.forecasts![k]!.likely);
    }
  });

  it('go by all that comes before: a sear, the cold, a long wait', () => {
    const minutes = (...before: string[]): number =>
      optionsOf(mealOf(PORK, ...before, roast('until: { core: 60C }'), REST), 'roast')[0]!.forecasts![3]!.likely;
    const plain = minutes();
    const sear = '- { step: sear, work: sear, takes: 12 min, on: [{ place: burner, heat: high, pan: skillet }] }';
    expect(minutes(sear)).toBeLessThan(plain - 2);
    expect(minutes('- { step: cure, work: chill, takes: 3-6 h }')).toBeGreaterThan(plain);
    expect(minutes('- { step: temper, work: rest, takes: 2 h }')).toBeLessThan(plain - 4);
  });

  it('go by the appliance: its air, its lid, and another food', () => {
    const ways = roast('until: { core: 60C }', 'heat: 160C, pan: tin, on: [wall, { place: wall, mode: fan }, fire]');
    const [still, fan, fire] = optionsOf(mealOf(PORK, ways, REST), 'roast').map(({ forecasts }) => forecasts![0]!);
    expect(fan!.likely).toBeLessThan(still!.likely - 5);
    expect(fire!.likely).toBeCloseTo(still!.likely, 6);
  });

  it('are one number on a burner, with its spread', () => {
    const steak = 'piece: { food: beef steak, thickness: 4 cm, from: 5C }';
    const [option] = optionsOf(
      mealOf(steak, '- { step: fry, work: sear, until: { core: 52C }, on: burner, heat: medium, pan: skillet }'),
      'fry',
    );
    const { duration, forecasts } = option!;
    if (duration.kind !== 'fixed') throw new Error('not one number');
    expect(duration.low).toBeLessThan(duration.minutes);
    expect(duration.high).toBeGreaterThan(duration.minutes);
    expect(forecasts).toHaveLength(1);
    expect(forecasts![0]!.celsius).toBeNull();
    expect(forecasts![0]!.pull).toBeCloseTo(52, 3);
  });

  it('of two cores in turn are reckoned in turn', () => {
    const problem = mealOf(
      PORK,
      '- { step: slow, work: roast, until: { core: 45C }, heat: 100-120C, pan: tin, on: oven }',
      '- { step: brown, work: roast, target: 58C, heat: 230-250C, pan: tin, on: oven }',
      REST,
    );
    const [slow, brown] = ['slow', 'brown'].map((name) => optionsOf(problem, name)[0]!.forecasts![0]!);
    expect(brown!.likely).toBeLessThan(slow!.likely / 4);
    expect(brown!.pull).toBeGreaterThan(45);
  });

  it('are the same when asked again, and nothing is touched that was not asked', () => {
    const first = mealOf(PORK, roast('target: 60C'), REST);
    const second = mealOf(PORK, roast('target: 60C'), REST);
    expect(second).toEqual(first);
    expect(Object.isFrozen(second.steps[0]!.options[0]!.forecasts)).toBe(true);
    const read = readProblem(jointMeal(PORK, [roast('takes: 50 min'), REST]), { name: 'test.yaml' });
    const settled = withHeat(read);
    expect(read.ok && settled.ok && settled.problem).toBe(read.ok && read.problem);
  });

  it('leave out the temperatures at which the core does not get there', () => {
    const [option] = optionsOf(
      mealOf(PORK, roast('until: { core: 70C }', 'heat: 75-100C, pan: tin, on: oven')),
      'roast',
    );
    expect(option!.settings[0]).toBeGreaterThan(75);
    expect(option!.settings.at(-1)).toBe(100);
    const { duration } = option!;
    expect(duration.kind === 'table' && duration.columns[0]!.celsius).toBe(option!.settings[0]);
  });
});

describe('the rest that follows', () => {
  const bestOf = (step: string, rest: string) => {
    const problem = mealOf(PORK, step, rest);
    const { duration } = optionsOf(problem, 'rest')[0]!;
    return {
      best: duration.kind === 'range' && duration.best,
      forecast: optionsOf(problem, 'roast')[0]!.forecasts?.[3],
    };
  };

  it('is best so long that it can be shorter where the roast is late', () => {
    const { best, forecast } = bestOf(roast('until: { core: 60C }'), REST);
    const late = Math.ceil(forecast!.high - forecast!.likely);
    expect(late).toBeGreaterThan(3);
    const low = Math.max(18, Math.min(35, 15 + late));
    expect(best).toEqual({ low, high: Math.max(26, low) });
  });

  it('is at its longest where it is too short for that, and as it was where nobody asked', () => {
    const short = '- { step: rest, work: rest, takes: 15-18 min }';
    expect(bestOf(roast('until: { core: 60C }'), short).best).toEqual({ low: 18, high: 18 });
    expect(bestOf(roast('takes: 50 min'), REST).best).toEqual({ low: 18, high: 26 });
  });
});

describe('what the heat model cannot tell', () => {
  it('is said at its place, with what would do', () => {
    expect(
      messagesOf(
        'piece: { food: prok, shape: cylinder, thickness: 10 cm, length: 25 cm }',
        roast('until: { core: 60C }'),
      ),
    ).toEqual(['error 28:20 The heat model does not know the food `prok`. | pork']);
    expect(messagesOf('piece: { food: pork, thickness: 10 cm }', roast('until: { core: 60C }'))).toEqual([
      'error 28:20 10 cm thick does not say how big the piece is: a cylinder needs two of thickness, length and weight. | give its length or weight',
    ]);
    expect(messagesOf(PORK, roast('until: { core: 90C }', 'heat: 80C, pan: tin, on: oven'))).toEqual([
      'error 30:52 At 80 °C the core never gets to 90 °C. | more heat, or a lower core',
    ]);
    expect(messagesOf(PORK.replace('from: 5C', 'from: 65C'), roast('until: { core: 60C }'))).toEqual([
      'error 30:52 The piece begins at 65 °C, which is not below the core of 60 °C. | look at `from` of the piece',
    ]);
    expect(messagesOf(PORK, '- { step: poach, work: simmer, until: { core: 60C }, on: burner, pan: skillet }')).toEqual(
      [
        'error 30:53 The heat model knows nothing of food in water, in steam or in a closed pot, and so not how long this takes. | { place: burner, minutes: 20 min }',
      ],
    );
    const poach = '- { step: poach, work: simmer, takes: 20 min, on: burner, pan: skillet }';
    expect(messagesOf(PORK, poach, roast('until: { core: 60C }'))).toEqual([
      'error 31:52 The heat model knows nothing of food in water, in steam or in a closed pot, and so not how the piece comes to this step. | minutes: ...',
    ]);
  });

  it('is that nothing is left to do', () => {
    const sear = '- { step: sear, work: sear, takes: 20 min, on: [{ place: burner, heat: high, pan: skillet }] }';
    const thin = 'piece: { food: pork chop, thickness: 2 cm, from: 5C }';
    expect(messagesOf(thin, sear, roast('until: { core: 30C }'))).toEqual([
      'error 31:52 By all that comes before the core is past 30 °C without this step. | a higher core, or less heat before',
    ]);
    const rest = '- { step: rest, work: rest, takes: 3 h, on: oven, heat: 150C, pan: tin }';
    expect(messagesOf(PORK, roast('target: 20C'), rest)).toEqual([
      'error 30:45 By all that comes before and the rest the core is past 20 °C without this step. | a higher core, or less heat before',
    ]);
  });

  it('is a warning where another way remains', () => {
    const step =
      '- { step: cook, work: braise, pan: skillet, on: [{ place: burner, until: { core: 60C } }, { place: burner, takes: 90 min }] }';
    expect(messagesOf(PORK, step)).toEqual([
      'warning 30:88 The heat model knows nothing of food in water, in steam or in a closed pot, and so not how long this takes. The other ways remain. | { place: burner, minutes: 20 min }',
    ]);
    const result = open(PORK, step);
    expect(result.ok && result.problem.steps[0]!.options).toHaveLength(1);
  });

  it('comes with all else that is wrong, and after the reader only where that is content', () => {
    const read = readProblem(jointMeal(PORK, [roast('until: { core: 60 }')]), { name: 'test.yaml' });
    expect(withHeat(read)).toBe(read);
  });
});

describe('expected curves', () => {
  it('begin with the first heat, and go on to the end of the dish at the slow end of the spread', () => {
    const problem = mealOf(PORK, '- { step: cure, work: chill, takes: 1 h }', roast('target: 60C'), REST);
    const curve = expectedCurves(problem).get(0)!;
    const at = curve.minutes.findIndex((minute) => minute >= 0);
    expect(curve.minutes[0]).toBeLessThan(-60);
    expect(curve.celsius[at]).toBeLessThan(10);
    expect(peakOf(curve)).toBeGreaterThan(58.5);
    expect(peakOf(curve)).toBeLessThan(60.5);
    const { likely, high } = optionsOf(problem, 'roast')[0]!.forecasts![3]!;
    const { pull } = optionsOf(problem, 'roast')[0]!.forecasts![3]!;
    const there = curve.minutes[curve.celsius.findIndex((celsius) => celsius >= pull)]!;
    expect(there).toBeGreaterThan(likely + (high - likely) / 2);
  });

  it('let a bird pass whose core is held long enough below the figure, and no other', () => {
    const bird = 'piece: { food: chicken, weight: 1.8 kg, from: 5C }';
    const refused = (target: string): number => {
      const problem = mealOf(bird, roast(`target: ${target}`), '- { step: rest, work: rest, takes: 15-25 min }');
      return refusals(problem, expectedCurves(problem)).length;
    };
    expect(refused('71C')).toBe(0);
    expect(refused('60C')).toBe(1);
  });
});
