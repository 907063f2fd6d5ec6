/** Small random programs, written into the engine and kept as something that can be checked value by value. */
import { Engine } from '../../src/constraint/engine.js';
import { EngineProgram } from '../../src/constraint/engine-program.js';
import { Optimiser } from '../../src/constraint/optimiser.js';
import { type Literal, not, of, Sum } from '../../src/constraint/program.js';
import type { Rng } from '../../src/kernel/rng.js';

export interface Small {
  readonly domains: readonly (readonly [number, number])[];
  readonly costs: readonly number[];
  readonly allows: readonly ((values: readonly number[]) => boolean)[];
  readonly optimiser: Optimiser;
}

const holds = (values: readonly number[], literal: Literal): boolean =>
  literal >= 0 ? values[literal] === 1 : values[not(literal)] === 0;

class Writer {
  readonly engine = new Engine();
  readonly program = new EngineProgram(this.engine);
  readonly domains: [number, number][] = [];
  readonly costs: number[] = [];
  readonly allows: ((values: readonly number[]) => boolean)[] = [];

  variable(low: number, high: number): number {
    this.domains.push([low, high]);
    return this.program.int(low, high);
  }

  pay(variable: number, points: number): void {
    this.costs[variable] = points;
    if (points !== 0) this.program.pay(of(variable), points);
  }

  finish(): Small {
    const terms = [...this.program.costs.terms].map(([v, factor]) => ({
      half: factor > 0 ? 2 * v : 2 * v + 1,
      weight: Math.abs(factor),
    }));
    const { domains, costs, allows } = this;
    return { domains, costs, allows, optimiser: new Optimiser(this.engine, terms, this.program.costs.constant) };
  }
}

/** Rows, clauses and rows that depend on literals, over 2 to 5 variables. */
export function randomRows(rng: Rng): Small {
  const writer = new Writer();
  const { program } = writer;
  const count = 2 + rng.below(4);
  const literals: number[] = [];
  for (let v = 0; v < count; v++) {
    const low = rng.below(5) - 2;
    if (rng.below(2) === 0) literals.push(writer.variable(0, 1));
    else writer.variable(low, low + rng.below(5));
  }
  const literal = (): Literal => {
    const one = literals[rng.below(literals.length)]!;
    return rng.below(2) === 0 ? one : not(one);
  };
  for (let c = 1 + rng.below(6); c > 0; c--) {
    if (literals.length > 1 && rng.below(3) === 0) {
      const some = Array.from({ length: 2 + rng.below(2) }, literal);
      program.some(some);
      writer.allows.push((values) => some.some((one) => holds(values, one)));
      continue;
    }
    const sum = new Sum(rng.below(5) - 2);
    for (let t = 1 + rng.below(3); t > 0; t--) sum.add(rng.below(count), rng.below(7) - 3);
    const low = rng.below(8) - 6;
    const gap = rng.below(3) === 0;
    const domain = gap ? [low, low + 1, low + 3, low + 5] : [low, low + rng.below(6)];
    const when = literals.length > 0 && rng.below(2) === 0 ? [literal()] : [];
    program.within(sum, domain, when);
    const terms = [...sum.terms];
    writer.allows.push((values) => {
      if (!when.every((one) => holds(values, one))) return true;
      const value = terms.reduce((total, [v, factor]) => total + factor * values[v]!, sum.constant);
      return domain.some((from, i) => i % 2 === 0 && value >= from && value <= domain[i + 1]!);
    });
  }
  for (let v = 0; v < count; v++) writer.pay(v, rng.below(7) - 3);
  return writer.finish();
}

/** Tasks of 1 to 3 minutes, some of which may be left out at a price, on one thing that takes one or several at once. */
export function randomTasks(rng: Rng): Small {
  const writer = new Writer();
  const { program } = writer;
  const count = 2 + rng.below(3);
  const tasks = Array.from({ length: count }, () => {
    const from = rng.below(3);
    const start = writer.variable(from, from + 1 + rng.below(3));
    const minutes = writer.variable(1, 1 + rng.below(3));
    const there = rng.below(2) === 0 ? writer.variable(0, 1) : null;
    writer.pay(start, rng.below(5) - 2);
    writer.pay(minutes, -rng.below(3));
    if (there !== null) writer.pay(there, -rng.below(8));
    return { start, minutes, there, demand: 1 + rng.below(3) };
  });
  const intervals = tasks.map(({ start, minutes, there }) => {
    const end = program.int(0, 20);
    program.row(0, of(start).plus(of(minutes)).plus(of(end), -1), 0);
    return program.interval(of(start), of(minutes), of(end), there === null ? [] : [there]);
  });
  const capacity = rng.below(2) === 0 ? 1 : 2 + rng.below(2);
  if (capacity === 1) program.noOverlap(intervals);
  else
    program.cumulative(
      intervals,
      tasks.map((task) => task.demand),
      capacity,
    );
  writer.allows.push((values) => {
    for (let at = 0; at < 12; at++) {
      let demand = 0;
      for (const task of tasks) {
        const begins = values[task.start]!;
        const isOn = at >= begins && at < begins + values[task.minutes]!;
        if (isOn && (task.there === null || values[task.there] === 1)) demand += capacity === 1 ? 1 : task.demand;
      }
      if (demand > capacity) return false;
    }
    return true;
  });
  return writer.finish();
}

/** The least cost by trying all values; Infinity where nothing is allowed. */
export function leastCost({ domains, costs, allows }: Small): number {
  let least = Number.POSITIVE_INFINITY;
  const values: number[] = [];
  const fill = (v: number, cost: number): void => {
    if (v === domains.length) {
      if (cost < least && allows.every((allow) => allow(values))) least = cost;
      return;
    }
    const [low, high] = domains[v]!;
    for (let value = low; value <= high; value++) {
      values[v] = value;
      fill(v + 1, cost + (costs[v] ?? 0) * value);
    }
  };
  fill(0, 0);
  return least;
}
