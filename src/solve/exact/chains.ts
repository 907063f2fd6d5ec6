/**
 * Points for time that passes: gaps between activities, free times beyond their best, the wait for the landing. Where such times follow one another none
 * of them need pass, but what passes in all of them together often must. So what their rates have in common is paid for their sum, which one row says
 * from the first moment to the last, and only what remains of a rate is paid for the time itself.
 */
import { of, Sum } from '../../constraint/program.js';
import type { Lag } from '../../kernel/model.js';
import type { Doing, Times } from './times.js';

/** One after the other in time. */
interface Link {
  readonly from: Sum;
  readonly to: Sum;
  /** Points for each minute of what is paid for. */
  readonly rate: number;
  /** The minutes that are paid for, at most so many, and those that pass beside them. */
  readonly paid: Sum;
  readonly most: number;
  readonly beside: Sum;
}

/** Where more minutes than this may pass without points, the sum of the times about them says nothing. */
const MOST_FREE = 30;

const EPSILON = 1e-9;

export function addChains(times: Times, storages: readonly (Doing | null)[]): void {
  for (const chain of chainsOf(times, storages)) {
    if (times.limits.sums) payTogether(times, chain, 0);
    else for (const { rate, paid } of chain) times.program.pay(paid, rate);
  }
}

/** Every time that costs something is in one chain; those of the landings go back to the beginning of a dish or of what it is made of. */
function chainsOf({ model, doing, landing }: Times, storages: readonly (Doing | null)[]): Link[][] {
  const seen = new Set<Lag | Doing>();
  const gap = (lag: Lag): Link => {
    seen.add(lag);
    const [from, to] = [doing[lag.from]!.end, doing[lag.to]!.start];
    const paid = to.copy().plus(from, -1).plus(-lag.low);
    return { from, to, rate: lag.rate, paid, most: lag.high - lag.low, beside: new Sum(lag.low) };
  };
  const block = (one: Doing): Link => {
    const { start: from, end: to, minutes, over } = one;
    if (over === null) return { from, to, rate: 0, paid: new Sum(), most: 0, beside: minutes };
    const { rate, most } = seen.has(one) ? { rate: 0, most: Number.POSITIVE_INFINITY } : over;
    seen.add(one);
    return { from, to, rate, paid: over.minutes, most, beside: new Sum(over.after) };
  };
  const backFrom = (last: number, chain: Link[]): Link[] => {
    for (let a = last; ; ) {
      chain.push(block(doing[a]!));
      const { job, ins } = model.activities[a]!;
      const before = ins.filter((lag) => !seen.has(lag));
      const lag = before.find(({ from }) => model.activities[from]!.job === job) ?? before[0];
      if (lag === undefined) return chain.reverse();
      chain.push(gap(lag));
      a = lag.from;
    }
  };
  const chains = model.jobs.flatMap(({ id, group, rate, activities }) => {
    const sinks = group < 0 ? [] : activities.filter((a) => model.activities[a]!.sink);
    return sinks.map((sink) => {
      const [from, to] = [doing[sink]!.end, of(landing[group]!)];
      const beside = storages[id]?.minutes ?? new Sum();
      const paid = to.copy().plus(from, -1).plus(beside, -1);
      return backFrom(sink, [{ from, to, rate, paid, most: Number.POSITIVE_INFINITY, beside }]);
    });
  });
  for (const lag of model.lags) if (!seen.has(lag)) chains.push(backFrom(lag.from, [gap(lag)]));
  for (const one of doing) if (!seen.has(one)) chains.push([block(one)]);
  return chains;
}

/** Pays what remains of the rates beyond `rate`. */
function payTogether(times: Times, chain: readonly Link[], rate: number): void {
  const { program, latest } = times;
  const costs = (link: Link): boolean => link.rate > rate + EPSILON;
  for (const part of partsOf(chain, costs)) {
    const paid = part.filter(costs);
    const least = Math.min(...paid.map((link) => link.rate));
    if (paid.length === 1) {
      program.pay(paid[0]!.paid, least - rate);
      continue;
    }
    const all = of(program.int(0, latest));
    const sum = all.copy();
    for (const link of paid) sum.plus(link.paid, -1);
    program.atLeast(sum, 0);
    const whole = all.copy().plus(part.at(-1)!.to, -1).plus(part[0]!.from);
    for (const link of part) whole.plus(link.beside).plus(costs(link) ? 0 : link.most);
    program.atLeast(whole, 0);
    program.pay(all, least - rate);
    payTogether(times, part, least);
  }
}

/** Parts that begin and end with what costs something, and in which little time is free. */
function partsOf(chain: readonly Link[], costs: (link: Link) => boolean): Link[][] {
  const parts: Link[][] = [];
  let part: Link[] = [];
  /** What is free after the last that costs something. */
  let free: Link[] = [];
  for (const link of chain) {
    if (costs(link)) {
      if (part.length === 0) parts.push(part);
      part.push(...free, link);
      free = [];
    } else if (link.most > MOST_FREE) [part, free] = [[], []];
    else if (part.length > 0) free.push(link);
  }
  return parts;
}
