/** Choices written as whole numbers: what they allow and cost is what trying all of them finds. */
import { describe, expect, it } from 'vitest';
import { Engine } from '../../src/constraint/engine.js';
import { EngineProgram } from '../../src/constraint/engine-program.js';
import { Optimiser } from '../../src/constraint/optimiser.js';
import { type Literal, not, of, type Span, Sum } from '../../src/constraint/program.js';
import { Rng } from '../../src/kernel/rng.js';

/** The least cost that the engine finds and proves; Infinity where nothing is allowed. */
function optimum(program: EngineProgram): number {
  const terms = [...program.costs.terms].filter(([, factor]) => factor !== 0);
  const optimiser = new Optimiser(
    program.engine,
    terms.map(([v, factor]) => ({ half: factor > 0 ? 2 * v : 2 * v + 1, weight: Math.abs(factor) })),
    program.costs.constant,
  );
  for (let turn = 0; turn < 200 && !optimiser.isProven; turn++) {
    if (turn % 2 === 0) optimiser.improve(1e6);
    else optimiser.lift(1e6);
  }
  expect(optimiser.isProven).toBe(true);
  return optimiser.best?.cost ?? Number.POSITIVE_INFINITY;
}

const numbers = (rng: Rng, count: number, below: number): number[] =>
  Array.from({ length: count }, () => rng.below(below));

/** Values that fall, rise, or do as they like. */
function shaped(rng: Rng, count: number): number[] {
  const values = numbers(rng, count, 10);
  const shape = rng.below(4);
  if (shape === 0) return values.sort((a, b) => b - a);
  if (shape === 1) return values.sort((a, b) => a - b);
  return shape === 2 ? values : Array.from({ length: count }, (_, i) => values[0]! + 2 * i);
}

/** Points that rise ever more to both sides of the least, or any. */
function prices(rng: Rng, count: number): number[] {
  if (rng.below(3) === 0) return numbers(rng, count, 9);
  const [at, slope, least] = [rng.below(count), 1 + rng.below(3), rng.below(3)];
  return Array.from({ length: count }, (_, i) => least + slope * Math.abs(i - at) + Math.max(0, i - at - 1));
}

describe('one of several ways', () => {
  it('gives the sum its value, and costs its points', () => {
    const impossible: number[] = [];
    for (let seed = 1; seed <= 600; seed++) {
      const rng = new Rng(seed);
      const program = new EngineProgram(new Engine());
      const [low, high, rate] = [rng.below(5), 5 + rng.below(10), rng.below(5) - 2];
      const sum = of(program.int(low, high)).plus(rng.below(3));
      const count = 1 + rng.below(3);
      const literals = count === 1 ? [program.yes] : Array.from({ length: count }, () => program.bool());
      program.exactlyOne(literals);
      const ways = literals.map((when) => {
        const settings = 1 + rng.below(6);
        const at = program.index(settings, when);
        return { at, when, values: shaped(rng, settings), points: prices(rng, settings) };
      });
      program.lookUp(sum, ways);
      program.payFor(
        ways.map(({ at, when, points }) => ({ at, when, values: points })),
        program.yes,
      );
      program.pay(sum, rate);
      const costs = ways.flatMap(({ values, points }) =>
        values.flatMap((value, i) => {
          const fits = value >= low + sum.constant && value <= high + sum.constant;
          return fits ? [points[i]! + rate * value] : [];
        }),
      );
      const least = Math.min(...costs);
      if (least === Number.POSITIVE_INFINITY) impossible.push(seed);
      expect(optimum(program), `seed ${seed}`).toBe(least);
    }
    expect(impossible.length).toBeGreaterThan(10);
  });

  it('costs nothing and gives nothing where it does not hold', () => {
    const program = new EngineProgram(new Engine());
    const [sum, literal] = [of(program.int(0, 9)), program.bool()];
    const at = program.index(3, literal);
    program.lookUp(sum, [{ at, when: literal, values: [7, 5, 4] }]);
    program.payFor([{ at, when: literal, values: [3, 4, 6] }], literal);
    program.pay(sum, 1);
    program.pay(new Sum().add(not(literal)), 20);
    expect(optimum(program)).toBe(9);
    const without = new EngineProgram(new Engine());
    const [other, never] = [of(without.int(0, 9)), without.bool()];
    without.lookUp(other, [{ at: without.index(3, never), when: never, values: [7, 5, 4] }]);
    without.pay(other, 1);
    expect(optimum(without)).toBe(0);
  });
});

