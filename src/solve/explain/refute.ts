/**
 * Proof that a model has no schedule: claims that clash must come one after the other, and where no order of them agrees with
 * the gaps and hours, there is none. Branches only on clashes of the earliest times (as M. Bartusch, R. Möhring and F. Radermacher,
 * Annals of Operations Research 16, 1988, for minimal sets that may not overlap).
 */
import type { Model } from '../../kernel/model.js';
import type { Problem } from '../../problem/problem.js';
import { earliestStarts } from '../paths.js';
import { type Claim, endOf, landingOf, type Moment, momentsOf, type Pool, type Stay, startOf, ZERO } from './claim.js';
import { claimsOf } from './claims.js';
import { type Distance, Network } from './network.js';

/** Ways to undo a clash; each a set of distances, of which one must hold. */
type Choice = readonly (readonly Distance[])[];

/** Clashes weighed against each other at one node. */
const WEIGHED = 8;

export interface Refutation {
  /** True: there is no schedule. False: none of this was found to be so. */
  readonly proven: boolean;
  /** Distances followed. */
  readonly work: number;
}

export function refute(problem: Problem, model: Model, effort: number): Refutation {
  const network = new Network(momentsOf(model));
  const ready = earliestStarts(model);
  if (ready === null || !network.add(distancesOf(model, ready))) return { proven: true, work: network.work };
  const { pools, stays } = claimsOf(problem, model);
  const search = new Refuter(network, pools, stays, effort);
  const proven = search.dead();
  return { proven, work: network.work };
}

function distancesOf(model: Model, ready: Int32Array): Distance[] {
  const out: Distance[] = [];
  for (const activity of model.activities) {
    const [start, end] = [startOf(activity.id), endOf(activity.id)];
    out.push({ from: ZERO, to: start, least: ready[activity.id]! });
    out.push({ from: start, to: end, least: activity.shortest });
    out.push({ from: end, to: start, least: -activity.longest });
    out.push({ from: end, to: ZERO, least: -model.horizon });
    const { group } = model.jobs[activity.job]!;
    if (activity.sink && group >= 0) out.push({ from: end, to: landingOf(model, group), least: 0 });
  }
  for (const lag of model.lags) {
    out.push({ from: endOf(lag.from), to: startOf(lag.to), least: lag.low });
    if (lag.high < Number.POSITIVE_INFINITY) out.push({ from: startOf(lag.to), to: endOf(lag.from), least: -lag.high });
  }
  model.groups.forEach((group, g) => {
    out.push({ from: ZERO, to: landingOf(model, g), least: group.due });
  });
  return out;
}

class Refuter {
  constructor(
    private readonly network: Network,
    private readonly pools: readonly Pool[],
    private readonly stays: readonly Stay[],
    private readonly effort: number,
  ) {}

  /** True where no schedule agrees with the distances so far. */
  dead(): boolean {
    const { network } = this;
    let least: Choice | null = null;
    for (const choice of this.clashes()) {
      if (network.work > this.effort) return false;
      const open = choice.filter((one) => this.agrees(one));
      if (open.length === 0) return true;
      if (least === null || open.length < least.length) least = open;
      if (open.length === 1) break;
    }
    if (least === null) return false;
    for (const one of least) {
      const mark = network.mark();
      const dead = !network.add(one) || this.dead();
      network.back(mark);
      if (!dead) return false;
    }
    return true;
  }

  private agrees(distances: readonly Distance[]): boolean {
    const mark = this.network.mark();
    const agrees = this.network.add(distances);
    this.network.back(mark);
    return agrees;
  }

  private at({ node, offset }: Moment): number {
    return this.network.earliest[node]! + offset;
  }

  private until(claim: Claim): number {
    return Math.max(...claim.to.map((moment) => this.at(moment)));
  }

  /** What clashes when everything is as early as it can be. */
  private clashes(): Choice[] {
    const out: Choice[] = [];
    for (const { claim, windows } of this.stays) {
      const [from, to] = [this.at(claim.from), this.until(claim)];
      if (windows.some((window) => window.from <= from && to <= window.to)) continue;
      out.push(windows.map((window) => within(claim, window)));
      if (out.length >= WEIGHED) return out;
    }
    for (const pool of this.pools) {
      for (const set of this.clashesIn(pool)) {
        out.push(orders(pool, set));
        if (out.length >= WEIGHED) return out;
      }
    }
    return out;
  }

  private clashesIn(pool: Pool): (readonly Claim[])[] {
    const on = pool.claims.map((claim) => ({ claim, from: this.at(claim.from), to: this.until(claim) }));
    const found = new Map<string, readonly Claim[]>();
    const keep = (set: readonly Claim[]) => found.set(set.map((claim) => pool.claims.indexOf(claim)).join(), set);
    for (const { from: t } of on) {
      const active = on.filter((one) => one.from <= t && t < one.to).map((one) => one.claim);
      const set = smallest(pool, active);
      if (set !== null) keep(set);
    }
    if (!pool.spaced) return [...found.values()];
    for (const [i, two] of on.entries()) {
      for (const one of on.slice(0, i)) {
        const [first, second] = one.from <= two.from ? [one, two] : [two, one];
        if (second.from < first.to || !pool.clash([first.claim, second.claim])) continue;
        if (first.to + pool.apart(first.claim, second.claim) > second.from) keep([first.claim, second.claim]);
      }
    }
    return [...found.values()];
  }
}

/** A claim inside a window. */
function within(claim: Claim, window: { from: number; to: number }): Distance[] {
  return [
    { from: ZERO, to: claim.from.node, least: window.from - claim.from.offset },
    ...claim.to.map(({ node, offset }) => ({ from: node, to: ZERO, least: offset - window.to })),
  ];
}

/** Some claim of the set ends before another begins; nothing helps where one alone is too much. */
function orders(pool: Pool, set: readonly Claim[]): Choice {
  return set.flatMap((before) =>
    set
      .filter((after) => after !== before)
      .map((after) => {
        const apart = pool.apart(before, after);
        return before.to.map((moment) => ({
          from: moment.node,
          to: after.from.node,
          least: moment.offset + apart - after.from.offset,
        }));
      }),
  );
}

/** A set that clashes and of which no part does; null where none was found. */
function smallest(pool: Pool, active: readonly Claim[]): readonly Claim[] | null {
  if (pool.clash(active)) {
    let kept = active;
    for (const claim of active) {
      const without = kept.filter((one) => one !== claim);
      if (without.length > 0 && pool.clash(without)) kept = without;
    }
    return kept;
  }
  if (pool.monotone) return null;
  for (let i = 0; i < active.length; i++) {
    for (let j = 0; j < i; j++) {
      if (pool.clash([active[i]!, active[j]!])) return [active[j]!, active[i]!];
      for (let k = 0; k < j; k++) {
        const three = [active[k]!, active[j]!, active[i]!];
        if (pool.clash(three)) return three;
      }
    }
  }
  return null;
}
