import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arrangement } from '../../src/kitchen/arrange.js';
import { pack } from '../../src/kitchen/pack.js';
import type { Spot, Standing, Surface } from '../../src/kitchen/surface.js';
import type { Footprint } from '../../src/problem/problem.js';

/** Fixed, so that every run tries the same problems. */
const SEED = 20261003;

type Pan = { readonly footprint: Footprint; readonly spot: Spot };

const rectangle = (width: number, depth: number): Footprint => ({ kind: 'rectangle', width, depth });
const disc = (diameter: number): Footprint => ({ kind: 'round', diameter });
const plain = (width: number, depth: number): Surface => ({ strips: [{ x: 0, width, depth }], round: null });

/** A check of its own, by plain distances between the outlines; shares nothing with the packing. */
function outline({ footprint, spot }: Pan): {
  left: number;
  right: number;
  front: number;
  back: number;
  radius: number;
} {
  const [w, d] =
    footprint.kind === 'round'
      ? [footprint.diameter, footprint.diameter]
      : spot.turned
        ? [footprint.depth, footprint.width]
        : [footprint.width, footprint.depth];
  const radius = footprint.kind === 'round' ? w / 2 : 0;
  return { left: spot.x, right: spot.x + w, front: spot.y, back: spot.y + d, radius };
}

/** Distance between two pans, each shrunk by its radius to a core (a point for a round pan), less the radii. */
function apart(one: Pan, two: Pan): number {
  const a = outline(one);
  const b = outline(two);
  const dx = Math.max(a.left + a.radius - (b.right - b.radius), b.left + b.radius - (a.right - a.radius));
  const dy = Math.max(a.front + a.radius - (b.back - b.radius), b.front + b.radius - (a.back - a.radius));
  const far = dx > 0 && dy > 0 ? Math.hypot(dx, dy) : Math.max(dx, dy);
  return far - a.radius - b.radius;
}

/** Whether all points of the outline lie on the surface: 1 µm over an edge is let pass. */
function onSurface(surface: Surface, pan: Pan): boolean {
  const { left, right, front, back, radius } = outline(pan);
  const points: [number, number][] = [];
  const steps = 96;
  for (let k = 0; k < steps; k++) {
    if (radius > 0) {
      const angle = (2 * Math.PI * k) / steps;
      points.push([left + radius + radius * Math.cos(angle), front + radius + radius * Math.sin(angle)]);
    } else {
      const t = k / (steps - 1);
      const x = left + t * (right - left);
      const y = front + t * (back - front);
      points.push([x, front], [x, back], [left, y], [right, y]);
    }
  }
  const e = 1.5e-6;
  return points.every(([x, y]) => {
    const middle = (surface.round ?? 0) / 2;
    if (surface.round !== null && Math.hypot(x - middle, y - middle) > middle + e) return false;
    return surface.strips.some((s) => x >= s.x - e && x <= s.x + s.width + e && y >= -e && y <= s.depth + e);
  });
}

function faults(surface: Surface, pans: readonly Pan[], conflicts: (i: number, j: number) => boolean): string[] {
  const found: string[] = [];
  pans.forEach((pan, i) => {
    if (!onSurface(surface, pan)) found.push(`pan ${i} is off the surface`);
    for (let j = 0; j < i; j++) {
      if (conflicts(j, i) && apart(pan, pans[j]!) < -1.1e-6) found.push(`pans ${j} and ${i} overlap`);
    }
  });
  return found;
}

const length = (low: number, high: number) => fc.integer({ min: low, max: high }).map((mm) => mm / 1000);
const footprints = fc.oneof(
  fc.tuple(length(100, 400), length(100, 400)).map(([w, d]) => rectangle(w, d)),
  length(100, 350).map(disc),
);
const strips = fc
  .array(fc.record({ width: length(150, 350), depth: length(250, 500), gap: fc.constantFrom(0, 0, 0.2) }), {
    minLength: 1,
    maxLength: 3,
  })
  .map((list): Surface => {
    let x = 0;
    return {
      strips: list.map(({ width, depth, gap }) => {
        const strip = { x: x + gap, width, depth };
        x = strip.x + width;
        return strip;
      }),
      round: null,
    };
  });
const roundGrates = fc.tuple(length(400, 650), fc.constantFrom(0, 0.3)).map(
  ([round, cut]): Surface => ({
    strips: [{ x: cut * round, width: (1 - cut) * round, depth: round }],
    round,
  }),
);
const surfaces = fc.oneof(strips, roundGrates);
/** Which of up to eight conflict: by bits. */
const graphs = fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 28, maxLength: 28 }).map((bits) => {
  const at = (i: number, j: number) => bits[(Math.max(i, j) * (Math.max(i, j) - 1)) / 2 + Math.min(i, j)]!;
  return (i: number, j: number) => at(i, j) > 0;
});
const clash = () => true;

