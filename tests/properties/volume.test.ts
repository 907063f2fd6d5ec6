/** What any piece among any surroundings must do: the balance, the order of times and temperatures, and the same answer twice. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Body } from '../../src/heat/body.js';
import { FOODS } from '../../src/heat/composition.js';
import type { Surroundings } from '../../src/heat/exchange.js';
import type { Piece } from '../../src/heat/field.js';
import { type Matter, matterOf } from '../../src/heat/properties.js';
import { type Around, everywhere, goThrough, type Run, type Stretch, type Until } from '../../src/heat/stretch.js';
import { oven, wet } from '../support/pieces.js';

/** A food by its name, so that a counterexample can be read. */
const food = fc.constantFrom(...(Object.keys(FOODS) as (keyof typeof FOODS)[]));
const matterOfFood = Object.fromEntries(
  Object.entries(FOODS).map(([name, { composition }]) => [name, matterOf(composition)]),
) as Readonly<Record<keyof typeof FOODS, Matter>>;

const real = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

const body: fc.Arbitrary<Body> = fc
  .record({
    shape: fc.constantFrom('slab', 'cylinder', 'sphere', 'brick'),
    thickness: real(0.015, 0.16),
    wider: real(1, 2.5),
    longer: real(0.5, 4),
  })
  .map(({ shape, thickness, wider, longer }): Body => {
    const [width, length] = [thickness * wider, thickness * longer];
    switch (shape) {
      case 'slab':
        return { shape, thickness, width: null, length: null };
      case 'sphere':
        return { shape, thickness };
      case 'cylinder':
        return { shape, thickness, length };
      default:
        return { shape: 'brick', thickness, width, length };
    }
  });

const surroundings: fc.Arbitrary<Surroundings> = fc
  .record(
    {
      air: real(4, 260),
      coefficient: real(3, 60),
      walls: fc.record({ celsius: real(4, 300), emissivity: real(0, 1) }),
      moisture: fc.record({
        vapour: real(800, 30_000),
        wetness: real(0, 1),
        dries: fc.oneof(real(0.1, 5), fc.constant(Number.POSITIVE_INFINITY)),
      }),
      plate: fc.record({ celsius: real(80, 320), coefficient: real(50, 1200), share: real(0, 1) }),
    },
    { requiredKeys: ['air', 'coefficient'] },
  )
  .map((each) => each as Surroundings);

const around: fc.Arbitrary<Around> = fc.oneof(
  surroundings.map(everywhere),
  fc.record({ bottom: surroundings, top: surroundings, side: surroundings }),
);

const until: fc.Arbitrary<Until> = fc.oneof(
  fc.record({ seconds: real(1, 5000) }),
  fc.record({ core: real(10, 90), most: real(100, 8000) }),
  fc.record({ peak: fc.constant(true as const), most: real(100, 8000) }),
);

const sample = fc.record({ body, food, celsius: real(0, 25) });
const pieceOf = ({ body, food, celsius }: Sample): Piece => ({ body, matter: matterOfFood[food], celsius });
interface Sample {
  readonly body: Body;
  readonly food: keyof typeof FOODS;
  readonly celsius: number;
}
const stretches = fc.array(fc.record({ around, until }), { minLength: 1, maxLength: 4 });

const run = <Ts>(seed: number, property: fc.IProperty<Ts>, numRuns: number): void =>
  fc.assert(property, { seed, numRuns });

const last = (column: Float64Array): number => column[column.length - 1]!;
const highest = (column: Float64Array): number => column.reduce((most, each) => Math.max(most, each));

/** All temperatures that can warm or cool the piece. */
function reachOf(stretches: readonly Stretch[], start: number): { low: number; high: number } {
  const all = stretches.flatMap(({ around }) =>
    Object.values(around).flatMap(({ air, walls, plate }) => [air, walls?.celsius ?? air, plate?.celsius ?? air]),
  );
  return { low: Math.min(start, ...all), high: Math.max(start, ...all) };
}

