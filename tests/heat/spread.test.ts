import { describe, expect, it } from 'vitest';
import { SLOW, spreadOf, VARIATIONS } from '../../src/heat/spread.js';

describe('spread of minutes', () => {
  it('asks for the piece as said, then for three that are slower and three that are faster', () => {
    expect(VARIATIONS).toHaveLength(7);
    expect(VARIATIONS[0]).toEqual({ thicker: 1, transfer: 1, warmer: 0 });
    expect(VARIATIONS[1]!.thicker).toBeCloseTo(1.05);
    expect(VARIATIONS[2]!.transfer).toBeCloseTo(0.85);
    expect(VARIATIONS[3]!.warmer).toBe(-2);
    expect(VARIATIONS.slice(4).map(({ thicker, transfer, warmer }) => [thicker, transfer, warmer])).toEqual([
      [0.95, 1, 0],
      [1, 1.15, 0],
      [1, 1, 2],
    ]);
  });

  it('adds effects as the root of their squares', () => {
    const { less, more } = spreadOf([100, 110, 120, 101, 95, 90, 99]);
    expect(more).toBeCloseTo(Math.hypot(10, 20, 1), 12);
    expect(less).toBeCloseTo(Math.hypot(5, 10, 1), 12);
  });

  it('has no upper end where a slower piece never gets there, and none at all where nothing is to be waited for', () => {
    expect(spreadOf([100, 110, Number.POSITIVE_INFINITY, 101, 95, 90, 99]).more).toBe(Number.POSITIVE_INFINITY);
    expect(spreadOf([0, 0, 0, 0, 0, 0, 0])).toEqual({ less: 0, more: 0 });
  });

  it('has a slow end at which all come together, each by less', () => {
    expect(SLOW.thicker).toBeGreaterThan(1.02);
    expect(SLOW.thicker).toBeLessThan(1.05);
    expect(SLOW.transfer).toBeLessThan(0.95);
    expect(SLOW.warmer).toBeLessThan(-1);
  });
});
