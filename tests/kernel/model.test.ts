import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stretchesOf, transitionTime } from '../../src/kernel/model.js';
import { ALWAYS, machineOf } from './model-builder.js';

const looks = { all: false, start: 3, end: 2, every: 10, look: 1, crew: 1 };

describe('stretchesOf', () => {
  it('is the whole activity where hands are needed all the time', () => {
    expect(stretchesOf(ALWAYS, 12)).toEqual([0, 12]);
  });

  it('is nothing without a crew, or in an activity of no length', () => {
    expect(stretchesOf({ ...ALWAYS, crew: 0 }, 12)).toEqual([]);
    expect(stretchesOf(ALWAYS, 0)).toEqual([]);
  });

  it('has the start, a look every so often and the end', () => {
    expect(stretchesOf(looks, 35)).toEqual([0, 3, 10, 1, 20, 1, 30, 1, 33, 2]);
  });

  it('drops a look that would run into the end stretch, but keeps one that just touches it', () => {
    expect(stretchesOf(looks, 32)).toEqual([0, 3, 10, 1, 20, 1, 30, 2]);
    expect(stretchesOf(looks, 33)).toEqual([0, 3, 10, 1, 20, 1, 30, 1, 31, 2]);
  });

  it('drops a look that falls into the start stretch', () => {
    expect(stretchesOf({ ...looks, start: 12, end: 0 }, 25)).toEqual([0, 12, 20, 1]);
  });

  it('cuts start, then end, to an activity too short for both', () => {
    expect(stretchesOf(looks, 4)).toEqual([0, 3, 3, 1]);
    expect(stretchesOf(looks, 2)).toEqual([0, 2]);
  });

  it('gives parts that are in order, apart and within the activity', () => {
    const attention = fc.record({
      all: fc.boolean(),
      start: fc.nat(6),
      end: fc.nat(6),
      every: fc.nat(12),
      look: fc.nat(3),
      crew: fc.nat(2),
    });
    fc.assert(
      fc.property(attention, fc.nat(60), (asked, minutes) => {
        const flat = stretchesOf(asked, minutes);
        let until = 0;
        for (let k = 0; k < flat.length; k += 2) {
          // A look longer than the time between looks overlaps the next one; nobody can ask for that in earnest.
          if (asked.look <= asked.every) expect(flat[k]).toBeGreaterThanOrEqual(until);
          expect(flat[k + 1]).toBeGreaterThan(0);
          until = flat[k]! + flat[k + 1]!;
          expect(until).toBeLessThanOrEqual(minutes);
        }
      }),
      { seed: 1, numRuns: 500 },
    );
  });
});

describe('transitionTime', () => {
  const machine = machineOf({ levels: [[10, 25], [40]] });

  it('is read from the row of the state before', () => {
    expect(transitionTime(machine, 0, 1)).toBe(15);
    expect(transitionTime(machine, 2, 0)).toBe(30);
    expect(transitionTime(machine, 1, 1)).toBe(0);
  });

  it('is read from the first state where nothing came before', () => {
    expect(transitionTime(machine, -1, 2)).toBe(40);
  });
});
