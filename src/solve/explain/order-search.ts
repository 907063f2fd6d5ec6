/**
 * Branching on clashes of the earliest times: claims that clash must come one after the other (M. Bartusch, R. Möhring and
 * F. Radermacher, Annals of Operations Research 16, 1988, for minimal sets that may not overlap). Where no order agrees with the
 * distances of the network, there is no schedule; where nothing clashes, the earliest times are one, as far as claims tell.
 */
import type { Claim, Moment, Pool, Stay } from './claim.js';
import { ZERO } from './claim.js';
import type { Distance, Network } from './network.js';

/** Ways to undo a clash; each a set of distances, of which one must hold. */
type Choice = readonly (readonly Distance[])[];

/** Clashes weighed against each other at one node. */
const WEIGHED = 8;

export class OrderSearch {
  /** False once a branch was left without being settled. */
  complete = true;

  constructor(
    private readonly network: Network,
    private readonly pools: readonly Pool[],
    private readonly stays: readonly Stay[],
    /** Distances that may be followed. */
    private readonly effort: number,
    /** Asked about earliest times at which nothing clashes. */
    private readonly accept: () => boolean,
  ) {}

  /**
   * True where the earliest times of some branch were accepted; the network then has that branch. False where there is none, which
   * is a proof if `complete`.
   */
  find(): boolean {
    const { network } = this;
    if (network.work > this.effort) return this.leave();
    let least: Choice | null = null;
    for (const choice of this.clashes()) {
      const open = this.open(choice);
      if (open.length === 0) return false;
      if (least === null || open.length < least.length) least = open;
      if (open.length === 1) break;
    }
    if (least === null) return this.accept() || this.leave();
    for (const one of least) {
      if (network.work > this.effort) return this.leave();
      const mark = network.mark();
      if (network.add(one) && this.find()) return true;
      network.back(mark);
    }
    return false;
  }

  private leave(): false {
    this.complete = false;
    return false;
  }

  /** Those of a choice that the network agrees with, the one that delays least first. */
  private open(choice: Choice): Choice {
    const { network } = this;
    const mark = network.mark();
    const open: { distances: readonly Distance[]; sum: number }[] = [];
    for (const distances of choice) {
      if (network.add(distances)) open.push({ distances, sum: network.earliest.reduce((a, b) => a + b, 0) });
      network.back(mark);
    }
    return open.sort((a, b) => a.sum - b.sum).map((one) => one.distances);
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

  /** A set that clashes and of which no part does; null where none was found. */
  private smallest(pool: Pool, active: readonly Claim[]): readonly Claim[] | null {
    if (this.clash(pool, active)) {
      let kept = active;
      for (const claim of active) {
        const without = kept.filter((one) => one !== claim);
        if (without.length > 0 && this.clash(pool, without)) kept = without;
      }
      return kept;
    }
    if (pool.narrow === null) return null;
    const narrow = active.filter(pool.narrow);
    for (let i = 0; i < narrow.length; i++) {
      for (let j = 0; j < i; j++) {
        if (this.clash(pool, [narrow[i]!, narrow[j]!])) return [narrow[j]!, narrow[i]!];
        for (let k = 0; k < j; k++) {
          const three = [narrow[k]!, narrow[j]!, narrow[i]!];
          if (this.clash(pool, three)) return three;
        }
      }
    }
    return null;
  }

  private clash(pool: Pool, set: readonly Claim[]): boolean {
    this.network.work += set.length;
    return pool.clash(set);
  }

  private clashesIn(pool: Pool): (readonly Claim[])[] {
    const on = pool.claims.map((claim) => ({ claim, from: this.at(claim.from), to: this.until(claim) }));
    const found = new Map<string, readonly Claim[]>();
    const keep = (set: readonly Claim[]) => found.set(set.map((claim) => pool.claims.indexOf(claim)).join(), set);
    for (const { from: t } of on) {
      this.network.work += on.length;
      const active = on.filter((one) => one.from <= t && t < one.to).map((one) => one.claim);
      const set = this.smallest(pool, active);
      if (set !== null) keep(set);
    }
    if (!pool.spaced) return [...found.values()];
    for (const [i, two] of on.entries()) {
      for (const one of on.slice(0, i)) {
        const [first, second] = one.from <= two.from ? [one, two] : [two, one];
        if (second.from < first.to || !this.clash(pool, [first.claim, second.claim])) continue;
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