/** What follows at the root, before anything is decided. */
describe('bounds', () => {
  it('go from the sum to the choice and its points, and back', () => {
    const program = new EngineProgram(new Engine());
    const sum = program.int(0, 60);
    const at = program.index(5, program.yes);
    const [index] = [...at.terms.keys()];
    program.lookUp(of(sum), [{ at, when: program.yes, values: [50, 45, 41, 40, 30] }]);
    program.payFor([{ at, when: program.yes, values: [0, 1, 2, 4, 6] }], program.yes);
    const { engine } = program;
    const { store } = engine;
    const least = (): number =>
      [...program.costs.terms].reduce((total, [v, factor]) => total + factor * store.lowOf(v), program.costs.constant);
    expect(engine.toRoot()).toBe(true);
    expect([store.lowOf(sum), store.highOf(sum), least()]).toEqual([30, 50, 0]);
    engine.fix(2 * sum + 1, -43);
    expect(engine.toRoot()).toBe(true);
    expect([store.lowOf(index!), store.highOf(sum), least()]).toEqual([2, 41, 2]);
    engine.fix(2 * sum, 35);
    expect(engine.toRoot()).toBe(true);
    expect([store.lowOf(index!), store.highOf(index!), store.lowOf(sum)]).toEqual([2, 3, 40]);
  });

  it('say that what can be in no span is not there', () => {
    const program = new EngineProgram(new Engine());
    const times = [0, 4, 4, 8].map((t) => program.int(t, t));
    const spans = [0, 2].map((t): Span => ({ start: of(times[t]!), end: of(times[t + 1]!) }));
    const [there, ...literals] = [program.bool(), program.bool(), program.bool()];
    const start = program.int(0, 8);
    program.inOneOf(spans, of(start), of(start).plus(2), literals, there!);
    const { engine } = program;
    expect(engine.toRoot()).toBe(true);
    expect(engine.store.cannotHold(2 * there!, 1)).toBe(false);
    for (const literal of literals) engine.fix(2 * literal + 1, 0);
    expect(engine.toRoot()).toBe(true);
    expect(engine.store.cannotHold(2 * there!, 1)).toBe(true);
  });
});

/** Spans of a few minutes, one after the other, and something that lies in one of them or is not there. */
describe('one of several spans', () => {
  it('holds what is there from its start to its end', () => {
    const most = 4;
    for (let seed = 1; seed <= 200; seed++) {
      const rng = new Rng(seed);
      const program = new EngineProgram(new Engine());
      const count = 1 + rng.below(3);
      const times = Array.from({ length: 2 * count }, () => program.int(0, most));
      const rates = numbers(rng, 2 * count + 1, 5).map((rate) => rate - 2);
      const spans = Array.from(
        { length: count },
        (_, r): Span => ({ start: of(times[2 * r]!), end: of(times[2 * r + 1]!) }),
      );
      for (let t = 1; t < times.length; t++) program.atLeast(of(times[t]!).plus(of(times[t - 1]!), -1), 0);
      const minutes = 1 + rng.below(2);
      const from = program.int(0, most);
      const when: Literal = rng.below(2) === 0 ? program.yes : program.bool();
      const literals = spans.map(() => program.bool());
      const closed = rng.below(count + 2);
      program.inOneOf(spans, of(from), of(from).plus(minutes), literals, when);
      if (closed < count) program.some([not(literals[closed]!)]);
      for (const [t, time] of times.entries()) program.pay(of(time).plus(rates[t]! < 0 ? -most : 0), rates[t]!);
      program.pay(of(from), rates.at(-1)! + 2);
      const away = 3 + rng.below(6);
      program.pay(new Sum().add(not(when)), away);

      let least = Number.POSITIVE_INFINITY;
      const rising = (at: number[], cost: number): void => {
        if (at.length < times.length) {
          const rate = rates[at.length]!;
          for (let t = at.at(-1) ?? 0; t <= most; t++) rising([...at, t], cost + rate * (t - (rate < 0 ? most : 0)));
          return;
        }
        if (when !== program.yes) least = Math.min(least, cost + away);
        for (let r = 0; r < count; r++) {
          const start = at[2 * r]!;
          if (r !== closed && start + minutes <= at[2 * r + 1]!)
            least = Math.min(least, cost + (rates.at(-1)! + 2) * start);
        }
      };
      rising([], 0);
      expect(optimum(program), `seed ${seed}`).toBe(least);
    }
  });
});