describe('any piece among any surroundings, with radiation, evaporation, contact and properties that change', () => {
  it('keeps its balance to 0.1 per cent, ends what it begins, and is never hotter than what is round it', () => {
    run(
      11,
      fc.property(sample, stretches, (sample, stretches) => {
        const piece = pieceOf(sample);
        const { history, ends } = goThrough(piece, stretches);
        const moved = highest(history.stored.map(Math.abs));
        expect(Math.abs(last(history.heatIn) - last(history.stored))).toBeLessThanOrEqual(0.001 * moved + 1e-6);
        const { high } = reachOf(stretches, piece.celsius);
        for (const column of [history.core, history.mean, ...Object.values(history.surface)]) {
          expect(highest(column)).toBeLessThan(high + 0.5);
        }
        expect(ends).toHaveLength(stretches.length);
        expect(ends.at(-1)!.seconds).toBe(last(history.seconds));
        for (const [i, { until }] of stretches.entries()) {
          const took = ends[i]!.seconds - (ends[i - 1]?.seconds ?? 0);
          const most = 'seconds' in until ? until.seconds : until.most;
          expect(took).toBeLessThanOrEqual(most * (1 + 1e-12));
          if ('core' in until && ends[i]!.reached) expect(Math.abs(ends[i]!.core - until.core)).toBeLessThan(0.05);
        }
      }),
      150,
    );
  });

  it('says the same twice, and the same in one go or by its field from stretch to stretch', () => {
    const seconds = fc.record({ around, until: fc.record({ seconds: real(60, 3000) }) });
    run(
      12,
      fc.property(sample, fc.array(seconds, { minLength: 2, maxLength: 3 }), (sample, stretches) => {
        const piece = pieceOf(sample);
        const once = goThrough(piece, stretches);
        expect(goThrough(piece, stretches)).toEqual(once);
        let field: Run | null = null;
        for (const stretch of stretches) field = goThrough(field?.field ?? piece, [stretch]);
        // The first may run on half the grid until a side differs, so the steps need not be the same to the last digit.
        expect(Math.abs(field!.ends[0]!.core - once.ends.at(-1)!.core)).toBeLessThan(0.3);
      }),
      60,
    );
  });
});

const ROOM = 21;

describe('a roast', () => {
  const roast = fc.record({
    celsius: real(110, 230),
    coefficient: real(6, 35),
    wetness: real(0, 1),
    dries: real(0.5, 5),
  });
  const until = { core: 58, most: 200_000 };
  const minutesTo = (
    body: Body,
    food: Sample['food'],
    celsius: number,
    { coefficient, wetness, dries }: Roast,
  ): number => {
    const around = everywhere(oven(celsius, coefficient, wet(wetness, dries)));
    return goThrough(pieceOf({ body, food, celsius: 5 }), [{ around, until }]).ends[0]!.seconds / 60;
  };
  interface Roast {
    readonly celsius: number;
    readonly coefficient: number;
    readonly wetness: number;
    readonly dries: number;
  }

  it('never takes longer in hotter air', () => {
    run(
      13,
      fc.property(body, food, roast, real(1, 60), (body, food, roast, more) => {
        const [cool, hot] = [roast.celsius, roast.celsius + more].map((celsius) =>
          minutesTo(body, food, celsius, roast),
        );
        expect(hot).toBeLessThanOrEqual(cool!);
      }),
      60,
    );
  });

  it('never takes less when it is thicker', () => {
    run(
      14,
      fc.property(body, food, roast, real(1.02, 2), (body, food, roast, by) => {
        const thicker = { ...body, thickness: body.thickness * by } as Body;
        expect(minutesTo(thicker, food, roast.celsius, roast)).toBeGreaterThanOrEqual(
          minutesTo(body, food, roast.celsius, roast),
        );
      }),
      60,
    );
  });

  it('peaks after the pull, below the air it was in, and from the peak on only falls to the room', () => {
    run(
      15,
      fc.property(body, food, roast, real(4, 12), (body, food, roast, still) => {
        const rest = everywhere(oven(ROOM, still, { ...wet(roast.wetness, roast.dries), vapour: 1200 }));
        const pull = {
          around: everywhere(oven(roast.celsius, roast.coefficient, wet(roast.wetness, roast.dries))),
          until,
        };
        const { ends, history } = goThrough(pieceOf({ body, food, celsius: 5 }), [
          pull,
          { around: rest, until: { peak: true, most: 100_000 } },
          { around: rest, until: { seconds: 1800 } },
          { around: rest, until: { seconds: 1800 } },
        ]);
        const [pulled, peak, ...waits] = ends.map(({ core }) => core);
        expect(ends[1]!.reached).toBe(true);
        expect(peak).toBeGreaterThanOrEqual(pulled! - 1e-3);
        expect(peak).toBeLessThan(roast.celsius);
        // A wet piece cools below the room, and comes up to it again when it has dried.
        const [first, second] = waits.map((core) => Math.max(core, ROOM));
        expect(first).toBeLessThanOrEqual(peak! + 1e-3);
        expect(second).toBeLessThanOrEqual(first! + 1e-3);
        const after = history.core.filter((_, row) => history.seconds[row]! >= ends[1]!.seconds);
        for (let row = 1; row < after.length && after[row]! > ROOM; row++) {
          expect(after[row]).toBeLessThanOrEqual(after[row - 1]! + 1e-3);
        }
      }),
      60,
    );
  });
});