describe('pack', () => {
  it('gives only spots on the surface and without overlap', () => {
    let packed = 0;
    fc.assert(
      fc.property(
        surfaces,
        fc.array(footprints, { minLength: 1, maxLength: 6 }),
        graphs,
        (surface, pans, conflicts) => {
          const { spots } = pack(surface, pans, conflicts, null, 3000);
          if (spots === null) return;
          packed++;
          expect(
            faults(
              surface,
              pans.map((footprint, i) => ({ footprint, spot: spots[i]! })),
              conflicts,
            ),
          ).toEqual([]);
        },
      ),
      { seed: SEED, numRuns: 1500 },
    );
    expect(packed).toBeGreaterThan(400);
  });

  it('keeps what is fixed, and takes it when all of a packing is', () => {
    fc.assert(
      fc.property(surfaces, fc.array(footprints, { minLength: 2, maxLength: 5 }), fc.nat(30), (surface, pans, mask) => {
        const { spots } = pack(surface, pans, clash, null, 3000);
        if (spots === null) return;
        const fixed = spots.map((spot, i) => ((mask >> i) & 1 ? spot : null));
        const again = pack(surface, pans, clash, fixed);
        // The spots that were found before are one way, so that there is a packing.
        expect(again.spots).not.toBeNull();
        fixed.forEach((spot, i) => {
          if (spot !== null) expect(again.spots![i]).toEqual(spot);
        });
        expect(
          faults(
            surface,
            pans.map((footprint, i) => ({ footprint, spot: again.spots![i]! })),
            clash,
          ),
        ).toEqual([]);
      }),
      { seed: SEED, numRuns: 400 },
    );
  });

  it('gives the same spots every time', () => {
    fc.assert(
      fc.property(
        surfaces,
        fc.array(footprints, { minLength: 1, maxLength: 5 }),
        graphs,
        (surface, pans, conflicts) => {
          const again = { ...surface };
          expect(pack(again, pans, conflicts, null, 2000)).toEqual(pack(surface, pans, conflicts, null, 2000));
        },
      ),
      { seed: SEED, numRuns: 200 },
    );
  });

  it('finds room for the pieces of any area cut straight across, up to eight, however they are turned', () => {
    const cuts = fc.array(
      fc.record({ piece: fc.nat(100), at: fc.double({ min: 0.15, max: 0.85, noNaN: true }), along: fc.boolean() }),
      {
        minLength: 1,
        maxLength: 7,
      },
    );
    const turned = fc.array(fc.boolean(), { minLength: 8, maxLength: 8 });
    fc.assert(
      fc.property(length(300, 800), length(300, 600), cuts, turned, fc.nat(1000), (width, depth, list, turn, mix) => {
        let pieces: [number, number][] = [[width, depth]];
        for (const { piece, at, along } of list) {
          const [[w, d]] = pieces.splice(piece % pieces.length, 1) as [[number, number]];
          pieces = along ? [...pieces, [w * at, d], [w * (1 - at), d]] : [...pieces, [w, d * at], [w, d * (1 - at)]];
        }
        const shift = mix % pieces.length;
        const pans = [...pieces.slice(shift), ...pieces.slice(0, shift)].map(([w, d], i) =>
          turn[i] ? rectangle(d, w) : rectangle(w, d),
        );
        const { spots } = pack(plain(width, depth), pans);
        expect(spots).not.toBeNull();
      }),
      { seed: SEED, numRuns: 600 },
    );
  });

  it('still fits when one pan is taken away', () => {
    fc.assert(
      fc.property(
        surfaces,
        fc.array(footprints, { minLength: 2, maxLength: 6 }),
        graphs,
        (surface, pans, conflicts) => {
          if (pack(surface, pans, conflicts, null, 3000).spots === null) return;
          for (let out = 0; out < pans.length; out++) {
            const kept = pans.map((_, i) => i).filter((i) => i !== out);
            const fewer = pack(
              surface,
              kept.map((i) => pans[i]!),
              (a, b) => conflicts(kept[a]!, kept[b]!),
            );
            expect(fewer.spots).not.toBeNull();
          }
        },
      ),
      { seed: SEED, numRuns: 300 },
    );
  });
});

