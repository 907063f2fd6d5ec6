/** What must hold of any piece in any oven: more heat is never slower, thicker never faster, and rests never warm what has peaked. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Body } from '../../src/heat/body.js';
import { columnsOf } from '../../src/heat/columns.js';
import { FOODS } from '../../src/heat/composition.js';
import type { Joint } from '../../src/heat/joint.js';
import { answersTo, type Leg, type Question } from '../../src/heat/roast.js';
import type { Setting } from '../../src/heat/setting.js';

const RUNS = { seed: 20_260, numRuns: 25, endOnFailure: true };
/** The solver's own errors: in a peak, K, and in minutes. */
const ERROR = 1e-2;
const MOMENT = 0.02;
const real = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

const body: fc.Arbitrary<Body> = fc
  .tuple(real(0.02, 0.16), real(1, 2), real(0.7, 3))
  .chain(([thickness, wider, longer]) =>
    fc.constantFrom<Body>(
      { shape: 'slab', thickness, width: null, length: null },
      { shape: 'sphere', thickness },
      { shape: 'cylinder', thickness, length: thickness * longer },
      { shape: 'brick', thickness, width: thickness * wider, length: thickness * longer },
    ),
  );

const joint: fc.Arbitrary<Joint> = fc
  .record({
    name: fc.constantFrom('beef', 'pork', 'lamb', 'turkey', 'salmon', 'carrot'),
    body,
    from: real(2, 25),
    bone: fc.boolean(),
    crust: fc.constantFrom(0, 0, 0.004),
  })
  .map(({ name, ...rest }) => ({ food: FOODS[name as keyof typeof FOODS], ...rest }));

const legs: fc.Arbitrary<readonly Leg[]> = fc.constantFrom<readonly Leg[]>(
  [],
  [{ around: { kind: 'sear', celsius: 250, on: 'pan', turns: 'sides' }, minutes: 6 }],
  [{ around: { kind: 'room', celsius: 21, covered: false }, minutes: 45 }],
);

const rest = (minutes: number, covered = true): Leg => ({ around: { kind: 'room', celsius: 21, covered }, minutes });

interface Case {
  readonly joint: Joint;
  readonly before: readonly Leg[];
  readonly moving: 'still' | 'fan';
  readonly on: 'rack' | 'pan';
  readonly celsius: number;
  readonly core: number;
}

const cases: fc.Arbitrary<Case> = fc.record({
  joint,
  before: legs,
  moving: fc.constantFrom('still', 'fan'),
  on: fc.constantFrom('rack', 'pan'),
  celsius: real(125, 240),
  core: real(45, 72),
});

const question = ({ joint, before, moving, on, celsius, core }: Case, over: Partial<Question> = {}): Question => ({
  joint,
  before,
  heat: (degrees): Setting => ({ kind: 'air', celsius: degrees, moving, on }),
  celsius: [celsius],
  goal: { core },
  moving: 0,
  rest: rest(20),
  ...over,
});

describe('any piece', () => {
  it('in hotter air never takes longer, nor is a table ever anything but falling and convex', () => {
    fc.assert(
      fc.property(cases, real(3, 12), (one, step) => {
        const celsius = Array.from({ length: 10 }, (_, i) => one.celsius + step * i);
        const answers = answersTo(question(one, { celsius }));
        for (let i = 1; i < answers.length; i++)
          for (const end of ['low', 'likely', 'high'] as const)
            expect(answers[i]!.minutes[end]).toBeLessThanOrEqual(answers[i - 1]!.minutes[end] + MOMENT);
        const columns = columnsOf(
          answers.map(({ celsius: at, minutes }) => ({ celsius: at, minutes: minutes.likely })),
        );
        const slopes = columns
          .slice(1)
          .map((to, i) => (to.minutes - columns[i]!.minutes) / (to.celsius - columns[i]!.celsius));
        for (const [i, slope] of slopes.entries()) {
          expect(slope).toBeLessThanOrEqual(0);
          if (i > 0) expect(slope).toBeGreaterThanOrEqual(slopes[i - 1]! - 1e-9);
        }
      }),
      RUNS,
    );
  });

  it('that is thicker never takes less', () => {
    fc.assert(
      fc.property(cases, real(1.02, 1.5), (one, times) => {
        const { body: small } = one.joint;
        const thick: Body = { ...small, thickness: times * small.thickness };
        const minutes = (of: Body): number =>
          answersTo(question({ ...one, joint: { ...one.joint, body: of } }))[0]!.minutes.likely;
        expect(minutes(thick)).toBeGreaterThanOrEqual(minutes(small) - MOMENT);
      }),
      RUNS,
    );
  });

  it('never peaks above the air of its oven, nor below where it was pulled', () => {
    fc.assert(
      fc.property(cases, (one) => {
        const [{ pull, peak, peakAfter } = { pull: 0, peak: 0, peakAfter: 0 }] = answersTo(
          question({ ...one, before: [] }),
        );
        expect(peak).toBeLessThan(one.celsius);
        expect(peak).toBeGreaterThanOrEqual(pull);
        expect(peakAfter).toBeLessThanOrEqual(20 + 1e-9);
      }),
      RUNS,
    );
  });

  it('once it has peaked is not raised by a longer rest', () => {
    fc.assert(
      fc.property(cases, fc.boolean(), (one, covered) => {
        const ask = (minutes: number) => answersTo(question(one, { rest: rest(minutes, covered) }))[0]!;
        const long = ask(240);
        const longer = ask(300);
        if (long.peakAfter < 239) expect(longer.peak).toBeLessThan(long.peak + ERROR);
        expect(ask(10).peak).toBeLessThanOrEqual(long.peak + ERROR);
      }),
      RUNS,
    );
  });

  it('of a higher target is never pulled earlier', () => {
    fc.assert(
      fc.property(cases, real(1, 8), (one, more) => {
        const ask = (target: number) => answersTo(question(one, { goal: { target } }))[0]!;
        const [low, high] = [ask(one.core), ask(one.core + more)];
        expect(high.minutes.likely).toBeGreaterThanOrEqual(low.minutes.likely - MOMENT);
        if (Number.isFinite(high.minutes.likely)) expect(high.pull).toBeGreaterThanOrEqual(low.pull);
      }),
      RUNS,
    );
  });

  it('has its likely minutes between the low and the high ones', () => {
    fc.assert(
      fc.property(cases, (one) => {
        const [{ minutes } = { minutes: { low: 1, likely: 0, high: 0 } }] = answersTo(question(one));
        expect(minutes.low).toBeLessThanOrEqual(minutes.likely);
        expect(minutes.high).toBeGreaterThanOrEqual(minutes.likely);
      }),
      RUNS,
    );
  });
});
