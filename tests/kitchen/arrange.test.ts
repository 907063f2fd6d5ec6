import { describe, expect, it } from 'vitest';
import { arrange, arrangement } from '../../src/kitchen/arrange.js';
import { overlaps } from '../../src/kitchen/footprint.js';
import type { Spot, Standing } from '../../src/kitchen/surface.js';
import type { Shelves } from '../../src/kitchen/surface-of.js';

const shelves = (levels: number, height: number, limit = Number.POSITIVE_INFINITY): Shelves => ({
  surface: { strips: [{ x: 0, width: 0.56, depth: 0.41 }], round: null },
  levels,
  height,
  clearance: 0.04,
  limit,
});
const tray = (start: number, end: number, height = 0.05, width = 0.3, fixed: Standing['fixed'] = null): Standing => ({
  footprint: { kind: 'rectangle', width, depth: 0.4 },
  height,
  start,
  end,
  fixed,
});
const levelsOf = (found: ReturnType<typeof arrange>) => found?.map(({ level }) => level);

describe('arrange', () => {
  it('gives what follows one another the lowest rack', () => {
    expect(levelsOf(arrange(shelves(2, 0.38), [tray(0, 30), tray(30, 60), tray(60, 90)]))).toEqual([1, 1, 1]);
  });

  it('gives each its own rack where there are enough', () => {
    expect(levelsOf(arrange(shelves(2, 0.38), [tray(0, 30), tray(10, 60), tray(30, 90)]))).toEqual([1, 2, 1]);
  });

  it('puts two on one rack where the cavity is too low for two racks', () => {
    const small = { width: 0.2, height: 0.1 };
    const two = [tray(0, 30, small.height, small.width), tray(0, 30, small.height, small.width)];
    expect(levelsOf(arrange(shelves(2, 0.38), two))).toEqual([1, 2]);
    const found = arrange(shelves(2, 0.2), two);
    expect(levelsOf(found)).toEqual([1, 1]);
    expect(overlaps(two[0]!.footprint, found![0]!.spot, two[1]!.footprint, found![1]!.spot)).toBe(false);
  });

  it('sums the tallest of each loaded rack with its clearance, to the millimetre', () => {
    // 0.20 + 0.04 + 0.10 + 0.04 fill 0.38.
    const two = (height: number) => [tray(0, 30, 0.2, 0.5), tray(0, 30, height, 0.5)];
    expect(arrange(shelves(2, 0.38), two(0.1))).not.toBeNull();
    expect(arrangement(shelves(2, 0.38), two(0.101))).toEqual({ placed: null, proof: true });
    // One after the other they need not share.
    expect(arrange(shelves(2, 0.38), [tray(0, 30, 0.2, 0.5), tray(30, 60, 0.3, 0.5)])).not.toBeNull();
  });

  it('refuses what is higher than the mode allows or wider than the rack', () => {
    expect(arrangement(shelves(1, 0.38, 0.1), [tray(0, 10, 0.11)])).toEqual({ placed: null, proof: true });
    expect(arrangement(shelves(1, 0.38), [tray(0, 10, 0.35)])).toEqual({ placed: null, proof: true });
    expect(arrangement(shelves(1, 0.38), [tray(0, 10, 0.05, 0.6)])).toEqual({ placed: null, proof: true });
  });

  it('leaves everything where it stands for its whole time', () => {
    // The short one must not stand in the way of the second long one, which comes when the first is still there.
    const list = [tray(0, 60, 0.05, 0.2), tray(0, 20, 0.05, 0.2), tray(20, 90, 0.05, 0.36)];
    const found = arrange(shelves(1, 0.38), list);
    expect(found).not.toBeNull();
    expect(overlaps(list[0]!.footprint, found![0]!.spot, list[2]!.footprint, found![2]!.spot)).toBe(false);
    expect(arrangement(shelves(1, 0.38), [...list.slice(0, 2), tray(10, 90, 0.05, 0.36)]).placed).toBeNull();
  });

  it('keeps the level and the spot of what is fixed, and works around it', () => {
    const spot: Spot = { x: 0.2, y: 0, turned: false };
    const kept = tray(0, 60, 0.05, 0.2, { level: 2, spot });
    const found = arrange(shelves(2, 0.38), [kept, tray(0, 30), tray(10, 40, 0.05, 0.16)]);
    expect(found?.[0]).toEqual({ level: 2, spot });
    expect(found?.[1]?.level).toBe(1);
    expect(found?.[2]?.level).toBe(1);
    // On one rack the fixed one leaves 20 cm and 16 cm.
    const alone = { ...kept, fixed: { level: 1, spot } };
    expect(arrange(shelves(1, 0.38), [alone, tray(0, 30, 0.05, 0.2)])?.[1]?.spot.x).toBe(0);
    expect(arrangement(shelves(1, 0.38), [alone, tray(0, 30, 0.05, 0.21)])).toEqual({ placed: null, proof: true });
  });

  it('takes what already stands as a fact, even where it breaks a rule', () => {
    const spot: Spot = { x: 0, y: 0, turned: false };
    const stuck = tray(0, 60, 0.05, 0.3, { level: 1, spot });
    expect(arrange(shelves(2, 0.38), [stuck, stuck, tray(0, 60)])?.map(({ level }) => level)).toEqual([1, 1, 2]);
  });

  it('says when it cannot know', () => {
    const many = Array.from({ length: 7 }, (_, i) => tray(0, 60, 0.02, 0.1 + i * 0.013));
    expect(arrangement(shelves(2, 0.38), many, 3)).toEqual({ placed: null, proof: false });
  });

  it('puts nothing nowhere', () => {
    expect(arrange(shelves(2, 0.38), [])).toEqual([]);
  });
});
