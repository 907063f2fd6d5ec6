import { describe, expect, it } from 'vitest';
import type { Appliance } from '../../../src/problem/problem.js';
import { oven, problemOf } from '../../support/problem-builder.js';
import { faults, type PlanSpec } from '../plan-builder.js';

function running(
  appliance: Appliance,
  runs: readonly [celsius: number, start: number, end: number, changeover: number][],
  room = 20,
): string[] {
  const problem = problemOf({
    serve: 240,
    kitchen: { appliances: [appliance], room },
    dishes: [{ dish: 'Salad', steps: [{ step: 'wash', takes: 5 }] }],
  });
  const spec: PlanSpec = {
    steps: { 'Salad/wash': { at: [0, 5] } },
    runs: runs.map(([celsius, start, end, changeover]) => ({
      in: ['oven', 'roast'],
      celsius,
      at: [start, end],
      changeover,
    })),
  };
  return faults(problem, spec);
}

describe('rule 5: changeovers', () => {
  const own = oven('oven', { heats: 11, cools: 4, modes: { roast: [0, 270] } });

  it('heats up from room temperature, in whole minutes rounded up, after the start', () => {
    // 180 − 20 = 160 °C at 11 °C a minute: 14.5, so 15.
    expect(running(own, [[180, 15, 60, 15]])).toEqual([]);
    expect(running(own, [[180, 14, 60, 15]])).toEqual(['5 short']);
    expect(running(own, [[180, 15, 60, 14]])).toEqual(['5 stated']);
    expect(running(own, [[180, 15, 60, 16]])).toEqual(['5 stated']);
    // 175 − 21 = 154: 14 to the minute, nothing to round up.
    expect(running(own, [[175, 14, 60, 14]], 21)).toEqual([]);
  });

  it('cools at its own pace', () => {
    // From 180 to 95: 85 °C at 4 °C a minute: 21.25, so 22.
    expect(
      running(own, [
        [180, 30, 60, 15],
        [95, 82, 90, 22],
      ]),
    ).toEqual([]);
    expect(
      running(own, [
        [180, 30, 60, 15],
        [95, 81, 90, 22],
      ]),
    ).toEqual(['5 short']);
    // Colder than the room at first.
    expect(running(own, [[10, 3, 60, 3]])).toEqual([]);
    expect(running(own, [[10, 2, 60, 3]])).toEqual(['5 short']);
  });

  it('goes from the run before, whatever the order in the document', () => {
    expect(
      running(own, [
        [95, 82, 90, 22],
        [180, 30, 60, 15],
      ]),
    ).toEqual([]);
    expect(
      running(own, [
        [180, 30, 60, 15],
        [180, 60, 90, 0],
      ]),
    ).toEqual([]);
  });

  it('is not misled by fractions that cannot be written down', () => {
    // 0.1 °C a minute: 0.3 / 0.1 is 2.9999999999999996, and 0.7 / 0.1 is 6.999999999999999; 20.3 − 20 is 0.3000000000000007.
    const slow = oven('oven', { heats: 0.1, cools: 0.1, modes: { roast: [0, 270] }, dial: { unit: 'C', step: 0.1 } });
    expect(running(slow, [[20.3, 3, 60, 3]])).toEqual([]);
    expect(running(slow, [[20.3, 2, 60, 3]])).toEqual(['5 short']);
  });

  it('needs none where heat comes at once, or is the room’s', () => {
    const flame = oven('oven', { heats: Infinity, cools: Infinity });
    expect(
      running(flame, [
        [180, 0, 60, 0],
        [95, 60, 90, 0],
      ]),
    ).toEqual([]);
    expect(running(own, [[20, 0, 60, 0]])).toEqual([]);
  });
});
