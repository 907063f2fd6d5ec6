/** Rule 7 against a plain simulation, minute by minute, of dishes that are chains of steps. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { pan, problemOf, rectangle, type StepSpec } from '../support/problem-builder.js';
import { faults, type RowSpec } from './plan-builder.js';

const LANDING = 60;
interface Stage {
  readonly kind: 'bowl' | 'tray' | 'board' | 'none';
  readonly pans: number;
  readonly empties: boolean;
  readonly before: number;
  readonly takes: number;
}
const stage: fc.Arbitrary<Stage> = fc.record({
  kind: fc.constantFrom('bowl' as const, 'bowl' as const, 'tray' as const, 'board' as const, 'none' as const),
  pans: fc.constantFrom(1, 1, 2),
  empties: fc.constantFrom(false, false, false, true),
  before: fc.integer({ min: 0, max: 6 }),
  takes: fc.integer({ min: 1, max: 5 }),
});
const meal = fc.record({
  chains: fc.array(fc.array(stage, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 3 }),
  bowls: fc.integer({ min: 1, max: 3 }),
  wash: fc.integer({ min: 0, max: 6 }),
});

/** Bowls that are not free, by minute: those in hand stay until let go, and are away for the wash from then on. */
function bowlsInUse(chains: readonly (readonly Stage[])[], wash: number): number[] {
  const used = Array.from({ length: 200 }, () => 0);
  const take = (from: number, to: number, count: number): void => {
    for (let minute = from; minute < to; minute += 1) used[minute]! += count;
  };
  for (const chain of chains) {
    let at = 0;
    let inHand = 0;
    let since = 0;
    const letGo = (now: number, count: number): void => {
      take(since, now, inHand);
      take(now, now + wash, count);
      inHand -= count;
      since = now;
    };
    for (const each of chain) {
      const start = at + each.before;
      at = start + each.takes;
      if (each.kind !== 'none') {
        const wanted = each.kind === 'bowl' ? each.pans : 0;
        letGo(start, Math.max(0, inHand - wanted));
        inHand = wanted;
      }
      if (each.empties) letGo(at, inHand);
    }
    letGo(LANDING, inHand);
  }
  return used;
}

it('finds a shortage of pans exactly where a minute-by-minute simulation does', () => {
  let short = 0;
  let enough = 0;
  fc.assert(
    fc.property(meal, ({ chains, bowls, wash }) => {
      const problem = problemOf({
        serve: LANDING,
        kitchen: {
          pans: [
            pan('bowl', rectangle(0.1, 0.1), { count: bowls, wash }),
            pan('tray', rectangle(0.1, 0.1), { count: 99 }),
          ],
          boards: 9,
        },
        dishes: chains.map((chain, index) => ({
          dish: `Dish ${index}`,
          steps: chain.map((each, place): StepSpec => {
            const own =
              each.kind === 'none'
                ? {}
                : each.kind === 'board'
                  ? { place: 'board' }
                  : { pan: each.kind, pans: each.pans };
            return { step: `step ${place}`, takes: each.takes, empties: each.empties, ...own };
          }),
        })),
      });
      const steps: Record<string, RowSpec> = {};
      for (const [index, chain] of chains.entries()) {
        let at = 0;
        for (const [place, each] of chain.entries()) {
          const start = at + each.before;
          at = start + each.takes;
          const own =
            each.kind === 'none' ? {} : each.kind === 'board' ? { place: `board ${index + 1}` } : { pan: each.kind };
          steps[`Dish ${index}/step ${place}`] = { at: [start, at], ...own };
        }
      }
      const found = faults(problem, { steps });
      const isShort = bowlsInUse(chains, wash).some((count) => count > bowls);
      if (isShort) short += 1;
      else enough += 1;
      expect(found.every((each) => each === '7 pan')).toBe(true);
      expect(found.length > 0).toBe(isShort);
    }),
    { seed: 20261003, numRuns: 400 },
  );
  // Both verdicts must have been asked for often enough to mean something.
  expect(Math.min(short, enough)).toBeGreaterThan(40);
});