/** A coarse grid: rectangles of whole size fit at all only if they fit at whole places. */
const CELL = 0.05;
const coarse = fc.integer({ min: 1, max: 4 });
const gridSurface = fc
  .array(
    fc.record({
      width: fc.integer({ min: 2, max: 4 }),
      depth: fc.integer({ min: 2, max: 5 }),
      gap: fc.constantFrom(0, 0, 0, 1),
    }),
    { minLength: 1, maxLength: 2 },
  )
  .map((list): Surface => {
    let x = 0;
    return {
      strips: list.map(({ width, depth, gap }) => {
        const strip = { x: (x + gap) * CELL, width: width * CELL, depth: depth * CELL };
        x += gap + width;
        return strip;
      }),
      round: null,
    };
  });

/** Tries every place on a grid for every pan in turn. */
function bruteForce(
  surface: Surface,
  pans: readonly Footprint[],
  conflicts: (i: number, j: number) => boolean,
  step: number,
  fixed: readonly (Spot | null)[] = [],
): boolean {
  const right = Math.max(...surface.strips.map((s) => s.x + s.width));
  const back = Math.max(...surface.strips.map((s) => s.depth));
  const places = pans.map((footprint, i): Pan[] => {
    const kept = fixed[i];
    if (kept) return [{ footprint, spot: kept }];
    const spots: Pan[] = [];
    for (const turned of footprint.kind === 'round' || footprint.width === footprint.depth ? [false] : [false, true]) {
      for (let x = 0; x * step < right; x++)
        for (let y = 0; y * step < back; y++) spots.push({ footprint, spot: { x: x * step, y: y * step, turned } });
    }
    return spots.filter((pan) => onSurface(surface, pan));
  });
  const clear = pans.map((_, i) =>
    pans.map((_, j) =>
      j < i && conflicts(j, i) ? places[i]!.map((a) => places[j]!.map((b) => apart(a, b) > -1e-9)) : null,
    ),
  );
  const taken: number[] = [];
  const place = (i: number): boolean => {
    if (i === pans.length) return true;
    for (let k = 0; k < places[i]!.length; k++) {
      if (!taken.every((other, j) => clear[i]![j]?.[k]?.[other] ?? true)) continue;
      taken.push(k);
      if (place(i + 1)) return true;
      taken.pop();
    }
    return false;
  };
  return place(0);
}

describe('pack against brute force', () => {
  it('says yes and no as every whole place does for rectangles of whole size, under any conflicts', () => {
    const seen = { yes: 0, no: 0 };
    fc.assert(
      fc.property(
        gridSurface,
        fc.array(fc.tuple(coarse, coarse), { minLength: 2, maxLength: 4 }),
        graphs,
        (surface, sizes, conflicts) => {
          const pans = sizes.map(([w, d]) => rectangle(w * CELL, d * CELL));
          const packing = pack(surface, pans, conflicts);
          const expected = bruteForce(surface, pans, conflicts, CELL);
          seen[expected ? 'yes' : 'no']++;
          expect(packing.spots !== null).toBe(expected);
          if (packing.spots === null) expect(packing.proof).toBe(true);
        },
      ),
      { seed: SEED, numRuns: 500 },
    );
    expect(Math.min(seen.yes, seen.no)).toBeGreaterThan(80);
  });

  it('the same around something that stays where it is', () => {
    const seen = { yes: 0, no: 0 };
    fc.assert(
      fc.property(
        gridSurface,
        fc.array(fc.tuple(coarse, coarse), { minLength: 2, maxLength: 4 }),
        fc.nat(9),
        fc.nat(5),
        graphs,
        (surface, sizes, x, y, conflicts) => {
          const pans = sizes.map(([w, d]) => rectangle(w * CELL, d * CELL));
          const kept = { x: x * CELL, y: y * CELL, turned: false };
          if (!onSurface(surface, { footprint: pans[0]!, spot: kept })) return;
          const fixed = pans.map((_, i) => (i === 0 ? kept : null));
          const packing = pack(surface, pans, conflicts, fixed);
          const expected = bruteForce(surface, pans, conflicts, CELL, fixed);
          seen[expected ? 'yes' : 'no']++;
          expect(packing.spots !== null).toBe(expected);
          if (packing.spots === null) expect(packing.proof).toBe(true);
        },
      ),
      { seed: SEED, numRuns: 2500 },
    );
    expect(Math.min(seen.yes, seen.no)).toBeGreaterThan(70);
  });

  it('finds a packing with round pans wherever a grid finds one, and never refutes it', () => {
    const seen = { grid: 0, refuted: 0 };
    const pan = fc.oneof(
      fc.tuple(coarse, coarse).map(([w, d]) => rectangle(w * CELL, d * CELL)),
      fc.integer({ min: 2, max: 7 }).map((d) => disc((d * CELL) / 2)),
    );
    const area = fc.oneof(
      gridSurface,
      fc
        .integer({ min: 5, max: 9 })
        .map((d): Surface => ({ strips: [{ x: 0, width: d * CELL, depth: d * CELL }], round: d * CELL })),
    );
    fc.assert(
      fc.property(area, fc.array(pan, { minLength: 2, maxLength: 3 }), graphs, (surface, pans, conflicts) => {
        const expected = bruteForce(surface, pans, conflicts, CELL / 2);
        const packing = pack(surface, pans, conflicts);
        if (expected) seen.grid++;
        else if (packing.spots === null && packing.proof) seen.refuted++;
        if (expected) expect(packing.spots).not.toBeNull();
      }),
      { seed: SEED, numRuns: 250 },
    );
    expect(seen.grid).toBeGreaterThan(60);
    expect(seen.refuted).toBeGreaterThan(30);
  });
});

