/** What it costs to have a schedule otherwise, its order kept: everything is timed anew, exactly. */
import type { ReasonNetwork, RuleRow } from './reason-network.js';
import type { Side } from './tight.js';

/** Of a network that has been solved; each question leaves it as it was. */
export class Moves {
  private readonly least: number;

  constructor(private readonly network: ReasonNetwork) {
    this.least = network.points;
    network.network.keep();
  }

  /** Points that it costs at least to have a moment so much sooner or later than `at`; Infinity where this order cannot. */
  costOf(node: number, at: number, side: Side, minutes = 1): number {
    const { network } = this.network;
    return this.asked(() => {
      if (side === 'later') network.arc(0, node, at + minutes, Number.POSITIVE_INFINITY);
      else network.arc(node, 0, minutes - at, Number.POSITIVE_INFINITY);
    });
  }

  /** Points that rows with `minutes` less save. */
  worthOf(rows: readonly RuleRow[], minutes: number): number {
    const { network } = this.network;
    return -this.asked(() => {
      for (const { arc, weight } of rows) network.reweigh(arc, weight - minutes);
    });
  }

  private asked(change: () => void): number {
    change();
    const possible = this.network.again(Number.POSITIVE_INFINITY);
    const cost = possible ? this.network.points - this.least : Number.POSITIVE_INFINITY;
    this.network.network.restore();
    return cost;
  }
}
