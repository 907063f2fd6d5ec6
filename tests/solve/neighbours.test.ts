import { describe, expect, it } from 'vitest';
import { neighbours } from '../../src/solve/neighbours.js';
import { ALWAYS, type At, type ModelSpec, machineOf, modelOf, stateOf } from '../kernel/model-builder.js';

const pairsOf = (spec: ModelSpec, places: readonly (At | number)[]): string[] =>
  neighbours(stateOf(modelOf(spec), places)).map(({ before, after }) => `${before} ${after}`);

const alone = (mode: object) => ({ activities: [{ modes: [mode] }] });

describe('neighbours', () => {
  it('follow each other closely on a worker', () => {
    const jobs = [alone({ attention: ALWAYS }), alone({ attention: ALWAYS }), alone({ attention: ALWAYS })];
    const hands = [0];
    expect(
      pairsOf({ jobs }, [
        { start: 20, hands },
        { start: 0, hands },
        { start: 35, hands },
      ]),
    ).toEqual(['1 0', '0 2']);
    expect(
      pairsOf({ jobs }, [
        { start: 0, hands },
        { start: 10, hands },
        { start: 31, hands },
      ]),
    ).toEqual(['0 1']);
  });

  it('follow each other on a unit, a machine or in a vessel', () => {
    const unit = alone({ units: [0], unitCount: 1 });
    const units = [0];
    expect(
      pairsOf({ units: 1, jobs: [unit, unit] }, [
        { start: 0, units },
        { start: 12, units },
      ]),
    ).toEqual(['0 1']);
    const on = alone({ machine: 0, settings: [{ state: 0, minutes: 10, cost: 0 }] });
    const machines = [machineOf({ levels: [[5]] })];
    expect(pairsOf({ machines, jobs: [on, on] }, [5, 15])).toEqual(['0 1']);
    expect(pairsOf({ machines, jobs: [on, on] }, [5, 12])).toEqual([]);
    const pot = { activities: [{ modes: [{ vessel: 0 }], empties: true }] };
    expect(pairsOf({ renewables: [{ capacity: 1, tail: 0 }], jobs: [pot, pot] }, [0, 10])).toEqual(['0 1']);
  });

  it('are named once, and not where one must come first', () => {
    const busy = { attention: ALWAYS, units: [0], unitCount: 1 };
    const places = [
      { start: 0, hands: [0], units: [0] },
      { start: 10, hands: [0], units: [0] },
    ];
    expect(pairsOf({ units: 1, jobs: [alone(busy), alone(busy)] }, places)).toEqual(['0 1']);
    expect(pairsOf({ units: 1, jobs: [alone(busy), alone(busy)], lags: [{ from: 0, to: 1 }] }, places)).toEqual([]);
  });
});