describe('arrange', () => {
  const standings = fc.array(
    fc.record({
      w: coarse,
      d: coarse,
      tall: fc.integer({ min: 1, max: 4 }),
      start: fc.nat(8),
      minutes: fc.integer({ min: 1, max: 6 }),
    }),
    { minLength: 1, maxLength: 5 },
  );
  const make = (list: { w: number; d: number; tall: number; start: number; minutes: number }[]): Standing[] =>
    list.map(({ w, d, tall, start, minutes }) => ({
      footprint: rectangle(w * CELL, d * CELL),
      height: tall * CELL,
      start,
      end: start + minutes,
      fixed: null,
    }));
  const meet = (a: Standing, b: Standing) => a.start < b.end && b.start < a.end;

  /** At every minute the loaded levels' tallest, each with the clearance, against the height of the cavity. */
  function tooHigh(list: readonly Standing[], level: readonly number[], clearance: number, height: number): boolean {
    for (let minute = 0; minute < 16; minute++) {
      const tallest = new Map<number, number>();
      list.forEach((one, i) => {
        if (one.start <= minute && minute < one.end && level[i] !== undefined)
          tallest.set(level[i]!, Math.max(tallest.get(level[i]!) ?? 0, one.height));
      });
      if ([...tallest.values()].reduce((sum, h) => sum + h + clearance, 0) > height + 1e-9) return true;
    }
    return false;
  }

  it('agrees with every assignment to levels and every whole place', () => {
    const seen = { yes: 0, no: 0 };
    fc.assert(
      fc.property(standings, fc.integer({ min: 1, max: 3 }), fc.integer({ min: 4, max: 9 }), (made, levels, high) => {
        const list = make(made);
        const surface = plain(5 * CELL, 4 * CELL);
        const clearance = CELL / 2;
        const shelves = { surface, levels, height: high * CELL, clearance, limit: Number.POSITIVE_INFINITY };
        const found = arrangement(shelves, list);
        const assign = (level: number[]): boolean => {
          if (level.length < list.length) {
            for (let l = 1; l <= levels; l++) if (assign([...level, l])) return true;
            return false;
          }
          if (tooHigh(list, level, clearance, high * CELL)) return false;
          return [1, 2, 3].every((l) => {
            const on = list.filter((_, i) => level[i] === l);
            return bruteForce(
              surface,
              on.map((one) => one.footprint),
              (i, j) => meet(on[i]!, on[j]!),
              CELL,
            );
          });
        };
        const expected = assign([]);
        seen[expected ? 'yes' : 'no']++;
        expect(found.placed !== null).toBe(expected);
        if (found.placed === null) {
          expect(found.proof).toBe(true);
          return;
        }
        const { placed } = found;
        expect(
          tooHigh(
            list,
            placed.map((p) => p.level),
            clearance,
            high * CELL,
          ),
        ).toBe(false);
        for (let l = 1; l <= levels; l++) {
          const on = list.map((_, i) => i).filter((i) => placed[i]!.level === l);
          const pans = on.map((i) => ({ footprint: list[i]!.footprint, spot: placed[i]!.spot }));
          expect(faults(surface, pans, (a, b) => meet(list[on[a]!]!, list[on[b]!]!))).toEqual([]);
        }
        expect(placed.every(({ level }) => level >= 1 && level <= levels)).toBe(true);
      }),
      { seed: SEED, numRuns: 300 },
    );
    expect(Math.min(seen.yes, seen.no)).toBeGreaterThan(40);
  });
});
